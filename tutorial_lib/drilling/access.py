"""Is there room for the driver? A pure function of where a fastener is driven and what stands in the way.

The room is a round column on the fastener's axis, outward from where the tool grips it: the bit, 3/8 in in radius
over its first 3 in, then the driver's body (trade practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.design.fasteners import Driven, Fastening
from tutorial_lib.design.model import Box, Point

BIT_RADIUS = Fraction(3, 8)  # [in]
BIT_LENGTH = Fraction(3)  # [in]


@dataclass(frozen=True)
class DriverRoom:
    """The room a drill or driver needs."""

    length: Fraction = Fraction(8)  # [in] bit and body together
    radius: Fraction = Fraction(5, 4)  # [in] of the body


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
    return tuple(_reach_one(driven, fastening.fastener.kind, obstacles, driver) for driven in fastening.driven)


def _reach_one(driven: Driven, kind: str, obstacles: Sequence[Box], driver: DriverRoom) -> Reach:
    start, back = (driven.tip, driven.head) if kind == "carriage bolt" else (driven.head, driven.tip)
    axis = next(i for i in range(3) if start[i] != back[i])
    sign = 1 if start[axis] > back[axis] else -1
    best: tuple[Fraction, int] | None = None
    for index, box in enumerate(obstacles):
        room = _room_before(start, axis, sign, box, driver)
        if room is not None and (best is None or room < best[0]):
            best = (room, index)
    return Reach(driven, True) if best is None else Reach(driven, False, best[1], best[0])


def _room_before(start: Point, axis: int, sign: int, box: Box, driver: DriverRoom) -> Fraction | None:
    """Free length on the axis before the box meets the bit or the driver [in], None when it meets neither."""
    ends = sorted((sign * (box.lo[axis] - start[axis]), sign * (box.hi[axis] - start[axis])))
    square = sum((_outside(start[i], box.lo[i], box.hi[i]) ** 2 for i in range(3) if i != axis), Fraction(0))
    for begin, end, radius in ((Fraction(0), BIT_LENGTH, BIT_RADIUS), (BIT_LENGTH, driver.length, driver.radius)):
        if square < radius * radius and ends[0] < end and ends[1] > begin:
            return max(begin, ends[0])
    return None


def _outside(x: Fraction, lo: Fraction, hi: Fraction) -> Fraction:
    """How far a coordinate is outside an interval [in]."""
    return max(lo - x, x - hi, Fraction(0))
