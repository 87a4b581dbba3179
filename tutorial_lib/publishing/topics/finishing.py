"""The finishing pages: what shows, sanding, coats, time, cautions."""

from __future__ import annotations

from collections.abc import Sequence

from tutorial_lib.drawing.facemap import bed_map, part_map
from tutorial_lib.drawing.timeline import timeline_chart
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.findings import Finding
from tutorial_lib.finishing import FaceMap, Finishing
from tutorial_lib.finishing.coats import Coats
from tutorial_lib.finishing.finish import AMBIENT_C, AMBIENT_F, HUMIDITY
from tutorial_lib.finishing.sanding import grit
from tutorial_lib.measures import Units, writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Caution,
    Column,
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
from tutorial_lib.tables.finishing import moisture_at


def facts(plan: Plan) -> tuple[Fact, ...]:
    """The finishing facts in order."""
    return tuple(facts_of(plan, ["finishing"]).values())


def what_shows(plan: Plan) -> list[Block]:
    """The bed with the faces that show."""
    return [
        Heading("What shows"),
        Text("Seen by someone standing anywhere around the bed, with the mattress on."),
        Picture(bed_map(plan.build, plan.finishing)),
    ]


def each_part(plan: Plan) -> list[Block]:
    """What to do with each part, and how much of it there is."""
    finishing, units = plan.finishing, plan.options.build.units
    rows = tuple(
        (
            f"{found.name}, {len(found.pieces)} alike" if len(found.pieces) > 1 else found.pieces[0],
            _sentence(found, plan.options.finish.seal_hidden),
        )
        for found in told_once(finishing.maps)
    )
    w = writer(units)
    amounts = tuple(
        (name, w.number("area", area))
        for name, area in (
            ("shows: sand and finish", finishing.seen),
            ("of it end grain", finishing.end_grain),
            ("met by hands: ease the edges", finishing.touched),
            ("hidden", finishing.hidden),
        )
    )
    return [
        Table((Column("part"), Column("what to do", share=1)), rows),
        Table((Column("open faces, net of contacts"), Column("area", w.unit("area"), "right")), amounts),
    ]


def told_once(maps: Sequence[FaceMap]) -> list[FaceMap]:
    """Face maps with something to do, those of one part that come to the same told together."""
    groups: dict[tuple[str, str], FaceMap] = {}
    for found in maps:
        key = (found.part, found.sentence)
        first = groups.get(key)
        pieces = found.pieces if first is None else (*first.pieces, *found.pieces)
        groups[key] = FaceMap(
            part=found.part, name=found.name, pieces=pieces, states=found.states if first is None else first.states
        )
    return list(groups.values())


def face_maps(plan: Plan) -> list[Block]:
    """Every part that shows, unfolded."""
    blocks: list[Block] = [Heading("Face by face")]
    for found in told_once(plan.finishing.maps):
        if found.sides("seen"):
            blocks += [
                Heading(f"{found.name}: {', '.join(found.pieces)}", 3),
                Picture(part_map(found, sealed=plan.options.finish.seal_hidden)),
            ]
    return blocks


def _sentence(found: FaceMap, sealed: bool) -> str:
    return f"{found.sentence} Seal the rest." if sealed else found.sentence


def sanding(plan: Plan) -> list[Block]:
    """Grits with their grain, discs, minutes."""
    sand = plan.finishing.sanding
    rows = tuple((str(g.number), f"{g.micron:.0f}", _cami(g.number)) for g in sand.grits)
    return [
        Heading("Sanding"),
        Table(
            (
                Column("grit (P scale)"),
                Column("mean grain", "µm", "right"),
                Column("same number on the other scale", "µm", "right"),
            ),
            rows,
            "Grain by the abrasives standard FEPA 43 / ISO 6344; the other scale is CAMI",
        ),
        Items(tuple(sanding_items(plan))),
    ]


