"""Boards to be had for a bed: what the shop sells, by length and price, and what is at hand already."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.cutting.boards import Stock
from tutorial_lib.measures import mm, sold_length, writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build
    from tutorial_lib.design.options import LumberOptions, StockOptions

USUAL_FEET = (8, 10, 12, 16)  # lengths most yards keep; common practice, no source
USUAL_METRES = ("2.4", "3.0", "3.6", "4.8")
UNPRICED = 16  # [coins per in] stands for a price nobody gave: the least length is then the cheapest list


@dataclass(frozen=True)
class OwnSize:
    """Boards at hand that are not as thick or wide as the plan's."""

    section: str
    stock: str
    thickness: Fraction  # [in]
    width: Fraction  # [in]


@dataclass(frozen=True)
class Yard:
    """Every board to be had for a bed."""

    stocks: tuple[Stock, ...]
    unpriced: frozenset[str]  # sections some of whose boards have no price
    sizes: tuple[OwnSize, ...] = ()

    def of(self, section: str) -> list[Stock]:
        """The boards of one section."""
        return [stock for stock in self.stocks if stock.section == section]


def yard(build: Build) -> Yard:
    """Boards for every section of a bed; usual lengths without a price where the build file lists none to buy."""
    found: list[Stock] = []
    unpriced: set[str] = set()
    for section in dict.fromkeys(part.section.name for part in build.made if not part.section.steel):
        rows = list(_rows(section, build.options.lumber.get(section), build.options.build.units))
        if any(price is None for _, price in rows):
            unpriced.add(section)
            rows = [(stock, 0 if stock.own else int(stock.length * UNPRICED)) for stock, _ in rows]
        found += [replace(stock, price=price or 0) for stock, price in rows]
    return Yard(tuple(found), frozenset(unpriced), tuple(_sizes(build)))


def _cents(price: Fraction | None) -> int | None:
    """A price in cents."""
    return None if price is None else int(price * 100)


def _rows(section: str, lumber: LumberOptions | None, units: str) -> Iterator[tuple[Stock, int | None]]:
    """One section's boards with their price [cents]; None where none is given, 0 for those at hand."""
    listed = lumber.stock if lumber else ()
    prices = {row.price for row in listed} - {None}
    for row in listed:
        for name, length, count in _at_hand(row, units):
            yield Stock(name, length, 0, count, section=section, own=True), 0
        if not row.at_hand and not (prices and row.price is None and row.measured):
            yield Stock(sold_length(row.length), row.length, 0, row.available, section=section), _cents(row.price)
    if all(row.at_hand for row in listed):
        yield from ((Stock(sold_length(length), length, 0, section=section), None) for length in usual_lengths(units))


def usual_lengths(units: str) -> list[Fraction]:
    """Lengths most yards keep [in]."""
    if units == "mm":
        return [mm(Fraction(m) * 1000) for m in USUAL_METRES]
    return [Fraction(12 * feet) for feet in USUAL_FEET]


def _at_hand(row: StockOptions, units: str) -> Iterator[tuple[str, Fraction, int]]:
    """Name, real length and count of the boards of a row that are at hand."""
    for length, count in sorted(Counter(row.measured).items()):
        yield measured_name(sold_length(row.length), length, units), length, count
    if row.at_hand:
        count = (1 if row.available is None else row.available) - len(row.measured)
        if count > 0:
            yield own_name(row, units), row.length, count


def own_name(row: StockOptions, units: str) -> str:
    """How a board at hand is called; by its thickness and width too where they were measured."""
    if row.offcut:
        return f"offcut {writer(units).length(row.length)}"
    size = [writer(units).length(x) for x in (row.thickness, row.width) if x is not None]
    return f"own {sold_length(row.length)}" + (f", {' x '.join(size)}" if size else "")


def measured_name(name: str, length: Fraction, units: str) -> str:
    """How a measured board is called.

    >>> measured_name("10 ft", Fraction(239, 2), "in")
    '10 ft, measured 119 1/2 in'
    """
    return f"{name}, measured {writer(units).length(length)}"


def _sizes(build: Build) -> Iterator[OwnSize]:
    """Boards at hand whose own thickness or width is not the plan's."""
    sections = {part.section.name: part.section for part in build.parts}
    for name, lumber in build.options.lumber.items():
        for row in lumber.stock:
            if name in sections and (row.thickness or row.width):
                plan = sections[name]
                own = (row.thickness or plan.thickness, row.width or plan.width)
                if own != (plan.thickness, plan.width):
                    for board, _, _ in _at_hand(row, build.options.build.units):
                        yield OwnSize(name, board, *own)
