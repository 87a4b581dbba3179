"""The strength pages: ratings, what governs, the leg map, span limits, and what may be said."""

from __future__ import annotations

from tutorial_lib.drawing import strength as draw
from tutorial_lib.drawing.scene import Scene
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Caution,
    Column,
    Findings,
    Heading,
    Items,
    Note,
    Page,
    Picture,
    Table,
    Text,
    Working,
)
from tutorial_lib.strength import Strength, words
from tutorial_lib.strength.checks import Use
from tutorial_lib.strength.remedies import remedies
from tutorial_lib.strength.working import figure

PARTS = {"side_rail": "side rails", "end_rail": "end rails", "cleat": "cleats", "runner": "runners", "slat": "slats",
         "centre_beam": "centre beams", "centre_runner": "centre runners"}  # fmt: skip
KINDS = (("lying", "lying"), ("sitting", "sitting on the edge"), ("standing", "kneeling, through the mattress"),
         ("bare", "kneeling on bare slats"), ("end rail", "sitting on an end rail"),
         ("moving", "moving the bed"))  # fmt: skip


def rating(strong: Strength) -> list[Block]:
    """The ratings with their conditions and the caution."""
    held = strong.lying.pounds and not strong.unstable
    lines = (f"{strong.lying.words}", f"{strong.sitting.words}") if held else ("no rating: this layout does not hold",)
    return [
        Items(tuple(line[0].upper() + line[1:] + "." for line in lines)),
        *([Text(words.conditions(strong))] if held else []),
        Caution(words.CAUTION),
    ]


def governing_rows(strong: Strength) -> list[tuple[str, Use]]:
    """What is used most of each kind of part, lying or sitting, then kneeling."""
    rows: dict[str, Use] = {}
    for use in strong.uses:
        if use.kind in ("lying", "sitting"):
            name = _name(use)
            if name not in rows or use.ratio > rows[name].ratio + 1e-6:
                rows[name] = use
    found = sorted(rows.items(), key=lambda row: -round(row[1].ratio, 6))
    knee = strong.worst("standing")
    return [*found, ("slats, kneeling", knee)] if knee is not None else found


def _name(use: Use) -> str:
    base = next((key for key in PARTS if use.part.startswith(key)), "")
    name = PARTS.get(base, "legs")
    if use.what in ("screws", "bolts"):
        return f"{name}' {use.what}"
    return f"{name}, sag" if use.what == "sag" else name


def chart(strong: Strength, width: float = draw.WIDTH) -> Scene:
    """Utilisations as bars."""
    return draw.bars([(name, min(use.ratio, 99.0)) for name, use in governing_rows(strong)], width)


def table(strong: Strength) -> Table:
    """What governs each kind of part."""
    rows = tuple((name, use.what, use.case, figure(use.duration), _ratio(use)) for name, use in governing_rows(strong))
    over = frozenset(i for i, (_, use) in enumerate(governing_rows(strong)) if use.ratio > 1)
    return Table((Column("part"), Column("by"), Column("when"), Column("CD", align="right"),
                  Column("used of allowed", align="right")), rows,
                 "The most that is used of each; over 1 is more than allowed. CD is the load's duration factor.", over)


def _ratio(use: Use) -> str:
    return "no value" if use.ratio == float("inf") else f"{use.ratio:.2f}"


def cases(strong: Strength) -> Table:
    """Every kind of load with the worst it does."""
    rows = []
    for kind, name in KINDS:
        use = strong.worst(kind)
        if use is not None:
            rows.append((name, f"{use.label}, {use.what}", figure(use.duration), _ratio(use)))
    return Table((Column("when"), Column("what is used most"), Column("CD", align="right"),
                  Column("used of allowed", align="right")), tuple(rows),
                 "Kneeling and standing are no part of the ratings.")


