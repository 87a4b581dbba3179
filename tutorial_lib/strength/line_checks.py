"""Bending and shear of rails, cleats, runners and centre lines, and what their legs carry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from tutorial_lib.design.model import Box, Leg
from tutorial_lib.measures import Kind as Quantity
from tutorial_lib.records import dataclass
from tutorial_lib.strength.bed import Bed, Member
from tutorial_lib.strength.diagram import Station, forces, shear_at, walk
from tutorial_lib.strength.lines import Line, Seat
from tutorial_lib.strength.loads import Case
from tutorial_lib.strength.members import (
    SHORT,
    bearing_factor,
    bearing_limit,
    column_limit,
    hung_shear_limit,
    moment_limit,
    shear_limit,
)
from tutorial_lib.strength.names import piece_name
from tutorial_lib.strength.posts import top_of
from tutorial_lib.strength.response import Responder, Response
from tutorial_lib.strength.sections import Size, wood_of
from tutorial_lib.strength.use import Effect, Limit, Use, largest

BENDING = {"side_rail": "rail-bending", "cleat": "shelf-bending", "runner": "shelf-bending"}
SHEAR = {"side_rail": "rail-shear", "cleat": "shelf-shear", "runner": "shelf-shear"}
NOMINAL_THICK = {1.5: 2.0, 2.5: 3.0, 3.5: 4.0}  # [in] dressed to nominal
NARROW = 3.0  # [in] bearings at least this long get no Cb, on the safe side
BUILT_UP = 0.6  # Kf of a leg of two boards; NDS 15.3.2, from memory


@dataclass(frozen=True)
class LegLoad:
    """What one leg carries: of the bed itself, and per pound of a person."""

    leg: Leg
    cases: tuple[Case, ...]
    tops: tuple[tuple[str, Effect], ...]  # what each board above presses on its top; slats that lie on it as ""
    beside: Effect  # by the rail's bolts or screws in its side

    @property
    def whole(self) -> Effect:
        """All of it."""
        dead = self.beside.dead + sum(top.dead for _, top in self.tops)
        return Effect(dead, self.beside.live + sum(top.live for _, top in self.tops))


@dataclass(frozen=True)
class ShearPlaces:
    """Where a bar's shear is looked at, the same in every case, with what the bed itself adds there."""

    stretches: tuple[int, ...]  # stations from which to the next it counts in full
    edges: tuple[tuple[float, float], ...]  # [in] a depth off a leg's face, and the face
    dead: list[float]  # [lb] at both ends of each stretch, then at the edges


