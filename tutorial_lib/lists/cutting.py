"""Cuts, board by board, and stop-block settings as lists."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.cutting.saw import batches, saw_cuts
from tutorial_lib.lists.table import Cell, Column, List, made, mark
from tutorial_lib.measures import writer

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan


def cuts(plan: Plan) -> List:
    """Every cut of every board in its order, with its running mark from the squared end."""
    w = writer(plan.options.build.units)
    columns = (
        "layout", "boards cut so", "lumber", "board", "cut", "part", Column("length", w.units),
        Column("mark", w.units), Column("left over", w.units),
    )  # fmt: skip
    return made("cuts", "Cuts, board by board", columns, _cuts(plan))


def _cuts(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    w = writer(plan.options.build.units)
    names = {part.key: part.name for part in plan.build.parts}
    for number, layout in enumerate(plan.cutting.sawn.layouts, 1):
        board = layout.board
        found = saw_cuts(board)
        for cut in found:
            rest = mark(w, board.offcut) if cut is found[-1] else None
            yield (
                number, layout.count, board.section, board.stock, cut.number, names[cut.piece.name],
                mark(w, cut.piece.length), mark(w, cut.mark), rest,
            )  # fmt: skip


def stops(plan: Plan) -> List:
    """Stop-block settings: set once, cut all of that length."""
    w = writer(plan.options.build.units)
    names = {part.key: part.name for part in plan.build.parts}
    rows = (
        (batch.section, mark(w, batch.length), batch.count, ", ".join(names[key] for key in batch.names),
         "clamp it, too short to hold" if batch.small else "")
        for batch in batches(plan.cutting.sawn)
    )  # fmt: skip
    return made("stops", "Stop-block settings", ("lumber", Column("stop at", w.units), "pieces", "part", "mind"), rows)
