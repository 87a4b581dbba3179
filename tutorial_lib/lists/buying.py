"""One shopping list with one total: lumber, screws and bolts, hardware, finish, discs and pads."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from tutorial_lib.drilling.quantities import boxes
from tutorial_lib.finishing.sanding import DISC
from tutorial_lib.lists.names import name_of
from tutorial_lib.lists.table import Cell, Column, List, amount, made
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.options import Options
    from tutorial_lib.design.screw_options import ScrewOptions
    from tutorial_lib.drilling.quantities import Buy, Hardware
    from tutorial_lib.plan import Plan

Kind = Literal["lumber", "screws and bolts", "hardware", "finish"]


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of the shopping list."""

    kind: Kind
    what: str  # "2x6, 8 ft"
    count: int
    unit: str  # "board", "box"
    holds: int = 1  # pieces in one, of a box
    note: str = ""
    each: Fraction | None = None  # price of one; None where none is given

    @property
    def sold(self) -> str:
        """What one of it is: "board", "box of 100"."""
        return self.unit if self.holds == 1 else f"{self.unit} of {self.holds}"

    @property
    def cost(self) -> Fraction | None:
        """What the line costs; None where no price is known."""
        return None if self.each is None else self.each * self.count


@dataclass(frozen=True)
class Shopping:
    """Everything to buy for a bed."""

    lines: tuple[Line, ...]
    currency: str

    @property
    def total(self) -> Fraction:
        """Cost of all that has a price."""
        return sum((line.cost for line in self.lines if line.cost is not None), Fraction(0))

    @property
    def unpriced(self) -> tuple[Line, ...]:
        """Lines without a price."""
        return tuple(line for line in self.lines if line.each is None)

    @property
    def priced(self) -> bool:
        """True if any line has a price."""
        return len(self.unpriced) < len(self.lines)


def shopping(plan: Plan) -> Shopping:
    """All that has to be bought, in the order of the job; boards at hand are no purchase."""
    lines = (*_lumber(plan), *_fasteners(plan), *_hardware(plan), *_finish(plan))
    return Shopping(lines, plan.options.shop.currency)


def _lumber(plan: Plan) -> Iterator[Line]:
    cutting = plan.cutting
    for purchase in cutting.shopping:
        each = None if purchase.price is None else Fraction(purchase.price, cutting.money.per_unit)
        spare = f"{purchase.spares} of them spare" if purchase.spares else ""
        what = f"{purchase.section}, {purchase.stock}"
        yield Line(kind="lumber", what=what, count=purchase.count, unit="board", note=spare, each=each)


def _fasteners(plan: Plan) -> Iterator[Line]:
    w = writer(plan.options.build.units)
    for buy in plan.drilling.buys:
        jobs = [job for job in plan.drilling.jobs if job.fastener.bought == buy.fastener]
        tables = tuple(dict.fromkeys(job.table for job in jobs))
        what = buy.fastener.told(w)
        spare = f", {buy.with_spares} with spares" if buy.with_spares > buy.needed else ""
        joints = dict.fromkeys(name_of(plan.build, job.joint, job.table) for job in jobs)
        note = f"{buy.needed} needed{spare}: {', '.join(joints)}"
        for count, pieces, each in _boxes(buy, _stated(plan.options, tables)):
            unit = "piece" if pieces == 1 else "box"
            yield Line(kind="screws and bolts", what=what, count=count, unit=unit, holds=pieces, note=note, each=each)


def _stated(options: Options, tables: tuple[str, ...]) -> list[ScrewOptions]:
    """The joints' tables of the build file that say how the screw is sold, those with a price if any has one."""
    stated = [getattr(options.screws, table) for table in tables]
    sold = [screw for screw in stated if screw.price is not None or screw.box is not None]
    return [screw for screw in sold if screw.price is not None] or sold


