"""Is there room for the driver? A pure function of where a fastener is driven and what stands in the way.

The room is a round column on the fastener's axis, outward from where the tool grips it: the bit, 3/8 in in radius
over its first 3 in, then the driver's body (trade practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cached_property

from tutorial_lib.design.fasteners import Driven, Fastening
from tutorial_lib.design.model import Box, Floats
from tutorial_lib.records import dataclass

BIT_RADIUS = Fraction(3, 8)  # [in]
BIT_LENGTH = Fraction(3)  # [in]
ACROSS = ((1, 2), (0, 2), (0, 1))  # the other axes, by axis
SOCKET_RADIUS = Fraction(1, 2)  # [in] a nut is turned from the side: only its socket or spanner needs room
Rooms = tuple[tuple[float, float, float], ...]
SOCKET: Rooms = ((0.0, float(BIT_LENGTH), float(SOCKET_RADIUS)),)
Solid = tuple[Floats, Floats]


@dataclass(frozen=True)
class DriverRoom:
    """The room a drill or driver needs."""

    length: Fraction = Fraction(8)  # [in] bit and body together
    radius: Fraction = Fraction(5, 4)  # [in] of the body

    @cached_property
    def rooms(self) -> Rooms:
        """From, to and radius of the bit and the body, outward [in]."""
        bit = (0.0, float(BIT_LENGTH), float(BIT_RADIUS))
        return (bit, (float(BIT_LENGTH), float(self.length), float(self.radius)))


@dataclass(frozen=True)
class Reach:
    """Whether one fastener can be driven."""

    driven: Driven
    free: bool
    blocked_by: int | None = None  # index of the first obstacle in the way
    room: Fraction | None = None  # [in] free length before it, None when free


def reach(fastening: Fastening, obstacles: Sequence[Box], driver: DriverRoom = DriverRoom()) -> tuple[Reach, ...]:
    """For every fastener of a joint, whether a driver fits.

    Args:
        fastening: the fasteners; heads and tips [in] in the same space as the obstacles.
        obstacles: what is mounted already, without the two pieces of this joint.
        driver: length and radius of the driver [in].
    """
    boxes = [box.floats for box in obstacles]
    return tuple(_reach_one(driven, fastening.fastener.kind, boxes, driver) for driven in fastening.driven)


def _reach_one(driven: Driven, kind: str, obstacles: Sequence[Solid], driver: DriverRoom) -> Reach:
    best = in_the_way(driven.floats, kind, obstacles, driver)
    if best is None:
        return Reach(driven, True)
    return Reach(driven, False, best[1], Fraction(best[0]).limit_denominator(6400))


def in_the_way(line: Solid, kind: str, obstacles: Sequence[Solid], driver: DriverRoom) -> tuple[float, int] | None:
    """Free length before what stands nearest in a driver's way [in], and which of the obstacles that is; None if free.

    Args:
        line: head and tip of the fastener [in].
        kind: of the fastener.
        obstacles: corners of what is there [in].
        driver: length and radius of the driver [in].
    """
    return _Column(line, kind, SOCKET if kind == "carriage bolt" else driver.rooms).first(obstacles)


class _Column:
    """The room that a tool needs on one fastener's axis."""

    def __init__(self, line: Solid, kind: str, rooms: Rooms) -> None:
        start, back = (line[1], line[0]) if kind == "carriage bolt" else line
        self.axis = 0 if start[0] != back[0] else 1 if start[1] != back[1] else 2
        self.upward, self.rooms = start[self.axis] > back[self.axis], rooms
        self.one, self.other = ACROSS[self.axis]
        self.level, self.x, self.y = start[self.axis], start[self.one], start[self.other]
        self.widest = max([radius for _, _, radius in rooms])
        self.deepest = max([end for _, end, _ in rooms])

    def first(self, obstacles: Sequence[Solid]) -> tuple[float, int] | None:
        """Free length before the nearest box that meets the bit or the driver [in], and which box that is."""
        x, y, one, other, widest = self.x, self.y, self.one, self.other, self.widest
        best: tuple[float, int] | None = None
        for index, (lo, hi) in enumerate(obstacles):
            if lo[one] - x >= widest or x - hi[one] >= widest or lo[other] - y >= widest or y - hi[other] >= widest:
                continue  # most stand elsewhere
            room = self._before(lo, hi)
            if room is not None and (best is None or room < best[0]):
                best = (room, index)
        return best

    def _before(self, lo: Floats, hi: Floats) -> float | None:
        """Free length on the axis before a box meets the bit or the driver [in], None when it meets neither."""
        low, high = lo[self.axis] - self.level, hi[self.axis] - self.level
        near, far = (low, high) if self.upward else (-high, -low)
        if far <= 0 or near >= self.deepest:
            return None
        across = max(lo[self.one] - self.x, self.x - hi[self.one], 0.0)
        square = across**2 + max(lo[self.other] - self.y, self.y - hi[self.other], 0.0) ** 2
        for begin, end, radius in self.rooms:
            if square < radius * radius - 1e-9 and near < end and far > begin:
                return max(begin, near)
        return None
