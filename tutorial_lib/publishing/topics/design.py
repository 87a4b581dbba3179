"""The design's pages: parts list, slat plan with marks, leg map, heights."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from tutorial_lib.design.model import Build, Part
from tutorial_lib.drawing import views
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Column,
    Columns,
    Figures,
    Heading,
    Picture,
    Table,
)

HEIGHT_KEYS = (
    "frame.height",
    "frame.sleep_height",
    "frame.mattress_top",
    "frame.underside",
    "storage.air",
    "storage.bay",
    "storage.box_count",
    "frame.storage",
    "leg.height",
    "corner_leg.height",
    "mid_leg.height",
    "centre_leg.height",
)


def facts(plan: Plan) -> dict[str, Fact]:
    """The design's facts by key."""
    return dict(facts_of(plan, ["design"]))


def chosen(found: dict[str, Fact], keys: Iterable[str]) -> tuple[Fact, ...]:
    """Those of the facts that are there, in the order asked for."""
    return tuple(found[key] for key in keys if key in found)


def parts_list(plan: Plan, measured: bool = False) -> Table:
    """All parts with count, section, length; ``measured`` adds an empty column to write in."""
    build = plan.build
    units = views.units_of(build)
    columns = [
        Column("part"),
        Column("count", align="right"),
        Column("lumber"),
        Column("thick × wide", units, "right"),
        Column("length", units, "right"),
    ]
    rows = [_part_row(build, part) for part in build.made]
    if measured:
        columns.append(Column("as I measured it", units, share=2))
        rows = [(*row, "") for row in rows]
    return Table(tuple(columns), tuple(rows), "" if measured else "Parts")


def _part_row(build: Build, part: Part) -> tuple[str, ...]:
    section = part.section
    size = f"{_bare(build, section.thickness)} × {_bare(build, section.width)}"
    return (part.name, str(part.count), section.name, size, _bare(build, part.length))


def _bare(build: Build, x: Fraction) -> str:
    return views.mark_text(build, x)


def slats(plan: Plan, before: Build | None = None) -> list[Block]:
    """The slat plan and how to mark it."""
    caption = _marks_from(plan.build) + _changed(plan.build, before)
    return [Heading("Slat plan"), Picture(views.slat_plan(plan.build, before), caption=caption)]


def _changed(build: Build, before: Build | None) -> str:
    """What the heavy blue outline means, where there can be one."""
    same = before is None or (build.slats, build.legs, build.outside) == (before.slats, before.legs, before.outside)
    return "" if same else " Blue with a heavy outline: new or moved by the last change."


def legs(plan: Plan, before: Build | None = None) -> list[Block]:
    """The leg map."""
    units = "mm" if views.units_of(plan.build) == "mm" else "inches"
    return [
        Heading("Leg map"),
        Picture(
            views.leg_map(plan.build, before),
            caption=f"Seen from above. Marks in {units} to the near edge of each leg, from the head end."
            + _changed(plan.build, before),
        ),
    ]


def heights(plan: Plan) -> list[Block]:
    """Elevations, section and the heights as figures."""
    build = plan.build
    return [
        Heading("Heights"),
        Picture(views.side_elevation(build), caption="From the left side. Dashed: hidden, and the mattress."),
        *_end_and_section(build),
        Figures(chosen(facts(plan), HEIGHT_KEYS), build.options.build.units),
    ]


def _end_and_section(build: Build) -> list[Block]:
    """Side by side, or one under the other where a wide bed would make the heights unreadable."""
    wide = build.outside[0] > 60
    end = Picture(views.end_elevation(build, 420.0 if wide else 300.0), caption="From the foot.")
    cut = Picture(views.section(build, 200.0), caption="Rail, support and slat cut through; end grain hatched.")
    return [end, cut] if wide else [Columns(((end,), (cut,)), (3, 2))]


def _marks_from(build: Build) -> str:
    units = "mm" if views.units_of(build) == "mm" else "inches"
    return f"Marks in {units} to the near edge of each slat, all from the head rail's inner face."
