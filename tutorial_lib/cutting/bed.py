"""The bed's lumber: what to buy, what else it could cost, how it gets home, and where a little less saves a board."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from tutorial_lib.cutting.boards import Board, CutPlan, PieceDemand, SectionPlan, Stock, TieBreak, bought_length
from tutorial_lib.cutting.cliffs import Cliff, cliffs, per_board
from tutorial_lib.cutting.demand import too_long
from tutorial_lib.cutting.money import Money
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.cutting.saw import small_piece_finding
from tutorial_lib.cutting.store import StoreCut, store_cuts
from tutorial_lib.errors import InputError
from tutorial_lib.findings import Finding
from tutorial_lib.measures import mm, write_length
from tutorial_lib.tables.lumber import dressed
from tutorial_lib.tables.wood import species

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Part
    from tutorial_lib.design.options import LumberOptions, StockOptions

WISHES: dict[str, TieBreak] = {"fewest layouts": "layouts", "longest offcut": "offcut"}
USUAL_FEET = (8, 10, 12, 16)  # lengths most yards keep; common practice, no source
USUAL_METRES = ("2.4", "3.0", "3.6", "4.8")
LONGER = "Add a longer stock length, or splice over a leg."
LEAST_BEARING = Fraction(1)  # [in] of a screwed slat on its seat; our choice (rule R3)


@dataclass(frozen=True)
class Purchase:
    """One line of the shopping list."""

    section: str
    stock: str  # "8 ft"
    length: Fraction  # [in]
    count: int  # spares included
    spares: int
    price: int | None  # [cents] each; None where no price was given
    offcut: bool = False  # already on the shelf

    @property
    def cost(self) -> int:
        """What the line costs [cents]; 0 where no price is known."""
        return (self.price or 0) * self.count


@dataclass(frozen=True)
class Alternative:
    """The same bed from other boards."""

    name: str
    plan: CutPlan | None  # None: it can't be cut from these
    priced: bool
    why: str = ""  # why it can't


@dataclass(frozen=True)
class BedCutting:
    """The cut plan of a bed."""

    build: Build
    pieces: tuple[PieceDemand, ...]
    stocks: tuple[Stock, ...]
    plan: CutPlan
    money: Money
    unpriced: frozenset[str]  # sections whose boards have no price: least length is planned there
    left_out: tuple[Finding, ...]  # pieces no board can hold
    sold_as: Mapping[tuple[str, str], Stock] = field(default_factory=dict)  # measured boards: as they were sold

    @cached_property
    def shopping(self) -> tuple[Purchase, ...]:
        """What to buy, by section and length, spares included."""
        return tuple(p for part in self.plan.sections for p in self._purchases(part))

    def _purchases(self, part: SectionPlan) -> Iterator[Purchase]:
        spares = self.build.options.shop.spare_boards
        spare = self._spare(part) if spares else None
        counted = Counter(self._sold(b) for b in part.boards)
        if spare is not None:
            counted.setdefault((spare.name, spare.length, spare.price), 0)
        for (stock, length, price), count in sorted(counted.items(), key=lambda c: c[0][1]):
            extra = spares if spare and (stock, length) == (spare.name, spare.length) else 0
            known = None if part.section in self.unpriced else price
            shelf = stock.startswith("offcut")
            yield Purchase(part.section, stock, length, count + extra, extra, known, shelf)

    def _sold(self, board: Board) -> tuple[str, Fraction, int]:
        """Name, length and price a board is sold by; a measured one is planned as paid, yet listed."""
        row = self.sold_as.get((board.section, board.stock))
        return (row.name, row.length, row.price) if row else (board.stock, board.length, board.price)

    def _spare(self, part: SectionPlan) -> Stock | None:
        """The cheapest board that can replace the longest piece."""
        longest = max(p.length for b in part.boards for p in b.pieces)
        fits = [s for s in self.stocks if s.section == part.section and s.available is None]
        fits = [s for s in fits if s.length - self.plan.trim >= longest]
        return min(fits, key=lambda s: (s.price, s.length), default=None)

    @property
    def priced(self) -> bool:
        """True if every section has prices."""
        return not self.unpriced

    @property
    def cost(self) -> int:
        """What the lumber costs, spares included [cents]; sections without prices not counted."""
        return sum(p.cost for p in self.shopping)

    @cached_property
    def board_feet(self) -> Fraction:
        """Board measure of what is bought [board feet]: nominal inches x nominal inches x feet / 12.

        PS 20-20 2.2, board measure. Metric sections are not sold so and count nothing.
        """
        return sum((_board_feet(p) for p in self.shopping if not p.offcut), Fraction(0))

    @cached_property
    def weight(self) -> float:
        """What has to be carried home [lb], at the moisture it is bought."""
        return sum(self._weight(p) for p in self.shopping if not p.offcut)

    def _weight(self, purchase: Purchase) -> float:
        part = next(p for p in self.build.parts if p.section.name == purchase.section)
        name = part.section.species or self.build.options.wood.species
        density = species(name).density(self.build.options.wood.moisture_bought)
        area = part.section.thickness * part.section.width
        return float(area * purchase.length) / 1728 * density * purchase.count

    @property
    def yield_share(self) -> Fraction:
        """Length in the bed, of the length bought (spares left out)."""
        return self.plan.yield_share

    @cached_property
    def slats_per_board(self) -> int:
        """Slats from one of the boards that give most of them."""
        slat = self.build.part("slat")
        boards = [
            b for b in self.plan.boards if b.section == slat.section.name and any(p.name == "slat" for p in b.pieces)
        ]
        if not boards:
            return 0
        length = Counter(b.length for b in boards).most_common(1)[0][0]
        return per_board(slat.length, length, self.plan.kerf, self.plan.trim)

    @cached_property
    def alternatives(self) -> tuple[Alternative, ...]:
        """All from 8-foot boards, and what fits the car, to compare with the cheapest."""
        metric = self.build.options.build.units == "mm"
        name, short = ("all 2400 mm", mm(2400)) if metric else ("all 8 ft", Fraction(96))
        found = [self._limited(name, lambda s: s.length == short or (s.section, s.name) in self.sold_as or not s.price)]
        carry = self.build.options.shop.carry
        if carry is not None:
            found.append(self._limited("what fits the car", lambda s: s.length <= carry))
        return tuple(found)

    def _limited(self, name: str, keep: object) -> Alternative:
        assert callable(keep)
        stocks = [s for s in self.stocks if keep(s)]
        try:
            plan = plan_cuts(self.pieces, stocks, self.plan.kerf, self.plan.trim, prefer=())
        except InputError as error:
            return Alternative(name, None, self.priced, "; ".join(f"{f.where}: {f.what}" for f in error.faults))
        return Alternative(name, plan, self.priced)

    @cached_property
    def store_cuts(self) -> tuple[StoreCut, ...]:
        """The first cuts to ask the store for."""
        shop = self.build.options.shop
        return tuple(store_cuts(self.plan.boards, shop.store_cuts, shop.store_tolerance, shop.carry))

    @cached_property
    def cliffs(self) -> tuple[Cliff, ...]:
        """Where a slat a little shorter needs fewer boards; never below its bearing."""
        if not any(p.name == "slat" for p in self.pieces):
            return ()
        least = self.build.opening[0] - 2 * (self._seat() - LEAST_BEARING)
        section = self.build.part("slat").section.name
        pieces = [p for p in self.pieces if p.section == section]
        stocks = [s for s in self.stocks if s.section == section]
        plan = replace(self.plan, sections=(self.plan.section(section),))
        return tuple(cliffs(plan, pieces, stocks, "slat", least, self.build.grid))

    def _seat(self) -> Fraction:
        """How far the seat under a slat's end stands out from the rail [in]."""
        line = self.build.lines[0]
        inner = self.build.part("side_rail").section.thickness
        return max(line.seat) - inner

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Pieces no board holds (R19), yield cliffs (R20), small pieces, boards that don't fit the car."""
        return tuple(self._findings())

    def _findings(self) -> Iterator[Finding]:
        yield from self.left_out
        units = self.build.options.build.units
        for cliff in self.cliffs:
            yield cliff_finding(cliff, self.money, units, self.priced)
        if self.plan.boards and (small := small_piece_finding(self.plan)):
            yield small
        carry = self.build.options.shop.carry
        if carry is not None:
            yield from self._too_long_for_car(carry, units)

    def _too_long_for_car(self, carry: Fraction, units: str) -> Iterator[Finding]:
        cut = {c.index for c in self.store_cuts}
        long = [b for i, b in enumerate(self.plan.boards) if b.length > carry and i not in cut]
        if long:
            names = ", ".join(f"{n} x {name}" for name, n in Counter(f"{b.section} {b.stock}" for b in long).items())
            yield Finding(
                "transport", "caution", f"{names} will not fit the car.",
                write_length(max(b.length for b in long), units), write_length(carry, units), "your car",
                "Ask the store for a rough cut, buy the list that fits the car, or carry them on the roof.",
            )  # fmt: skip


