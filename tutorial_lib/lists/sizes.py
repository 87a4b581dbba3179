"""All sizes of a family of beds as a list."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tutorial_lib.adapting.family import columns as parts_of
from tutorial_lib.lists.table import Cell, Column, List, made, mark
from tutorial_lib.measures import Units, Writer, writer

if TYPE_CHECKING:
    from tutorial_lib.adapting.family import Cell as PartCell
    from tutorial_lib.adapting.family import Member


def all_sizes(members: Sequence[Member], units: Units) -> List:
    """One row a bed: size, whether it holds, each part's count and length, cost, weight, rating, what trips."""
    w = writer(units)
    keys = parts_of(members)
    columns: list[Column | str] = ["size", "built", Column("mattress width", units), Column("mattress length", units),
                                   "holds"]  # fmt: skip
    columns += [Column(f"{name}, count x length", units) for _, name in keys]
    columns += ["lumber", Column("weight", w.unit("weight")), Column("each may weigh, lying", w.unit("weight")),
                "what had to change", "rules that trip"]  # fmt: skip
    rows = []
    for member in members:
        cells = tuple(_cut(w, [cell for key, cell in member.parts if key == wanted]) for wanted, _ in keys)
        rows.append((
            member.size, member.variant, mark(w, member.mattress[0]), mark(w, member.mattress[1]),
            "yes" if member.sound else "no", *cells, member.cost, float(w.number("weight", member.weight)),
            float(w.number("weight", member.lying)), "; ".join(member.changes),
            "; ".join((*member.stops, *member.cautions)),
        ))  # fmt: skip
    return made("sizes", "All sizes", columns, rows)


def _cut(w: Writer, cells: Sequence[PartCell]) -> Cell:
    """Counts and lengths of one part."""
    return ", ".join(f"{cell.count} x {w.mark(cell.length)}" for cell in cells) or None
