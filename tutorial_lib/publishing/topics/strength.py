"""The strength pages: ratings, what governs, the leg map, span limits, and what may be said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tutorial_lib.drawing import strength as draw
from tutorial_lib.drawing.scene import Scene
from tutorial_lib.measures import Writer, figure, writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Caution,
    Column,
    Findings,
    Heading,
    Items,
    Picture,
    Table,
    Text,
    Working,
)
from tutorial_lib.strength import Strength, words
from tutorial_lib.strength.loads import cases
from tutorial_lib.strength.rating import rating_uses
from tutorial_lib.strength.use import Use

PARTS = {"side_rail": "side rails", "cleat": "cleats", "runner": "runners", "slat": "slats",
         "centre_beam": "centre beams", "centre_runner": "centre runners", "end_rail": "end rails"}  # fmt: skip
KINDS = (("lying", "lying"), ("sitting", "sitting on the edge"), ("standing", "kneeling, through the mattress"),
         ("bare", "standing on a bare slat"), ("moving", "dragging the empty bed"))  # fmt: skip
SIDEWAYS = {"lying": "rocking, people lying", "sitting": "rocking, people sitting", "moving": "the empty bed dragged"}


def units_of(strong: Strength) -> Writer:
    """The plan's units."""
    return writer(strong.build.options.build.units)


def rating(strong: Strength) -> list[Block]:
    """The ratings with their conditions and the caution."""
    none, units = words.why_none(strong), units_of(strong)
    if none:
        return [Items((f"No load figure: {none}.",)), Caution(words.CAUTION)]
    lines = tuple(rating.words(units) for rating in (strong.lying, strong.sitting))
    return [
        Items(tuple(line[0].upper() + line[1:] + "." for line in lines)),
        Text(words.conditions(strong)),
        Caution(words.CAUTION),
    ]


def governing_rows(strong: Strength) -> list[tuple[str, Use]]:
    """What is used most of each kind of part, lying or sitting, then kneeling."""
    rows: dict[str, Use] = {}
    is_a = {part.key: part.use for part in strong.build.parts}
    for use in rating_uses(strong.uses):
        if use.kind in ("lying", "sitting"):
            name = _name(use, is_a)
            if name not in rows or use.ratio > rows[name].ratio + 1e-6:
                rows[name] = use
    found = sorted(rows.items(), key=lambda row: -round(row[1].ratio, 6))
    knee = strong.worst("standing")
    return [*found, ("slats, kneeling", knee)] if knee is not None else found


def _name(use: Use, is_a: Mapping[str, str]) -> str:
    name = PARTS.get(is_a.get(use.part, use.part), "legs")
    if use.what == "racking":
        return "legs, rocking"
    return f"{name}' {use.fasteners}" if use.fasteners else name


def chart(strong: Strength, width: float = draw.WIDTH) -> Scene:
    """Utilisations as bars."""
    return draw.bars([(name, min(use.ratio, 99.0)) for name, use in governing_rows(strong)], width)


def table(strong: Strength) -> Table:
    """What governs each kind of part."""
    shown = governing_rows(strong)
    rows = tuple((name, use.what, use.case.name, figure(use.duration), _ratio(use)) for name, use in shown)
    over = frozenset(i for i, (_, use) in enumerate(shown) if use.ratio > 1)
    return Table((Column("part", share=2), Column("by", share=2), Column("when", share=4),
                  Column("duration factor", align="right", share=2), Column("used of allowed", align="right", share=2)),
                 rows, "The most that is used of each; over 1 is more than allowed. A load that lasts a short time may "
                 "be greater: the duration factor says by how much.", over)  # fmt: skip


def _ratio(use: Use) -> str:
    return "no value" if use.ratio == float("inf") else f"{use.ratio:.2f}"


def kinds_of_load(strong: Strength) -> Table:
    """Every kind of load with the worst it does."""
    rows = []
    for kind, name in KINDS:
        use = strong.worst(kind)
        if use is not None:
            rows.append((name, use.title, figure(use.duration), _ratio(use)))
    return Table((Column("when", share=3), Column("what is used most", share=4),
                  Column("duration factor", align="right", share=2), Column("used of allowed", align="right", share=2)),
                 tuple(rows), "Standing on a bare slat and dragging are no part of the ratings; kneeling caps them at "
                 "1.60.")  # fmt: skip


