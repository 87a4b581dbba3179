"""A cut plan as JSON and as text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from tutorial_lib.cutting.boards import CutPlan, Layout, SectionPlan
from tutorial_lib.cutting.money import Money
from tutorial_lib.cutting.proof import sentence
from tutorial_lib.cutting.saw import SecondTry, batches, marks_note, saw_cuts
from tutorial_lib.cutting.sawing import SAWING
from tutorial_lib.measures import factor, writer

if TYPE_CHECKING:
    from tutorial_lib.cutting.bed import BedCutting, OwnBoards, Purchase


def plan_json(plan: CutPlan, money: Money, unit: Fraction) -> dict[str, Any]:
    """The plan for other programs.

    Args:
        plan: a cut plan.
        money: how prices are written.
        unit: the unit of ``offcut`` [in].
    """
    sectioned = any(s.section for s in plan.sections)
    return {
        "boards": [_board(layout, unit, sectioned) for layout in plan.layouts],
        "cost": money.number(plan.cost),
        "proven": plan.proven,
        "bound": money.number(plan.bound),
        "used": plan.used(),
    }


def bed_json(cutting: BedCutting) -> dict[str, Any]:
    """The cut plan of a bed for other programs: as :func:`plan_json`, and what is bought and taken from the shelf."""
    metric = cutting.build.options.build.units == "mm"
    found = plan_json(cutting.plan, cutting.money, factor("mm", "in") if metric else Fraction(1))
    cost, unpriced = cutting.bought_for(cutting.plan)
    own = [{"section": b.section, "stock": b.stock, "count": b.count} for b in cutting.own_boards]
    return found | {
        "cost": cutting.money.number(cost),
        "buy": [_bought(purchase, cutting.money) for purchase in cutting.shopping],
        "own": own,
        "no_price": sorted(unpriced),
    }


def _bought(purchase: Purchase, money: Money) -> dict[str, Any]:
    price = {} if purchase.price is None else {"price": money.number(purchase.price)}
    return {"section": purchase.section, "stock": purchase.stock, "count": purchase.count} | price


def bed_text(cutting: BedCutting) -> str:
    """The cut plan of a bed for people: what to buy, what to take from the shelf, every board, stops, second tries."""
    units = cutting.build.options.build.units
    names = {part.key: part.name for part in cutting.build.parts}
    lines = ["To buy", *(_line(purchase, cutting.money) for purchase in cutting.shopping)]
    if not cutting.shopping:
        lines.append("  nothing: all pieces come from your own boards")
    if cutting.own_boards:
        lines += ["From your own boards", *(_own(board) for board in cutting.own_boards)]
    lines += ["", f"Lumber: {_cost(cutting)}"]
    lines += [f"  {part.section}: {sentence(part)}" for part in cutting.plan.sections if _told(cutting, part)]
    lines += _at_the_store(cutting, units)
    lines += _at_the_saw(cutting.sawn, units, names, SAWING[cutting.build.options.saw.kind].alike)
    lines += ["", "If one goes wrong"]
    lines += [f"  {names[t.name]} {writer(units).length(t.length)}: {_left(t, units)}" for t in cutting.second_tries]
    return "\n".join(lines) + "\n"


def _cost(cutting: BedCutting) -> str:
    """What the lumber costs, and what of it has no price."""
    without = f", without {', '.join(sorted(cutting.unpriced))} (no price given)" if cutting.unpriced else ""
    if not cutting.cost and without:
        return "no price given"
    return f"{cutting.money.write(cutting.cost)}{without}"


def _at_the_store(cutting: BedCutting, units: str) -> list[str]:
    """The cuts to ask the store for."""
    if not cutting.store_cuts:
        return []
    asked = Counter(cut.ask(units) for cut in cutting.store_cuts)
    return ["", "Ask the store for", *(f"  {count} x {words}" for words, count in asked.items())]


def _told(cutting: BedCutting, part: SectionPlan) -> bool:
    """A proof says something where there are prices, and something is bought."""
    return part.section not in cutting.yard.unpriced and bool(part.cost)


def _line(purchase: Purchase, money: Money) -> str:
    cost = "no price" if purchase.price is None else money.write(purchase.cost)
    spare = f", {purchase.spares} of them spare" if purchase.spares else ""
    return f"  {purchase.count} x {purchase.section} {purchase.stock}{spare}  {cost}"


def _own(board: OwnBoards) -> str:
    """Boards at hand: how many are cut, and of how many."""
    rest = board.there - board.count
    return f"  {board.count} x {board.section} {board.stock}" + (f"; {rest} more are not needed" if rest else "")


def _left(found: SecondTry, units: str) -> str:
    rests = (f"{writer(units).length(rest)} from layout {number}" for number, rest in found.leftovers)
    return ", ".join((*rests, *map(str, found.untouched))) or "no leftover is long enough"


def _board(layout: Layout, unit: Fraction, sectioned: bool) -> dict[str, Any]:
    board = layout.board
    offcut = board.offcut / unit
    entry: dict[str, Any] = {
        "stock": board.stock,
        "count": layout.count,
        "pieces": [{"name": name, "count": n} for name, n in board.counts],
        "offcut": int(offcut) if offcut.denominator == 1 else float(offcut),
    }
    if sectioned:
        entry["section"] = board.section
    return entry


def plan_text(plan: CutPlan, money: Money, units: str) -> str:
    """The plan for people: what to buy, how to cut each board, what is left, why nothing is cheaper."""
    lines = ["To buy"]
    for part in plan.sections:
        lines += _shopping(part, money, units)
    lines += ["", f"Cost {money.write(plan.cost)}, {_proof_word(plan, money)}"]
    lines += [f"  {_titled(part)}{sentence(part)}" for part in plan.sections]
    lines += _at_the_saw(plan, units, {}, SAWING["power"].alike)
    lines += ["", f"{float(plan.yield_share):.0%} of the length bought ends up in pieces."]
    return "\n".join(lines) + "\n"


def _at_the_saw(plan: CutPlan, units: str, names: Mapping[str, str], alike: str) -> Iterator[str]:
    """Every board with its running marks, and all pieces of one length together."""
    yield ""
    w = writer(units)
    yield f"At the saw (kerf {w.stated(plan.kerf)}, {w.stated(plan.trim)} lost at the ends)"
    for number, layout in enumerate(plan.layouts, 1):
        yield from _layout(number, layout, units, names)
    yield ""
    yield alike
    for b in batches(plan):
        named = ", ".join(names.get(name, name) for name in b.names)
        yield f"  {b.count} x {writer(units).length(b.length)}  {named}{_where(b.section)}"
    if note := marks_note(plan, w):
        yield f"  {note}"


def _where(section: str) -> str:
    return f"  ({section})" if section else ""


def _titled(part: SectionPlan) -> str:
    return f"{part.section}: " if part.section else ""


def _shopping(part: SectionPlan, money: Money, units: str) -> Iterator[str]:
    counted: dict[tuple[str, Fraction, int], int] = {}
    for board in part.boards:
        key = (board.stock, board.length, board.price)
        counted[key] = counted.get(key, 0) + 1
    for (stock, length, price), n in counted.items():
        cost = f"{money.write(n * price)}" if price else "no cost"
        yield f"  {n} x {_titled(part).replace(': ', ' ')}{stock} ({writer(units).length(length)})  {cost}"


def _proof_word(plan: CutPlan, money: Money) -> str:
    if plan.proven:
        return "proven: no cheaper list exists."
    return f"not proven: at best {money.write(plan.bound)}, so at most {plan.gap:.2%} could be saved."


def _layout(number: int, layout: Layout, units: str, names: Mapping[str, str]) -> Iterator[str]:
    board = layout.board
    times = f"{layout.count} boards" if layout.count > 1 else "1 board"
    yield f"  {number}. {times}: {board.section + ' ' if board.section else ''}{board.stock}"
    for cut in saw_cuts(board):
        name = names.get(cut.piece.name, cut.piece.name)
        yield f"       {writer(units).length(cut.mark):>12}  {name} {writer(units).length(cut.piece.length)}"
    if board.offcut > 0:
        yield f"       left over {writer(units).length(board.offcut)}"
