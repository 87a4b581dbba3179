"""Lists as pandas DataFrames, for notebooks. The one pandas module."""

from __future__ import annotations

from typing import Any

import pandas

from tutorial_lib.lists.table import List


def frame(table: List) -> pandas.DataFrame:
    """A list as a DataFrame: headings with their units, empty cells empty, lengths sorted as numbers.

    >>> from tutorial_lib.lists.table import made
    >>> frame(made("t", "T", ("part", "count"), [("slat", 14), ("leg", None)])).columns.tolist()
    ['part', 'count']
    """
    rows: list[list[Any]] = [["" if cell is None else cell for cell in row] for row in table.rows]
    return pandas.DataFrame(rows, columns=list(table.heads), dtype=object)
