"""The assembly pages: step cards with drawings, weights and helpers, squaring, movement."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from tutorial_lib.assembly import Assembly, Step, retighten
from tutorial_lib.assembly.refusals import NOUNS
from tutorial_lib.assembly.wording import numbered
from tutorial_lib.drawing.isometric import step_drawing
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.measures import mm, writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Caution,
    Column,
    Columns,
    Figures,
    Findings,
    Heading,
    Items,
    Note,
    Picture,
    Table,
    Text,
    Working,
)

STEP_WIDTH = 300.0  # [pt]


def facts(plan: Plan) -> tuple[Fact, ...]:
    """The assembly facts in order."""
    return tuple(facts_of(plan, ["assembly"]).values())


def overview(plan: Plan) -> list[Block]:
    """What is put together, how heavy it gets, how many people, and other ways to do it."""
    assembly, w = plan.assembly, writer(plan.options.build.units)
    turns = {0: "The frame is never turned over. ", 1: "The frame is turned over once. "}.get(
        assembly.turns, f"The frame is turned over {assembly.turns} times. "
    )
    if plan.build.bed_stands:
        turns = ""
    what, rest = ("headboard", "") if plan.build.bed_stands else ("bed", " without its mattress")
    return [
        Text(
            f"{len(assembly.steps)} steps, {numbered(assembly.people)} at most. {turns}The {what} weighs "
            f"{w.weight(assembly.weight)}{rest}, screws not counted."
        ),
        *(Note(f"{other.title}: {other.what}") for other in assembly.alternatives),
        Findings(assembly.findings),
    ]


def cards(plan: Plan) -> list[Block]:
    """All step cards."""
    return [block for step in plan.assembly.steps for block in card(plan, step)]


def card(plan: Plan, step: Step) -> list[Block]:
    """One step: drawing; beside it what to do, what to drive, where to look, what can go wrong."""
    drawing = step_drawing(plan.build, step, STEP_WIDTH)
    drive = tuple(s.told(writer(plan.options.build.units)) for s in step.screws)
    words: list[Block] = [Items((*step.do, *drive), "number" if len(step.do) + len(drive) > 1 else "dot")]
    words += [Text(f"Look: {text}", small=True) for text in step.look]
    words += [Text(f"Mind: {text}", small=True) for text in step.wrong]
    shown: list[Block] = words
    if drawing is not None:
        shown = [Columns(((Picture(drawing),), tuple(words)), (0.57, 0.43))]
    return [Heading(f"Step {step.number}. {step.title}"), *shown, *_warnings(plan, step)]


def _warnings(plan: Plan, step: Step) -> Iterator[Block]:
    w = writer(plan.options.build.units)
    if step.turn is not None:
        turn = step.turn
        yield Caution(
            f"{numbered(turn.people).capitalize()}: {w.weight(turn.share)} in the hands at the start, one person "
            f"should lift no more than {w.weight(turn.limit)} here (NIOSH revised lifting equation, our use)."
        )
    if step.hides:
        joints = ", ".join(step.hides[:4]) + (f" and {len(step.hides) - 4} more" if len(step.hides) > 4 else "")
        yield Note(f"After this step no driver reaches these screws any more: {joints}. Tighten them before.")


def squaring(plan: Plan) -> list[Block]:
    """Diagonals, and what a difference means."""
    square, units = plan.assembly.squaring, plan.options.build.units
    sizes = [mm(k) for k in (2, 3, 5, 10)] if units == "mm" else [Fraction(k, 16) for k in (1, 2, 4, 8)]
    rows = tuple((writer(units).length(d), writer(units).length(Fraction(square.lean(float(d))), 32)) for d in sizes)
    return [
        Heading("Squaring"),
        Working(
            "Diagonal",
            "√(width² + length²)",
            f"√(({writer(units).length(square.width)})² + ({writer(units).length(square.length)})²)",
            writer(units).length(Fraction(square.outside_diagonal)),
            "Pythagoras",
        ),
        Table(
            (Column("diagonals differ by"), Column("one side rail stands ahead by")),
            rows,
            f"Good enough within {writer(units).length(square.tolerance)} (common practice, no source)",
        ),
    ]


def weights_table(plan: Plan) -> Table:
    """Weight of each part."""
    assembly, w = plan.assembly, writer(plan.options.build.units)
    rows = tuple(
        (
            part.name,
            str(part.count),
            w.number("weight", assembly.weights[part.pieces[0].label], 1),
            w.number("weight", sum(assembly.weights[p.label] for p in part.pieces), 1),
        )
        for part in plan.build.parts
    )
    unit = w.unit("weight")
    moisture = plan.options.wood.moisture_bought
    return Table(
        (Column("part"), Column("count", align="right"), Column("each", unit, "right"), Column("all", unit, "right")),
        rows,
        f"Weights at {moisture:g} % moisture, as bought",
    )


def after(plan: Plan, today: date | None = None) -> list[Block]:
    """What the boards do from the yard to the bedroom, and when to go over the screws."""
    moves, units = plan.assembly.movement, plan.options.build.units
    w = writer(units)
    play = w.length(moves.play, 32)
    width = w.calculated(plan.build.part("slat").section.width)
    gap = [w.number("calculated", x) for x in moves.gap]
    rows = (
        ("slat gap as built", f"{moves.bought:g}", gap[0]),
        ("slat gap in the room", f"{moves.room:g}", gap[1]),
        ("slat gap in a humid summer", f"{moves.summer:g}", gap[2]),
    )
    return [
        Heading("When the wood settles"),
        Table((Column("what"), Column("wood moisture", "%", "right"), Column("gap", units, "right")), rows),
        Working(
            "Change across the grain",
            "size × coefficient × change of moisture",
            f"{width} × {moves.tangential} × ({moves.room:g} - {moves.bought:g})",
            w.calculated(moves.slat),
            "Wood Handbook ch. 13; flat-sawn boards, 6 to 14 % moisture",
        ),
        Items(
            (
                f"The rails' depth shrinks by {w.calculated(-moves.rail)}; the wood under a bolt by "
                f"{w.calculated(-moves.grip)}: that is why screws and nuts come loose.",
                f"Along the grain wood hardly moves: the slats keep their {play} of play at each end.",
                _when(today),
            )
        ),
    ]


def _when(today: date | None) -> str:
    if today is None:
        return "Go over all screws after a month, and again when the first heating season ends."
    first, season = retighten(today)
    return f"Go over all screws on {_day(first)}, and again on {_day(season)}, when the heating season ends."


def _day(when: date) -> str:
    return f"{when.day} {when:%B %Y}"


def figures(plan: Plan) -> Figures:
    """The assembly facts as lines."""
    return Figures(facts(plan), plan.options.build.units, working=True)


def told(assembly: Assembly, order: tuple[str, ...]) -> list[Block]:
    """Another order of the work, tried: why it can't be worked, or that it can."""
    refused = assembly.refuse(order)
    head = Text(f"Tried: {', then '.join(NOUNS.get(key, key) for key in order)}.", strong=True)
    return [head, Findings(refused, "This order can be worked.")]