def cliff_finding(cliff: Cliff, money: Money, units: str, priced: bool) -> Finding:
    """The yield cliff in a sentence, with what to change."""
    boards = "board" if cliff.boards_saved == 1 else "boards"
    saved = f" and {money.write(cliff.cost_saved)} less" if priced and cliff.cost_saved else ""
    return Finding(
        rule="yield cliff",
        severity="caution",
        what=f"The {cliff.piece} is {write_length(cliff.by, units, 32)} too long for {cliff.per_board} from one "
        f"{cliff.stock} board: {cliff.boards_saved} {boards} fewer{saved} if it were shorter.",
        value=write_length(cliff.length, units),
        limit=write_length(cliff.shorter, units),
        whose="the boards' length, the kerf and the trim",
        remedy=f"Set slats.play {write_length(cliff.by / 2, units, 32)} larger at each end.",
        parts=(cliff.piece,),
    )


def cut_bed(build: Build) -> BedCutting:
    """The cut plan of a bed; pieces no board can hold are reported and left out, so that the rest is still planned."""
    options = build.options
    pieces = tuple(_demand(part) for part in build.parts if not part.section.steel)
    stocks, unpriced = _stocks(build)
    bad = list(too_long(pieces, stocks, options.saw.trim, options.saw.kerf))
    names = {f.where for f in bad}
    kept = tuple(p for p in pieces if p.name not in names)
    findings = [
        Finding("stock length", "stop", f"{f.where}: {f.what}.", remedy=LONGER, parts=(f.where,))
        for f in bad
    ]  # fmt: skip
    prefer = tuple(WISHES[w] for w in options.saw.prefer)
    plan = CutPlan((), options.saw.kerf, options.saw.trim, prefer)
    for section in dict.fromkeys(p.section for p in kept):
        wanted = [p for p in kept if p.section == section]
        have = [s for s in stocks if s.section == section]
        try:
            part = plan_cuts(wanted, have, options.saw.kerf, options.saw.trim, prefer)
        except InputError as error:
            findings.append(Finding("stock", "stop", f"{section}: {error}", remedy="List more boards of this section."))
            kept = tuple(p for p in kept if p.section != section)
            continue
        plan = replace(plan, sections=plan.sections + part.sections)
    money, sold = _money(options.shop.currency), _measured(build)
    return BedCutting(build, kept, stocks, plan, money, unpriced, tuple(findings), sold)


