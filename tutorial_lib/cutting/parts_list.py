"""Any parts list and stock list as CSV text: read with every fault named by its row, planned, reported."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from tutorial_lib.cutting.boards import CutPlan, PieceDemand, Stock, TieBreak
from tutorial_lib.cutting.demand import TooLong, too_long
from tutorial_lib.cutting.money import Money, read_price
from tutorial_lib.cutting.planner import PREFER, plan_cuts
from tutorial_lib.cutting.report import plan_json, plan_text
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import mm, read_length, writer
from tutorial_lib.measures.reading import Unit
from tutorial_lib.records import dataclass

FREE_WORDS = {"", "no", "n", "false", "-", "0"}
UNIT_SIZE = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "mm": mm(1),
    "cm": mm(10),
    "m": mm(1000),
}
UNIT_WORD = re.compile(
    r"(mm|cm|m(?:et(?:re|er)s?)?|mil\w+|cent\w+|ft|feet|foot|in(?:ch(?:es)?|s)?|'|\"|′|″|”|’)\.?\s*$", re.I
)


@dataclass(frozen=True)
class Row:
    """One line of a CSV file with its number as a text editor or spreadsheet shows it."""

    number: int
    cells: dict[str, str]

    def get(self, column: str) -> str:
        """The cell's text, empty if there is none."""
        return self.cells.get(column, "")


@dataclass(frozen=True)
class CutLists:
    """A cut plan for two lists, and what is needed to report it."""

    plan: CutPlan
    money: Money
    unit: str  # of the first stock row; offcuts are given in it

    def as_json(self) -> dict[str, Any]:
        """The report for other programs; ``offcut`` in the first stock row's unit, money as the list writes it."""
        return plan_json(self.plan, self.money, UNIT_SIZE[self.unit])

    def as_text(self) -> str:
        """The report for people."""
        return plan_text(self.plan, self.money, "mm" if self.unit in ("mm", "cm", "m") else "in")


LONGEST = Fraction(10_000)  # [in] of a piece or board; more is a slip of the unit, our choice
WIDEST_KERF = Fraction(1)  # [in]; more is a slip of the unit, our choice


def cut_lists(
    pieces_text: str,
    stock_text: str,
    kerf: Fraction | str = Fraction(1, 8),
    trim: Fraction | str = Fraction(0),
    prefer: Sequence[TieBreak] = PREFER,
    names: tuple[str, str] = ("pieces", "stock"),
) -> CutLists:
    """A cut plan for any parts list.

    Args:
        pieces_text: CSV with name, length, count and, if wanted, section and together.
        stock_text: CSV with name, length, price and, if wanted, available and section.
        kerf: saw cut [in], or as text; a number without a unit is in the lists' own.
        trim: lost at each board's ends [in], or as text.
        prefer: tie-breaks in order.
        names: what the two lists are called in an error, for example their file names.

    Raises:
        InputError: all faults of both lists, each with its row.
    """
    faults: list[Fault] = []
    piece_rows = _rows(pieces_text, names[0], ("name", "length", "count"), faults)
    stock_rows = _rows(stock_text, names[1], ("name", "length", "price"), faults)
    unit = _unit(stock_rows, piece_rows)
    default: Unit = "mm" if unit in ("mm", "cm", "m") else "in"
    w = writer(default)
    kerf, trim = (_given(*pair, default, faults) for pair in ((kerf, "--kerf"), (trim, "--trim")))
    listed, money = _stocks(stock_rows, names[1], default, faults)
    stocks = shelf_once(listed)
    pieces = _pieces(piece_rows, names[0], default, faults)
    if not faults:
        faults += _place_faults(piece_rows, names[0], too_long(pieces, stocks, trim, kerf, w))
    if kerf > WIDEST_KERF:
        most = w.length(WIDEST_KERF)
        faults.append(Fault("kerf", f"{w.length(kerf)} is wider than any saw cuts; give at most {most}"))
    if faults:
        raise InputError(Fault(fault.where, f"{fault.what.rstrip('.')}.") for fault in faults)
    return CutLists(plan_cuts(pieces, stocks, kerf, trim, prefer, units=default), money, unit)


