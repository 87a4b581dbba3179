"""Where the fasteners of one joint go on the face its pieces share, before they are moved out of each other's way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from tutorial_lib.design.model import Axis, Box, Joint, Piece, Point

GRID = Fraction(1, 16)
AXES: tuple[Axis, ...] = (0, 1, 2)
_UP: tuple[Axis, ...] = (2,)
ROW_FROM = Fraction(12)  # [in] a shared face at least this long takes a row of screws
OPEN_SPACING = Fraction(8)  # [in] when neither load nor build file says (common practice, no source)
STEP, FARTHEST = Fraction(1, 8), Fraction(3)  # [in] moves that are tried
STAGGER_FROM = Fraction(2)  # [in] narrower faces take their screws in one line
SHELF_INSET = Fraction(3, 2)  # [in] on a wide shelf, so that the driver clears the rail (common practice, no source)
CORNER_EDGE = Fraction(5, 4)  # [in] outer corner screws from the rail's edges


@dataclass(frozen=True)
class Spot:
    """One place on the shared face, and how it may move."""

    at: Point  # [in] on the shared face
    stated: bool
    slides: tuple[Axis, ...]  # axes along which it may move when its place was left open


@dataclass(frozen=True)
class Wish:
    """What is asked of a row or group of fasteners."""

    count: int | None = None
    inset: Fraction | None = None  # [in] stated, from the near piece's end
    spacing: Fraction | None = None  # [in] stated
    end_distance: Fraction = Fraction(2)  # [in] kept when we choose
    edge: Fraction = Fraction(1, 2)  # [in] kept when we choose
    greatest: Fraction = OPEN_SPACING  # [in] greatest spacing when we choose


def on_grid(x: Fraction, grid: Fraction = GRID) -> Fraction:
    """The nearest mark of the tape; a tie goes up."""
    return floor(x / grid + Fraction(1, 2)) * grid


def row_places(length: Fraction, wish: Wish, grid: Fraction = GRID) -> list[Fraction]:
    """Places along a piece from its end [in]: stated steps, or evened out between the end distances.

    >>> [str(x) for x in row_places(Fraction(147, 2), Wish(inset=Fraction(3, 4), spacing=Fraction(9)))][::8]
    ['3/4', '291/4']
    """
    inset = wish.inset if wish.inset is not None else min(wish.end_distance, length / 4)
    span = length - 2 * inset
    if span <= 0:
        return [length / 2]
    if wish.spacing is not None and wish.count is None:
        return _stepped(inset, span, wish.spacing)
    count = wish.count or ceil(span / wish.greatest) + 1
    if count == 1:
        return [length / 2]
    return even(length, inset, count, grid)


def even(length: Fraction, first: Fraction, count: int, grid: Fraction = GRID) -> list[Fraction]:
    """Places evened out between both ends [in], on the tape's marks from either end, so that they stay symmetrical.

    >>> [str(x) for x in even(Fraction(7, 2), Fraction(1), 3)]
    ['1', '7/4', '5/2']
    """
    span = length - 2 * first
    low = [on_grid(first + span * i / (count - 1), grid) for i in range(count // 2)] if count > 1 else []
    middle = [length / 2] if count % 2 else []
    return [*low, *middle, *(length - place for place in reversed(low))]


def _stepped(inset: Fraction, span: Fraction, spacing: Fraction) -> list[Fraction]:
    """Every ``spacing`` from the first; one more at the far end when a third of a space or more is left over."""
    steps = floor(span / spacing)
    places = [inset + spacing * i for i in range(steps + 1)]
    if span - steps * spacing >= spacing / 3:
        places.append(inset + span)
    return places


def _axes(joint: Joint) -> tuple[Axis, Axis]:
    """The two axes of the shared face, the longer side first."""
    a, b = (axis for axis in (0, 1, 2) if axis != joint.axis)
    size = joint.contact.size
    return (a, b) if size[a] >= size[b] else (b, a)  # type: ignore[return-value]


def _point(joint: Joint, places: dict[int, Fraction]) -> Point:
    level = joint.contact.lo[joint.axis] if joint.sign > 0 else joint.contact.hi[joint.axis]
    x, y, z = (level if axis == joint.axis else places[axis] for axis in range(3))
    return (x, y, z)


def row(joint: Joint, near: Piece, wish: Wish, grid: Fraction = GRID, turned: bool = False) -> list[Spot]:
    """A row along the near piece, on the middle of the shared strip; ``turned`` counts it from the other end."""
    along = near.axis
    across = next(axis for axis in (0, 1, 2) if axis not in (joint.axis, along))
    middle = joint.contact.centre[across]
    start, lo, hi = near.box.lo[along], joint.contact.lo[along], joint.contact.hi[along]
    if wish.inset is None and wish.spacing is None:
        start, length = lo, hi - lo  # left open: evened out over the shared length
    else:
        length = near.length
    stated = wish.inset is not None or wish.spacing is not None
    steps = row_places(length, wish, grid)
    places = sorted(start + (length - step if turned else step) for step in steps)
    return [
        Spot(_point(joint, {along: place, across: middle}), stated, (along,)) for place in places if lo <= place <= hi
    ]


def corner(joint: Joint, count: int | None, grid: Fraction = GRID) -> list[Spot]:
    """Screws one above the other, the outer ones 1 1/4 in from the rail's edges (common practice, no source)."""
    box = joint.contact
    depth = box.size[2]
    count = count or max(2, ceil(depth / 2))
    across = next(axis for axis in (0, 1) if axis != joint.axis)
    edge = min(CORNER_EDGE, depth / 4)
    steps = even(depth, edge, count, grid)
    return [Spot(_point(joint, {across: box.centre[across], 2: box.lo[2] + step}), False, _UP) for step in steps]


