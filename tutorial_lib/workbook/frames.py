"""Lists as pandas DataFrames, for notebooks. The one pandas module."""

from __future__ import annotations

from typing import Any

import pandas

from tutorial_lib.lists.table import List

WHOLE = 20  # letters of a cell that stay on one line, however wide the others of its row are


def frame(table: List) -> pandas.DataFrame:
    """A list as a DataFrame: headings with their units, empty cells empty, lengths sorted as numbers.

    >>> from tutorial_lib.lists.table import made
    >>> frame(made("t", "T", ("part", "count"), [("slat", 14), ("leg", None)])).columns.tolist()
    ['part', 'count']
    """
    rows: list[list[Any]] = [["" if cell is None else cell for cell in row] for row in table.rows]
    return pandas.DataFrame(rows, columns=list(table.heads), dtype=object)


def table_html(table: List, sort: str = "", contains: str = "") -> str:
    """A list as an HTML table.

    Args:
        table: the rows.
        sort: heading of the column to sort by; as listed when empty. Numbers come before words.
        contains: only rows with these words in some cell.
    """
    found = frame(table)
    if contains.strip():
        words = contains.casefold().split()
        told = found.map(lambda cell: str(cell).casefold()).agg(" ".join, axis=1) if len(found) else found.iloc[:, 0]
        found = found[told.map(lambda row: all(word in row for word in words)).astype(bool)]
    if sort in found.columns:
        found = found.sort_values(sort, key=lambda cells: cells.map(_place), kind="stable")
    found = found.map(_unbroken)
    return str(found.to_html(index=False, border=0, classes="tw-table", justify="left"))


def _unbroken(cell: Any) -> Any:
    return cell.replace(" ", "\u00a0") if isinstance(cell, str) and len(cell) <= WHOLE else cell


def _place(cell: Any) -> tuple[bool, Any]:
    return isinstance(cell, str), cell
