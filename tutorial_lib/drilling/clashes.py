"""How near two fasteners come, in three dimensions, and how near is too near.

All axes lie along x, y or z, so a fastener is a thin upright box and the distance of two of them is exact:
the root of the sum of the squared gaps along x, y and z.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cached_property
from itertools import product
from math import floor, sqrt

from tutorial_lib.design.fasteners import Driven
from tutorial_lib.design.model import Box, Floats, Joint, Point
from tutorial_lib.records import dataclass

WOOD_BETWEEN = Fraction(1, 4)  # [in] between two shanks (our choice, no source)
BETWEEN = float(WOOD_BETWEEN)
SEAM_ROOM = Fraction(3, 4)  # [in] from a screw's axis to the seam of a doubled leg (our choice, no source)


@dataclass(frozen=True, kw_only=True)
class Shank:
    """A fastener as the clash check sees it: a straight line with a diameter, and which one of which joint it is."""

    head: Point
    tip: Point
    diameter: float  # [in]
    joint: Joint | None = None
    number: int = 0
    word: str = "screw"

    @property
    def name(self) -> str:
        """As a person calls it: "slat 1 to cleat left, screw 1"."""
        return f"{self.joint.label}, {self.word} {self.number}" if self.joint else self.word

    @cached_property
    def row(self) -> Row:
        """As :class:`Placed` takes it."""
        (a, b, c), (d, e, f) = self.head, self.tip
        return row((float(a), float(b), float(c)), (float(d), float(e), float(f)), self.diameter)

    @property
    def box(self) -> Box:
        """The line as a box without thickness."""
        lo = tuple(map(min, self.head, self.tip))
        hi = tuple(map(max, self.head, self.tip))
        return Box((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2]))


Row = tuple[float, float, float, float, float, float, float]  # [in] lowest and highest corner, half a diameter


@dataclass(frozen=True)
class Clash:
    """Two fasteners nearer than they may be."""

    first: Shank
    second: Shank

    @property
    def limit(self) -> float:
        """The least that they may be apart [in]."""
        return limit(self.first.diameter, self.second.diameter)

    @property
    def distance(self) -> float:
        """Axis to axis [in]."""
        return distance(self.first, self.second)

    @cached_property
    def near(self) -> float:
        """Square of the distance [sq in], quick to compare by: hundreds of screws make thousands of pairs."""
        return round(_squared(self.first.row, self.second.row), 9)


def limit(first: float, second: float) -> float:
    """The least distance of two axes [in]: half of both diameters and 1/4 in of wood (our choice, no source).

    Args:
        first: one diameter [in].
        second: the other diameter [in].

    >>> round(limit(0.177, 0.375), 3)
    0.526
    """
    return first / 2 + second / 2 + float(WOOD_BETWEEN)


def squared(a: Box, b: Box) -> Fraction:
    """Square of the distance of two upright boxes [sq in], 0 when they meet.

    >>> zero, one, five = map(Fraction, (0, 1, 5))
    >>> squared(Box((zero, zero, zero), (one, one, one)), Box((five, five, zero), (five, five, one)))
    Fraction(32, 1)
    """
    return sum((max(Fraction(0), a.gap(b, i)) ** 2 for i in (0, 1, 2)), Fraction(0))


def distance(a: Shank, b: Shank) -> float:
    """Least distance of two axes, tip to head [in].

    >>> zero, one, two = map(Fraction, range(3))
    >>> corner = Shank(head=(one, zero, one), tip=(one, two, one), diameter=0.19)
    >>> up = Shank(head=(one, one, -one), tip=(one, one, two), diameter=0.19)
    >>> distance(corner, up)
    0.0
    """
    return sqrt(squared(a.box, b.box))


class Placed:
    """Fasteners placed so far, with a quick way to ask whether another one fits among them."""

    def __init__(self, rows: Iterable[Row] = ()) -> None:
        self._rows: list[Row] = []
        self._by_cell: dict[tuple[int, int], list[int]] = {}  # seen from above, with what each keeps free around it
        for one in rows:
            self.add(one)

    def add(self, row: Row) -> None:
        """Takes one more as placed."""
        for cell in _cells(row, row[6] + BETWEEN):
            self._by_cell.setdefault(cell, []).append(len(self._rows))
        self._rows.append(row)

    def meets(self, row: Row) -> list[int]:
        """Indexes of those that come too near."""
        return sorted(set(self._near(row)))

    def takes(self, row: Row) -> bool:
        """Whether none comes too near."""
        return next(self._near(row), None) is None

    def _near(self, row: Row) -> Iterator[int]:
        for cell in _cells(row, row[6]):
            for index in self._by_cell.get(cell, ()):
                if _too_near(row, self._rows[index]):
                    yield index


def _too_near(one: Row, other: Row) -> bool:
    x0, y0, z0, x1, y1, z1, half = one
    a0, b0, c0, a1, b1, c1, half_other = other
    dx = a0 - x1 if a0 > x1 else x0 - a1 if x0 > a1 else 0.0  # quicker than max(), and asked a million times
    dy = b0 - y1 if b0 > y1 else y0 - b1 if y0 > b1 else 0.0
    dz = c0 - z1 if c0 > z1 else z0 - c1 if z0 > c1 else 0.0
    reach = half + half_other + BETWEEN
    return dx * dx + dy * dy + dz * dz < reach * reach - 1e-9


CELL = 2.0  # [in]


def _cells(row: Row, around: float) -> Iterator[tuple[int, int]]:
    """The squares that a fastener with so much around it lies over, seen from above."""
    xs = range(floor((row[0] - around) / CELL), floor((row[3] + around) / CELL) + 1)
    return product(xs, range(floor((row[1] - around) / CELL), floor((row[4] + around) / CELL) + 1))


def row(head: Floats, tip: Floats, diameter: float) -> Row:
    """A fastener as :class:`Placed` takes it [in]."""
    (a, b, c), (d, e, f) = head, tip
    return min(a, d), min(b, e), min(c, f), max(a, d), max(b, e), max(c, f), diameter / 2


def _squared(one: Row, other: Row) -> float:
    """Square of the distance of two axes, in floats [sq in]."""
    gaps = (max(other[i] - one[i + 3], one[i] - other[i + 3], 0.0) for i in (0, 1, 2))
    return sum(gap * gap for gap in gaps)


def clashes(shanks: Sequence[Shank]) -> list[Clash]:
    """Every pair nearer than its limit, in order."""
    placed = Placed()
    found = []
    for shank in shanks:
        found += [Clash(shanks[index], shank) for index in placed.meets(shank.row)]
        placed.add(shank.row)
    return found


def seam_distance(driven: Driven, seam: Box) -> float:
    """Least distance of a fastener's axis from the seam between two boards [in]."""
    return sqrt(squared(Shank(head=driven.head, tip=driven.tip, diameter=0.0).box, seam))