def load_cases(strong: Strength) -> Table:
    """Every load case: what it stands for, where its figure comes from, how long it lasts."""
    rows: dict[str, tuple[str, ...]] = {}
    for case in cases(strong.build):
        if " right " not in case.name:
            name = case.name.replace(" left ", " left or right ")
            rows[name] = (name, case.stands_for, case.source, figure(case.duration))
    for use in strong.uses:
        name = SIDEWAYS.get(use.kind, "") if use.what == "racking" else use.case.name
        if use.kind in ("standing", "bare") or use.what == "racking":
            rows[name] = (name, use.case.stands_for, use.case.source, figure(use.duration))
    hard = "the same people, counted 1.5 times"
    careful = 1.0 if strong.build.options.load.careful else 1.6
    rows["hard"] = ("sitting down hard", hard, "1.5 is our choice", figure(careful))
    again = "lying and sitting again without it"
    rows["gone"] = ("each leg missing in turn", again, "a floor is never flat", "as above")
    return Table((Column("load case", share=3), Column("stands for", share=3),
                  Column("where its figure comes from", share=4),
                  Column("duration factor", align="right", share=2)), tuple(rows.values()),
                 "What the bed is loaded with")  # fmt: skip


def legs(plan: Plan) -> list[Block]:
    """The leg map and what happens without each leg."""
    strong, units = plan.strength, units_of(plan.strength)
    if not strong.legs:
        return []
    picture = Picture(draw.leg_loads(plan.build, strong.legs, tuple(plan.options.legs.omit), units),
                      caption="Seen from above, with the most each leg carries. Filled: needed; open: may go, that one "
                              "alone, all else unchanged.")  # fmt: skip
    return [Heading("Which legs may go"), picture, Items(tuple(entry.words(units) for entry in strong.legs))]


def shapes(plan: Plan) -> list[Block]:
    """The slat and the left side as they bend."""
    outcome, units = plan.strength.outcome, units_of(plan.strength)
    if outcome is None or not outcome.responses:
        return []
    found: list[Block] = [Heading("As it bends, drawn many times too large")]
    by_key = {response.case.key: response for response in outcome.responses}
    middle, seat = by_key.get("middle"), by_key.get("sit-left-middle")
    if middle is not None and outcome.sag is not None:
        points = outcome.slats.curve(outcome.sag.slat, middle)
        held = [float(line.y) for line in outcome.bed.lines]
        found.append(_shape(f"Slat {outcome.sag.slat + 1}, {middle.case.name}", points, held, units))
    if seat is not None:
        sags = zip(outcome.bed.places, seat.dead.sags[0], seat.live.sags[0], strict=True)
        points = [(x, dead + outcome.person * live) for x, dead, live in sags]
        held = [float(leg.x) for leg in plan.build.legs if leg.line == "left"]
        found.append(_shape(f"The left side, {seat.case.name}", points, held, units))
    return found


def _shape(name: str, points: Sequence[tuple[float, float]], held: Sequence[float], units: Writer) -> Picture:
    return Picture(draw.bent_shape(name, points, held, units), caption=f"{name}.")


def spans(strong: Strength) -> list[Block]:
    """Longest slat span by stock."""
    if not strong.spans:
        return []
    units = units_of(strong)
    rows = tuple(
        (s.stock, units.number("calculated", round(s.single, 1)), units.number("calculated", round(s.continuous, 1)))
        for s in strong.spans
    )
    return [
        Table((Column("slat stock, flat"), Column("on two lines", units.unit("calculated"), "right"),
               Column("over a line in its middle", units.unit("calculated"), "right")), rows,
              "Longest span for one of the stated people kneeling through the mattress, for this wood.")
    ]  # fmt: skip


def said(strong: Strength) -> list[Block]:
    """What may be said on camera and what not, and what the figures don't cover."""
    return [Heading("On camera"), Text(f"May be said: {words.may_say(strong)}"),
            Text(f"May not be said. {words.may_not_say(strong)}"), *not_covered()]  # fmt: skip


def not_covered() -> list[Block]:
    """What the figures don't cover."""
    return [Heading("What the figures don't cover"), Items(words.NOT_COVERED)]


def workings(strong: Strength, uses: Sequence[Use], limit: int = 4) -> list[Block]:
    """The steps to the governing figures, in the plan's units."""
    units, found = units_of(strong), list[Block]()
    for use in uses[:limit]:
        name = f"{use.title[0].upper()}{use.title[1:]}"
        found.append(Text(f"{name}, {use.case.name}: {_ratio(use)}", strong=True))
        for step in use.workings:
            found.append(Working(step.what, step.formula, step.values(units), step.result.result(units), step.source))
    return found


def helped(plan: Plan) -> tuple[Block, ...]:
    """What the rules found, each with the remedies that were tried and help."""
    from tutorial_lib.remedies import told

    return (Findings(tuple(told(plan, finding) for finding in plan.strength.findings)),)
