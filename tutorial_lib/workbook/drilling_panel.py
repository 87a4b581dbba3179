"""Notebook 03's panel: screws chosen, the joints in section and the clashes redrawn while a control moves."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from tutorial_lib.drawing import holes as draw
from tutorial_lib.errors import Fault, TutorialError
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.lists.names import joint_name
from tutorial_lib.measures import exact_length
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Caution, Columns, Findings, Heading, Picture
from tutorial_lib.publishing.topics import drilling as pages
from tutorial_lib.workbook.choices import Group, When
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel

LOOK = Control(
    key="joint", label="Joint to look at", kind="choice", value="row",
    choices=(("cleat or runner", "row"), ("slat end", "slat"), ("corner", "corner"), ("leg", "leg")),
)  # fmt: skip
ROOM = Group("The driver")
DRIVER = (ROOM.length("driver.length", "Driver with bit", 2, 14),
          ROOM.length("driver.radius", "Half its width", 0.5, 3))  # fmt: skip


def joint_controls(table: str) -> tuple[Control, ...]:
    """What may be chosen of the screws of one kind of joint."""
    group, key, its = Group(joint_name(table).capitalize()), f"screws.{table}.", NAMED[table]

    def kind(*names: str) -> When:
        return lambda options: (getattr(options.screws, table) or options.screws.runner).kind in names

    fine, chosen = Fraction(1, 16), "chosen"
    basic = (
        group.choice(key + "kind", its + "fastener", AS_RUNNER + KINDS_SHOWN if table == OPEN else KINDS_SHOWN),
        group.choice(key + "gauge", its + "gauge", GAUGES, when=kind("wood screw")),
        group.length(key + "diameter", its + "diameter", 0.25, 0.75, empty=chosen, step=fine,
                     when=kind("carriage bolt", "lag screw", "structural screw")),
        group.length(key + "length", its + "length", 1, 8, empty="shortest", step=Fraction(1, 4),
                     fact=FACTS.get(table, f"{table}.screw_length")),
    )  # fmt: skip
    return (*basic, *_more(table, group, key, kind))


def _more(table: str, group: Group, key: str, kind: Callable[..., When]) -> tuple[Control, ...]:
    fine, screws, own_data, its = Fraction(1, 16), kind(*KINDS[:3]), kind("structural screw"), NAMED[table]
    found = [group.box(key + "count", its + "how many", "number", empty="as needed", more=True),
             group.length(key + "head_depth", its + "head sunk", 0, 0.5, empty="flush", step=fine, more=True,
                          when=screws),
             group.length(key + "pilot", its + "pilot bit", 0.0625, 0.5, empty="from table", step=Fraction(1, 64),
                          more=True, when=screws)]  # fmt: skip
    if table in PLACED:
        found.append(group.length(key + "inset", its + "from the end", 0, 6, empty="chosen", step=fine, more=True,
                                  fact="slat.hole_inset" if table == "slat" else f"{table}.screw_inset"))  # fmt: skip
    if table in SPACED:
        found.append(group.length(key + "spacing", its + "spacing", 1, 16, empty="from the load", step=fine, more=True,
                                  fact=f"{table}.screw_spacing"))  # fmt: skip
    if table == "slat":
        found.append(group.length(key + "end_slat_shift", "End slats: shift", 0, 2, empty="by itself", step=fine,
                                  more=True, fact="slat.end_shift"))  # fmt: skip
    for name, label in OWN_DATA:
        found.append(group.length(key + name, its + label, 0.0625, 4, step=Fraction(1, 32), more=True, when=own_data))
    found.append(group.box(key + "yield_strength", its + "yield, psi", "number", more=True, when=own_data))
    return tuple(found)


OPEN = "runner_end"  # a table that may be left out
ORDER = ("cleat", "runner", OPEN, "slat", "corner", "leg", "ply", "line", "flange", "plinth")
PLACED, SPACED = ("cleat", "runner", "slat", "ply", "line"), ("cleat", "runner", "ply")
NAMED = {"cleat": "Cleat: ", "runner": "Runner: ", OPEN: "Runner end: ", "slat": "Slat: ", "corner": "Corner: ",
         "leg": "Leg: ", "ply": "Leg boards: ", "line": "Line: ", "flange": "Flange: ",
         "plinth": "Plinth: "}  # fmt: skip
FACTS = {"leg": "bolt.length"}
KINDS = ("wood screw", "structural screw", "lag screw", "carriage bolt")
KINDS_SHOWN = tuple((name, name) for name in KINDS)
AS_RUNNER = (("as the runner's others", None),)
GAUGES = (("chosen", None), *((f"#{n}", f"#{n}") for n in (6, 7, 8, 9, 10, 12, 14)))
OWN_DATA = (("root", "root, across"), ("head", "head, across"), ("thread", "thread, long"))  # from its report
SIZES = ("gauge", "length", "diameter", "root", "head", "thread", "yield_strength", "pilot")
JOINTS = {table: joint_controls(table) for table in ORDER}


class DrillingPanel(Panel):
    """The screws of every joint the bed has, and the driver."""

    heading = "Screws and holes"
    saves = True

    def offered(self) -> tuple[Control, ...]:
        """The joints of this bed, those that are most asked about first."""
        try:
            there = {job.table for job in self.plan.drilling.jobs}
        except TutorialError:  # a screw of the build file can't be used: all are offered
            there = set(ORDER)
        there |= {OPEN} if "runner" in there else set()
        tables = [table for table in ORDER if table in there]
        return (LOOK, *(control for table in tables for control in JOINTS[table]), *DRIVER)

    def change(self, changes: Mapping[str, Any]) -> None:
        """As the base does; another kind of fastener lets go of the sizes of the one before."""
        full = dict(changes)
        for key in changes:
            if key.startswith("screws.") and key.endswith(".kind"):
                table = key.split(".")[1]
                if changes[key] is None:
                    full = {f"screws.{table}": None}
                    continue
                sizes = self._data(table, changes[key])
                full = {f"screws.{table}.{name}": value for name, value in sizes.items()} | full
        super().change(full)

    def place_of(self, fault: Fault, keys: list[str]) -> str:
        """A kind that can't be had is told beside the kind."""
        return super().place_of(fault, keys) or next((key for key in keys if key.endswith(".kind")), "")

    def _data(self, table: str, kind: str) -> dict[str, Any]:
        """Sizes to begin with: all open, or for a screw with its own data those of the one it replaces."""
        bare: dict[str, Any] = dict.fromkeys(SIZES)
        if kind != "structural screw":
            return bare
        found = self.plan.drilling.of(table) or self.plan.drilling.of("runner")
        now, units = found[0].fastener, self.options.build.units
        own = {"length": now.length, "diameter": now.shank, "root": Fraction(now.root).limit_denominator(1000),
               "head": Fraction(now.head).limit_denominator(1000), "thread": now.thread or now.length / 2}  # fmt: skip
        stated = {name: exact_length(value, units) for name, value in own.items()}
        return bare | stated | {"yield_strength": float(now.yield_strength)}

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

    def offered(self) -> tuple[Control, ...]:
        """As many as there are groups of pieces drilled alike."""
        try:
            many = len(self.plan.drilling.schedule)
        except TutorialError:  # told where it is shown
            many = 1
        return (Control(key="number", label="Pieces", kind="count", low=Fraction(1), high=Fraction(many), value=1),)

    def enabled(self, control: Control) -> bool:
        """Nothing to go through where all pieces are drilled alike."""
        return control.high > 1

    def show(self, plan: Plan) -> Sequence[Block]:
        """One group of pieces drilled alike, every face with running marks."""
        groups = plan.drilling.schedule
        return pages.schedule_of(plan, groups[min(int(self.own["number"]), len(groups)) - 1])

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """None of its own: the schedule is drawn from the holes."""
        return ()
