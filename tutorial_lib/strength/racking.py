"""Sideways pushes: what the legs' joints hold against racking, in both directions; and tipping."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from math import hypot
from typing import Literal

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build, Joint, Leg
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass
from tutorial_lib.strength.bed import Bed
from tutorial_lib.strength.joints import capacity, head_area
from tutorial_lib.strength.loads import (
    DURATION,
    MOVING_LEAST,
    MOVING_SHARE,
    PUSH,
    SAFETY,
    Case,
    Kind,
    Patch,
    cases,
    foot_seats,
)
from tutorial_lib.strength.rating import HIGHEST
from tutorial_lib.strength.sections import wood_of
from tutorial_lib.strength.use import Effect, Limit, Use
from tutorial_lib.strength.working import OURS, Term, Working, step

SOURCES: dict[Kind, str] = {
    "lying": "5 % of the people, held 1.5 times: our choice",
    "sitting": "10 % of the people, held 1.5 times: our choice",
    "moving": "0.4 of bed and mattress, at least {least}, held 1.5 times: our choice",
}
Way = Literal["along", "across"]
WAYS: tuple[Way, ...] = ("along", "across")


@dataclass(frozen=True)
class Couple:
    """What one leg's joint holds against turning [lb in]."""

    leg: str
    value: float
    how: Callable[[], Working]


