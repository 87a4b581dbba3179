"""The sheet's first page: what the bed is, what it comes to, what to mind."""

from __future__ import annotations

from collections.abc import Iterable

from tutorial_lib.adapting import Comparison
from tutorial_lib.cutting.sawing import SAWING
from tutorial_lib.drawing.qr import qr_code
from tutorial_lib.drawing.whole import whole_bed
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.facts.figures import write_value
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Columns,
    Figures,
    Findings,
    Heading,
    Items,
    Note,
    Page,
    PageBreak,
    Picture,
    Text,
)
from tutorial_lib.publishing.topics.adapting import sentences, slips

SHOWN = (
    "mattress.width", "mattress.length", "frame.width", "frame.length", "frame.height", "frame.sleep_height",
    "frame.mattress_top", "frame.underside", "slat.count", "slat.gap", "leg.count", "weight.bed", "lumber.cost",
)  # fmt: skip
FEW = 6  # lines on what the video says that leave room for the rest of the first page
TOOLS = (
    ", tape, square and pencil, clamps, drill and driver with the bits named under Screws and bits, "
    "a wrench for bolts, a sander or block, and what keeps eyes, ears and lungs safe."
)
CAUTIONS = (
    "Lift the frame with two people, and turn it over only when its corners are fastened.",
    "Any load figure here is calculated, not tested. It does not cover jumping children, damaged boards or other "
    "screws. Where a failure could hurt someone, ask a person licensed to judge it.",
)


def overview(plan: Plan, facts: Iterable[Fact]) -> list[Block]:
    """A picture of the bed, and its main figures."""
    found = {fact.key: fact for fact in facts}
    shown = tuple(found[key] for key in SHOWN if key in found)
    drawn = Picture(whole_bed(plan.build, 300.0, 260.0))
    blocks: list[Block] = [Columns(((drawn,), (Figures(shown, plan.options.build.units),)), (3.0, 2.0))]
    if {"rating.people", "rating.lying", "rating.sitting"} <= set(found):
        people, lying, sitting = (write_value(found[f"rating.{key}"]) for key in ("people", "lying", "sitting"))
        blocks.append(Text(f"Load figures, calculated, not tested: people lying {people}, of {lying} each; sitting on "
                           f"one edge {people}, of {sitting} each.", strong=True))
    return blocks


def _rags(plan: Plan) -> list[str]:
    """What to do with rags, where the finish makes them dangerous."""
    return [f"{hazard.what} {hazard.remedy}" for hazard in plan.finishing.hazards if hazard.rule == "oily rags"]


def pages(plan: Plan, comparison: Comparison | None = None) -> list[Page]:
    """The summary; what the video has wrong, and what no longer holds for another bed, come first."""
    build = plan.options.build
    names = [name for name in (build.channel, build.episode) if name and name not in build.title]
    blocks: list[Block] = [Text(f"From {', '.join(names)}.")] if names else []
    if build.address:
        where = Text(f"The video, and any newer plan: {build.address}")
        blocks = [Columns(((*blocks, where), (Picture(qr_code(build.address)),)), (4.0, 1.0))]
    if comparison is not None:
        blocks += [*map(Note, comparison.adaptation.notes), *slips(comparison), *sentences(comparison)]
        if len(comparison.slips) + len(comparison.outdated) > FEW:  # the picture and its figures stay together
            blocks.append(PageBreak())
    blocks += overview(plan, facts_of(plan).values())
    saw = SAWING[plan.options.saw.kind]
    cautions = (*saw.cautions, *CAUTIONS, *_rags(plan))
    blocks += [Heading("Tools"), Text(saw.tools + TOOLS), Heading("Before you start"), Items(cautions)]
    found = plan.findings if comparison is None else comparison.adaptation.findings
    stops = tuple(finding for finding in found if finding.severity == "stop")
    if stops:
        blocks += [Heading("This build must not be made as it stands"), Findings(stops)]
    blocks.append(Text("Lengths are exact sizes written to the nearest mark of the tape. Species and grade as in the "
                       "build file; the sheet's version changes whenever the build does.", small=True))
    return [Page(build.title, tuple(blocks), 0)]