def sanding_items(plan: Plan) -> list[str]:
    """How to sand, in sentences."""
    sand, w = plan.finishing.sanding, writer(plan.options.build.units)
    low, high = sand.discs
    disc, life = ("125 mm", "0.75 to 0.9 m²") if w.metric else ("5 in", "8 to 10 sq ft")
    grits = ", then ".join(str(g.number) for g in sand.grits)
    discs = f"{low}" if low == high else f"{low} to {high}"
    between = plan.finishing.coats.known.between if plan.finishing.coats.coats > 1 else None
    return [
        f"Sand with the grain, {grits} grit; wipe the dust off between grits.",
        f"{discs} discs ({disc}) for each grit ({life} a disc, from memory); "
        f"{sand.minutes[0]} to {sand.minutes[1]} minutes in all.",
        f"Ease every edge that shows or that a hand meets, {w.write('run', sand.edges)} in all: a few strokes at a "
        "slant with the last grit, until it no longer feels sharp.",
        "End grain: one grit finer than the faces, or it drinks darker.",
        *([f"Between coats sand lightly by hand with {between} grit; wipe off the dust."] if between else []),
    ]


def _cami(number: int) -> str:
    other = grit(number, "CAMI")
    return f"{other.micron:.0f}" if other else "none"


def coats(plan: Plan) -> list[Block]:
    """How much of which finish, in which can."""
    coated, units = plan.finishing.coats, plan.options.build.units
    first, *more = coats_told(plan)
    blocks: list[Block] = [Heading("Finish"), Text(first)]
    if coated.coats and coated.coverage is not None and coated.gallons is not None:
        blocks.append(_amount(coated, units))
    return [*blocks, *map(Note, more[:1]), *map(Text, more[1:])]


def coats_told(plan: Plan) -> list[str]:
    """Which finish, how many coats, what to buy, in which air; sentences."""
    coated = plan.finishing.coats
    if not coated.coats:
        return ["No finish: the wood stays raw and will take up stains."]
    hidden = ("Faces that lie hidden are sealed too, by choice." if plan.options.finish.seal_hidden
              else "Faces that lie hidden may stay raw; sealing them as well slows cupping.")  # fmt: skip
    return [f"{coated.in_words.capitalize()} of {coated.kind}. {_to_buy(coated)}", _ambient(plan), hidden]


def _to_buy(coated: Coats) -> str:
    batch = ", all from one batch" if coated.coats > 1 else ""
    return f"Buy {coated.can}{batch}." if coated.can else f"Read the can for how far it goes; buy it{batch}."


def _amount(coated: Coats, units: Units) -> Working:
    """How the amount was found, in the plan's units."""
    row, w = coated.coverage, writer(units)
    assert row is not None
    side, end = w.number("area", coated.side_grain), w.number("area", coated.end_grain)
    values = f"({side} + 2 to 3 × {end}) {w.unit('area')} × {coated.coats} / {w.between('coverage', row.low, row.high)}"
    return Working(
        "Amount",
        "(side grain + 2 to 3 × end grain) × coats / coverage × 1.10 to 1.15",
        values,
        coated.amount(units),
        f"{row.finish}: {row.source}; {row.status}. Read the can",
    )


def _ambient(plan: Plan) -> str:
    low, high = AMBIENT_C if plan.options.build.units == "mm" else AMBIENT_F
    scale = "°C" if plan.options.build.units == "mm" else "°F"
    return (
        f"Finish at {low} to {high} {scale} and under {HUMIDITY} % humidity (common label figures, from memory: read "
        f"the can). Wood in a room at 50 % humidity settles at {moisture_at(50):g} % moisture, at 70 % at "
        f"{moisture_at(70):g} %: let the boards lie in the room some days first."
    )


def time(plan: Plan) -> list[Block]:
    """The chart, and what to mind."""
    finishing: Finishing = plan.finishing
    low, high = finishing.days
    return [
        Heading("Time"),
        Text(f"From the first sanding to the mattress on: {low:.1f} to {high:.1f} days, drying overnight included."),
        Picture(timeline_chart(finishing.tasks)),
        *(Caution(_told(hazard)) for hazard in finishing.hazards),
        Findings(finishing.findings),
    ]


def _told(hazard: Finding) -> str:
    limit = f" Limit {hazard.limit} ({hazard.whose})." if hazard.limit else ""
    return f"{hazard.what} {hazard.remedy}{limit}"


def figures(plan: Plan) -> Figures:
    """The finishing facts as lines."""
    return Figures(facts(plan), plan.options.build.units, working=True)
