"""What a person standing around the bed sees, and what a hand meets.

Eyes are placed around the bed, near and far; a patch is seen when the straight line from one of them reaches
its middle with nothing in between. A patch is touched when a hand lying on it comes from the open in one straight
move. Floats are fine here: the answer is yes or no, and patches are looked at in their middle.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import dist

from tutorial_lib.design.model import Box, Build
from tutorial_lib.records import dataclass

Spot = tuple[float, float, float]
Solid = tuple[Spot, Spot]
GLANCE = 0.1  # a face turned further away than this (sine of 6 degrees) is not seen
SLACK = 1e-6  # [in] surfaces that touch the line don't hide


@dataclass(frozen=True, kw_only=True)
class Watcher:
    """Where people stand and how far a hand reaches. Our choice, no source."""

    eye: float = 62  # [in] height of a standing eye
    near: float = 18  # [in] from the bed, standing beside it
    far: float = 96  # [in] from the bed, across the room
    hand: float = 0.75  # [in] thickness of fingers lying on a face
    breadth: float = 2.5  # [in] of a hand
    reach: float = 6  # [in] how far in a hand goes


def solid(box: Box) -> Solid:
    """A box in floats."""
    return box.floats


def eyes(build: Build, watcher: Watcher) -> list[list[Spot]]:
    """Eyes beside every side and corner, near and far, and at the quarters of the long sides; each row is straight."""
    width, length = float(build.outside[0]), float(build.outside[1])
    rows = []
    for off in (watcher.near, watcher.far):
        xs = (-off, 0.0, length / 4, length / 2, 3 * length / 4, length, length + off)
        rows += [[(x, y, watcher.eye) for x in xs] for y in (-off, width + off)]
        rows += [[(x, y, watcher.eye) for y in (0.0, width / 2, width)] for x in (-off, length + off)]
    return rows


def facing(rows: Iterable[Iterable[Spot]], axis: int, sign: int, level: float) -> list[list[Spot]]:
    """Of each row the eyes before a face's plane [in]."""
    found = ([eye for eye in row if (eye[axis] - level) * sign > 0] for row in rows)
    return [row for row in found if row]


def blocked(start: Spot, end: Spot, solids: Iterable[Solid]) -> bool:
    """True if a straight line passes through the inside of a solid."""
    way = _way(start, end)
    return any(_meets(start, way, solid) for solid in solids)


def _blocked_again(start: Spot, end: Spot, solids: list[Solid]) -> bool:
    """The same; what stands in the way is put first, for it often stands in the next line's way too."""
    way = _way(start, end)
    for place, solid in enumerate(solids):
        if _meets(start, way, solid):
            if place:
                solids.insert(0, solids.pop(place))
            return True
    return False


def _way(start: Spot, end: Spot) -> Spot:
    return end[0] - start[0], end[1] - start[1], end[2] - start[2]


def _meets(start: Spot, way: Spot, solid: Solid) -> bool:
    """Whether some of the line lies between each pair of the solid's sides at once; shares of the line's length."""
    enter, leave = 0.0, 1.0
    lows, highs = solid
    for i in (2, 1, 0):  # upward first: there most stand out of the way
        at, step, low, high = start[i], way[i], lows[i], highs[i]
        if step > 0:
            into, out = (low + SLACK - at) / step, (high - SLACK - at) / step
        elif step < 0:
            into, out = (high - SLACK - at) / step, (low + SLACK - at) / step
        elif low + SLACK < at < high - SLACK:
            continue
        else:
            return False
        if into > enter:
            enter = into
        if out < leave:
            leave = out
        if enter >= leave:
            return False
    return True


def in_front(solids: Iterable[Solid], axis: int, sign: int, level: float) -> list[Solid]:
    """The solids that reach beyond a face's plane: none of the others hides it [in]."""
    if sign > 0:
        return [solid for solid in solids if solid[1][axis] > level]
    return [solid for solid in solids if solid[0][axis] < level]


def seen(middle: Spot, axis: int, sign: int, rows: list[list[Spot]], solids: list[Solid]) -> bool:
    """True if an eye in front of a patch sees its middle, not only at a glance along it.

    Args:
        middle: of the patch [in].
        axis, sign: its outward normal.
        rows: eyes [in] (:func:`facing`); the row that sees it is put first, for it often sees the next patch too.
        solids: all that may stand in the way (:func:`in_front`); their order changes.
    """
    for place, row in enumerate(rows):
        if _shaded(middle, row, solids):
            continue
        for eye in row:
            off = (eye[axis] - middle[axis]) * sign
            if off > GLANCE * dist(eye, middle) and not _blocked_again(eye, middle, solids):
                rows.insert(0, rows.pop(place))
                return True
    return False


def _shaded(middle: Spot, row: Sequence[Spot], solids: list[Solid]) -> bool:
    """True if one solid hides a spot from both ends of a row of eyes, and so, being convex, from all between them."""
    return len(row) > 1 and _blocked_again(row[0], middle, solids) and _meets(row[-1], _way(row[-1], middle), solids[0])


def touched(middle: Spot, axis: int, sign: int, hull: Solid, solids: Sequence[Solid], watcher: Watcher) -> bool:
    """True if a hand lying on a patch comes from the open, over the top or from outside, in a straight move."""
    lying = list(middle)
    lying[axis] += sign * watcher.hand
    if lying[2] < 0:  # under the floor
        return False
    hand = (lying[0], lying[1], lying[2])
    return any(
        _free(hand, way, along, axis, solids, watcher.breadth) for along, way in _ways_out(hand, hull, watcher.reach)
    )


def _free(hand: Spot, way: Spot, along: int, normal: int, solids: Sequence[Solid], breadth: float) -> bool:
    """True if the whole breadth of a hand gets through."""
    shifts = [(i, d) for i in range(3) if i not in (along, normal) for d in (-breadth / 2, breadth / 2)]
    lines = [(hand, way), *((_moved(hand, i, d), _moved(way, i, d)) for i, d in shifts)]
    near = _between(lines, solids)
    return all(not blocked(start, end, near) for start, end in lines)


def _between(lines: Sequence[tuple[Spot, Spot]], solids: Iterable[Solid]) -> list[Solid]:
    """The solids that reach into the room the lines take."""
    ends = [spot for line in lines for spot in line]
    a0, b0, c0 = map(min, zip(*ends, strict=True))
    a1, b1, c1 = map(max, zip(*ends, strict=True))
    return [
        (lo, hi)
        for lo, hi in solids
        if lo[2] < c1 and c0 < hi[2] and lo[1] < b1 and b0 < hi[1] and lo[0] < a1 and a0 < hi[0]
    ]


def _moved(spot: Spot, axis: int, by: float) -> Spot:
    moved = list(spot)
    moved[axis] += by
    return (moved[0], moved[1], moved[2])


def _ways_out(hand: Spot, hull: Solid, reach: float) -> Iterator[tuple[int, Spot]]:
    """Ends of the straight moves, sideways or up, that leave the bed's own outline within reach."""
    for axis in range(3):
        for direction in (-1, 1) if axis < 2 else (1,):
            bound = hull[1][axis] if direction > 0 else hull[0][axis]
            if (bound - hand[axis]) * direction <= reach:
                end = list(hand)
                end[axis] = max(bound, hand[axis]) + 1 if direction > 0 else min(bound, hand[axis]) - 1
                yield axis, (end[0], end[1], end[2])