class Racking:
    """The whole bed pushed sideways."""

    def __init__(self, bed: Bed, weight: float, empty: Mapping[str, float], sleepers: Mapping[str, float]) -> None:
        """The bed, what it weighs with its mattress, its legs left out [lb], and what each leg carries [lb].

        Args:
            bed: the bed.
            weight: of bed, mattress and bedding [lb].
            empty: of that, on each leg [lb].
            sleepers: on each leg for each pound of a person, everyone asleep in their half of the bed.
        """
        self.bed, self.build, self.weight = bed, bed.build, weight
        self.empty, self.sleepers = empty, sleepers
        self._known: dict[Way, tuple[Couple, ...]] = {}
        self.height = float(bed.build.heights.slat_top)
        self.person, self.people = float(bed.build.options.load.person), float(bed.build.options.load.people)

    def uses(self) -> Iterator[Use]:
        """People lying and sitting, and the empty bed moved, along and across."""
        for way in () if self.bed.fitted else WAYS:  # nobody publishes what fittings hold against turning
            for kind in ("lying", "sitting"):
                yield self._people(kind, way)
            yield self._moving(way)

    def _people(self, kind: Kind, way: Way) -> Use:
        push = PUSH[kind] * self.people
        effect = Effect(0.0, SAFETY * self.height * push)
        found = self._better(kind, way, f"{kind}, the bed rocking {way}", effect)
        return replace(found, pushed=self._turning(push * self.person, SOURCES[kind]))

    def _moving(self, way: Way) -> Use:
        push = max(MOVING_LEAST, MOVING_SHARE * self.weight)
        effect = Effect(SAFETY * self.height * push, 0.0)
        found = self._better("moving", way, f"the empty bed pushed {way}", effect)
        return replace(found, pushed=self._turning(push, found.case.source))

    def _turning(self, push: float, source: str) -> Working:
        terms = (Term("push", push, "force"), Term("height", self.height, "calculated"))
        moment = Term("", SAFETY * push * self.height, "moment")
        return step("a sideways push at the height of the slats", f"{SAFETY} x push x height", terms, moment, source)

    def _better(self, kind: Kind, way: Way, name: str, effect: Effect) -> Use:
        """By the legs' couples or by what stands on their tops, whichever holds more; the two aren't added."""
        relief = self.people * self.half_width(way, self.sleepers) if effect.live else 0.0
        leaning = replace(self._use(kind, way, name, self._weight_limit(way), effect), relief=relief)
        couples = self.couples(way)
        if not couples:
            return leaning
        joined = self._use(kind, way, name, self._limit(couples), effect)
        return min((joined, leaning), key=lambda use: (-min(round(use.holds, 6), float(HIGHEST)), use.ratio))

    def _limit(self, couples: Sequence[Couple]) -> Limit:
        total = sum(couple.value for couple in couples)

        def last() -> Working:
            terms = (Term("legs", float(len(couples))),)
            return step("all legs together", "sum of their couples", terms, Term("", total, "moment"), OURS)

        return Limit(total, lambda: (couples[0].how(), last()))

    def _weight_limit(self, way: Way) -> Limit:
        half = self.half_width(way, self.empty)
        value = self.weight * half

        def how() -> Working:
            terms = (Term("N of the bed", self.weight, "weight"), Term("half the top's width", half, "calculated"))
            words = "screws in end grain hold no couple"
            return step("the bed's weight on its legs' tops", "N x half the top's width", terms,
                        Term("", value, "moment"), OURS, words)  # fmt: skip

        return Limit(value, lambda: (how(),))

    def _use(self, kind: Kind, way: Way, name: str, limit: Limit, effect: Effect) -> Use:
        careful = self.build.options.load.careful
        case = Case(
            key=f"racking-{kind}-{way}", name=name, kind=kind, stands_for="a sideways push at the height of the slats",
            source=SOURCES[kind].format(least=writer(self.build.options.build.units).weight(MOVING_LEAST)),
            duration=1.0 if careful else DURATION["moving"],
        )  # fmt: skip
        return Use(part="leg", piece="legs", label="legs' joints", what="racking", case=case, person=self.person,
                   limit=limit, unit="moment", effects=(effect,), key=f"racking-{kind}-{way}")  # fmt: skip

    @property
    def duration(self) -> float:
        """CD of a push."""
        return 1.0 if self.build.options.load.careful else DURATION["moving"]

    def upright(self, fastening: Fastening) -> bool:
        """True when side legs all fastened like this one hold the stated people upright, lying and sitting."""
        if self.bed.corners:
            return self._upright_on_posts(fastening)
        leg = next((leg for leg in self.build.legs if self.bed.rail_joint(leg) == fastening.joint), None)
        if leg is None:
            return True
        alike = sum(self.bed.rail_joint(other) is not None for other in self.build.legs)
        needed = self._needed
        return all(
            alike * self._fastened(leg, fastening, way).value >= needed or self._people("sitting", way).ratio <= 1
            for way in WAYS
        )

    @property
    def _needed(self) -> float:
        """What the legs hold together against the stated people sitting [lb in]."""
        return SAFETY * self.height * max(PUSH.values()) * self.people * self.person

    def _upright_on_posts(self, fastening: Fastening) -> bool:
        """True when four blocks screwed like this one hold it; legs between posts are not asked."""
        for (_, way), corner in self.bed.corners.items():
            if fastening.joint in (corner.to_rail, corner.to_post):
                into_rail = fastening.joint == corner.to_rail
                one = (
                    self._in_plane(corner.leg, fastening, self.duration)
                    if into_rail
                    else self._out_of(corner.leg, fastening.joint, fastening, self.duration)
                )
                alike = sum(other == way for _, other in self.bed.corners)
                return alike * one.value >= self._needed
        return True

    def couples(self, way: Way) -> tuple[Couple, ...]:
        """Legs whose joint holds a couple: bolts or screws in side grain, a flange.

        A bracket holds one too, but nobody publishes what; it counts for none.
        """
        if way not in self._known:
            found = (self._couple(leg, way) for leg in self.build.legs)
            self._known[way] = tuple(couple for couple in found if couple is not None and couple.value > 0)
        return self._known[way]

    def _couple(self, leg: Leg, way: Way) -> Couple | None:
        if leg.post:
            return self._post(leg, way)
        joint = self.bed.rail_joint(leg)
        fastening = None if joint is None else self.bed.fixings.of(joint)
        if fastening is not None and fastening.driven:
            return self._fastened(leg, fastening, way)
        flange = next((j for j in self.build.joints_of("flange") if j.near in leg.pieces), None)
        held = None if flange is None else self.bed.fixings.of(flange)
        return None if held is None else self._flange(leg, held, way, self.duration)

    def _post(self, leg: Leg, way: Way) -> Couple | None:
        """A post's block on the rail that runs this way: its screws in the rail turn, those in the post are pulled."""
        corner = self.bed.corners[leg.label, way]
        rail, post = (self.bed.fixings.of(joint) if joint else None for joint in (corner.to_rail, corner.to_post))
        if rail is None or post is None:
            return None
        turn, pull = self._in_plane(leg, rail, self.duration), self._out_of(leg, post.joint, post, self.duration)
        return min((turn, pull), key=lambda couple: couple.value)

    def _fastened(self, leg: Leg, fastening: Fastening, way: Way) -> Couple:
        """Bolts or screws of a leg beside its rail."""
        if way == ("along" if fastening.joint.axis == 1 else "across"):
            return self._in_plane(leg, fastening, self.duration)
        return self._out_of(leg, fastening.joint, fastening, self.duration)

    def _in_plane(self, leg: Leg, fastening: Fastening, duration: float) -> Couple:
        """Fasteners that turn about their middle: Z' CD times the sum of r^2 over the largest r."""
        known, level = capacity(self.build, fastening), 1 - fastening.joint.axis
        arm = polar([(float(d.head[level]), float(d.head[2])) for d in fastening.driven])
        value = known.lateral * duration * arm

        def how() -> Working:
            terms = (Term("Z'", known.lateral, "force"), Term("CD", duration), Term("arm", arm, "calculated"))
            source = "statics; NDS 11.3.1"
            return step("couple of one leg", "Z' CD x sum r^2 / r", terms, Term("", value, "moment"), source)

        return Couple(leg.label, value, how)

    def _out_of(self, leg: Leg, joint: Joint, fastening: Fastening, duration: float) -> Couple:
        """Fasteners that are pulled as the leg leans away from the rail, about the lap's upper or lower edge."""
        levels = [float(d.head[2]) for d in fastening.driven]
        low, high = float(joint.contact.lo[2]), float(joint.contact.hi[2])
        arms = min(sum(z - low for z in levels), sum(high - z for z in levels))
        if fastening.fastener.kind == "carriage bolt":
            wood = wood_of(self.build, self.build.section_of(joint.near))
            one, what = wood.Fc_perp * head_area(fastening.fastener), "head bearing, no CD"
        else:
            one, what = capacity(self.build, fastening).pull * duration, "pull, CD in it"
        value = one * arms

        def how() -> Working:
            terms = (Term(f"one fastener ({what})", one, "force"), Term("sum of arms", arms, "calculated"))
            formula = "pull x sum of arms to the lap's edge"
            return step("couple of one leg", formula, terms, Term("", value, "moment"), OURS)

        return Couple(leg.label, value, how)

    def _flange(self, leg: Leg, fastening: Fastening, way: Way, duration: float) -> Couple:
        """A flange's screws are pulled about its edge."""
        axis = 0 if way == "along" else 1
        plate = self.build.pieces[fastening.joint.near].box
        places = [float(d.head[axis]) for d in fastening.driven]
        low, high = float(plate.lo[axis]), float(plate.hi[axis])
        arms = min(turned(places, low), turned([-p for p in places], -high))
        one = capacity(self.build, fastening).pull * duration
        value = one * arms

        def how() -> Working:
            terms = (Term("W' p CD", one, "force"), Term("arm", arms, "calculated"))
            return step("couple of one flange", "pull x sum a^2 / a", terms, Term("", value, "moment"), OURS)

        return Couple(leg.label, value, how)

    def half_width(self, way: Way, on_legs: Mapping[str, float]) -> float:
        """Half the width on which the legs' tops bear [in], each leg counted by what presses on it."""
        axis = 0 if way == "along" else 1
        pressed = [(self._top(leg, axis), max(0.0, on_legs.get(leg.label, 0.0))) for leg in self.build.legs]
        total = sum(load for _, load in pressed) or 1.0
        return sum(width * load / total for width, load in pressed) / 2

    def _top(self, leg: Leg, axis: int) -> float:
        """How wide the boards above stand on a leg [in]."""
        faces = [joint.contact for joint in self.bed.tops(leg)]
        if leg.post:
            return 0.0  # nothing stands on a post
        if not faces:
            return float(leg.size[axis])
        return float(max(face.hi[axis] for face in faces) - min(face.lo[axis] for face in faces))


