"""Bolts and screws of legs, screws of cleats, ties between rail and runner, and the runner by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from tutorial_lib.design.model import Joint, JointKind, Leg, SupportLine
from tutorial_lib.strength.bed import Member
from tutorial_lib.strength.diagram import walk
from tutorial_lib.strength.joints import Capacity, capacity, lateral_limit, pull_limit, slanted_limit
from tutorial_lib.strength.line_checks import LegLoad, LineChecks
from tutorial_lib.strength.lines import Line
from tutorial_lib.strength.loads import Case
from tutorial_lib.strength.members import moment_limit
from tutorial_lib.strength.names import piece_name
from tutorial_lib.strength.posts import arm, leaning, post_limit
from tutorial_lib.strength.response import Responder, Response
from tutorial_lib.strength.sections import Size
from tutorial_lib.strength.use import Effect, Limit, Use, largest
from tutorial_lib.strength.working import OURS, Term, step

ACROSS_GRAIN = 180.0  # [psi] mean tension across the grain of balsam fir; Wood Handbook Table 5-3b, from memory


class JointChecks:
    """All checks of the joints of one bed."""

    def __init__(self, lines: LineChecks) -> None:
        self.lines, self.bed = lines, lines.bed
        self.person = lines.person
        self._known: dict[Joint, tuple[Capacity, int] | None] = {}

    def uses(self, responses: Sequence[Response]) -> Iterator[Use]:
        """Every joint that carries people, in each case."""
        for response in responses:
            for load in self.lines.leg_loads(response):
                for case in response.cases:
                    yield from self._beside(load, case)
            for number, line in enumerate(self.lines.lines):
                yield from self._screws(response, number, line)
                yield from self._ties(response, number, line)

    def _beside(self, load: LegLoad, case: Case) -> Iterator[Use]:
        """Bolts or screws in a leg's side are judged for all that the leg carries; its top isn't counted."""
        joint = self.bed.rail_joint(load.leg)
        known = None if joint is None else self.known(joint)
        if joint is None or known is None:
            return
        limit = lateral_limit(known[0], known[1], case.duration)
        what = "bolts" if joint.fastener == "bolt" else "screws"
        part = "corner_block" if load.leg.post else "leg"
        yield self._use(f"leg {load.leg.label}", part, self.bed.name_of(joint), what, "bolts", case, limit,
                        (load.whole.times(case.times),))  # fmt: skip
        if load.leg.post:
            yield from self._into_post(load, joint, case)

    def _into_post(self, load: LegLoad, to_rail: Joint, case: Case) -> Iterator[Use]:
        """A corner block's screws in its post, pulled as well."""
        corner = self.bed.corners[load.leg.label, "along"]
        joint, rail = corner.to_post, self.bed.fixings.of(to_rail)
        known = None if joint is None else self.known(joint)
        fastening = None if joint is None else self.bed.fixings.of(joint)
        if joint is None or known is None or fastening is None or rail is None:
            return
        low = float(self.bed.build.pieces[joint.near].box.lo[2])
        slope = leaning(fastening, arm(self.bed.build, corner, rail), low)
        yield self._use(f"leg {load.leg.label}", "corner_block", self.bed.name_of(joint), "screws", "bolts",
                        case, post_limit(known[0], known[1], slope, case.duration),
                        (load.whole.times(case.times),))  # fmt: skip

    def known(self, joint: Joint) -> tuple[Capacity, int] | None:
        """What one fastener of a joint is allowed, and how many there are; None where none is placed."""
        if joint not in self._known:
            fastening = self.bed.fixings.of(joint)
            self._known[joint] = None if fastening is None else (capacity(self.bed.build, fastening), fastening.count)
        return self._known[joint]

    def _use(self, piece: str, part: str, label: str, what: str, key: str, case: Case, limit: Limit,
             effects: tuple[Effect, ...]) -> Use:  # fmt: skip
        return Use(part=part, piece=piece, label=label, what=what, case=case, person=self.person, limit=limit,
                   unit="force", effects=effects, key=key)  # fmt: skip

    def _screws(self, response: Response, number: int, line: Line) -> Iterator[Use]:
        """The worst screw of each cleat, pushed across and pulled as the cleat leans out."""
        for joint, links in self._linked("cleat", "screw", line):
            known = self.known(joint)
            if known is None:
                continue
            slope = self.slope(joint)
            dead = [response.dead.carried[number][i] for i in links]
            live = [response.live.carried[number][i] for i in links]
            for case in response.cases:
                effects = largest(dead, [case.times * e for e in live], self.person)
                yield self._use(joint.near, "cleat", self.bed.name_of(joint), "screws", "cleat-screws", case,
                                slanted_limit(known[0], slope, case.duration), effects)  # fmt: skip

    def _linked(self, joints: JointKind, links: str, line: Line) -> Iterator[tuple[Joint, list[int]]]:
        """Joints of one kind on a line with the numbers of their links."""
        for joint in self.bed.build.joints_of(joints):
            name = joint.label
            found = [i for i, link in enumerate(line.links) if link.kind == links and link.name == name]
            if found:
                yield joint, found

    def slope(self, joint: Joint) -> float:
        """Pull of a cleat's screw for each pound across: the slat's arm over that from the screw to the lower edge."""
        build = self.bed.build
        cleat, fastening = build.pieces[joint.near].box, self.bed.fixings.of(joint)
        screw = float(cleat.centre[2]) if fastening is None else float(fastening.driven[0].head[2])
        play = float(build.options.slats.play)
        bearing = float(cleat.size[1]) - play
        return (play + bearing / 3) / max(0.05, screw - float(cleat.lo[2]))

    def _ties(self, response: Response, number: int, line: Line) -> Iterator[Use]:
        """The worst screw between rail and runner, pulled along its axis."""
        for joint, _ in self._linked("runner", "tie", line):
            known = self.known(joint)
            for effects, case in self.tie_effects(joint, response, number, line) if known else ():
                yield self._use(joint.near, "runner", self.bed.name_of(joint), "screws pulled", "tie-screws",
                                case, pull_limit(known[0], case.duration), effects)  # type: ignore[index]  # fmt: skip

    def tie_effects(
        self, joint: Joint, response: Response, number: int, line: Line
    ) -> Iterator[tuple[tuple[Effect, ...], Case]]:
        """Pulls on the ties of one joint in one response; none where all are pushed."""
        name = joint.label
        links = [i for i, link in enumerate(line.links) if link.kind == "tie" and link.name == name]
        pulls = [(-response.dead.carried[number][i], -response.live.carried[number][i]) for i in links]
        for case in response.cases:
            effects = pulled([(d, case.times * e) for d, e in pulls], self.person)
            if effects:
                yield effects, case


