"""Where a hole may be moved to in the room there is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor

from tutorial_lib.design.model import Axis, Point
from tutorial_lib.drilling.placing import Room, Spot

STEP, FARTHEST = Fraction(1, 8), Fraction(3)  # [in] moves that are tried


def slides_of(spot: Spot, free: Room, middle: Sequence[Fraction], but_for: Room | None = None) -> Iterator[Point]:
    """Places to try in turn inside the room there is, nearest first, toward the bed's middle [in] before away from it.

    So a hole and its partner on the bed's other side, or at its other end, move alike. Places in the room ``but_for``
    are left out.
    """
    ways = [way for axis in spot.slides for way in _ways(spot.at[axis], free, axis, middle)]
    known = [way for axis in spot.slides for way in _ways(spot.at[axis], but_for, axis, middle)] if but_for else None
    for i in range(1, int(FARTHEST / STEP) + 1):
        for number, (axis, way, least, most) in enumerate(ways):
            if least <= i <= most and not (known and known[number][2] <= i <= known[number][3]):
                x, y, z = (at + way * i if k == axis else at for k, at in enumerate(spot.at))
                yield (x, y, z)


def _ways(
    at: Fraction, free: Room, axis: Axis, middle: Sequence[Fraction]
) -> Iterator[tuple[Axis, Fraction, int, int]]:
    """Both ways along an axis, toward the bed's middle first: a step, and how many of them at least and at most."""
    back, ahead = (at - free.hi[axis], at - free.lo[axis]), (free.lo[axis] - at, free.hi[axis] - at)
    signs = (-1, 1) if axis < len(middle) and at > middle[axis] else (1, -1)
    for sign in signs:
        least, most = ahead if sign > 0 else back
        yield axis, sign * STEP, ceil(least / STEP), floor(most / STEP)
