"""Facts of a headboard: how high it reaches, its boards and gaps, and what leaning on it comes to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Box, Build


def facts(tell: Teller, build: Build) -> Iterator[Fact]:
    """All facts of the headboard's shape; none of a bed without one."""
    boards = [piece.box for piece in build.pieces.values() if piece.use == "headboard"]
    if not boards:
        return
    top, rail, mattress = max(box.hi[2] for box in boards), build.heights.rail_top, build.heights.sleeping
    assert mattress is not None
    sums = f"{tell.fine(mattress)} mattress top + {tell.fine(top - mattress)} over it = {tell.fine(top)}"
    yield tell.length("headboard.height", top, "height", "floor to top of headboard", sums)
    yield tell.length("headboard.over", top - mattress, "height", "headboard above the mattress", "stated or usual")
    slats = sorted((piece.box for piece in build.pieces.values() if piece.use == "headboard_slat"), key=_from_left)
    yield from _slats(tell, boards[0], slats) if slats else _boards(tell, boards, top, rail)


def _from_left(box: Box) -> Fraction:
    return box.lo[1]


def _slats(tell: Teller, across: Box, slats: Sequence[Box]) -> Iterator[Fact]:
    """The gaps of upright slats, those at the ends too where posts stand there, and their marks."""
    wide, count, first = slats[0].size[1], len(slats), slats[0].lo[1] - across.lo[1]
    gap, room = slats[1].lo[1] - slats[0].hi[1], across.size[1]
    sums = f"({tell.fine(room)} − {count} × {tell.fine(wide)}) / {count + (1 if first else -1)} = {tell.fine(gap)}"
    yield tell.length("headboard_slat.gap", gap, "gap", "gap between the headboard's slats", sums)
    yield tell.marks("headboard_slat.marks", [box.lo[1] - across.lo[1] for box in slats],
                     "left edge of each slat from the left end of the headboard's rails", "evened out")  # fmt: skip


def _boards(tell: Teller, boards: Sequence[Box], top: Fraction, rail: Fraction) -> Iterator[Fact]:
    wide, count = boards[0].size[2], len(boards)
    gap = min(box.lo[2] for box in boards) - rail
    sums = f"({tell.fine(top - rail)} above the rail − {count} × {tell.fine(wide)}) / {count} = {tell.fine(gap)}"
    yield tell.length("headboard.gap", gap, "gap", "gap below each board of the headboard", sums)
    yield tell.marks("headboard.marks", sorted(box.lo[2] - rail for box in boards),
                     "lower edge of each board from the end rail's top edge", "evened out")  # fmt: skip
