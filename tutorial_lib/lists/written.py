"""A list as CSV text that a spreadsheet opens without running anything in it."""

from __future__ import annotations

import csv
import io
import re
from fractions import Fraction

from tutorial_lib.lists.table import Cell, List, to_reckon_with
from tutorial_lib.measures import decimals

STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
MINUS = "\N{MINUS SIGN}"
BYTE_ORDER_MARK = "\ufeff"  # by which spreadsheets know UTF-8 (Unicode 23.8)
PLACES = 6  # 1/64 in has six decimals


def csv_text(table: List) -> str:
    """The list as CSV (RFC 4180): one line of headings, then the rows.

    Beside a column of inch marks, "76 1/2", stands one of the same numbers as decimals. A text with more than ASCII
    letters begins with a byte order mark. No cell of text starts as a formula does: an apostrophe goes before it, as
    spreadsheets themselves write it. A bare fraction gets its whole number ("0 1/4"), or a spreadsheet makes a date
    of it.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    full = to_reckon_with(table)
    writer.writerow([cell_text(head) for head in full.heads])
    writer.writerows([cell_text(cell) for cell in row] for row in full.rows)
    text = out.getvalue()
    return text if text.isascii() else f"{BYTE_ORDER_MARK}{text}"


def cell_text(cell: Cell) -> str:
    """One cell.

    >>> cell_text("=1+1"), cell_text("1/4"), cell_text(-3), cell_text(None), cell_text(117.828125)
    ("'=1+1", '0 1/4', '-3', '', '117.828125')
    """
    if cell is None:
        return ""
    if isinstance(cell, int | float) and not isinstance(cell, bool):
        return decimals(cell, PLACES)
    text = " ".join(str(cell).split()) if isinstance(cell, Fraction) else str(cell)
    if re.fullmatch(r"[0-9]+/[0-9]+", text):
        return f"0 {text}"
    if re.fullmatch(r"-[0-9 /.]+", text):
        return f"{MINUS}{text[1:]}"
    return f"'{text}" if text.lstrip(" ").startswith(STARTS_A_FORMULA) or text.startswith(STARTS_A_FORMULA) else text
