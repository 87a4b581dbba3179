"""What each load case does: forces on slats, lines and legs, before any check.

The hand method: slats are continuous beams over lines that don't give, lines are continuous beams over legs that don't
give, loaded by the slats' reactions. A leg only pushes: one that would have to pull comes off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from tutorial_lib.strength.beams import Beam, Bent, Load, PointLoad, SpreadLoad, Unstable, bend, rest
from tutorial_lib.strength.loads import Case, Patch, cases, dead_patch
from tutorial_lib.strength.model import Line, Model


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
                for line, share in enumerate(unit):
                    pushes[line][i] += pounds * share
        if one_slat:
            i, y, pounds = one_slat
            for line, share in enumerate(self._per_pound((y, y), 0.0)):
                pushes[line][i] += pounds * share
        return pushes

    @cached_property
    def dead(self) -> list[list[float]]:
        """Each slat's push on each line from its own weight, mattress and bedding."""
        return self._pushes((dead_patch(self.model.build),), None)

    @cached_property
    def _bare(self) -> list[list[float]]:
        return self._pushes((), None)

    def worst_point(self) -> float:
        """y of the middle of the longest slat span [in]."""
        spans = self.model.slat_spans
        i = spans.index(max(spans))
        return self.model.lines[i].y + spans[i] / 2

    def answer(self, case: Case) -> Response:
        """The bed under one case."""
        dead = self._bare if case.bare else self.dead
        patches = case.people if case.bare else (dead_patch(self.model.build), *case.people)
        one = self._one_slat(case)
        pushes = self._pushes(patches, one)
        lines = []
        for line, push, rests in zip(self.model.lines, pushes, dead, strict=True):
            lines.append(OnLine(line, tuple(push), tuple(rests), self._rest(line, tuple(push)),
                                self._rest(line, tuple(rests))))
        slat, slat_dead = self._worst_slat(patches, one)
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

    def _worst_slat(self, patches: Sequence[Patch], one: tuple[int, float, float] | None) -> tuple[Bent, Bent]:
        shares = [self._shares(patch) for patch in patches]
        totals = [sum(column) for column in zip(*shares, strict=True)] or [0.0]
        i = one[0] if one else totals.index(max(totals))
        found: list[Load] = list(self.own)
        dead: list[Load] = list(self.own)
        for k, (patch, share) in enumerate(zip(patches, shares, strict=True)):
            across = patch.y[1] - patch.y[0]
            load = SpreadLoad(patch.y[0], patch.y[1], share[i] / across)
            found.append(load)
            dead += [load] if k == 0 else []
        if one:
            found.append(PointLoad(one[1], one[2]))
        beam = self.model.slat_beam
        return bend(beam, found), bend(beam, dead)


def loads_on(line: Line, places: Sequence[float], pushes: Sequence[float]) -> list[Load]:
    """The slats' pushes and the line's own weight as loads."""
    return [*(PointLoad(x, p) for x, p in zip(places, pushes, strict=True)),
            SpreadLoad(line.start, line.end, line.weight)]


def settle(beam: Beam, loads: Sequence[Load]) -> Bent | None:
    """The beam at rest on supports that only push, or None where it would tip."""
    try:
        return rest(beam, loads)
    except Unstable:
        return None
