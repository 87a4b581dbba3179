"""Facts of the lumber: boards to buy, their cost, what one gives, kerf and trim."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.words import said_as
from tutorial_lib.measures import to_mm, write_length

if TYPE_CHECKING:
    from tutorial_lib.cutting.bed import BedCutting, Purchase
    from tutorial_lib.plan import Plan


KG_PER_LB = 0.45359237  # exact, NIST SP 811


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the cutting room."""
    cutting = plan.cutting
    units = plan.options.build.units
    for lines in _alike(cutting.shopping).values():
        yield from _stock(lines, units)
    yield from _slats(plan)
    yield from _saw(plan)
    yield from _sums(cutting, plan.options.shop.currency)


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


def _stock(lines: Sequence[Purchase], units: str) -> Iterator[Fact]:
    purchase = lines[0]
    count, spares = sum(line.count for line in lines), sum(line.spares for line in lines)
    feet = purchase.length / 12
    what = f"{feet}-ft {purchase.section}" if feet.denominator == 1 else f"{purchase.stock} {purchase.section}"
    words = said_as({}, purchase.section)
    spare = f", {spares} of them spare" if spares else ""
    yield Fact(f"{_key(purchase)}.count", count, "count", "stock_count", what, words, f"cut plan{spare}")
    length = purchase.length
    yield Fact(f"{_key(purchase)}.length", length, "in", "stock_length", what, words, f"sold as {purchase.stock}")


def _slats(plan: Plan) -> Iterator[Fact]:
    cutting = plan.cutting
    if not plan.build.has("slat") or not cutting.slats_per_board:
        return
    slat = plan.build.part("slat")
    boards = [b for b in cutting.plan.boards if any(p.name == "slat" for p in b.pieces)]
    longest = max(boards, key=lambda b: sum(c.length == b.length for c in boards)).length
    units = plan.options.build.units
    feet = longest / 12
    size = f"{feet}-ft" if feet.denominator == 1 else write_length(longest, units)
    kerf, trim = cutting.plan.kerf, cutting.plan.trim
    working = (
        f"({write_length(longest, units)} − {write_length(trim, units)} trim + {write_length(kerf, units)} kerf) ÷ "
        f"({write_length(slat.length, units)} + {write_length(kerf, units)} kerf), rounded down"
    )
    what = f"slats out of one {size} {slat.section.name}"
    yield Fact("slat.per_board", cutting.slats_per_board, "count", "pieces_per_board", what, ("slat",), working)


def _saw(plan: Plan) -> Iterator[Fact]:
    saw = plan.options.saw
    yield Fact("kerf", saw.kerf, "in", "kerf", "saw kerf", ("kerf", "saw"), "stated")
    yield Fact("trim", saw.trim, "in", "trim", "lost at each board's ends, squaring cut included", ("trim",), "stated")


def _sums(cutting: BedCutting, currency: str) -> Iterator[Fact]:
    if cutting.priced and cutting.plan.boards:
        lines = " + ".join(f"{p.count} × {cutting.money.write(p.price or 0)}" for p in cutting.shopping)
        amount = Fraction(cutting.cost, cutting.money.per_unit)
        yield Fact("lumber.cost", amount, currency, "cost", "all lumber", ("lumber", "wood", "whole lot"), lines)
    boards = sum(p.count for p in cutting.shopping)
    yield Fact("lumber.boards", boards, "count", "stock_count", "boards to buy", ("boards",), "cut plan")
    if cutting.board_feet:
        what, working = "board feet bought, nominal", "nominal inches × nominal inches × feet ÷ 12"
        yield Fact("lumber.board_feet", cutting.board_feet, "board ft", "volume", what, ("board feet",), working)
    if cutting.plan.boards:
        what, working = "lumber to carry home", "volume × density as bought"
        metric = cutting.build.options.build.units == "mm"
        weight, unit = (cutting.weight * KG_PER_LB, "kg") if metric else (cutting.weight, "lb")
        yield Fact("lumber.weight", round(weight), unit, "weight", what, ("lumber",), working)
        share = round(100 * float(cutting.yield_share))
        what, working = "of the length bought ends up in the bed", "length of all pieces ÷ length of all boards"
        yield Fact("lumber.yield", share, "%", "yield", what, ("yield",), working)
