"""The bed's lumber: what to buy, what else it could cost, how it gets home, and where a little less saves a board."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from tutorial_lib.cutting.boards import CutPlan, PieceDemand, SectionPlan, Stock, TieBreak
from tutorial_lib.cutting.cliffs import Cliff, cliffs, per_board
from tutorial_lib.cutting.demand import too_long
from tutorial_lib.cutting.minding import FITS_THE_CAR, findings_of
from tutorial_lib.cutting.money import Money
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.cutting.saw import SecondTry, Untouched, second_tries
from tutorial_lib.cutting.store import StoreCut, at_home, store_cuts
from tutorial_lib.cutting.yard import Yard, yard
from tutorial_lib.design.weights import CUBIC_INCHES, density
from tutorial_lib.errors import InputError
from tutorial_lib.findings import Finding
from tutorial_lib.measures import mm, writer
from tutorial_lib.records import dataclass
from tutorial_lib.tables.lumber import dressed

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Part

WISHES: dict[str, TieBreak] = {"fewest layouts": "layouts", "longest offcut": "offcut"}
LONGER = "Add a longer stock length, or splice over a leg."
LEAST_BEARING = Fraction(1)  # [in] of a screwed slat on its seat; our choice (rule R3)


@dataclass(frozen=True, kw_only=True)
class Purchase:
    """One line of the shopping list."""

    section: str
    stock: str  # "8 ft"
    length: Fraction  # [in]
    count: int  # spares included
    spares: int = 0
    price: int | None = None  # [cents] each; None where no price was given

    @property
    def cost(self) -> int:
        """What the line costs [cents]; 0 where no price is known."""
        return (self.price or 0) * self.count


@dataclass(frozen=True)
class OwnBoards:
    """Boards at hand that the plan uses."""

    section: str
    stock: str  # "own 8 ft"
    length: Fraction  # [in]
    count: int  # of them cut
    there: int  # of them at hand


@dataclass(frozen=True)
class Alternative:
    """The same bed from other boards."""

    name: str
    plan: CutPlan | None  # None: it can't be cut from these
    cost: int = 0  # [cents] of what has a price
    unpriced: frozenset[str] = frozenset()  # sections whose cost isn't counted
    why: str = ""  # why it can't


@dataclass(frozen=True, kw_only=True)
class BedCutting:
    """The cut plan of a bed."""

    build: Build
    pieces: tuple[PieceDemand, ...]
    yard: Yard
    plan: CutPlan
    money: Money
    left_out: tuple[Finding, ...]  # pieces no board can hold

    @property
    def stocks(self) -> tuple[Stock, ...]:
        """Boards to be had."""
        return self.yard.stocks

    @property
    def unpriced(self) -> frozenset[str]:
        """Sections that are bought and whose boards have no price: least length is planned there."""
        return self.yard.unpriced & {purchase.section for purchase in self.shopping}

    @cached_property
    def shopping(self) -> tuple[Purchase, ...]:
        """What to buy, by section and length, spares included; boards at hand are no purchase."""
        return tuple(p for part in self.plan.sections for p in self._purchases(part))

    def _purchases(self, part: SectionPlan) -> Iterator[Purchase]:
        spares = self.build.options.shop.spare_boards
        spare = self._spare(part) if spares else None
        counted = Counter((b.stock, b.length, b.price) for b in part.boards if not b.own)
        if spare is not None:
            counted.setdefault((spare.name, spare.length, spare.price), 0)
        for (stock, length, price), count in sorted(counted.items(), key=lambda c: c[0][1:]):
            extra = spares if spare and (stock, length, price) == (spare.name, spare.length, spare.price) else 0
            yield Purchase(
                section=part.section,
                stock=stock,
                length=length,
                count=count + extra,
                spares=extra,
                price=None if part.section in self.yard.unpriced else price,
            )

    def _spare(self, part: SectionPlan) -> Stock | None:
        """The cheapest board that can replace the longest piece."""
        longest = max(p.length for b in part.boards for p in b.pieces)
        fits = [s for s in self.yard.of(part.section) if s.available is None]
        fits = [s for s in fits if s.length - self.plan.trim >= longest]
        return min(fits, key=lambda s: (s.price, s.length), default=None)

    @cached_property
    def own_boards(self) -> tuple[OwnBoards, ...]:
        """Boards at hand that are cut, by section and length."""
        counted = Counter((b.section, b.stock, b.length) for b in self.plan.boards if b.own)
        there = {(s.section, s.name, s.length): s.available or 0 for s in self.stocks if s.own}
        return tuple(OwnBoards(*board, count, there[board]) for board, count in counted.items())

    @property
    def priced(self) -> bool:
        """True if everything bought has a price."""
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
        return sum((_board_feet(p) for p in self.shopping), Fraction(0))

    @cached_property
    def weight(self) -> float:
        """What has to be carried home [lb], at the moisture it is bought."""
        return sum(self._weight(p) for p in self.shopping)

    def _weight(self, purchase: Purchase) -> float:
        part = next(p for p in self.build.parts if p.section.name == purchase.section)
        wood = self.build.options.wood
        area = part.section.thickness * part.section.width
        pounds = density(part.section, wood.moisture_bought, wood.species) / CUBIC_INCHES
        return float(area * purchase.length) * pounds * purchase.count

    @property
    def yield_share(self) -> Fraction:
        """Length in the bed, of the length of all boards cut (spares left out)."""
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
        """All from 8-foot boards, and what fits the car, to compare with the cheapest; boards at hand in each."""
        metric = self.build.options.build.units == "mm"
        name, short = ("all 2400 mm", mm(2400)) if metric else ("all 8 ft", Fraction(96))
        found = [self._limited(name, lambda s: s.length == short)]
        carry = self.build.options.shop.carry
        if carry is not None:
            found.append(self._limited(FITS_THE_CAR, lambda s: s.length <= carry))
        return tuple(found)

    def _limited(self, name: str, keep: Callable[[Stock], bool]) -> Alternative:
        stocks = [s for s in self.stocks if s.own or keep(s)]
        lacking = {p.section for p in self.pieces} - {s.section for s in stocks}
        if lacking:
            return Alternative(name, None, why=f"no such board is listed of {', '.join(sorted(lacking))}")
        try:
            units = self.build.options.build.units
            plan = plan_cuts(self.pieces, stocks, self.plan.kerf, self.plan.trim, prefer=(), units=units)
        except InputError as error:
            return Alternative(name, None, why="; ".join(f"{f.where}: {f.what}" for f in error.faults))
        return Alternative(name, plan, *self.bought_for(plan))

    def bought_for(self, plan: CutPlan) -> tuple[int, frozenset[str]]:
        """What the boards of a plan cost [cents], spares left out, and the sections that cost isn't known of."""
        bought = [board for board in plan.boards if not board.own]
        cost = sum(board.price for board in bought if board.section not in self.yard.unpriced)
        return cost, self.yard.unpriced & {board.section for board in bought}

    @cached_property
    def store_cuts(self) -> tuple[StoreCut, ...]:
        """The first cuts to ask the store for."""
        shop = self.build.options.shop
        return tuple(store_cuts(self.plan.boards, shop.store_cuts, shop.store_tolerance, shop.carry))

    @cached_property
    def sawn(self) -> CutPlan:
        """The boards as they lie at the saw: those the store has cut in their parts. Costs are the plan's."""
        return at_home(self.plan, self.store_cuts, self.build.options.build.units)

    @cached_property
    def second_tries(self) -> tuple[SecondTry, ...]:
        """For every piece what it could be cut from again."""
        return second_tries(self.sawn, tuple(self._untouched()))

    def _own_untouched(self) -> Iterator[Untouched]:
        """Boards at hand that no piece is cut from."""
        used = Counter((b.section, b.stock, b.length) for b in self.plan.boards if b.own)
        for stock in self.stocks:
            rest = (stock.available or 0) - used[stock.section, stock.name, stock.length]
            if stock.own and rest:
                yield Untouched(stock.section, stock.name, stock.length, rest)

    def _untouched(self) -> Iterator[Untouched]:
        yield from self._own_untouched()
        for bought in self.shopping:
            if bought.spares:
                yield Untouched(bought.section, f"spare {bought.stock}", bought.length, bought.spares)
        units = self.build.options.build.units
        rests = Counter(part for cut in self.store_cuts for part in cut.parts(units) if not part.pieces)
        yield from (Untouched(part.section, part.stock, part.length, count) for part, count in rests.items())

    @cached_property
    def cliffs(self) -> tuple[Cliff, ...]:
        """Where a slat a little shorter needs fewer boards or less money; never below its bearing."""
        if not any(p.name == "slat" for p in self.pieces):
            return ()
        least = self.build.opening[0] - 2 * (self._seat() - LEAST_BEARING)
        section = self.build.part("slat").section.name
        pieces = [p for p in self.pieces if p.section == section]
        plan = replace(self.plan, sections=(self.plan.section(section),))
        return tuple(cliffs(plan, pieces, self.yard.of(section), "slat", least, self.build.grid))

    def _seat(self) -> Fraction:
        """How far the seat under a slat's end stands out from the rail [in]."""
        line = self.build.lines[0]
        inner = self.build.part("side_rail").section.thickness
        return max(line.seat) - inner

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Pieces no board holds (R19), yield cliffs (R20), small pieces, what doesn't fit the car, odd own boards."""
        return (*self.left_out, *findings_of(self))


