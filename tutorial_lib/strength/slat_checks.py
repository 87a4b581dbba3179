"""Bending, shear, seats and sag of the slats, and a knee on one of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

from tutorial_lib.design.model import SupportLine
from tutorial_lib.measures import Kind as Quantity
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass
from tutorial_lib.strength.grillage import Load, Moved
from tutorial_lib.strength.joints import capacity, pull_limit
from tutorial_lib.strength.loads import BARE, DURATION, KNEE, Case
from tutorial_lib.strength.members import CREEP, bearing_limit, moment_limit, shear_limit
from tutorial_lib.strength.names import slat_name
from tutorial_lib.strength.response import Responder, Response
from tutorial_lib.strength.slat import Slat, Spread
from tutorial_lib.strength.use import Effect, Limit, Use, first_largest, largest
from tutorial_lib.strength.working import Term, step

STEPS = 12  # places looked at in each span
SLEEPING = 1 / 3  # part of a sleeper's weight that counts as always there; our choice
KNEES = 3  # slats that a knee is tried on: those whose lines give most
SAME = 1e-6  # [lb] pulls nearer than this are one; the first is told, on any machine


@dataclass(frozen=True)
class Sag:
    """How far the deck goes down with sleepers on it, creep included: comfort, not strength."""

    value: float  # [in]
    dead: float  # [in] bed and mattress, without creep
    live: float  # [in] per pound of a person, without creep
    slat: int
    case: Case


class SlatChecks:
    """All checks of the slats of one bed."""

    def __init__(self, responder: Responder) -> None:
        self.responder, self.bed = responder, responder.bed
        self.slat: Slat = self.bed.slat_beam
        self.person = float(self.bed.build.options.load.person)
        self._moments: dict[Spread, list[float]] = {}
        self._shears: dict[Spread, list[float]] = {}
        self._softness: dict[tuple[float, Spread], float] = {}

    @cached_property
    def places(self) -> list[float]:
        """Where moments are looked at across the slat [in]."""
        found = {self.slat.lines[0]}
        for a, b in pairwise(self.slat.lines):
            found |= {a + (b - a) * i / STEPS for i in range(1, STEPS + 1)}
        return sorted(found)

    @cached_property
    def faces(self) -> list[float]:
        """Where shear counts: a slat's depth off each seat's faces [in]. NDS 3.4.3.1."""
        depth, found = self.bed.slat.size.depth, []
        for number, line in enumerate(self.bed.lines):
            low, high = (float(v) for v in line.seat)
            found += [low - depth] if number > 0 else []
            found += [high + depth] if number < len(self.bed.lines) - 1 else []
        return [y for y in found if self.slat.lines[0] < y < self.slat.lines[-1]]

    def _unit(self, spread: Spread) -> tuple[list[float], list[float]]:
        """Moments and shears of one pound, its pushes on the lines left out."""
        if spread not in self._moments:
            self._moments[spread] = [self.slat.moment(y, spread) for y in self.places]
            self._shears[spread] = [-self.slat.before(y, spread) for y in self.faces]
        return self._moments[spread], self._shears[spread]

    @cached_property
    def _arms(self) -> tuple[list[list[float]], list[list[float]]]:
        lines = self.slat.lines
        return (
            [[max(0.0, y - at) for y in self.places] for at in lines],
            [[1.0 if at < y else 0.0 for y in self.faces] for at in lines],
        )

    def _inside(self, slat: int, load: Load, moved: Moved) -> tuple[list[float], list[float]]:
        """Moments and shears in one slat under a load."""
        moments, shears = [0.0] * len(self.places), [0.0] * len(self.faces)
        parts = [(pounds, *self._unit(spread)) for pounds, spread in load.on_slats[slat]]
        parts += [(pushes[slat], arm, jump) for pushes, arm, jump in zip(moved.pushes, *self._arms, strict=True)]
        for pounds, arm, jump in parts:
            moments = [m + pounds * a for m, a in zip(moments, arm, strict=True)]
            shears = [v + pounds * s for v, s in zip(shears, jump, strict=True)]
        return moments, shears

    @cached_property
    def _resting(self) -> list[tuple[list[float], list[float]]]:
        dead = self.responder.dead
        return [self._inside(i, self.responder.dead_load, dead) for i in range(len(self.bed.places))]

    def uses(self, responses: Sequence[Response]) -> Iterator[Use]:
        """The most used slat in each case: bending, shear, seats."""
        for response in responses:
            live = [self._inside(i, response.people, response.live) for i in range(len(self.bed.places))]
            for case in response.cases:
                yield from self._bent(case, live)
                yield from self._seats(response, case)

    def _bent(self, case: Case, live: Sequence[tuple[list[float], list[float]]]) -> Iterator[Use]:
        known = self.bed.slat
        bent = moment_limit(known.wood, known.size, case.duration)
        sheared = shear_limit(known.wood, known.size, case.duration)
        for which, what, key, limit in ((0, "bending", "slat-bending", bent), (1, "shear", "slat-shear", sheared)):
            sizes = [
                self._largest(rest[which], add[which], case.times)
                for rest, add in zip(self._resting, live, strict=True)
            ]
            slat = first_largest(sizes)
            effects = self._effects(slat, which, live[slat][which], case.times)
            if effects:
                yield self._use(slat, what, key, case, limit, effects, "moment" if which == 0 else "force")

    def _largest(self, dead: list[float], live: list[float], times: float) -> float:
        """The greatest moment or shear in one slat, with nobody or with the stated people."""
        together = [abs(d + times * e * self.person) for d, e in zip(dead, live, strict=True)]
        return max([*map(abs, dead), *together], default=0.0)

    def _effects(self, slat: int, which: int, live: list[float], times: float) -> tuple[Effect, ...]:
        if not (self.places if which == 0 else self.faces):
            return ()
        return largest(self._resting[slat][which], [times * e for e in live], self.person)

    def _use(
        self, slat: int, what: str, key: str, case: Case, limit: Limit, effects: tuple[Effect, ...], unit: Quantity
    ) -> Use:
        return Use(part="slat", piece=self.bed.rows[slat][0].label, label=slat_name(slat), what=what, case=case,
                   person=self.person, limit=limit, unit=unit, effects=effects, key=key)  # fmt: skip

    def _seats(self, response: Response, case: Case) -> Iterator[Use]:
        """The slat that presses hardest on its seat, by line."""
        known = self.bed.slat
        for number in range(len(self.bed.lines)):
            dead, live = response.dead.pushes[number], response.live.pushes[number]
            areas = self.areas[number]
            sizes = [
                max(d, d + case.times * e * self.person) / area if area else 0.0
                for d, e, area in zip(dead, live, areas, strict=True)
            ]
            slat = first_largest(sizes)
            if areas[slat]:
                limit = bearing_limit(known.wood, areas[slat])
                effects = (Effect(dead[slat], case.times * live[slat]),)
                key = "slat-seat" if number in (0, len(self.bed.lines) - 1) else "slat-line"
                yield self._use(slat, "bearing", key, case, limit, effects, "force")

    @cached_property
    def areas(self) -> list[list[float]]:
        """The area each slat bears on, by line [in2]."""
        return [[self._area(line, slat) for slat in range(len(self.bed.places))] for line in self.bed.lines]

    def _area(self, line: SupportLine, slat: int) -> float:
        """Where two halves meet each is judged as if it took all: the smaller of their seats counts."""
        found = [float(j.contact.size[0] * j.contact.size[1]) for j in self.bed.seats_on(line, slat)]
        halved = line.central and self.bed.build.options.slats.halves
        return min(found, default=0.0) if halved else sum(found)

    def kneeling(self) -> Iterator[Use]:
        """A person on one slat, through the mattress; and 315 lb on a bare slat."""
        careful, through = self.bed.build.options.load.careful, self._through()
        bare = Case(
            key="bare", name="standing on one bare slat", kind="bare",
            stands_for=f"{writer(self.bed.build.options.build.units).weight(BARE)} on the middle of a slat",
            source="1400 N: a European bed test's point, secondary source; no conformity claimed",
            duration=1.0 if careful else DURATION["bare"],
        )  # fmt: skip
        known = self.bed.slat
        worst = max(self._knees(), key=lambda found: round(max(abs(m) for m in found[1]), 6))
        slat, live, dead = worst
        limit = moment_limit(known.wood, known.size, through.duration)
        effects = largest(dead, live, self.person)
        yield self._use(slat, "bending", "kneeling", through, limit, effects, "moment")
        alone = largest([0.0] * len(live), [BARE / KNEE / self.person * m for m in live], self.person)
        limit = moment_limit(known.wood, known.size, bare.duration)
        use = self._use(slat, "bending", "bare-315", bare, limit, alone, "moment")
        terms = (Term("W", BARE, "weight"),)
        bent = Term("", use.worst.at(self.person), "moment")
        what, formula = f"load: {use.title}, {bare.name}", "the moment of W on the middle of a span"
        how = step(what, formula, terms, bent, bare.source)
        yield replace(use, pushed=how)

    def _through(self) -> Case:
        """Kneeling through the mattress."""
        careful = self.bed.build.options.load.careful
        return Case(
            key="knee", name="kneeling on one slat, through the mattress", kind="standing",
            stands_for="0.4 of the person on the middle of one slat",
            source="0.4 is our choice", duration=1.0 if careful else DURATION["standing"],
        )  # fmt: skip

    def hold_downs(self) -> Iterator[Use]:
        """A slat's far end that a knee would lift: its screw is judged as a fastening, it rates nothing."""
        worst: tuple[float, int, int, float, float] | None = None
        for slat in self._softest() if len(self.slat.lines) > 2 else ():
            for load in self._knee_loads(slat):
                added = self.responder.added(load)
                for number, (dead, live) in enumerate(zip(self.responder.dead.pushes, added.pushes, strict=True)):
                    up = -dead[slat] - self.person * live[slat]
                    if worst is None or up > worst[0] + SAME:
                        worst = (up, slat, number, -dead[slat], -live[slat])
        if worst is not None and worst[0] > 0:
            yield from self._held_down(worst)

    def _held_down(self, worst: tuple[float, int, int, float, float]) -> Iterator[Use]:
        _, slat, number, dead, live = worst
        line = self.bed.lines[number]
        held = [self.bed.fixings.of(joint) for joint in self.bed.seats_on(line, slat)]
        screws = next((fastening for fastening in held if fastening is not None), None)
        if screws is None:
            return
        case = self._through()
        limit = pull_limit(capacity(self.bed.build, screws), case.duration * screws.count)
        effects = (Effect(min(0.0, dead), live),)
        use = self._use(slat, "hold-down screw pulled", "hold-down", case, limit, effects, "force")
        yield replace(use, rates=False)

    def _knee_loads(self, slat: int) -> Iterator[Load]:
        """A knee on the middle of each span of one slat, per pound of a person."""
        for a, b in pairwise(self.slat.lines):
            rows: list[tuple[tuple[float, Spread], ...]] = [()] * len(self.bed.places)
            rows[slat] = ((KNEE, Spread((a + b) / 2, (a + b) / 2)),)
            yield Load(tuple(rows))

    def _knees(self) -> Iterator[tuple[int, list[float], list[float]]]:
        """(slat, moments of a knee at the middle of a span per pound of a person, moments of the bed itself)."""
        for slat in self._softest():
            for load in self._knee_loads(slat):
                yield slat, self._inside(slat, load, self.responder.added(load))[0], self._resting[slat][0]

    def _softest(self) -> list[int]:
        """The slats whose lines give most; on two lines, where that is no matter, the one nearest the middle."""
        count = len(self.bed.places)
        if len(self.slat.lines) == 2:
            return [first_largest([max(map(abs, self._resting[i][0])) for i in range(count)])]
        sags = self.responder.dead.sags[1:-1]
        order = sorted(range(count), key=lambda i: -round(max(line[i] for line in sags), 6))
        return sorted(order[:KNEES])

    def sag(self, responses: Sequence[Response]) -> Sag | None:
        """The deepest sag with sleepers on it: 1.5 x what lies there always, a third of each sleeper included.

        NDS 2018 Eq. 3.5-1, its 1.5 from memory; the third is our choice.
        """
        resting = [self._sags(i, self.responder.dead_load, self.responder.dead) for i in range(len(self.bed.places))]
        best: Sag | None = None
        for response in responses:
            if response.case.kind != "lying":
                continue
            for i in range(len(self.bed.places)):
                for dead, live in zip(resting[i], self._sags(i, response.people, response.live), strict=True):
                    value = CREEP * dead + (1 + (CREEP - 1) * SLEEPING) * self.person * live
                    if best is None or value > best.value + 1e-9:
                        best = Sag(value, dead, live, i, response.case)
        return best

    @cached_property
    def _looked_at(self) -> list[float]:
        """Lines between the outer ones, middles and quarters of the spans [in]."""
        spans = [a + (b - a) * part for a, b in pairwise(self.slat.lines) for part in (0.25, 0.5, 0.75)]
        return sorted([*spans, *self.slat.lines[1:-1]])

    def _sags(self, slat: int, load: Load, moved: Moved, places: Sequence[float] = ()) -> list[float]:
        """Sag along one slat [in]."""
        found = []
        for y in places or self._looked_at:
            down = self.slat.follows(y, [sags[slat] for sags in moved.sags])
            down += sum(pounds * self._soft(y, spread) for pounds, spread in load.on_slats[slat])
            for at, pushes in zip(self.slat.lines[1:-1], moved.pushes[1:-1], strict=True):
                down -= pushes[slat] * self._soft(y, Spread(at, at))
            found.append(down)
        return found

    def curve(self, slat: int, response: Response) -> list[tuple[float, float]]:
        """(y, sag) along one slat with the stated people on it [in], creep left out."""
        ys = self.places
        rest = self._sags(slat, self.responder.dead_load, response.dead, ys)
        add = self._sags(slat, response.people, response.live, ys)
        return [(y, d + self.person * e) for y, d, e in zip(ys, rest, add, strict=True)]

    def _soft(self, y: float, spread: Spread) -> float:
        key = (y, spread)
        if key not in self._softness:
            self._softness[key] = self.slat.sag(y, spread)
        return self._softness[key]
