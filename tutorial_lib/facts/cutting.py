"""Facts of the lumber: boards to buy, their cost, what one gives, kerf and trim."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Board, Fact
from tutorial_lib.facts.teller import Teller
from tutorial_lib.measures import sold_length, to_mm

if TYPE_CHECKING:
    from tutorial_lib.cutting.bed import BedCutting, Purchase
    from tutorial_lib.cutting.money import Money
    from tutorial_lib.plan import Plan


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the cutting room."""
    tell, cutting = Teller(plan.options), plan.cutting
    for lines in _alike(cutting.shopping).values():
        yield from _stock(tell, lines, plan.options.shop.currency, cutting.money)
    yield from _per_board(tell, plan)
    yield from _saw(tell, plan)
    yield from _sums(tell, cutting, plan.options.shop.currency)


def _key(purchase: Purchase) -> str:
    """``stock.2x6x8``: section and feet, or millimetres where it is no whole foot."""
    feet = purchase.length / 12
    size = f"{feet}" if feet.denominator == 1 else f"{round(to_mm(purchase.length))}"
    return f"stock.{purchase.section}x{size}"


def _alike(shopping: Sequence[Purchase]) -> dict[str, list[Purchase]]:
    """Boards of one section and length, also where the shop sells some of them at another price."""
    found: dict[str, list[Purchase]] = {}
    for purchase in shopping:
        found.setdefault(_key(purchase), []).append(purchase)
    return found


def _stock(tell: Teller, lines: Sequence[Purchase], currency: str, money: Money) -> Iterator[Fact]:
    purchase = lines[0]
    count, spares = sum(line.count for line in lines), sum(line.spares for line in lines)
    feet = purchase.length / 12
    size = sold_length(purchase.length, "-") if feet.denominator == 1 else purchase.stock
    what = f"{size} {purchase.section}"
    spare = f", {spares} of them spare" if spares else ""
    board = Board(purchase.section, purchase.length)
    told = (
        tell.count(f"{_key(purchase)}.count", count, "stock_count", what, f"cut plan{spare}", said=()),
        tell.length(f"{_key(purchase)}.length", purchase.length, "stock_length", what, f"sold as {purchase.stock}",
                    said=()),
    )  # fmt: skip
    yield from (replace(fact, board=board) for fact in told)
    prices = {line.price for line in lines}
    if len(prices) == 1 and purchase.price is not None:  # dear and cheap ones of one size have no price in common
        amount = Fraction(purchase.price, money.per_unit)
        key, told_as = f"{_key(purchase)}.price", f"price of one {what}"
        yield replace(tell.bare(key, amount, currency, "price", told_as, "stated", said=()), board=board)


def _per_board(tell: Teller, plan: Plan) -> Iterator[Fact]:
    """Pieces of a part out of one board: of the slats what a board gives, of the others what the plan takes."""
    cutting = plan.cutting
    for part in plan.build.made:
        boards = [b for b in cutting.plan.boards if any(p.name == part.key for p in b.pieces)]
        if not boards or part.count < 2:
            continue
        longest = max(boards, key=lambda b: sum(c.length == b.length for c in boards)).length  # the usual board
        slat = part.key == "slat" and cutting.slats_per_board
        count = slat or max(sum(p.name == part.key for p in b.pieces) for b in boards if b.length == longest)
        kerf, trim = tell.w.stated(cutting.plan.kerf), tell.w.stated(cutting.plan.trim)
        room = f"({tell.fine(longest)} − {trim} trim + {kerf} kerf)"
        gives = f"{room} ÷ ({tell.fine(part.length)} + {kerf} kerf), rounded down"
        feet = longest / 12
        size = sold_length(longest, "-") if feet.denominator == 1 and not tell.w.metric else tell.fine(longest)
        what = f"{part.several} out of one {size} {part.section.name}"
        working = gives if slat else "cut plan"
        fact = tell.count(f"{part.key}.per_board", count, "pieces_per_board", what, working)
        yield replace(fact, board=Board(part.section.name, longest))


def _saw(tell: Teller, plan: Plan) -> Iterator[Fact]:
    saw = plan.options.saw
    yield tell.length("kerf", saw.kerf, "kerf", "saw kerf", "stated", said=("kerf", "saw"))
    yield tell.length("trim", saw.trim, "trim", "lost at each board's ends, squaring cut included", "stated",
                      said=("trim",))  # fmt: skip


def _sums(tell: Teller, cutting: BedCutting, currency: str) -> Iterator[Fact]:
    if cutting.priced and cutting.plan.boards:
        lines = " + ".join(f"{p.count} × {cutting.money.write(p.price or 0)}" for p in cutting.shopping)
        amount = Fraction(cutting.cost, cutting.money.per_unit)
        yield tell.bare("lumber.cost", amount, currency, "cost", "all lumber", lines,
                        said=("lumber", "wood", "whole lot"))  # fmt: skip
    boards = sum(p.count for p in cutting.shopping)
    yield tell.count("lumber.boards", boards, "stock_count", "boards to buy", "cut plan", said=("boards",))
    if cutting.board_feet:
        yield tell.bare("lumber.board_feet", cutting.board_feet, "board ft", "volume", "board feet bought, nominal",
                        "nominal inches × nominal inches × feet ÷ 12", said=("board feet",))  # fmt: skip
    if cutting.plan.boards:
        yield tell.measure("weight", "lumber.weight", cutting.weight, "weight", "lumber to carry home",
                           "volume × density as bought", said=("lumber",))  # fmt: skip
        yield tell.bare("lumber.yield", round(100 * float(cutting.yield_share)), "%", "yield",
                        "of the length bought ends up in the bed", "length of all pieces ÷ length of all boards",
                        said=("yield",))  # fmt: skip