def _given(value: Fraction | str, where: str, default: Unit, faults: list[Fault]) -> Fraction:
    if isinstance(value, Fraction):
        return value
    try:
        return read_length(value, default, where)
    except InputError as error:
        faults += error.faults
        return Fraction(0)


def _filled(lines: str) -> list[tuple[int, list[str]]]:
    """The rows of a CSV that hold anything, each with the number of its line."""
    reader = csv.reader(io.StringIO(lines, newline=""), delimiter=_delimiter(lines), skipinitialspace=True)
    table = [(reader.line_num, [cell.strip() for cell in row]) for row in reader]
    return [(n, row) for n, row in table if any(row)]


def _rows(text: str, name: str, needed: Sequence[str], faults: list[Fault]) -> list[Row]:
    """The filled lines of a CSV, columns by lower-case name."""
    try:
        table = _filled(text.lstrip("\ufeff"))
    except csv.Error as error:
        faults.append(Fault(name, f"is not a CSV file: {error}"))
        return []
    if not table:
        faults.append(Fault(name, f"is empty; its first line names the columns: {', '.join(needed)}"))
        return []
    columns = [cell.casefold() for cell in table[0][1]]
    missing = [c for c in needed if c not in columns]
    if missing:
        had = ", ".join(c for c in columns if c)
        faults.append(Fault(f"{name} row {table[0][0]}", f"has no column {', '.join(missing)}; it has {had}"))
        return []
    if len(table) == 1:
        faults.append(Fault(name, "lists nothing: there is no row below the column names"))
    return list(_checked(table[1:], columns, name, faults))


def _checked(
    table: Sequence[tuple[int, list[str]]], columns: list[str], name: str, faults: list[Fault]
) -> Iterator[Row]:
    for number, cells in table:
        if any(cells[len(columns) :]):
            faults.append(
                Fault(
                    f"{name} row {number}", f'has {len(cells)} cells for {len(columns)} columns; put "…" round a comma'
                )
            )
            continue
        padded = cells + [""] * (len(columns) - len(cells))
        yield Row(number, dict(zip(columns, padded, strict=False)))


def _delimiter(text: str) -> str:
    """Comma, semicolon or tab, whichever the first line has most of."""
    first = text.lstrip().partition("\n")[0]
    return max(",;\t", key=first.count)


def _unit(stock: Sequence[Row], pieces: Sequence[Row]) -> str:
    """The unit of the first stock row; where it names none, inches unless every length that names one is metric."""
    if stock and (word := _unit_of(stock[0].get("length"))):
        return word
    named = [u for row in (*stock, *pieces) if (u := _unit_of(row.get("length")))]
    return "mm" if named and all(u in ("mm", "cm", "m") for u in named) else "in"


def _unit_of(text: str) -> str:
    match = UNIT_WORD.search(text.strip())
    if match is None:
        return ""
    word = match.group(1).casefold()
    if word in ("ft", "feet", "foot", "'", "′", "’"):
        return "ft" if not re.search(r"['′’]\s*[0-9]", text) else "in"
    if word.startswith("in") or word in ('"', "″", "”"):
        return "in"
    return "mm" if word.startswith("mi") else "cm" if word.startswith("ce") else word if word in ("mm", "cm") else "m"


def _length(row: Row, name: str, default: Unit, faults: list[Fault]) -> Fraction | None:
    where, text = f"{name} row {row.number}", row.get("length")
    if not text:
        faults.append(Fault(where, f"{row.get('name') or 'this row'} has no length"))
        return None
    try:
        length = read_length(text, default, where)
    except InputError as error:
        faults += error.faults
        return None
    if not 0 < length <= LONGEST:
        longest = writer(default).length(LONGEST)
        faults.append(Fault(where, f"the length {text[:40]} must be more than 0 and at most {longest}"))
        return None
    return length


def _whole(row: Row, column: str, name: str, least: int, faults: list[Fault]) -> int | None:
    text = row.get(column)
    where = f"{name} row {row.number}"
    if not re.fullmatch(r"\+?[0-9]{1,6}", text):
        faults.append(Fault(where, f'{column} is "{text}"; write a whole number from {least} to 999999'))
        return None
    if int(text) < least:
        faults.append(Fault(where, f"{column} is {int(text)}; it must be {least} or more"))
        return None
    return int(text)


