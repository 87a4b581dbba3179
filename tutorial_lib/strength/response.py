"""What each load case does: forces on slats, lines and legs, before any check.

Slats are continuous beams over lines; lines are continuous beams over legs that don't give, loaded by the slats'
pushes. Where a centre line gives, the slats' pushes fit its sag. A leg only pushes: one that would have to pull comes
off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise

from tutorial_lib.strength.beams import Beam, Bent, Load, PointLoad, SpreadLoad, Unstable, bend, rest
from tutorial_lib.strength.loads import Case, Patch, cases, dead_patch
from tutorial_lib.strength.model import Line, Model
from tutorial_lib.strength.sharing import share


@dataclass(frozen=True)
class OnLine:
    """One line under one case; ``bent`` is None where the line would tip."""

    line: Line
    slats: tuple[float, ...]  # [lb] each slat's push on the line; negative pulls up
    dead: tuple[float, ...]  # [lb] of that, the bed's own weight, mattress and bedding
    bent: Bent | None
    resting: Bent | None  # under the dead load alone


@dataclass(frozen=True)
class Response:
    """The whole bed under one case."""

    case: Case
    lines: tuple[OnLine, ...]
    slat: Bent  # the slat that carries most
    slat_dead: Bent  # the same slat under the dead load

    def on(self, name: str) -> OnLine:
        """The line with this name."""
        return next(found for found in self.lines if found.line.name == name)


class Responder:
    """Answers cases for one model; slats are solved once per patch and scaled."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self._slats: dict[tuple[tuple[float, float], float], tuple[float, ...]] = {}
        self._rests: dict[tuple[str, tuple[float, ...], tuple[float, ...]], Bent | None] = {}
        self.own = (SpreadLoad(model.slat.start, model.slat.end, model.slat.weight),)
        own = bend(model.slat_beam, self.own)
        self.own_on_lines = tuple(r for _, r in own.reactions)

    @cached_property
    def cases(self) -> tuple[Case, ...]:
        """All cases of the build."""
        return cases(self.model.build)

    def _per_pound(self, y: tuple[float, float], across: float) -> tuple[float, ...]:
        """Push on each line from 1 lb on a slat, spread from y to y (or at one place)."""
        key = (y, across)
        if key not in self._slats:
            load: Load = SpreadLoad(y[0], y[1], 1 / across) if across else PointLoad(y[0], 1.0)
            self._slats[key] = tuple(r for _, r in bend(self.model.slat_beam, (load,)).reactions)
        return self._slats[key]

    def _shares(self, patch: Patch) -> tuple[float, ...]:
        """Pounds of a patch that each slat takes, by the strip of bed it carries."""
        x0, x1 = patch.x
        return tuple(max(0.0, min(x1, b) - max(x0, a)) / (x1 - x0) * patch.load for a, b in self.model.strips)

    def _pushes(self, patches: Sequence[Patch], one_slat: tuple[int, float, float] | None) -> list[list[float]]:
        pushes = [[own] * len(self.model.slat_places) for own in self.own_on_lines]
        for patch in patches:
            unit = self._per_pound(patch.y, patch.y[1] - patch.y[0])
            for i, pounds in enumerate(self._shares(patch)):
                for line, part in enumerate(unit):
                    pushes[line][i] += pounds * part
        if one_slat:
            i, y, pounds = one_slat
            for line, part in enumerate(self._per_pound((y, y), 0.0)):
                pushes[line][i] += pounds * part
        return pushes

    @cached_property
    def dead(self) -> list[list[float]]:
        """Each slat's push on each line from its own weight, mattress and bedding."""
        return self._pushes((dead_patch(self.model.build),), None)

    @cached_property
    def _bare(self) -> list[list[float]]:
        return self._pushes((), None)

    @cached_property
    def _shared_dead(self) -> list[list[float]]:
        return self.shared(self.dead)

    @cached_property
    def _shared_bare(self) -> list[list[float]]:
        return self.shared(self._bare)

    def shared(self, pushes: list[list[float]]) -> list[list[float]]:
        """Pushes when the lines give under them; with two lines statics alone decides.

        A leg that comes off changes how its line gives, so this is done again until none does.
        """
        lines, places = self.model.lines, self.model.slat_places
        if len(lines) < 3 or any(len(line.supports) < 2 for line in lines):
            return pushes
        beams = tuple(line.beam for line in lines)
        for _ in range(5):
            found = share(self.model.slat_beam, beams, [line.weight for line in lines], places, pushes)
            rests = [self._rest(line, tuple(push)) for line, push in zip(lines, found, strict=True)]
            held = tuple(
                beam if bent is None else _held(line.beam, bent.lifted)
                for line, beam, bent in zip(lines, beams, rests, strict=True)
            )
            if held == beams:
                break
            beams = held
        return found

    def worst_point(self) -> float:
        """y of the middle of the longest slat span [in]."""
        spans = self.model.slat_spans
        i = spans.index(max(spans))
        return self.model.lines[i].y + spans[i] / 2

    def answer(self, case: Case) -> Response:
        """The bed under one case."""
        dead = self._shared_bare if case.bare else self._shared_dead
        patches = case.people if case.bare else (dead_patch(self.model.build), *case.people)
        one = self._one_slat(case)
        pushes = self.shared(self._pushes(patches, one))
        lines = []
        for line, push, rests in zip(self.model.lines, pushes, dead, strict=True):
            lines.append(
                OnLine(line, tuple(push), tuple(rests), self._rest(line, tuple(push)), self._rest(line, tuple(rests)))
            )
        slat, slat_dead = self._worst_slat(patches, one, pushes, dead)
        return Response(case, tuple(lines), slat, slat_dead)

    def _one_slat(self, case: Case) -> tuple[int, float, float] | None:
        return (self._middle_slat, self.worst_point(), case.one_slat) if case.one_slat else None

    @cached_property
    def _middle_slat(self) -> int:
        """The slat farthest from legs: its line bends most there."""
        legs = [s.x for line in self.model.lines for s in line.supports]
        places = self.model.slat_places
        return max(range(len(places)), key=lambda i: min((abs(places[i] - x) for x in legs), default=0.0))

    def _rest(self, line: Line, pushes: tuple[float, ...]) -> Bent | None:
        key = (line.name, tuple(s.x for s in line.supports), pushes)
        if key not in self._rests:
            bent = settle(line.beam, loads_on(line, self.model.slat_places, pushes))
            if bent is None and min(pushes) < 0:
                # slats that pull up lift the line off its legs a little; the rails' corners keep it from tipping
                bent = settle(line.beam, loads_on(line, self.model.slat_places, tuple(max(p, 0.0) for p in pushes)))
            self._rests[key] = bent
        return self._rests[key]

    def _worst_slat(
        self,
        patches: Sequence[Patch],
        one: tuple[int, float, float] | None,
        pushes: list[list[float]],
        dead: list[list[float]],
    ) -> tuple[Bent, Bent]:
        """The slat that bends most."""
        shares = [self._shares(patch) for patch in patches]
        count = len(self.model.slat_places)
        i = one[0] if one else max(range(count), key=lambda i: self._peak(i, patches, shares, pushes))
        return self._slat(i, patches, shares, one, pushes, dead)

    def _peak(
        self, i: int, patches: Sequence[Patch], shares: Sequence[tuple[float, ...]], pushes: list[list[float]]
    ) -> float:
        """Greatest moment of one slat at its lines and at eighths of its spans, from statics."""
        loads = [
            (patch.y[0], patch.y[1], part[i] / (patch.y[1] - patch.y[0]))
            for patch, part in zip(patches, shares, strict=True)
        ]
        loads.append((self.model.slat.start, self.model.slat.end, self.model.slat.weight))
        ys = [line.y for line in self.model.lines]
        places = [a + (b - a) * k / 8 for a, b in pairwise(ys) for k in range(1, 9)]
        return max(
            abs(
                sum(push[i] * max(0.0, y - at) for at, push in zip(ys, pushes, strict=True))
                - sum(w * (max(0.0, y - a) ** 2 - max(0.0, y - b) ** 2) / 2 for a, b, w in loads)
            )
            for y in places
        )

    def _slat(
        self,
        i: int,
        patches: Sequence[Patch],
        shares: Sequence[tuple[float, ...]],
        one: tuple[int, float, float] | None,
        pushes: list[list[float]],
        resting: list[list[float]],
    ) -> tuple[Bent, Bent]:
        found: list[Load] = list(self.own)
        dead: list[Load] = list(self.own)
        for k, (patch, part) in enumerate(zip(patches, shares, strict=True)):
            across = patch.y[1] - patch.y[0]
            load = SpreadLoad(patch.y[0], patch.y[1], part[i] / across)
            found.append(load)
            dead += [load] if k == 0 else []
        if one:
            found.append(PointLoad(one[1], one[2]))
        slat = self.model.slat_beam
        outer = Beam(slat.start, slat.end, slat.stretches, (slat.supports[0], slat.supports[-1]))
        inner = slat.supports[1:-1]
        found += [PointLoad(y, -push[i]) for y, push in zip(inner, pushes[1:-1], strict=True)]
        dead += [PointLoad(y, -push[i]) for y, push in zip(inner, resting[1:-1], strict=True)]
        return bend(outer, found), bend(outer, dead)


def _held(beam: Beam, lifted: Sequence[float]) -> Beam:
    return Beam(beam.start, beam.end, beam.stretches, tuple(x for x in beam.supports if x not in lifted))


def loads_on(line: Line, places: Sequence[float], pushes: Sequence[float]) -> tuple[Load, ...]:
    """The slats' pushes, to a millionth of a pound, and the line's own weight as loads."""
    return (
        *(PointLoad(x, round(p, 6)) for x, p in zip(places, pushes, strict=True)),
        SpreadLoad(line.start, line.end, line.weight),
    )


@lru_cache(maxsize=2048)
def settle(beam: Beam, loads: tuple[Load, ...]) -> Bent | None:
    """The beam at rest on supports that only push, or None where it would tip."""
    try:
        return rest(beam, loads)
    except Unstable:
        return None