def polar(places: Sequence[tuple[float, float]]) -> float:
    """Arm of a group of fasteners about its middle, for the most loaded one: sum r^2 / r [in].

    >>> round(polar([(0, 0), (1.5, 0.75)]), 3)
    1.677
    """
    if len(places) < 2:
        return 0.0
    x, z = (sum(p[i] for p in places) / len(places) for i in (0, 1))
    radii = [hypot(px - x, pz - z) for px, pz in places]
    return sum(r * r for r in radii) / max(radii) if max(radii) > 1e-6 else 0.0


def turned(places: Sequence[float], edge: float) -> float:
    """Arm of fasteners pulled about an edge, for the most pulled one: sum a^2 / a [in].

    >>> turned([1.0, 3.0], 0.0)
    3.3333333333333335
    """
    arms = [max(0.0, place - edge) for place in places]
    return sum(a * a for a in arms) / max(arms) if max(arms, default=0.0) > 1e-6 else 0.0


@dataclass(frozen=True)
class Tipping:
    """People sitting beyond the legs."""

    name: str  # of the seat
    outside: float  # [in] beyond the line through the outermost legs; below 0: inside
    righting: float  # [lb in]
    tipping: float  # [lb in] for the stated person

    @property
    def ratio(self) -> float:
        """Righting over tipping; infinite inside the legs."""
        return self.righting / self.tipping if self.tipping > 0 else float("inf")


