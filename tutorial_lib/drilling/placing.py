"""Where the fasteners of one joint go on the face its pieces share, before they are moved out of each other's way."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil, floor

from tutorial_lib.design.model import Axis, Box, Joint, Piece, Point
from tutorial_lib.records import dataclass

GRID = Fraction(1, 16)
AXES: tuple[Axis, ...] = (0, 1, 2)
_UP: tuple[Axis, ...] = (2,)
ROW_FROM = Fraction(12)  # [in] a shared face at least this long takes a row of screws
OPEN_SPACING = Fraction(8)  # [in] when neither load nor build file says (common practice, no source)
STAGGER_FROM = Fraction(2)  # [in] narrower faces take their screws in one line
SHELF_INSET = Fraction(3, 2)  # [in] on a wide shelf, so that the driver clears the rail (common practice, no source)
CORNER_EDGE = Fraction(5, 4)  # [in] outer corner screws from the rail's edges


@dataclass(frozen=True)
class Spot:
    """One place on the shared face, and how it may move."""

    at: Point  # [in] on the shared face
    stated: bool
    slides: tuple[Axis, ...]  # axes along which it may move when its place was left open


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What is asked of a row or group of fasteners."""

    count: int | None = None
    inset: Fraction | None = None  # [in] stated, from the near piece's end
    spacing: Fraction | None = None  # [in] stated
    end_distance: Fraction = Fraction(2)  # [in] kept when we choose
    edge: Fraction = Fraction(1, 2)  # [in] kept when we choose
    greatest: Fraction = OPEN_SPACING  # [in] greatest spacing when we choose
    seat: Fraction | None = None  # [in] what a slat's end bears on along its length, on a leg as beside it
    deep: bool = False  # slats lie so far below the rail that the driver's body meets it
    taken: tuple[tuple[Fraction, Fraction], ...] = ()  # [in] stretches where no driver gets in


def on_grid(x: Fraction, grid: Fraction = GRID) -> Fraction:
    """The nearest mark of the tape; a tie goes up.

    >>> on_grid(Fraction(5, 32)), on_grid(Fraction(1, 3))
    (Fraction(3, 16), Fraction(5, 16))
    """
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


def spot(joint: Joint, places: dict[int, Fraction], slides: tuple[Axis, ...]) -> Spot:
    """A place on the shared face that was left open, by its axes [in]."""
    return Spot(_point(joint, places), False, slides)


def row(joint: Joint, near: Piece, wish: Wish, grid: Fraction = GRID, turned: bool = False) -> list[Spot]:
    """A row along the near piece, on the middle of the shared strip; ``turned`` counts it from the other end."""
    along = near.axis
    across = next(axis for axis in (0, 1, 2) if axis not in (joint.axis, along))
    middle = joint.contact.centre[across]
    lo, hi = joint.contact.lo[along], joint.contact.hi[along]
    stated = wish.inset is not None or wish.spacing is not None
    if stated:
        start, length = near.box.lo[along], near.length
        steps = row_places(length, wish, grid)
        places = sorted(start + (length - step if turned else step) for step in steps)
    else:  # left open: evened out over what is free of the shared length
        places = free_places(lo, hi, wish, grid)
    return [
        Spot(_point(joint, {along: place, across: middle}), stated, (along,)) for place in places if lo <= place <= hi
    ]


def free_places(lo: Fraction, hi: Fraction, wish: Wish, grid: Fraction = GRID) -> list[Fraction]:
    """Places between two ends, evened out on every stretch that nothing stands in the way of [in].

    >>> wish = Wish(end_distance=Fraction(2), greatest=Fraction(8), taken=((Fraction(18), Fraction(24)),))
    >>> [str(x) for x in free_places(Fraction(0), Fraction(42), wish)]
    ['2', '10', '18', '24', '32', '40']
    """
    free = stretches(lo, hi, wish) if wish.taken else []
    if not free:  # nothing stands in the way, or something does everywhere: then the driver's way in is told of
        return [lo + step for step in row_places(hi - lo, wish, grid)]
    places: list[Fraction] = []
    for start, end in free:
        span = end - start
        count = ceil(span / wish.greatest) + 1
        if span < wish.greatest / 2:
            places.append((start + end) / 2)
        else:
            places += [start + step for step in even(span, Fraction(0), count, grid)]
    middle = (lo + hi) / 2
    return [
        lo + _marked(x - lo, lo, 1, wish, grid)
        if x < middle
        else hi - _marked(hi - x, hi, -1, wish, grid)
        if x > middle
        else x
        for x in places
    ]


