"""Screws of corner blocks: those across the bed and those along it stand one above the other by turns.

So they pass each other in the block, and in the post where those of both its blocks cross.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from tutorial_lib.design.model import Axis, Build, Joint, Piece
from tutorial_lib.drilling import placing

UPRIGHT: tuple[Axis, ...] = (2,)
TOP = Fraction(1)  # [in] from the block's top, clear of a slat's screw
LOW, LEAST_LOW = Fraction(3, 4), Fraction(1, 2)  # [in] from its lower end; less where it is short
RUNG = Fraction(1, 2)  # [in] least from a screw to the next that crosses it: shanks up to 1/4 in, 1/4 in of wood


def rungs(block: Piece, grid: Fraction) -> list[Fraction]:
    """Heights of a block's screws, even in number, across and along the bed by turns [in]."""
    high = block.box.size[2]
    low = max(LEAST_LOW, min(LOW, high - TOP - 3 * RUNG))
    span = high - TOP - low
    count = max(2, (floor(span / RUNG) + 1) // 2 * 2)
    step = floor(span / (count - 1) / grid) * grid
    start = block.box.lo[2] + floor(low / grid) * grid
    return [start + step * i for i in range(count)]


def spots(build: Build, joint: Joint, count: int, kept: placing.Distances) -> list[placing.Spot]:
    """Places for one of a block's two joints.

    Args:
        build: the bed.
        joint: block to rail or block to post.
        count: how many; as many as the block holds where it is more.
        kept: what a screw keeps from ends and edges [in].
    """
    block, far = build.pieces[joint.near], build.pieces[joint.far]
    mine = rungs(block, build.grid)[joint.axis == 0 :: 2]
    free = placing.room(joint, (block, far), kept)
    across: Axis = next(axis for axis in placing.AXES if axis not in (joint.axis, 2))
    place = _mirrored(build, block, across, (free.lo[across] + free.hi[across]) / 2)
    return [placing.spot(joint, {across: place, 2: mine[i]}, UPRIGHT) for i in chosen(len(mine), count)]


def _mirrored(build: Build, block: Piece, axis: Axis, place: Fraction) -> Fraction:
    """A place on the tape's marks from the block's edge nearest the bed's outside, so that all corners are alike."""
    grid, edge = build.grid, block.box.lo[axis]
    if block.box.centre[axis] * 2 > build.outside[1 - axis]:
        edge = block.box.hi[axis]
        return edge - placing.on_grid(edge - place, grid)
    return edge + placing.on_grid(place - edge, grid)


def chosen(of: int, count: int) -> list[int]:
    """Which of several places are taken: the outer ones first.

    >>> chosen(4, 2), chosen(3, 5), chosen(3, 1)
    ([0, 3], [0, 1, 2], [2])
    """
    if count == 1:
        return [of - 1]
    taken = min(of, count)
    return [round(i * (of - 1) / (taken - 1)) for i in range(taken)] if taken > 1 else [0]


__all__ = ["rungs", "spots"]