def pulled(pulls: Sequence[tuple[float, float]], person: float) -> tuple[Effect, ...]:
    """Those that pull; a push between two faces is carried by the wood."""
    found = [(max(0.0, dead), max(live, -max(0.0, dead) / 1e3)) for dead, live in pulls]
    kept = [(dead, live) for dead, live in found if dead + 300 * live > 0]
    return largest([dead for dead, _ in kept], [live for _, live in kept], person) if kept else ()


class RunnerAlone:
    """Runners without their rails: along the grain by their width over the legs, and across it between rail and leg."""

    def __init__(self, responder: Responder, together: LineChecks) -> None:
        self.responder, self.bed, self.together = responder, responder.bed, together
        self.person = together.person

    def uses(self, responses: Sequence[Response], joined: Sequence[Response]) -> Iterator[Use]:
        """The runner alone in each case; where the rail's line isn't over the legs it rates the bed."""
        for found, lines, check in (
            (responses, self.responder.grillage.lines, self._along),
            (joined, self.together.lines, self._across),
        ):
            for response in found:
                for number, line in enumerate(lines):
                    if self.bed.lines[number].kind == "runner":
                        yield from check(response, number, line, self.bed.lines[number])

    def _along(self, response: Response, number: int, line: Line, support: SupportLine) -> Iterator[Use]:
        known = self.bed.members[line.bars[0].label]
        wide = min(self.bed.width_over_legs(support), known.size.breadth)
        dead = walk(line, number, 0, self.responder.dead, own=True)
        live = walk(line, number, 0, response.live, own=False)
        for case in response.cases:
            effects = largest([s.moment for s in dead], [case.times * s.moment for s in live],
                              self.person)  # fmt: skip
            label = f"{piece_name(self.bed.build, known.label)} by itself"
            yield Use(part="runner", piece=known.label, label=label, what="bending", case=case,
                      person=self.person, limit=narrowed(known, wide, case.duration), unit="moment",
                      effects=effects, key="runner-alone", rates=self.bed.set_in(support))  # fmt: skip

    def _across(self, response: Response, number: int, line: Line, support: SupportLine) -> Iterator[Use]:
        """The runner bent across its grain, by the rail beyond the leg's outer edge or a slat beyond its inner one."""
        for label in support.legs:
            leg = self.bed.legs[label]
            reach, beyond = self.bed.reach(leg), self.beyond(leg)
            if reach > 0:
                dead, live = (self._through_rail(line, leg, m.carried[number]) for m in (response.dead, response.live))
                yield from self._across_uses(response, line, leg, reach, (dead, live), "cross-grain", "rail")
            if beyond > 0:
                dead, live = (self._on_leg(line, leg, m.pushes[number]) for m in (response.dead, response.live))
                yield from self._across_uses(response, line, leg, beyond, (dead, live), "cross-grain-slat", "slat")

    def _through_rail(self, line: Line, leg: Leg, carried: Sequence[float]) -> float:
        """What the rail hands to the runner over one leg [lb]."""
        return sum(
            force
            for link, force in zip(line.links, carried, strict=True)
            if link.kind == "touch" and link.name == leg.label
        )

    def _on_leg(self, line: Line, leg: Leg, pushes: Sequence[float]) -> float:
        """What the slats nearest a leg press on it [lb]: those within its length and half a slat beside it."""
        half = float(leg.size[0]) / 2 + self.bed.slat.size.breadth / 2
        near = [s for s in line.seats if abs(s.x - float(leg.x)) <= half]
        return sum(seat.share * pushes[seat.slat] for seat in near)

    def beyond(self, leg: Leg) -> float:
        """From a leg's inner edge to where slats press, a third of their bearing from the rail [in]."""
        build = self.bed.build
        line = next(line for line in self.bed.lines if line.name == leg.line)
        play = float(build.options.slats.play)
        outer, inner = (float(v) for v in line.seat) if leg.line == "left" else (-float(v) for v in reversed(line.seat))
        middle = float(leg.y) if leg.line == "left" else -float(leg.y)
        press = outer + play + (inner - outer - play) / 3
        return press - (middle + float(leg.size[1]) / 2)

    def _across_uses(self, response: Response, line: Line, leg: Leg, arm: float, force: tuple[float, float], key: str,
                     who: str) -> Iterator[Use]:  # fmt: skip
        known = next(self.bed.members[bar.label] for bar in line.bars if self.bed.members[bar.label].part == "runner")
        limit = across_grain(known.wood.Fv, float(leg.size[0]) + 2 * arm, known.size.depth)
        effect = Effect(force[0] * arm, force[1] * arm)
        label = f"{piece_name(self.bed.build, known.label)} between {who} and {self.bed.name_of(leg)}"
        for case in response.cases:
            yield Use(part="runner", piece=known.label, label=label, what="bending across the grain",
                      case=replace(case, duration=1.0), person=self.person, limit=limit, unit="moment",
                      effects=(effect.times(case.times),), key=key, rates=False)  # fmt: skip