def _boxes(buy: Buy, stated: list[ScrewOptions]) -> Iterator[tuple[int, int, Fraction | None]]:
    """How many boxes, pieces in each, and the price of one: the cheapest stated, else in the boxes usually sold."""
    prices: dict[int, Fraction] = {}
    for screw in stated:
        if screw.price is not None:
            pieces = screw.box or 1
            prices[pieces] = min(screw.price, prices.get(pieces, screw.price))
    sizes = sorted({screw.box or 1 for screw in stated})
    found = boxes(buy.with_spares, sizes, prices) if sizes else buy.boxes
    yield from ((count, pieces, prices.get(pieces)) for count, pieces in found)


def _hardware(plan: Plan) -> Iterator[Line]:
    prices = plan.options.prices
    for item in plan.drilling.hardware:
        yield _piece(item, _price_of(plan.options, item))
    for part in plan.build.made:
        if part.section.steel:
            each = prices.flange if part.section.name == "flange" else prices.tube
            what = "flange" if part.section.name == "flange" else f"{part.section.name}, {_long(plan, part.length)}"
            yield Line(kind="hardware", what=what, count=part.count, unit="piece", note=part.name, each=each)
    legs, under = len(plan.build.legs), "under the legs"
    if plan.build.bed_stands:
        legs, under = sum(part.count for part in plan.build.made if part.use == "upright"), "under the uprights"
    foot, each = "felt pad or glide", prices.pad
    if leveller := plan.options.legs.leveller:
        foot, each = f"leveller, {writer(plan.options.build.units).length(leveller)} high", None
    yield Line(kind="hardware", what=foot, count=legs, unit="piece", note=under, each=each)


def _long(plan: Plan, length: Fraction) -> str:
    return f"{writer(plan.options.build.units).length(length)} long"


def _price_of(options: Options, item: Hardware) -> Fraction | None:
    price: Fraction | None = getattr(options.prices, item.priced_as, None) if item.priced_as else None
    return price


def _piece(item: Hardware, each: Fraction | None) -> Line:
    note = "; ".join(filter(None, (item.where, item.mind)))
    return Line(kind="hardware", what=item.name, count=item.count, unit="piece", note=note, each=each)


def _finish(plan: Plan) -> Iterator[Line]:
    coated, sanding = plan.finishing.coats, plan.finishing.sanding
    for can, count in coated.cans.lots if coated.cans else ():
        amount = coated.amount(plan.options.build.units)
        yield Line(kind="finish", what=f"{coated.kind}, {can.name}", count=count, unit="can",
                   note=f"all coats take {amount}; read the can", each=can.price)  # fmt: skip
    if coated.cans is None and coated.coats:
        yield Line(kind="finish", what=coated.kind, count=1, unit="can", note="read the can for how far it goes")
    for grit in sanding.grits:
        yield Line(kind="finish", what=f"sanding disc, P{grit.number}", count=sanding.discs[1], unit="disc",
                   note=f"{DISC[plan.options.build.units]}; {sanding.discs[1]} at most",
                   each=plan.options.prices.disc)  # fmt: skip


def units_of(line: Line) -> str:
    """A line's count in words: "2 boxes of 100", "1 board".

    >>> units_of(Line(kind="screws and bolts", what="screws", count=2, unit="box", holds=100))
    '2 boxes of 100'
    """
    if line.count == 1:
        return f"1 {line.sold}"
    plural = {"box": "boxes"}.get(line.unit, f"{line.unit}s")
    return f"{line.count} {plural}" + (f" of {line.holds}" if line.holds > 1 else "")


def shopping_list(plan: Plan) -> List:
    """The shopping list; its last row is the total of all that has a price."""
    found = shopping(plan)
    money = found.currency.upper()
    rows: list[tuple[Cell, ...]] = [
        (line.kind, line.what, line.count, line.sold, amount(line.each), amount(line.cost), line.note)
        for line in found.lines
    ]
    missing = f"without {len(found.unpriced)} lines that have no price" if found.unpriced else ""
    rows.append(("all", "", None, "", None, amount(found.total or None), missing))
    columns = ("kind", "what", "count", "sold by the", Column("each", money), Column("cost", money), "note")
    return made("shopping", "Shopping list", columns, rows)
