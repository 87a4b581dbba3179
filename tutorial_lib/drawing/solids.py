"""Boxes seen from above and to one side: projection, which stands before which, and their visible faces.

The eye is far off beyond the foot end, the left side and the top, so that a box shows its foot-side, left and top face.
Boxes are drawn from the back to the front. Two boxes that don't share space are parted by a plane across an axis: the
one on the eye's side of it is in front. Where boxes stand in a ring, each before the next, one of them is cut.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import cos, dist, prod, radians, sin

from tutorial_lib.records import dataclass

Spot = tuple[float, float, float]
Flat = tuple[float, float]
COS, SIN = cos(radians(30)), sin(radians(30))
TOUCH = 1e-9  # [in] faces this close touch
FACES = ((0, 1), (1, -1), (2, 1))  # axis and direction of the faces that the eye sees


@dataclass(frozen=True)
class Solid:
    """A box to be drawn."""

    lo: Spot
    hi: Spot
    label: str = ""
    new: bool = False
    cuts: tuple[tuple[int, float], ...] = ()  # planes it was cut along: their edges are no edges of the piece


def project(spot: Spot) -> Flat:
    """A place in space on the drawing [in]: isometric, all three axes to one scale.

    >>> project((0.0, 0.0, 5.0))
    (0.0, 5.0)
    """
    x, y, z = spot
    return ((x + y) * COS, z + (y - x) * SIN)


def ranges(solid: Solid) -> tuple[Flat, Flat, Flat]:
    """The three widths of a box's outline on the drawing: across the edges along z, x and y."""
    (x0, y0, z0), (x1, y1, z1) = solid.lo, solid.hi
    return (x0 + y0, x1 + y1), (y0 + z0, y1 + z1), (z0 - x1, z1 - x0)


def overlap(a: Solid, b: Solid) -> bool:
    """True if the outlines of two boxes share some area on the drawing."""
    return all(p[0] < q[1] - TOUCH and q[0] < p[1] - TOUCH for p, q in zip(ranges(a), ranges(b), strict=True))


def touching(a: Solid, b: Solid) -> bool:
    """True if two boxes touch in space."""
    return all(a.lo[n] <= b.hi[n] + TOUCH and b.lo[n] <= a.hi[n] + TOUCH for n in range(3))


def before(a: Solid, b: Solid) -> bool:
    """True if a plane parts the two with ``a`` on the eye's side."""
    return a.lo[0] >= b.hi[0] - TOUCH or a.hi[1] <= b.lo[1] + TOUCH or a.lo[2] >= b.hi[2] - TOUCH


def back_to_front(solids: Iterable[Solid]) -> list[Solid]:
    """The boxes in the order they have to be drawn; equal ones as given, so that it is always the same."""
    left = list(solids)
    order: list[Solid] = []
    while left:
        free = next((s for s in left if not any(in_front(s, other) for other in left if other is not s)), None)
        if free is None:
            left = _cut_ring(left)
            continue
        order.append(free)
        left.remove(free)
    return order


def in_front(front: Solid, back: Solid) -> bool:
    """True if ``front`` stands before ``back`` on the drawing, so that it has to be drawn after it."""
    return overlap(front, back) and before(front, back) and not before(back, front)


def seen(solid: Solid, others: Iterable[Solid], steps: int = 8) -> float:
    """The share of a box's outline that no other box stands before, by a grid of places on each face.

    Args:
        solid: the box.
        others: all boxes that are drawn; itself may be one of them.
        steps: places along each side of a face.
    """
    before_it = _hiding(solid, others)
    size = [high - low for low, high in zip(solid.lo, solid.hi, strict=True)]
    whole = free = 0.0
    for axis, sign in FACES:
        area = prod(size[n] for n in range(3) if n != axis)  # all three are drawn to one scale
        for place in _on_face(solid, axis, sign, steps):
            whole += area
            free += area * (not any(_within(place, outline) for outline in before_it))
    return free / whole


def in_sight(solid: Solid, others: Iterable[Solid], wanted: Spot, steps: int = 9) -> Spot | None:
    """A wanted place on a box where nothing stands before it, else the middle of what is seen of its clearest face.

    Args:
        solid: the box.
        others: all boxes that are drawn; itself may be one of them.
        wanted: a place on one of its faces that the eye sees [in].
        steps: places along each side of a face.

    Returns:
        The place [in]; None where all of the box is hidden.
    """
    before_it = _hiding(solid, others)

    def free(place: Spot) -> bool:
        return not any(_within(place, outline) for outline in before_it)

    if free(wanted):
        return wanted
    size = [high - low for low, high in zip(solid.lo, solid.hi, strict=True)]
    clear = [(axis, [*filter(free, _on_face(solid, axis, sign, steps))]) for axis, sign in FACES]
    _, clearest = max(clear, key=lambda face: len(face[1]) / size[face[0]])  # of equal cells on three faces of one box
    middle = [sum(along) / len(clearest) for along in zip(*clearest, strict=True)]
    return min(clearest, key=lambda place: round(dist(place, middle), 6), default=None)  # the first of equals anywhere


