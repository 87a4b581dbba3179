"""Facts of a headboard: how high it reaches, its boards and gaps, and what leaning on it comes to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build


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
    wide, count = boards[0].size[2], len(boards)
    gap = min(box.lo[2] for box in boards) - rail
    sums = f"({tell.fine(top - rail)} above the rail − {count} × {tell.fine(wide)}) / {count} = {tell.fine(gap)}"
    yield tell.length("headboard.gap", gap, "gap", "gap below each board of the headboard", sums)
    yield tell.marks("headboard.marks", sorted(box.lo[2] - rail for box in boards),
                     "lower edge of each board from the end rail's top edge", "evened out")  # fmt: skip