def _money(currency: str) -> Money:
    signs = {"usd": ("$", True), "gbp": ("£", True), "eur": ("€", True)}
    sign, before = signs.get(currency, (currency.upper(), False))
    return Money(sign, before)


def _demand(part: Part) -> PieceDemand:
    return PieceDemand(part.key, part.length, part.count, part.section.name)


def _stocks(build: Build) -> tuple[tuple[Stock, ...], frozenset[str]]:
    """Boards to be had for every section, and the sections without prices."""
    found: list[Stock] = []
    unpriced: set[str] = set()
    for section in dict.fromkeys(part.section.name for part in build.parts if not part.section.steel):
        lumber = build.options.lumber.get(section)
        rows = _section_stocks(section, lumber, build.options.build.units)
        if any(price is None for _, price in rows):
            # Without prices the cheapest list is the one with the least length.
            unpriced.add(section)
            found += [replace(stock, price=0 if price == 0 else int(stock.length * 16)) for stock, price in rows]
        else:
            found += [replace(stock, price=price or 0) for stock, price in rows]
    return tuple(found), frozenset(unpriced)


def _section_stocks(section: str, lumber: LumberOptions | None, units: str) -> list[tuple[Stock, int | None]]:
    """One section's stock with its price [cents], None where none is given."""
    if lumber is None or not lumber.stock:
        lengths = (
            [mm(Fraction(m) * 1000) for m in USUAL_METRES] if units == "mm" else [Fraction(12 * f) for f in USUAL_FEET]
        )
        return [(Stock(stock_name(n), n, 0, None, section), None) for n in lengths]
    rows: list[tuple[Stock, int | None]] = []
    for row in lumber.stock:
        name = stock_name(row.length)
        available = row.available
        price = None if row.price is None else int(row.price * 100)
        if row.offcut:
            name, available = f"offcut {write_length(row.length, units)}", 1 if available is None else available
            price = price or 0
        rows += [(stock, 0) for stock in _at_hand(name, row, section, units)]
        more = None if available is None else max(available - len(row.measured), 0)
        rows.append((Stock(name, row.length, 0, more, section), price))
    return rows