def tippings(bed: Bed, weight: float) -> tuple[Tipping, ...]:
    """Every way of sitting on an edge, against the weight of the bed with its mattress [lb]."""
    build, person = bed.build, float(bed.build.options.load.person)
    seats = [(case.name, case.people[0]) for case in cases(build) if case.kind == "sitting"]
    seats += [
        (f"sitting on the {end} edge", patch) for end, patch in zip(("head", "foot"), foot_seats(build), strict=True)
    ]
    return tuple(_tipping(build, name, patch, weight, person) for name, patch in seats)


def _tipping(build: Build, name: str, patch: Patch, weight: float, person: float) -> Tipping:
    edges = outline([corner for leg in build.legs for corner in _corners(leg)])
    middle = (float(build.outside[1]) / 2, float(build.outside[0]) / 2)
    found = []
    for a, b in zip(edges, edges[1:] + edges[:1], strict=True):
        outside, inside = beyond(patch.middle, a, b), -beyond(middle, a, b)
        found.append(Tipping(name, outside, weight * max(0.0, inside), patch.load * person * max(0.0, outside)))
    return min(found, key=lambda t: (round(t.ratio, 6), -round(t.outside, 6)), default=Tipping(name, 0.0, 0.0, 1.0))


def beyond(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """How far a point lies to the right of the line from a to b [in]: outside, for an outline against the clock.

    >>> beyond((1, -2), (0, 0), (4, 0))
    2.0
    """
    along, across = b[0] - a[0], b[1] - a[1]
    return ((p[0] - a[0]) * across - (p[1] - a[1]) * along) / max(hypot(along, across), 1e-9)


def _corners(leg: Leg) -> list[tuple[float, float]]:
    x, y, (dx, dy) = float(leg.x), float(leg.y), (float(v) / 2 for v in leg.size)
    return [(x + i * dx, y + j * dy) for i in (-1, 1) for j in (-1, 1)]


def outline(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The outermost of some points, going round against the clock (a convex hull).

    >>> outline([(0, 0), (2, 0), (1, 1), (2, 2), (0, 2)])
    [(0, 0), (2, 0), (2, 2), (0, 2)]
    """
    ordered = sorted(set(points))

    def half(run: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        kept: list[tuple[float, float]] = []
        for p in run:
            while len(kept) > 1 and _left(kept[-2], kept[-1], p) <= 0:
                kept.pop()
            kept.append(p)
        return kept[:-1]

    return half(ordered) + half(ordered[::-1])


def _left(a: tuple[float, float], b: tuple[float, float], p: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
