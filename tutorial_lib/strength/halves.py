"""A slat in two halves over the centre line: two simple beams, so that what each line takes follows from balance."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from tutorial_lib.records import dataclass
from tutorial_lib.strength.grillage import Grillage, Lift, Load, State, Wrong
from tutorial_lib.strength.lines import Answer
from tutorial_lib.strength.slat import Slat, Spread


@dataclass(frozen=True)
class HalvedSlat(Slat):
    """One row of two halves that meet over the middle one of three lines."""

    @cached_property
    def halves(self) -> tuple[Slat, Slat]:
        """Each half on its two lines."""
        low, middle, high = self.lines
        left = Slat(self.start, middle, (low, middle), self.stiffness)
        return left, Slat(middle, self.end, (middle, high), self.stiffness)

    def _shares(self, load: Spread) -> Iterator[tuple[Slat, float, Spread]]:
        """The part of a pound that lies on each half."""
        (left, right), middle = self.halves, self.lines[1]
        if load.a == load.b:
            yield (left if load.a <= middle else right), 1.0, load
            return
        for half, a, b in ((left, load.a, min(load.b, middle)), (right, max(load.a, middle), load.b)):
            if b > a:
                yield half, (b - a) / (load.b - load.a), Spread(a, b)

    def pushes(self, load: Spread) -> tuple[float, float, float]:
        """Push of one pound on each line [lb].

        >>> HalvedSlat(0, 60, (0, 30, 60), 1e6).pushes(Spread(0, 60))
        (0.25, 0.5, 0.25)
        """
        found = [0.0, 0.0, 0.0]
        for half, share, part in self._shares(load):
            first = 0 if half is self.halves[0] else 1
            for number, push in enumerate(half.outer(part)):
                found[first + number] += share * push
        return found[0], found[1], found[2]

    def sag(self, y: float, load: Spread) -> float:
        """Sag at y of one pound, the lines held still [in]."""
        own = self.halves[0] if y <= self.lines[1] else self.halves[1]
        return sum(share * half.sag(y, part) for half, share, part in self._shares(load) if half is own)

    def follows(self, y: float, sags: Sequence[float]) -> float:
        """How far y goes down with the lines [in]."""
        half, ends = (self.halves[0], sags[:2]) if y <= self.lines[1] else (self.halves[1], sags[1:])
        return half.follows(y, ends)


class HalvedGrillage(Grillage):
    """The bed with slats in halves: nothing about them depends on how stiff they are."""

    slat: HalvedSlat

    def _pushes(
        self, load: Load, state: State, answers: Sequence[Answer]
    ) -> tuple[list[list[float]], dict[Lift, float]]:
        rows = [[0.0] * self.count for _ in self.lines]
        for number, parts in enumerate(load.on_slats):
            for pounds, spread in parts:
                for line, push in enumerate(self.slat.pushes(spread)):
                    rows[line][number] += pounds * push
        return rows, {}

    def _wrong_slats(self, state: State, moved: object) -> list[Wrong]:
        """A half lies on two seats and no more: nothing can take over from a seat that it leaves."""
        return []


__all__ = ["HalvedGrillage", "HalvedSlat"]
