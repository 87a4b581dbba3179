"""A slat across the lines: pushes, moments and sag in closed form; what its inner lines take back is unknown here.

The slat lies on its two outer lines as a simple beam; inner lines push it up. Lengths in inches, loads in pounds,
downward positive; a moment is positive where it pulls the lower face. Euler and Bernoulli, textbook.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import pairwise

from tutorial_lib.records import dataclass

GAUSS = ((-(0.6**0.5), 5 / 9), (0.0, 8 / 9), (0.6**0.5, 5 / 9))  # three points: exact for what is integrated here


@dataclass(frozen=True)
class Spread:
    """One pound spread evenly across from ``a`` to ``b`` [in]; at one place when both are equal."""

    a: float
    b: float


@dataclass(frozen=True)
class Slat:
    """One slat: its ends, its lines and its stiffness EI [lb in2]."""

    start: float  # [in]
    end: float  # [in]
    lines: tuple[float, ...]  # [in] y of each line it bears on
    stiffness: float

    @property
    def span(self) -> float:
        """Between the outer lines [in]."""
        return self.lines[-1] - self.lines[0]

    @cached_property
    def parts(self) -> tuple[float, ...]:
        """How far each inner line stands across, from 0 at the first line to 1 at the last."""
        return tuple((y - self.lines[0]) / self.span for y in self.lines[1:-1])

    @cached_property
    def own(self) -> tuple[tuple[float, ...], ...]:
        """Sag at each inner line from one pound at each inner line [in]."""
        return tuple(tuple(self.sag(y, Spread(z, z)) for z in self.lines[1:-1]) for y in self.lines[1:-1])

    def outer(self, load: Spread) -> tuple[float, float]:
        """Push of one pound on the two outer lines without the inner ones [lb].

        >>> Slat(0, 40, (0, 40), 1e6).outer(Spread(10, 10))
        (0.75, 0.25)
        """
        part = ((load.a + load.b) / 2 - self.lines[0]) / self.span
        return 1 - part, part

    def sag(self, y: float, load: Spread) -> float:
        """Sag at y of one pound, on the outer lines alone [in].

        >>> round(Slat(0, 40, (0, 40), 1e6).sag(20, Spread(20, 20)), 6) == round(40**3 / 48e6, 6)
        True
        """
        x, length = y - self.lines[0], self.span
        if load.a == load.b:
            return _sag(x, load.a - self.lines[0], length) / self.stiffness
        total = 0.0
        for lo, hi in _cut(load, (self.lines[0], y, self.lines[-1])):
            half, mid = (hi - lo) / 2, (lo + hi) / 2
            total += half * sum(c * _sag(x, mid + half * t - self.lines[0], length) for t, c in GAUSS)
        return total / (load.b - load.a) / self.stiffness

    def follows(self, y: float, sags: Sequence[float]) -> float:
        """How far y goes down with the outer lines [in]; the inner ones only push."""
        part = (y - self.lines[0]) / self.span
        return (1 - part) * sags[0] + part * sags[-1]

    def moment(self, y: float, load: Spread) -> float:
        """Moment at y of one pound, its push on the lines left out [lb in].

        >>> slat = Slat(0, 40, (0, 40), 1e6)
        >>> slat.moment(9.0, Spread(10, 10)), slat.moment(12.0, Spread(10, 10)), slat.moment(20.0, Spread(10, 20))
        (-0.0, -2.0, -5.0)
        """
        if load.a == load.b:
            return -max(0.0, y - load.a)
        return -(max(0.0, y - load.a) ** 2 - max(0.0, y - load.b) ** 2) / 2 / (load.b - load.a)

    def before(self, y: float, load: Spread) -> float:
        """Part of one pound that lies before y.

        >>> slat = Slat(0, 40, (0, 40), 1e6)
        >>> slat.before(9, Spread(10, 10)), slat.before(11, Spread(10, 10)), slat.before(12, Spread(10, 20))
        (0.0, 1.0, 0.2)
        """
        if load.a == load.b:
            return 1.0 if load.a < y else 0.0
        return min(1.0, max(0.0, (y - load.a) / (load.b - load.a)))


def _sag(x: float, a: float, length: float) -> float:
    """EI times the sag at x of one pound at a on a simple beam; both may lie beyond the supports a little."""
    x = min(max(x, 0.0), length)
    if a < 0:
        return a * x * (length - x) * (2 * length - x) / 6 / length
    if a > length:
        return (length - a) * x * (length * length - x * x) / 6 / length
    if x > a:
        x, a = length - x, length - a
    rest = length - a
    return rest * x * (length * length - rest * rest - x * x) / 6 / length


def _cut(load: Spread, places: Sequence[float]) -> Iterator[tuple[float, float]]:
    edges = [load.a, *(p for p in sorted(places) if load.a < p < load.b), load.b]
    return pairwise(edges)
