"""All sizes of a family of beds as a list."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tutorial_lib.adapting.family import by_length
from tutorial_lib.adapting.family import columns as parts_of
from tutorial_lib.lists.table import Cell, Column, List, amount, made, mark, weight
from tutorial_lib.measures import Units, Writer, writer

if TYPE_CHECKING:
    from tutorial_lib.adapting.family import Cell as PartCell
    from tutorial_lib.adapting.family import Member


def all_sizes(members: Sequence[Member], units: Units, currency: str) -> List:
    """One row a bed: size, whether it holds, each part's count and length, cost, weight, rating, what trips."""
    w = writer(units)
    keys = parts_of(members)
    columns: list[Column | str] = ["size", "built", Column("mattress width", units), Column("mattress length", units),
                                   "holds"]  # fmt: skip
    for _, name in keys:
        columns += [f"{name}, count", Column(f"{name}, length", units)]
    heavy = w.unit("weight")
    columns += [Column("lumber", currency.upper()), Column("weight", heavy), Column("each may weigh, lying", heavy),
                "what had to change", "rules that trip"]  # fmt: skip
    rows = []
    for member in members:
        cells = [told for wanted, _ in keys for told in _cut(w, [c for key, c in member.parts if key == wanted])]
        rows.append((
            member.size, member.variant, mark(w, member.mattress[0]), mark(w, member.mattress[1]),
            "yes" if member.sound else "no", *cells, amount(member.price), weight(w, member.weight),
            weight(w, member.lying), "; ".join(member.changes),
            "; ".join((*member.stops, *member.cautions)),
        ))  # fmt: skip
    return made("sizes", "All sizes", columns, rows)


def _cut(w: Writer, cells: Sequence[PartCell]) -> tuple[Cell, Cell]:
    """Count and length of one part, of several lengths in words; nothing where the bed has none."""
    counts = by_length(cells)
    if len(counts) == 1:
        ((length, count),) = counts.items()
        return count, mark(w, length)
    return ", ".join(map(str, counts.values())) or None, ", ".join(map(w.mark, counts)) or None