def slat_end(joint: Joint, slat: Piece, wish: Wish, shift: Fraction | None, grid: Fraction = GRID) -> list[Spot]:
    """Screws at a slat's end: on the middle of its bearing or at the stated inset, on the slat's centre line.

    Args:
        joint: slat to its support.
        slat: the slat.
        wish: count and inset.
        shift: stated distance off the centre line, with its sign [in]; None for all but the end slats.
    """
    along = slat.axis
    across: Axis = next(axis for axis in AXES if axis not in (joint.axis, along))
    at_low = joint.contact.centre[along] < slat.box.centre[along]
    end = slat.box.lo[along] if at_low else slat.box.hi[along]
    bearing = abs(joint.contact.centre[along] - end)
    width = joint.contact.size[along]
    wanted = max(bearing, min(SHELF_INSET, width - Fraction(1, 2))) if width >= Fraction(7, 4) else bearing
    inset = wish.inset if wish.inset is not None else max(on_grid(wanted, grid), Fraction(1, 2))
    place = end + inset if at_low else end - inset
    lo, wide = slat.box.lo[across], slat.box.size[across]
    count = wish.count or (2 if wide >= 4 else 1)
    parts = [Fraction(2 * i + 1, 2 * count) for i in range(count)]
    stated = shift is not None
    slides: tuple[Axis, ...] = (across,)
    return [
        Spot(_point(joint, {along: place, across: lo + wide * part + (shift or 0)}), stated, slides) for part in parts
    ]


def slat_middle(joint: Joint) -> list[Spot]:
    """One screw in the middle of the face a slat shares with a line below it."""
    centre = joint.contact.centre
    axes = _axes(joint)
    return [Spot(_point(joint, {axis: centre[axis] for axis in axes}), False, (0,))]


def group(joint: Joint, count: int, edge: Fraction, grid: Fraction = GRID, turned: bool = False) -> list[Spot]:
    """A few fasteners staggered over the shared face: along its longer side, to and fro across the shorter.

    With ``turned`` the stagger begins at the other side, so that the bed's right side is its left side turned round
    and both are drilled alike.

    >>> box = Box((Fraction(0), Fraction(0), Fraction(0)), (Fraction(7, 2), Fraction(0), Fraction(9, 4)))
    >>> spots = group(Joint(kind="leg", near="a", far="b", axis=1, sign=1, contact=box), 2, Fraction(1, 2))
    >>> [(str(x), str(z)) for x, y, z in (spot.at for spot in spots)]
    [('1', '3/2'), ('5/2', '3/4')]
    """
    long, short = _axes(joint)
    box = joint.contact
    a, b = box.size[long], box.size[short]
    if count == 1:
        return [Spot(_point(joint, {long: box.centre[long], short: box.centre[short]}), False, (long, short))]
    end = max(edge, on_grid(a * 2 / 7, grid)) if a > 2 * edge else a / 4
    side = max(edge, on_grid(b / 3, grid)) if b >= max(2 * edge, STAGGER_FROM) else b / 2
    steps = [box.lo[long] + place for place in even(a, end, count, grid)]
    sides = [box.hi[short] - side, box.lo[short] + side]
    if turned and joint.axis == 1:
        sides.reverse()
    return [
        Spot(_point(joint, {long: step, short: sides[i % 2]}), False, (long, short)) for i, step in enumerate(steps)
    ]


def square(joint: Joint, edge: Fraction) -> list[Spot]:
    """Four screws near the corners of a flange."""
    a, b = _axes(joint)
    box = joint.contact
    return [
        Spot(_point(joint, {a: x, b: y}), False, (a, b))
        for x in (box.lo[a] + edge, box.hi[a] - edge)
        for y in (box.lo[b] + edge, box.hi[b] - edge)
    ]


def slides_of(spot: Spot, box: Box, edge: Fraction, turned: bool = False) -> Iterator[Point]:
    """Places to try in turn, nearest first, inside the shared face less ``edge`` [in]."""
    for i in range(1, int(FARTHEST / STEP) + 1):
        for axis in spot.slides:
            ahead = -1 if turned and axis != 2 else 1
            for way in (ahead * STEP * i, -ahead * STEP * i):
                place = spot.at[axis] + way
                if box.lo[axis] + edge <= place <= box.hi[axis] - edge:
                    x, y, z = (place if k == axis else spot.at[k] for k in range(3))
                    yield (x, y, z)
