"""Is there room for the driver? A pure function of where a fastener is driven and what stands in the way.

The room is a round column on the fastener's axis, outward from where the tool grips it: the bit, 3/8 in in radius
over its first 3 in, then the driver's body (trade practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.design.fasteners import Driven, Fastening
from tutorial_lib.design.model import Box, Floats

BIT_RADIUS = Fraction(3, 8)  # [in]
BIT_LENGTH = Fraction(3)  # [in]
SOCKET_RADIUS = Fraction(1, 2)  # [in] a nut is turned from the side: only its socket or spanner needs room


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
    boxes = [box.floats for box in obstacles]
    return tuple(_reach_one(driven, fastening.fastener.kind, boxes, driver) for driven in fastening.driven)


def _reach_one(driven: Driven, kind: str, obstacles: Sequence[tuple[Floats, Floats]], driver: DriverRoom) -> Reach:
    start, back = (driven.tip, driven.head) if kind == "carriage bolt" else (driven.head, driven.tip)
    axis = next(i for i in range(3) if start[i] != back[i])
    sign = 1 if start[axis] > back[axis] else -1
    grip = (float(start[0]), float(start[1]), float(start[2]))
    columns: tuple[tuple[float, float, float], ...] = (
        (0.0, float(BIT_LENGTH), float(BIT_RADIUS)),
        (float(BIT_LENGTH), float(driver.length), float(driver.radius)),
    )
    if kind == "carriage bolt":
        columns = ((0.0, float(BIT_LENGTH), float(SOCKET_RADIUS)),)
    best: tuple[float, int] | None = None
    for index, (lo, hi) in enumerate(obstacles):
        room = _room_before(grip, axis, sign, lo, hi, columns)
        if room is not None and (best is None or room < best[0]):
            best = (room, index)
    return (
        Reach(driven, True)
        if best is None
        else Reach(driven, False, best[1], Fraction(best[0]).limit_denominator(6400))
    )


def _room_before(
    start: Floats, axis: int, sign: int, lo: Floats, hi: Floats, columns: tuple[tuple[float, float, float], ...]
) -> float | None:
    """Free length on the axis before the box meets the bit or the driver [in], None when it meets neither."""
    near, far = sorted((sign * (lo[axis] - start[axis]), sign * (hi[axis] - start[axis])))
    if far <= 0:
        return None
    square = sum(max(lo[i] - start[i], start[i] - hi[i], 0.0) ** 2 for i in range(3) if i != axis)
    for begin, end, radius in columns:
        if square < radius * radius - 1e-9 and near < end and far > begin:
            return max(begin, near)
    return None