def _at_hand(name: str, row: StockOptions, section: str, units: str) -> list[Stock]:
    """Boards bought already, by their real length: planned before any other is bought."""
    counted = sorted(Counter(row.measured).items())
    return [Stock(measured_name(name, length, units), length, 0, n, section) for length, n in counted]


def measured_name(name: str, length: Fraction, units: str) -> str:
    """How a measured board is called.

    >>> measured_name("10 ft", Fraction(239, 2), "in")
    '10 ft, measured 119 1/2 in'
    """
    return f"{name}, measured {write_length(length, units)}"


def _measured(build: Build) -> dict[tuple[str, str], Stock]:
    """Measured boards by section and name, with the row they were sold by."""
    found: dict[tuple[str, str], Stock] = {}
    units = build.options.build.units
    for section, lumber in build.options.lumber.items():
        for row in lumber.stock:
            name, price = stock_name(row.length), int((row.price or 0) * 100)
            for length in row.measured:
                found[section, measured_name(name, length, units)] = Stock(name, row.length, price, None, section)
    return found


def stock_name(length: Fraction) -> str:
    """A board's length as the yard says it.

    >>> stock_name(Fraction(96)), stock_name(mm(2400))
    ('8 ft', '2400 mm')
    """
    if (length / 12).denominator == 1:
        return f"{length // 12} ft"
    metric = length * Fraction(254, 10)
    return f"{metric} mm" if metric.denominator == 1 else write_length(length)


def _board_feet(purchase: Purchase) -> Fraction:
    try:
        size = dressed(purchase.section)
    except InputError:
        return Fraction(0)
    if size.metric:
        return Fraction(0)
    return size.nominal_thickness * size.nominal_width * purchase.length / 144 * purchase.count


def boards_of(cutting: BedCutting, section: str) -> Sequence[Board]:
    """The boards of one section."""
    return cutting.plan.section(section).boards


def bought(cutting: BedCutting) -> Fraction:
    """Length of all boards, spares left out [in]."""
    return bought_length(cutting.plan.boards)
