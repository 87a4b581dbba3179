"""Notebook 03's panel: screws chosen, the joints in section and the clashes redrawn while a control moves."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from tutorial_lib.drawing import holes as draw
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.lists.names import joint_name
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Caution, Columns, Findings, Heading, Picture
from tutorial_lib.publishing.topics import drilling as pages
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel

GAUGES = tuple((f"#{n}", f"#{n}") for n in (6, 8, 9, 10, 12))


def _length(key: str, label: str, high: int | Fraction, empty: str) -> Control:
    return Control(
        key=key, label=label, kind="length", low=Fraction(0), high=Fraction(high), step=Fraction(1, 16), empty=empty
    )


class DrillingPanel(Panel):
    """Cleat or runner screws, slat screws and the driver."""

    heading = "Screws and holes"
    controls = (
        Control(
            key="joint",
            label="Joint to look at",
            kind="choice",
            choices=(("cleat or runner", "row"), ("slat end", "slat"), ("corner", "corner"), ("leg", "leg")),
            value="row",
        ),
        Control(key="screws.cleat.gauge", label="Cleat screw", kind="choice", choices=GAUGES),
        _length("screws.cleat.length", "Cleat screw length", 4, "shortest that fits"),
        _length("screws.cleat.head_depth", "Head below surface", Fraction(1, 2), "flush"),
        _length("screws.cleat.inset", "First from the end", 6, "10 diameters"),
        _length("screws.cleat.spacing", "Spacing", 16, "from the load"),
        _length("screws.slat.length", "Slat screw length", 3, "shortest that fits"),
        _length("screws.slat.inset", "Slat hole from its end", 3, "middle of the bearing"),
        _length("screws.slat.end_slat_shift", "End slats' screws, shift", 2, "moves by itself"),
        _length("driver.length", "Driver with bit", 14, ""),
    )

    def enabled(self, control: Control) -> bool:
        """Cleat controls mean nothing in a bed on runners."""
        return not control.key.startswith("screws.cleat") or self.options.support.kind == "cleats"

    def show(self, plan: Plan) -> Sequence[Block]:
        """The section of the joint looked at, the side with its clashes, the table of fasteners, the findings."""
        tables = {job.table: job for job in plan.drilling.jobs}
        wanted = self.own["joint"]
        row = next((name for name in ("cleat", "runner") if name in tables), "slat")
        job = tables.get(row if wanted == "row" else wanted) or tables["slat"]
        section = Picture(
            draw.joint_section(plan.build, job, 250.0), caption=f"{joint_name(job.table).capitalize()}, in section"
        )
        return [
            Heading("In section, and where screws meet", 2),
            Columns(((section,), (Picture(draw.closest_place(plan.build, plan.drilling)),)), (2.0, 3.0)),
            Picture(draw.near_misses(plan.build, plan.drilling)),
            pages.fasteners(plan),
            Findings(plan.drilling.findings),
            Caution("Figures from loads are calculated, not tested."),
        ]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The facts of the drilling room."""
        return facts_of(plan, ["drilling"]).values()


class HolesPanel(Panel):
    """The hole schedule of one part."""

    heading = "Hole schedule"
    controls = (Control(key="number", label="Pieces", kind="count", low=Fraction(1), high=Fraction(12), value=1),)

    def show(self, plan: Plan) -> Sequence[Block]:
        """One group of pieces drilled alike, every face with running marks."""
        groups = plan.drilling.schedule
        return pages.schedule_of(plan, groups[min(int(self.own["number"]), len(groups)) - 1])

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """None of its own: the schedule is drawn from the holes."""
        return ()