def section_name(text: str) -> str:
    """A section as it is compared: "2 X 6" and "2×6" are 2x6.

    >>> section_name("2 X 6")
    '2x6'
    """
    return re.sub(r"\s*[x×]\s*", "x", " ".join(text.casefold().split()))


def _name(row: Row, name: str, faults: list[Fault]) -> str:
    if not row.get("name"):
        faults.append(Fault(f"{name} row {row.number}", "has no name; every row needs one"))
    return row.get("name")


def _pieces(rows: Sequence[Row], name: str, default: Unit, faults: list[Fault]) -> list[PieceDemand]:
    found: list[PieceDemand] = []
    seen: dict[tuple[str, str], tuple[Fraction, int]] = {}
    for row in rows:
        label = _name(row, name, faults)
        length = _length(row, name, default, faults)
        count = _whole(row, "count", name, 1, faults)
        section = section_name(row.get("section"))
        together = row.get("together")
        if not label or length is None or count is None:
            continue
        known = seen.setdefault((section, label), (length, row.number))
        if known[0] != length:
            faults.append(_twice(name, row, label, known[1], "has another length"))
        word = "" if together.casefold() in FREE_WORDS else together
        found.append(PieceDemand(label, length, count, section, word))
    return found


def _twice(name: str, row: Row, label: str, first: int, what: str) -> Fault:
    return Fault(
        f"{name} row {row.number}",
        f'"{label}" {what} in row {first}; give each its own name so the plan can tell them apart',
    )


def _stocks(rows: Sequence[Row], name: str, default: Unit, faults: list[Fault]) -> tuple[list[Stock], Money]:
    found: list[Stock] = []
    prices = [(row, read_price(row.get("price"))) for row in rows]
    seen: dict[tuple[str, str], tuple[Fraction, int]] = {}
    currencies: dict[str, int] = {}
    money = Money.of([p for _, p in prices if not isinstance(p, str)])
    for row, price in prices:
        label = _name(row, name, faults)
        length = _length(row, name, default, faults)
        section = section_name(row.get("section"))
        available = _whole(row, "available", name, 0, faults) if row.get("available") else None
        if isinstance(price, str):
            faults.append(Fault(f"{name} row {row.number}", price))
            continue
        if price.currency:
            currencies.setdefault(price.currency, row.number)
        if label and length is not None:
            found.append(Stock(label, length, money.whole(price), available, section=section))
            first = seen.setdefault((section, label), (length, row.number))
            if first[0] != length:
                faults.append(_twice(name, row, label, first[1], "has another length"))
    faults += _mixed(currencies, name)
    return found, money


def _mixed(currencies: Mapping[str, int], name: str) -> list[Fault]:
    """Prices in more than one currency; ``currencies`` holds the first row of each."""
    said = ", ".join(f"{c} in row {n}" for c, n in currencies.items())
    wrong = f"prices are in different currencies ({said}); use one"
    return [Fault(name, wrong)] if len(currencies) > 1 else []


def shelf_once(stocks: Sequence[Stock]) -> list[Stock]:
    """A board at no price is an offcut on the shelf: there is one, unless the list says how many.

    Where no board of a section has a price, prices are not known, and nothing is an offcut.
    """
    priced = {stock.section for stock in stocks if stock.price}
    return [
        replace(stock, available=1)
        if not stock.price and stock.available is None and stock.section in priced
        else stock
        for stock in stocks
    ]


def _place_faults(rows: Sequence[Row], name: str, faults: Iterable[TooLong]) -> list[Fault]:
    """Pieces that no board can hold, with the row in place of the name."""
    found: list[Fault] = []
    for fault in faults:
        where = [str(row.number) for row in rows if row.get("name") in fault.pieces] or ["?"]
        word = "row" if len(where) == 1 else "rows"
        place = f"{name} {word} {', '.join(dict.fromkeys(where))}"
        found.append(Fault(place, f"{', '.join(fault.pieces)}: {fault.what}"))
    return found