@lru_cache(maxsize=512)
def narrowed(known: Member, wide: float, duration: float) -> Limit:
    """Moment that part of a runner's width may take [lb in]; that only the width over the legs counts is our choice."""
    size = Size(known.size.thickness, wide, True)
    full = moment_limit(known.wood, known.size, duration)
    value = full.value * wide / known.size.breadth
    terms = (Term("width over the legs", wide, "calculated"), Term("S", size.modulus, "section modulus"))
    last = step("allowed moment of that width", "F'b S", terms, Term("", value, "moment"), f"NDS 2018 3.3; {OURS}")
    return Limit(value, lambda: (*full.how(), last))


def across_grain(shear: float, length: float, depth: float) -> Limit:
    """Moment that a board may take across its grain [lb in]; no design value exists, our choice.

    The lesser of Fv / 3 and a third of the mean tension across the grain of the weakest softwood, on a section
    ``length`` by ``depth``.

    >>> round(across_grain(135, 6.0, 1.5).value, 2)
    101.25
    """
    stress = min(shear / 3, ACROSS_GRAIN / 3)
    modulus = length * depth**2 / 6
    value = stress * modulus
    terms = (Term("stress", stress, "stress"), Term("S", modulus, "section modulus"))
    source = f"{OURS}; tension across the grain: Wood Handbook, from memory"
    formula = "least of Fv / 3 and tension / 3, x S"
    how = step("allowed moment across the grain", formula, terms, Term("", value, "moment"), source)
    return Limit(value, lambda: (how,))
