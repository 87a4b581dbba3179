"""The faces of the placed pieces: what touches wood, what lies open, and how large each is.

A face is a rectangle of a piece's box. Its contacts are the rectangles it shares with other pieces;
what is left is open. Areas are exact; whether an open patch shows is asked in :mod:`tutorial_lib.finishing.sight`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cached_property
from itertools import pairwise, product
from math import ceil, prod
from typing import Literal

from tutorial_lib.design.model import Axis, Box, Build, Floats, Piece, Point
from tutorial_lib.records import dataclass

AXES: tuple[Axis, ...] = (0, 1, 2)
Sign = Literal[1, -1]
PATCH = Fraction(8)  # [in] largest side of a patch that is looked at as one; our choice


@dataclass(frozen=True)
class Face:
    """One of the six faces of a piece."""

    piece: Piece
    axis: Axis  # direction of its normal
    sign: Sign

    @property
    def end_grain(self) -> bool:
        """True where the fibres end."""
        return self.axis == self.piece.axis

    @property
    def level(self) -> Fraction:
        """Where it lies along its normal [in]."""
        return (self.piece.box.hi if self.sign > 0 else self.piece.box.lo)[self.axis]

    @cached_property
    def rectangle(self) -> Box:
        """The face as a flat box."""
        box = self.piece.box
        return Box(_with(box.lo, self.axis, self.level), _with(box.hi, self.axis, self.level))

    @cached_property
    def area(self) -> Fraction:
        """Whole face [sq in]."""
        return area(self.rectangle, self.axis)

    @property
    def part(self) -> Literal["end", "edge", "face"]:
        """What the trade calls it: an end, a narrow edge or a wide face; a square piece has faces only."""
        if self.end_grain:
            return "end"
        size = self.piece.box.size
        cross = [size[i] for i in AXES if i != self.piece.axis]
        return "edge" if size[self.axis] == max(cross) and cross[0] != cross[1] else "face"


def _with(point: Point, axis: Axis, value: Fraction) -> Point:
    changed = list(point)
    changed[axis] = value
    return (changed[0], changed[1], changed[2])


def area(flat: Box, axis: Axis) -> Fraction:
    """Area of a flat box across its normal [sq in].

    >>> zero, two, six = map(Fraction, (0, 2, 6))
    >>> area(Box((zero, zero, zero), (six, two, zero)), 2)
    Fraction(12, 1)
    """
    first, second = (i for i in AXES if i != axis)
    return flat.size[first] * flat.size[second]


def faces(piece: Piece) -> Iterator[Face]:
    """The six faces of a piece: head, foot, left, right, bottom, top."""
    for axis in AXES:
        yield Face(piece, axis, -1)
        yield Face(piece, axis, 1)


def contacts(face: Face, pieces: Iterable[Piece]) -> tuple[tuple[str, Box], ...]:
    """What lies against a face: the other piece's label and the shared rectangle.

    Pieces that exist side by side never overlap, so the rectangles don't either.
    """
    found = []
    turned, level = 0 if face.sign > 0 else 1, float(face.level)
    for other in pieces:
        if other.label == face.piece.label or other.box.floats[turned][face.axis] != level:
            continue  # what is equal is equal in floats too, and those are compared at once
        near = other.box.lo if face.sign > 0 else other.box.hi
        if near[face.axis] != face.level:
            continue
        shared = face.piece.box.contact(other.box)
        if shared is not None and shared.size[face.axis] == 0 and area(shared, face.axis) > 0:
            found.append((other.label, shared))
    return tuple(found)


@dataclass(frozen=True)
class Patch:
    """A part of a face that is looked at as one."""

    middle: Floats  # [in]
    area: Fraction  # [sq in]


def patches(face: Face, covered: Sequence[Box]) -> Iterator[Patch]:
    """The open part of a face cut into rectangles no larger than a hand's breadth or so."""
    first, second = (i for i in AXES if i != face.axis)
    spans = [pairwise(_edges(face.rectangle, covered, i)) for i in (first, second)]
    for (a0, a1), (b0, b1) in product(*spans):
        lo, hi = list(face.rectangle.lo), list(face.rectangle.hi)
        lo[first], hi[first], lo[second], hi[second] = a0, a1, b0, b1
        open_ = Box((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2]))
        if not any(_holds(box, open_) for box in covered):
            yield from _cut(open_, face.axis)


def _edges(whole: Box, covered: Sequence[Box], axis: Axis) -> list[Fraction]:
    """Where contacts begin and end along an axis: what lies between two of them is open or covered as one."""
    ends = (whole.lo[axis], whole.hi[axis])
    return sorted({*ends, *(box.lo[axis] for box in covered), *(box.hi[axis] for box in covered)})


def _cut(flat: Box, axis: Axis) -> Iterator[Patch]:
    """Equal parts of a flat box, none longer than a patch."""
    counts = [max(1, ceil(size / PATCH)) for size in flat.size]
    each = area(flat, axis) / prod(counts)
    lines = [
        [low + (high - low) * (2 * k + 1) / (2 * count) for k in range(count)]
        for low, high, count in zip(*flat.floats, counts, strict=True)
    ]
    for middle in product(*lines):
        yield Patch((middle[0], middle[1], middle[2]), each)


def _holds(box: Box, cell: Box) -> bool:
    """True where a rectangle lies in a contact; both end where contacts do, so none lies in one by half."""
    (lo, hi), (low, high) = box.floats, cell.floats  # what is equal is equal in floats too
    return all(lo[i] <= low[i] and high[i] <= hi[i] for i in AXES)


def side(face: Face, build: Build) -> str:
    """Where a face looks, in the finished bed: top, bottom, outer, inner, head-side, foot-side, left or right.

    Outer and inner are told of rails, cleats and legs that stand at one side of the bed, and of end rails.
    """
    if face.axis == 2:
        return "top" if face.sign > 0 else "bottom"
    box, size = face.piece.box, (build.outside[1], build.outside[0])[face.axis]
    off = box.centre[face.axis] - size / 2
    at_side = face.axis == 1 and face.piece.axis != 1 and abs(off) > size / 4
    at_end = face.axis == 0 and face.piece.axis == 1 and (box.lo[0] == 0 or box.hi[0] == size)
    if at_side or at_end:
        return "outer" if (off > 0) == (face.sign > 0) else "inner"
    return (("head-side", "foot-side"), ("left", "right"))[face.axis][face.sign > 0]