class LineChecks:
    """All checks of the lines of one bed."""

    def __init__(self, responder: Responder) -> None:
        self.responder, self.bed = responder, responder.bed
        self.lines = responder.grillage.lines
        self.person = float(self.bed.build.options.load.person)
        self._walked: dict[tuple[int, int], list[Station]] = {}
        self._looked_at: dict[tuple[int, int], ShearPlaces] = {}
        self._on_top: dict[tuple[int, str], list[Seat]] = {}
        self._carried: dict[str, tuple[Response, tuple[LegLoad, ...]]] = {}

    def uses(self, responses: Sequence[Response]) -> Iterator[Use]:
        """Every bar of every line, and every leg, in each case."""
        for response in responses:
            for number, line in enumerate(self.lines):
                for bar in range(len(line.bars)):
                    yield from self._bar(response, number, line, bar)
            for load in self.leg_loads(response):
                yield from self._leg(load)

    def _bar(self, response: Response, number: int, line: Line, bar: int) -> Iterator[Use]:
        known = self.bed.members[line.bars[bar].label]
        dead, live = self._resting(number, bar), walk(line, number, bar, response.live, own=False)
        if not dead:
            return
        rest, add = [s.moment for s in dead], [s.moment for s in live]
        unbraced = self._unbraced(number, known)
        for case in response.cases:
            effects = largest(rest, [case.times * e for e in add], self.person)
            limit = moment_limit(known.wood, known.size, case.duration, unbraced)
            yield self._use(known, "bending", BENDING.get(known.part, "line-bending"), case, limit, effects, "moment")
        if any(link.kind == "bolts" and link.bar == bar for link in line.links):
            yield from self._hung(response, line, bar, known, dead, live)
        else:
            yield from self._sheared(response, number, line, bar, known, dead, live)

    def _resting(self, number: int, bar: int) -> list[Station]:
        key = (number, bar)
        if key not in self._walked:
            self._walked[key] = walk(self.lines[number], number, bar, self.responder.dead, own=True)
        return self._walked[key]

    def _unbraced(self, number: int, known: Member) -> float:
        """Up to four times as deep as broad (nominal) it needs no more than its ends held. NDS 4.4.1.2."""
        if known.size.flat or known.size.nominal <= 4 * NOMINAL_THICK.get(known.size.thickness, known.size.thickness):
            return 0.0
        return 1.37 * self._span(number) + 3 * known.size.depth

    def _span(self, number: int) -> float:
        line = self.lines[number]
        xs = sorted(link.x for link in line.links if link.below is None)
        return max((b - a for a, b in pairwise(xs)), default=line.bars[0].end - line.bars[0].start)

    def _use(self, known: Member, what: str, key: str, case: Case, limit: Limit, effects: tuple[Effect, ...],
             unit: Quantity) -> Use:  # fmt: skip
        label = piece_name(self.bed.build, known.label)
        return Use(part=known.part, piece=known.label, label=label, what=what, case=case,
                   person=self.person, limit=limit, unit=unit, effects=effects, key=key)  # fmt: skip

    def _sheared(
        self, response: Response, number: int, line: Line, bar: int, known: Member, dead: list[Station],
        live: list[Station],
    ) -> Iterator[Use]:  # fmt: skip
        """Shear where it is greatest; with bearing below, near its supports by NDS 2018 3.4.3.1.

        Slats within a depth d of a leg count x/d, spread loads not at all; what comes within a depth of a screw that
        holds the bar up goes straight into it.
        """
        if (number, bar) not in self._looked_at:
            self._looked_at[number, bar] = self._shear_places(number, line, bar, known, dead)
        places = self._looked_at[number, bar]
        if not places.dead:
            return
        add = forces(line, number, bar, response.live, own=False) if places.edges else []
        live_v = [live[i].shear for i in places.stretches for _ in range(2)]
        live_v += [reduced(add, x, face, known.start) for x, face in places.edges]
        for case in response.cases:
            effects = largest(places.dead, [case.times * v for v in live_v], self.person)
            limit = shear_limit(known.wood, known.size, case.duration)
            yield self._use(known, "shear", SHEAR.get(known.part, "line-shear"), case, limit, effects, "force")

    def _shear_places(
        self, number: int, line: Line, bar: int, known: Member, dead: list[Station]
    ) -> ShearPlaces:  # fmt: skip
        legs, screws = _held(line, bar, self.bed)
        depth, weight = known.size.depth, line.bars[bar].weight
        near = [(low - depth, high + depth) for low, high in (*legs, *screws)] if legs else []
        spans = list(enumerate(pairwise(dead)))
        kept = [(i, a, b) for i, (a, b) in spans if not any(low < b.x and a.x < high for low, high in near)]
        edges = [(x, face) for low, high in legs for x, face in ((low - depth, low), (high + depth, high))]
        edges = [(x, face) for x, face in edges if known.start < x < known.end]
        rest = forces(line, number, bar, self.responder.dead, own=True) if edges else []
        own = [v for _, a, b in kept for v in (a.shear, a.shear - weight * (b.x - a.x))]
        own += [reduced(rest, x, face, known.start, weight) for x, face in edges]
        return ShearPlaces(tuple(i for i, _, _ in kept), tuple(edges), own)

    def _hung(
        self, response: Response, line: Line, bar: int, known: Member, dead: list[Station], live: list[Station]
    ) -> Iterator[Use]:
        """A rail on bolts or screws: shear in full on both sides of each leg, against what is left of its depth."""
        weight = line.bars[bar].weight
        places = {link.x: link.name for link in line.links if link.kind == "bolts" and link.bar == bar}
        for i, (rest, add) in enumerate(zip(dead, live, strict=True)):
            if rest.x not in places:
                continue
            before = (0.0, 0.0)
            if i:
                before = (dead[i - 1].shear - weight * (rest.x - dead[i - 1].x), live[i - 1].shear)
            from_end = min(rest.x - known.start, known.end - rest.x)
            key = "rail-shear-end" if from_end < SHORT * known.size.depth else "rail-shear-mid"
            left = self._left(places[rest.x], known)
            for case in response.cases:
                both = (
                    Effect(before[0], case.times * before[1]),
                    Effect(rest.shear, case.times * add.shear),
                )
                limit = hung_shear_limit(known.wood, known.size, case.duration, left, from_end)
                yield self._use(known, "shear", key, case, limit, both, "force")

    def _left(self, label: str, known: Member) -> float:
        """The rail's depth from its lowest fastener in a leg up [in]; while these are open, all but 1 1/2 in."""
        joint = self.bed.rail_joint(self.bed.legs[label])
        fastening = None if joint is None else self.bed.fixings.of(joint)
        if fastening is None or not fastening.driven:
            return max(known.size.depth / 2, known.size.depth - 1.5)
        top = float(self.bed.build.pieces[known.label].box.hi[2])
        return top - min(float(driven.head[2]) for driven in fastening.driven)

    def leg_loads(self, response: Response) -> Sequence[LegLoad]:
        """What each leg carries in one case."""
        if response.case.key not in self._carried:
            self._carried[response.case.key] = response, tuple(self._leg_loads(response))
        known, loads = self._carried[response.case.key]
        return loads if known is response else tuple(self._leg_loads(response))

    def _leg_loads(self, response: Response) -> Iterator[LegLoad]:
        for number, line in enumerate(self.lines):
            for label in sorted({link.name for link in line.links if link.kind in ("leg", "bolts")}):
                tops, beside = dict[str, Effect](), Effect(0.0, 0.0)
                for i, link in enumerate(line.links):
                    if link.name == label and link.kind in ("leg", "bolts"):
                        effect = Effect(response.dead.carried[number][i], response.live.carried[number][i])
                        if link.kind == "bolts":
                            beside = effect
                        else:
                            tops[line.bars[link.bar].label] = effect
                tops[""] = self._slats_on_top(response, number, line, label)
                yield LegLoad(self.bed.legs[label], response.cases, tuple(tops.items()), beside)

    def _slats_on_top(self, response: Response, number: int, line: Line, label: str) -> Effect:
        """What slats lay on the leg's top themselves."""
        if (number, label) not in self._on_top:
            self._on_top[number, label] = list(self._seats_on_top(line, self.bed.legs[label]))
        dead, live = 0.0, 0.0
        for seat in self._on_top[number, label]:
            dead += seat.share * response.dead.pushes[number][seat.slat]
            live += seat.share * response.live.pushes[number][seat.slat]
        return Effect(dead, live)

    def _seats_on_top(self, line: Line, leg: Leg) -> Iterator[Seat]:
        tops = [(leg.near_edge, leg.near_edge + leg.size[0])]
        tops += [(box.lo[0], box.hi[0]) for box in top_of(self.bed.build, leg)]
        spans = [(float(low), float(high)) for low, high in tops]
        for seat in line.seats:
            if seat.bar is None and any(low - 1e-6 <= seat.x <= high + 1e-6 for low, high in spans):
                yield seat

    def _leg(self, load: LegLoad) -> Iterator[Use]:
        build, leg = self.bed.build, load.leg
        piece = build.pieces[leg.pieces[0]]
        section = build.section_of(piece.label)
        if not section.steel:
            boards = sum(1 for p in leg.pieces if build.pieces[p].shape == "box")
            wood, size = wood_of(build, section), Size(float(section.thickness), float(section.width), False)
            # rails hold a post from their lower edges up
            free = float(build.heights.rail_bottom - piece.box.lo[2] if leg.post else piece.length)
            for case in load.cases:
                # one board is taken to carry it all where two are screwed together: the rail rests on one
                limit = column_limit(wood, size, free, case.duration, 1.0 if boards == 1 else BUILT_UP)
                effect = load.whole.times(case.times)
                yield self._leg_use(
                    load, case, piece.part, self.bed.name_of(leg), "buckling", "leg-column", limit, effect
                )
        yield from self._bears(load)

    def _leg_use(self, load: LegLoad, case: Case, part: str, label: str, what: str, key: str, limit: Limit,
                 effect: Effect) -> Use:  # fmt: skip
        return Use(part=part, piece=f"leg {load.leg.label}", label=label, what=what, case=case, person=self.person,
                   limit=limit, unit="force", effects=(effect,), key=key)  # fmt: skip

    def _bears(self, load: LegLoad) -> Iterator[Use]:
        """What stands on the leg presses into the board above; Cb counts on narrow legs only, where it is large."""
        leg = load.leg
        key = "line-leg" if leg.line not in ("left", "right") else "leg-bearing"
        for above, effect in load.tops:
            faces = [joint.contact for joint in self.bed.tops(leg) if above in (joint.near, joint.far)]
            if not faces:
                continue
            known, area = self.bed.members[above], sum(float(face.size[0] * face.size[1]) for face in faces)
            low, high = _from_to(faces)
            narrow = high - low < NARROW
            factor = bearing_factor(high - low, min(low - known.start, known.end - high)) if narrow else 1.0
            label = f"{piece_name(self.bed.build, above)} on the {self.bed.name_of(leg)}"
            limit = bearing_limit(known.wood, area, factor)
            for case in load.cases:
                yield self._leg_use(load, case, known.part, label, "bearing", key, limit, effect.times(case.times))