def cut_bed(build: Build) -> BedCutting:
    """The cut plan of a bed; pieces no board can hold are reported and left out, so that the rest is still planned."""
    options = build.options
    pieces = tuple(_demand(part) for part in build.made if not part.section.steel)
    there = yard(build)
    units = options.build.units
    bad = list(too_long(pieces, there.stocks, options.saw.trim, options.saw.kerf, writer(units)))
    names = {name for long in bad for name in long.pieces}
    kept = tuple(p for p in pieces if p.name not in names)
    findings = [
        Finding(rule="stock length", severity="stop", what=f"{long.fault}.", remedy=LONGER, parts=long.pieces)
        for long in bad
    ]  # fmt: skip
    prefer = tuple(WISHES[w] for w in options.saw.prefer)
    plan = CutPlan((), options.saw.kerf, options.saw.trim, prefer)
    for section in dict.fromkeys(p.section for p in kept):
        wanted = [p for p in kept if p.section == section]
        try:
            part = plan_cuts(wanted, there.of(section), options.saw.kerf, options.saw.trim, prefer, units=units)
        except InputError as error:
            findings.append(
                Finding(
                    rule="stock",
                    severity="stop",
                    what=f"{section}: {error}",
                    remedy="List more boards of this section.",
                )
            )
            kept = tuple(p for p in kept if p.section != section)
            continue
        plan = replace(plan, sections=plan.sections + part.sections)
    money = Money.in_currency(options.shop.currency)
    return BedCutting(build=build, pieces=kept, yard=there, plan=plan, money=money, left_out=tuple(findings))


def _demand(part: Part) -> PieceDemand:
    return PieceDemand(part.key, part.length, part.count, part.section.name)


def _board_feet(purchase: Purchase) -> Fraction:
    try:
        size = dressed(purchase.section)
    except InputError:
        return Fraction(0)
    if size.metric:
        return Fraction(0)
    return size.nominal_thickness * size.nominal_width * purchase.length / 144 * purchase.count
