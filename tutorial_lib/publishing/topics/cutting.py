"""The sheet's shopping and cutting pages: what to buy, why nothing is cheaper, every board as it lies at the saw."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.cutting.bed import Alternative, BedCutting
from tutorial_lib.cutting.marking import Method, Row, chance_to_rock, compare, row_of
from tutorial_lib.cutting.proof import sentence
from tutorial_lib.drawing.cut_layout import marking_plot
from tutorial_lib.drawing.sawing import board
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.lists.names import letters
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Column,
    Figures,
    Heading,
    Items,
    Note,
    Picture,
    Table,
    Text,
)

BAR = "Each bar holds the middle 18 of 20 beds: the last gap laid or, with marks from one end, the widest."
SUMS = ("lumber.cost", "lumber.boards", "lumber.board_feet", "lumber.weight", "lumber.yield", "slat.per_board")


def facts(plan: Plan) -> dict[str, Fact]:
    """The cutting facts by key."""
    return dict(facts_of(plan, ["cutting"]))


def beside_shopping(plan: Plan) -> list[Block]:
    """Boards at hand that are used, why nothing is cheaper, and the sums."""
    found = facts(plan)
    figures = tuple(found[key] for key in SUMS if key in found)
    return [*own_table(plan.cutting), *_told(plan.cutting), Figures(figures, plan.options.build.units)]


def own_table(cutting: BedCutting) -> list[Block]:
    """Boards at hand that are cut: nothing to buy or carry."""
    rows = tuple((b.section, b.stock, str(b.count), str(b.there)) for b in cutting.own_boards)
    columns = (Column("lumber"), Column("board"), Column("take", align="right"), Column("you have", align="right"))
    return [Table(columns, rows, "Take from your own boards")] if rows else []


def _told(cutting: BedCutting) -> Iterator[Block]:
    """Prices that are missing, and the proof in a sentence a section."""
    if cutting.unpriced:
        names = ", ".join(sorted(cutting.unpriced))
        yield Note(
            f"No price is given for {names}: the list there takes the least length, and its cost is not counted."
        )
    yield from proven(cutting)


def proven(cutting: BedCutting) -> Iterator[Block]:
    """Why no list is cheaper, in a sentence a section."""
    proofs = tuple(
        f"{part.section}: {sentence(part, _next_lower(cutting, part.cost))}"
        for part in cutting.plan.sections
        if part.section not in cutting.unpriced and part.cost
    )
    if proofs:
        yield Heading("Why no list is cheaper")
        yield Items(proofs)


def _next_lower(cutting: BedCutting, cost: int) -> str:
    return cutting.money.write(cost - 1) if cost else ""


def alternatives(plan: Plan) -> list[Block]:
    """The cheapest mix against one length for all, and against what fits the car."""
    cutting = plan.cutting
    if not cutting.shopping:
        return []
    cheapest = Alternative("cheapest", cutting.plan, *cutting.bought_for(cutting.plan))
    rows = [_row(cutting, cheapest, other) for other in (cheapest, *cutting.alternatives)]
    columns = (Column("bought as"), Column("boards", align="right"), Column("cost", align="right"),
               Column("in the bed", "%", "right"), Column("", share=2))  # fmt: skip
    return [Table(columns, tuple(rows), "Other ways to buy, spares left out", frozenset({0}))]


def _row(cutting: BedCutting, cheapest: Alternative, other: Alternative) -> tuple[str, ...]:
    if other.plan is None:
        return (other.name, "", "", "", f"not possible: {other.why}")
    said = [f"without {', '.join(sorted(other.unpriced))}: no price given"] if other.unpriced else []
    more = other.cost - cheapest.cost
    if more and other.unpriced == cheapest.unpriced:
        said.insert(0, f"{cutting.money.write(abs(more))} {'more' if more > 0 else 'less'}")
    bought = sum(not board.own for board in other.plan.boards)
    share = f"{100 * float(other.plan.yield_share):.0f}"
    cost = cutting.money.write(other.cost) if other.cost or not other.unpriced else ""
    return (other.name, str(bought), cost, share, "; ".join(said))


def store(plan: Plan) -> list[Block]:
    """The rough cuts to ask for at the store."""
    cuts = plan.cutting.store_cuts
    if not cuts:
        return []
    units = plan.options.build.units
    return [
        Heading("Ask the store for"),
        Items(tuple(f"{n} × {words}" for words, n in Counter(cut.ask(units) for cut in cuts).items()), "box"),
        Text("Rough cuts only, so that the boards fit the car; every exact cut is made at home.", small=True),
    ]


def boards(plan: Plan, width: float = 500.0) -> list[Block]:
    """Every board as it lies at the saw, over each what is cut so.

    Args:
        plan: whose boards.
        width: of the longest board on paper [pt].
    """
    cutting, build, w = plan.cutting, plan.build, writer(plan.options.build.units)
    if not cutting.plan.boards:
        return []
    longest = max(board.length for board in cutting.sawn.boards)
    lettered = letters(build)
    blocks: list[Block] = []
    for number, layout in enumerate(cutting.sawn.layouts, 1):
        section = build.part(layout.board.pieces[0].name).section
        scene = board(layout, number, longest, (section.thickness, section.width),
                      lambda key: (lettered[key], build.part(key).name), w, width)  # fmt: skip
        alike = "1 board" if layout.count == 1 else f"{layout.count} boards, all cut alike"
        blocks += [Text(f"{number}. {layout.board.section} {layout.board.stock}: {alike}", strong=True), Picture(scene)]
    return blocks


def proofs(plan: Plan) -> list[Block]:
    """Why no list is cheaper, and what other lists would cost."""
    found = facts(plan)
    figures = tuple(found[key] for key in SUMS if key in found)
    return [*proven(plan.cutting), *alternatives(plan), Figures(figures, plan.options.build.units)]


def slat_row(plan: Plan) -> Row:
    """The plan's slats as a row to be marked."""
    row = plan.build.slats
    limit = plan.options.mattress.gap_limit or Fraction(9, 4)
    return row_of(row.opening, row.width, row.count, limit)


def marking(plan: Plan, trials: int = 4000, limit: Fraction | None = None) -> list[Block]:
    """How marking methods compare on this bed's slats."""
    row = slat_row(plan)
    if limit is not None:
        row = Row(row.opening, row.width, row.count, float(limit))
    methods: tuple[Method, ...] = compare(row, trials=trials)
    rock = chance_to_rock(1 / 32, trials=trials)
    units = plan.options.build.units
    coarse, middle, fine = ("0.8 mm", "0.4 mm", "0.2 mm") if units == "mm" else ("1/32 in", "1/64 in", "1/128 in")
    legs = f"Legs cut to tape marks: {100 * rock['tape']:.0f} of 100 four-legged beds rock by more than {coarse}; "
    legs += f"cut to a stop block: {100 * rock['stop']:.0f} of 100."
    assumed = (
        f"Simulated, not measured. Assumed spreads (standard deviation): slat width, opening, tape mark and "
        f"spacer {coarse}, a spacer checked on the stack and each placing {middle}, legs {coarse} by tape and "
        f"{fine} by stop block."
    )
    return [
        Picture(marking_plot(methods, row, units), caption=BAR),
        Text(legs),
        Text(assumed, small=True),
    ]