def _hiding(solid: Solid, others: Iterable[Solid]) -> list[tuple[Flat, Flat, Flat]]:
    """The outlines of the boxes that stand before one."""
    return [ranges(other) for other in others if other is not solid and in_front(other, solid)]


def _on_face(solid: Solid, axis: int, sign: int, steps: int) -> Iterator[Spot]:
    """The middles of the cells of a face."""
    level = solid.hi[axis] if sign > 0 else solid.lo[axis]
    a, b = (n for n in range(3) if n != axis)
    for i, j in itertools.product(range(steps), repeat=2):
        spot = [level, level, level]
        for n, k in ((a, i), (b, j)):
            spot[n] = solid.lo[n] + (solid.hi[n] - solid.lo[n]) * (k + 0.5) / steps
        yield spot[0], spot[1], spot[2]


def _within(spot: Spot, outline: tuple[Flat, Flat, Flat]) -> bool:
    x, y, z = spot
    return all(low < at < high for at, (low, high) in zip((x + y, y + z, z - x), outline, strict=True))


def _cut_ring(left: list[Solid]) -> list[Solid]:
    """The boxes with one of a ring cut in two along a plane of its neighbour."""
    ring = _ring(left)
    for solid, other in itertools.permutations(ring, 2):
        for axis, plane in _planes_through(solid, other):
            return [piece for s in left for piece in (_halves(s, axis, plane) if s is solid else (s,))]
    return _one_first(left, ring)


def _planes_through(solid: Solid, other: Solid) -> Iterator[tuple[int, float]]:
    """The planes of another box's faces that cut through this one, by axis and level."""
    for axis in range(3):
        for plane in (other.lo[axis], other.hi[axis]):
            if solid.lo[axis] + TOUCH < plane < solid.hi[axis] - TOUCH:
                yield axis, plane


def _one_first(left: list[Solid], ring: list[Solid]) -> list[Solid]:
    """Boxes that share space can't be parted: one is taken as it is."""
    return [s for s in left if s is not ring[0]]


def _ring(left: list[Solid]) -> list[Solid]:
    """Some boxes of which each hides the next."""
    path = [left[0]]
    while True:
        behind = next(s for s in left if s is not path[-1] and in_front(path[-1], s))
        if any(s is behind for s in path):
            return path[next(i for i, s in enumerate(path) if s is behind) :]
        path.append(behind)


def _halves(solid: Solid, axis: int, plane: float) -> tuple[Solid, Solid]:
    low, high = list(solid.hi), list(solid.lo)
    low[axis], high[axis] = plane, plane
    cuts = (*solid.cuts, (axis, plane))
    return (
        replace(solid, hi=(low[0], low[1], low[2]), cuts=cuts),
        replace(solid, lo=(high[0], high[1], high[2]), cuts=cuts),
    )


def faces(solid: Solid) -> Iterator[tuple[tuple[Flat, ...], list[tuple[Flat, Flat]], int]]:
    """The faces the eye sees: outline, edges to be inked, and the axis of the normal."""
    for axis, sign in FACES:
        level = solid.hi[axis] if sign > 0 else solid.lo[axis]
        if any(cut == (axis, level) for cut in solid.cuts):
            continue
        corners = _corners(solid, axis, level)
        edges = [
            (a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True) if not _is_cut(a, b, solid.cuts)
        ]
        yield tuple(project(c) for c in corners), [(project(a), project(b)) for a, b in edges], axis


def _corners(solid: Solid, axis: int, level: float) -> list[Spot]:
    first, second = (i for i in range(3) if i != axis)
    corners = []
    for a, b in ((solid.lo, solid.lo), (solid.hi, solid.lo), (solid.hi, solid.hi), (solid.lo, solid.hi)):
        spot = [0.0, 0.0, 0.0]
        spot[axis], spot[first], spot[second] = level, a[first], b[second]
        corners.append((spot[0], spot[1], spot[2]))
    return corners


def _is_cut(a: Spot, b: Spot, cuts: Sequence[tuple[int, float]]) -> bool:
    return any(a[axis] == plane == b[axis] for axis, plane in cuts)