def _marked(x: Fraction, start: Fraction, way: int, wish: Wish, grid: Fraction) -> Fraction:
    """The tape's mark nearest a place counted from one end, off the stretches that are taken [in]."""
    marks = sorted((floor(x / grid) * grid, ceil(x / grid) * grid), key=lambda mark: abs(mark - x))
    free = [mark for mark in marks if not any(lo < start + way * mark < hi for lo, hi in wish.taken)]
    return free[0] if free else x


def stretches(lo: Fraction, hi: Fraction, wish: Wish) -> list[tuple[Fraction, Fraction]]:
    """What is left between the end distances when the places taken are left out [in]."""
    inset = min(wish.end_distance, (hi - lo) / 4)
    at, last, found = lo + inset, hi - inset, []
    for start, end in sorted(wish.taken):
        if min(start, last) > at:
            found.append((at, min(start, last)))
        at = max(at, end)
    return [*found, (at, last)] if at < last else found


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
        wish: count, inset and the edge kept when we choose.
        shift: stated distance off the centre line, with its sign [in]; None for all but the end slats.
    """
    along = slat.axis
    across: Axis = next(axis for axis in AXES if axis not in (joint.axis, along))
    place = _on_bearing(joint.contact, slat, wish, grid)
    lo, wide = slat.box.lo[across], slat.box.size[across]
    count = wish.count or (2 if wide >= 4 else 1)
    stated = shift is not None
    wanted_at = [lo + wide * Fraction(2 * i + 1, 2 * count) + (shift or 0) for i in range(count)]
    at = wanted_at if stated else _onto(wanted_at, joint.contact, across, wish)
    slides: tuple[Axis, ...] = (across,)
    return [Spot(_point(joint, {along: place, across: x}), stated, slides) for x in at]


def _on_bearing(face: Box, slat: Piece, wish: Wish, grid: Fraction) -> Fraction:
    """Along the slat: the stated inset from its end, or the middle of what it bears on there [in]."""
    along = slat.axis
    at_low = face.centre[along] < slat.box.centre[along]
    end, near = (slat.box.lo, face.lo) if at_low else (slat.box.hi, face.hi)
    width = face.size[along] if wish.seat is None else min(wish.seat, face.size[along])
    bearing = abs(near[along] - end[along]) + width / 2
    wanted = max(bearing, min(SHELF_INSET, width - Fraction(1, 2))) if wish.deep else bearing
    inset = wish.inset if wish.inset is not None else max(on_grid(wanted, grid), Fraction(1, 2))
    return end[along] + inset if at_low else end[along] - inset


def _onto(wanted: list[Fraction], face: Box, axis: Axis, wish: Wish) -> list[Fraction]:
    """The places, moved onto the face where a slat lies only partly on it: evened out over what it covers."""
    lo, hi = face.lo[axis] + wish.edge, face.hi[axis] - wish.edge
    if lo > hi:
        lo = hi = face.centre[axis]
    if all(lo <= x <= hi for x in wanted):
        return wanted
    count = len(wanted) if wish.count or hi - lo >= wish.end_distance else 1
    return [lo + (hi - lo) * Fraction(2 * i + 1, 2 * count) for i in range(count)]


def slat_middle(joint: Joint) -> list[Spot]:
    """One screw in the middle of the face a slat shares with a line below it."""
    centre = joint.contact.centre
    return [Spot(_point(joint, {axis: centre[axis] for axis in _axes(joint)}), False, (0,))]


@dataclass(frozen=True)
class Distances:
    """What a fastener keeps when we choose its place [in]."""

    end: Fraction  # from the ends of a piece, along its grain
    edge: Fraction  # from its edges
    row: Fraction  # between fasteners one behind the other along the grain
    rows: Fraction  # between rows, across the grain

    def apart(self, axis: int, pieces: Iterable[Piece]) -> Fraction:
        """Between two fasteners side by side along an axis [in]."""
        return max(self.row if axis == piece.axis else self.rows for piece in pieces)


@dataclass(frozen=True)
class Room:
    """Where on the shared face fasteners may stand, and how near one another [in], by axis."""

    lo: dict[int, Fraction]
    hi: dict[int, Fraction]
    apart: dict[int, Fraction]

    def holds(self, axis: int) -> int:
        """How many stand side by side along an axis."""
        return floor((self.hi[axis] - self.lo[axis]) / self.apart[axis]) + 1

    @property
    def most(self) -> int:
        """How many it holds in all."""
        a, b = self.lo
        return self.holds(a) * self.holds(b)


def room(joint: Joint, pieces: Iterable[Piece], distances: Distances) -> Room:
    """The part of the shared face that keeps a fastener's distances in all pieces it goes through.

    Where they can't all be kept half of the end distance is, and failing that the middle of the face is left.
    """
    through = tuple(pieces)
    lo: dict[int, Fraction] = {}
    hi: dict[int, Fraction] = {}
    for axis in _axes(joint):
        lo[axis], hi[axis] = _span(joint.contact, through, axis, distances)
    return Room(lo, hi, {axis: distances.apart(axis, through) for axis in _axes(joint)})


def _span(face: Box, pieces: Sequence[Piece], axis: Axis, distances: Distances) -> tuple[Fraction, Fraction]:
    for end in (distances.end, distances.end / 2):
        kept = [(piece, end if axis == piece.axis else distances.edge) for piece in pieces]
        lo = max([face.lo[axis], *(piece.box.lo[axis] + keep for piece, keep in kept)])
        hi = min([face.hi[axis], *(piece.box.hi[axis] - keep for piece, keep in kept)])
        if lo <= hi:
            return lo, hi
    return face.centre[axis], face.centre[axis]


def pattern(joint: Joint, free: Room, count: int, grid: Fraction = GRID, high: bool = False) -> list[Spot]:
    """Fasteners in even rows on the room there is, the same seen from either side.

    Args:
        joint: the joint.
        free: where they may stand.
        count: how many.
        grid: the tape's marks [in].
        high: a single row hangs at the top of the room, as bolts below a leg's end do.

    >>> box = Box((Fraction(0), Fraction(0), Fraction(0)), (Fraction(7, 2), Fraction(0), Fraction(9, 4)))
    >>> lap = Joint(kind="leg", near="a", far="b", axis=1, sign=1, contact=box)
    >>> low, wide = Fraction(9, 16), Fraction(3, 2)
    >>> free = Room({0: low, 2: low}, {0: Fraction(47, 16), 2: Fraction(3, 4)}, {0: wide, 2: wide})
    >>> [(str(x), str(z)) for x, y, z in (spot.at for spot in pattern(lap, free, 2, high=True))]
    [('1', '3/4'), ('5/2', '3/4')]
    """
    flat, up = rows_along(joint)
    rows = min(ceil(count / free.holds(flat)), free.holds(up))
    columns = ceil(count / rows)
    levels = _evenly(free, joint.contact, up, rows, grid)
    if high and rows == 1:
        levels = [free.hi[up]]
    spots, left = [], count
    for level in levels:
        for place in _evenly(free, joint.contact, flat, min(columns, left), grid):
            spots.append(Spot(_point(joint, {flat: place, up: level}), False, (flat, up)))
        left -= columns
    return spots


def rows_along(joint: Joint) -> tuple[Axis, Axis]:
    """The axis of the rows and that across them: level rows on an upright face, else along its longer side."""
    a, b = _axes(joint)
    return (a, b) if joint.axis == 2 or b == 2 else (b, a)


def _evenly(free: Room, face: Box, axis: Axis, count: int, grid: Fraction) -> list[Fraction]:
    """Places along one axis, even in the room; two stand 2/7 of the face in from its sides, as far as that goes."""
    lo, hi = free.lo[axis], free.hi[axis]
    if count == 1:
        return [(lo + hi) / 2]
    if hi == lo:  # no room is left; what was asked for stands as far apart as the face allows
        lo, hi = face.lo[axis] + face.size[axis] / 4, face.hi[axis] - face.size[axis] / 4
    inward = Fraction(0)
    if count == 2:
        wish = on_grid(face.size[axis] * 2 / 7, grid)
        kept = max(lo - face.lo[axis], face.hi[axis] - hi)
        inward = max(Fraction(0), min(wish - kept, (hi - lo - free.apart[axis]) / 2)) // grid * grid
    return [lo + place for place in even(hi - lo, inward, count, grid)]


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


def on_plate(joint: Joint, plate: Box, edge: Fraction) -> list[Spot]:
    """Those of a flange's four screws, near its corners, that the wood of this joint is above."""
    a, b = _axes(joint)
    face = joint.contact
    return [
        Spot(_point(joint, {a: x, b: y}), False, (a, b))
        for x in (plate.lo[a] + edge, plate.hi[a] - edge)
        for y in (plate.lo[b] + edge, plate.hi[b] - edge)
        if face.lo[a] <= x <= face.hi[a] and face.lo[b] <= y <= face.hi[b]
    ]