def _from_to(faces: Sequence[Box]) -> tuple[float, float]:
    """From where to where along the bed some faces reach [in]."""
    return float(min(face.lo[0] for face in faces)), float(max(face.hi[0] for face in faces))


def _held(line: Line, bar: int, bed: Bed) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """(from, to) of the legs below a bar, and of the screws that hold it up [in]; a rail's are no bearing."""
    legs, screws = [], []
    for link in line.links:
        if link.kind == "leg" and link.bar == bar:
            leg = bed.legs[link.name]
            legs.append((float(leg.near_edge), float(leg.near_edge + leg.size[0])))
        elif (link.kind == "screw" and link.bar == bar) or (link.kind in ("tie", "touch") and link.below == bar):
            screws.append((link.x, link.x))
    return legs, screws


def reduced(pressing: Sequence[tuple[float, float]], x: float, face: float, start: float, weight: float = 0.0) -> float:
    """Shear at x, a depth off a support's face, with what lies between counted by its part of that depth [lb].

    >>> round(reduced([(0, -10), (4, 6)], 5.0, 3.0, 0.0), 6), round(reduced([(0, -10), (2.9, 6)], 5.0, 3.0, 0.0), 6)
    (7.0, 4.0)
    """
    value = shear_at(pressing, x, start, weight)
    for at, load in pressing:
        if min(x, face) < at <= max(x, face):
            counted = load * abs(at - face) / abs(x - face)
            value += counted if x > face else -counted
    return value
