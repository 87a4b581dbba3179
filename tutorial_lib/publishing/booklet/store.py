"""Saw sheet 1, for the store: what to buy with a box a board, what the shed gives, what the store cuts, one total."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from tutorial_lib.cutting.saw import SawList
from tutorial_lib.design.model import Part
from tutorial_lib.design.post_rules import into_mattress, needed_radius
from tutorial_lib.drawing.sawing import end_on
from tutorial_lib.lists import buying
from tutorial_lib.measures import money
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, cautions, drawn
from tutorial_lib.publishing.tools import tools

ROOM = 74.0  # [pt] for the widest board end on
LARGEST = 12.0  # [pt per in] a sixth of full size


def leaves(book: Book) -> Iterator[Leaf]:
    """The page to take along."""
    bought = buying.shopping(book.plan)
    scale = _scale(book)
    yield Leaf("store", {
        "scale": f"1/{round(72 / scale)} size",
        "boards": list(_boards(book, scale)),
        "summary": _summary(book),
        "total": money(bought.total, bought.currency) if bought.priced else "no prices",
        "unpriced": f"without the {len(bought.unpriced)} lines that have no price" if bought.unpriced and bought.priced
        else "",
        "own": [{"count": b.count, "what": f"{b.section}, {b.stock}"} for b in book.plan.cutting.own_boards],
        "cuts": _store_cuts(book),
        "lines": list(_lines(bought)),
        "minded": list(SawList(book.plan.cutting.plan).notes),
        "mattress": list(_mattress(book)),
        "tools": list(tools(book.plan, book.w)),
        "cautions": cautions(book.plan.cutting.findings),
    })  # fmt: skip


def _mattress(book: Book) -> Iterator[Data]:
    """What to measure of the mattress, and what the bed counts on; how round it is where posts stand in its corners."""
    for name in ("width", "length", "thickness"):
        if f"mattress.{name}" in book.facts:
            yield {"what": name, "here": f"here {book.fact(f'mattress.{name}')}"}
    if book.plan.options.frame.posts and min(past := into_mattress(book.plan.build)) > 0:
        yield {"what": "corners' radius", "here": f"{book.w.length(needed_radius(past))} or more"}


def _scale(book: Book) -> float:
    widest = max((float(p.section.width) for p in book.plan.build.made if not p.section.steel), default=1.0)
    return min(LARGEST, ROOM / widest)


def _boards(book: Book, scale: float) -> Iterator[Data]:
    cutting, w = book.plan.cutting, book.w
    for purchase in cutting.shopping:
        boards = [b for b in cutting.plan.boards if (b.section, b.length) == (purchase.section, purchase.length)]
        becomes = {piece.name for board in boards if not board.own for piece in board.pieces}
        parts = [part for part in book.plan.build.parts if part.key in becomes]
        size = next(part.section for part in book.plan.build.parts if part.section.name == purchase.section)
        price = purchase.price
        yield {
            "picture": drawn(end_on(size.thickness, size.width, scale)), "section": purchase.section,
            "stock": purchase.stock, "count": purchase.count,
            "size": w.size(size.thickness, size.width),
            "parts": ", ".join(_lettered(book, part) for part in parts),
            "spares": f"{purchase.spares} of them spare" if purchase.spares else "",
            "each": "" if price is None else cutting.money.write(price),
            "cost": "no price" if price is None else cutting.money.write(purchase.cost),
        }  # fmt: skip


def _lettered(book: Book, part: Part) -> str:
    return f"{book.letters[part.key]} {part.name}"


def _summary(book: Book) -> Data:
    cutting, w = book.plan.cutting, book.w
    if not cutting.shopping:
        return {"boards": "no board to buy", "rest": ""}
    longest = max(cutting.shopping, key=lambda p: p.length)
    count = sum(p.count for p in cutting.shopping)
    return {"boards": f"{count} {'board' if count == 1 else 'boards'}",
            "rest": f"{w.weight(cutting.weight)} to carry; the longest is {longest.stock}"}  # fmt: skip


def _store_cuts(book: Book) -> list[str]:
    units = book.plan.options.build.units
    return [f"{n} x {told}" for told, n in Counter(cut.ask(units) for cut in book.plan.cutting.store_cuts).items()]


def _lines(bought: buying.Shopping) -> Iterator[Data]:
    for line in bought.lines:
        if line.kind != "lumber":
            yield {
                "what": line.what, "note": line.note, "buy": buying.units_of(line),
                "cost": "" if line.cost is None else money(line.cost, bought.currency),
            }  # fmt: skip