def load_cases(strong: Strength) -> Table:
    """Every load case: what it stands for, where its figure comes from, how long it lasts."""
    seen: dict[str, tuple[str, ...]] = {}
    for case in (response.case for response in strong.demand.responses):
        name = case.name.replace(" left", " left or right") if " left" in case.name else case.name
        if " right" not in case.name:
            seen[name] = (name, case.stands_for, case.source, figure(case.duration))
    push = f"{figure(strong.demand.racking)} lb sideways at the frame, shared by the legs"
    moving = figure(1.0 if strong.demand.model.build.options.load.careful else 1.6)
    seen["push"] = ("pushed sideways", push, "0.4 of bed and mattress, at least 100 lb: our choice", moving)
    lift = f"half of the bed's {figure(strong.demand.weight)} lb at one end rail"
    seen["lift"] = ("lifted by one end", lift, "weight of the wood, no mattress", moving)
    seen["gone"] = ("each leg missing in turn", "lying and sitting again without it", "a floor is never flat",
                    "as above")
    return Table((Column("load case", share=2), Column("stands for", share=3),
                  Column("where its figure comes from", share=4),
                  Column("CD", align="right")), tuple(seen.values()), "What the bed is loaded with")


def legs(plan: Plan) -> list[Block]:
    """The leg map and what happens without each leg."""
    strong = plan.strength
    left_out = tuple(plan.options.legs.omit)
    picture = Picture(draw.leg_loads(plan.build, strong.legs, left_out),
                      caption="Seen from above, with the most each leg carries. Filled: needed; open: may go by "
                              "calculation, everything else unchanged.")
    return [Heading("Which legs may go"), picture, Items(tuple(entry.words for entry in strong.legs))]


def shapes(plan: Plan) -> list[Block]:
    """The slat and the left side as they bend."""
    strong = plan.strength
    found: list[Block] = [Heading("As it bends, drawn many times too large")]
    middle = next(r for r in strong.demand.responses if r.case.key == "middle")
    seat = next(r for r in strong.demand.responses if r.case.key == "sit-left-middle")
    slat, side = middle.slat, seat.on("left").bent
    name = f"A slat, {middle.case.name}"
    found.append(Picture(draw.bent_shape(name, slat, max(0.25, slat.greatest_sag[1])), caption=f"{name}."))
    if side is not None:
        name = f"The left side, {seat.case.name}"
        found.append(Picture(draw.bent_shape(name, side, max(0.02, side.greatest_sag[1])), caption=f"{name}."))
    return found


def spans(strong: Strength) -> Table:
    """Longest slat span by stock."""
    rows = tuple((s.stock, f"{s.single:.1f}", f"{s.continuous:.1f}") for s in strong.spans)
    return Table((Column("slat stock, flat"), Column("on two lines", "in", "right"),
                  Column("over a line in its middle", "in", "right")), rows,
                 "Longest span for one person kneeling through the mattress, for this wood.")


def said(strong: Strength) -> list[Block]:
    """What may be said on camera and what not, and what the figures don't cover."""
    return [Heading("On camera"), Text(f"May be said: {words.may_say(strong)}"),
            Text(f"May not be said. {words.may_not_say(strong)}"),
            Heading("What the figures don't cover"), Items(words.NOT_COVERED)]


def workings(uses: list[Use], limit: int = 4) -> list[Block]:
    """The steps to the governing figures."""
    found: list[Block] = []
    for use in uses[:limit]:
        found.append(Text(str(use), strong=True))
        for step in use.workings:
            unit = f" {step.unit}" if step.unit else ""
            found.append(Working(step.what, step.formula, step.values, f"{figure(step.result)}{unit}", step.source))
    return found


def helps(strong: Strength) -> list[Block]:
    """Remedies with the figure after."""
    found = remedies(strong)
    return [Heading("What would help"), Items(tuple(r.words for r in found))] if found else []


def pages(plan: Plan) -> list[Page]:
    """The sheet's strength pages."""
    strong = plan.strength
    first = [*rating(strong), Findings(strong.findings), Picture(chart(strong)), cases(strong)]
    second = [Caution(words.CAUTION), *legs(plan)[1:], *helps(strong), spans(strong), *said(strong)]
    steps = [Caution(words.CAUTION),
             Note("Every figure by allowable-stress design, rules written for buildings; values by species and grade."),
             load_cases(strong), table(strong), *workings([use for _, use in governing_rows(strong)])]
    return [Page("How much it carries", tuple(first), 40), Page("Which legs may go", tuple(second), 41),
            Page("How the load figures came about", tuple(steps), 42)]
