"""A cut plan as JSON and as text."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tutorial_lib.cutting.boards import CutPlan, Layout, SectionPlan
from tutorial_lib.cutting.money import Money
from tutorial_lib.cutting.proof import sentence
from tutorial_lib.cutting.saw import batches, saw_cuts
from tutorial_lib.measures import write_length


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
    lines += [
        "",
        f"At the saw (kerf {write_length(plan.kerf, units, 64)}, {write_length(plan.trim, units)} lost at the ends)",
    ]
    for number, layout in enumerate(plan.layouts, 1):
        lines += _layout(number, layout, units)
    lines += ["", "Stop block, set once for each length"]
    lines += [
        f"  {b.count} x {write_length(b.length, units)}  {', '.join(b.names)}{_where(b.section)}" for b in batches(plan)
    ]
    lines += ["", f"{float(plan.yield_share):.0%} of the length bought ends up in pieces."]
    return "\n".join(lines) + "\n"


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
        yield f"  {n} x {_titled(part).replace(': ', ' ')}{stock} ({write_length(length, units)})  {cost}"


def _proof_word(plan: CutPlan, money: Money) -> str:
    if plan.proven:
        return "proven: no cheaper list exists."
    return f"not proven: at best {money.write(plan.bound)}, so at most {plan.gap:.2%} could be saved."


def _layout(number: int, layout: Layout, units: str) -> Iterator[str]:
    board = layout.board
    times = f"{layout.count} boards" if layout.count > 1 else "1 board"
    yield f"  {number}. {times}: {board.section + ' ' if board.section else ''}{board.stock}"
    for cut in saw_cuts(board):
        yield f"       {write_length(cut.mark, units):>12}  {cut.piece.name} {write_length(cut.piece.length, units)}"
    if board.offcut > 0:
        yield f"       left over {write_length(board.offcut, units)}"
