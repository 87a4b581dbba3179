"""Notebook 01's panel: everything the design follows from, and the bed redrawn while a control moves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from tutorial_lib.design.model import Build
from tutorial_lib.design.options import Options
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.findings import Finding
from tutorial_lib.measures import exact_length
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Findings, Heading
from tutorial_lib.publishing.topics import design as pages
from tutorial_lib.workbook.choices import DESIGN, HEIGHTS
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.sections import Later, Result, Shown

WITH_SUPPORT = ("support.recess", "support.end_play", "centre.ends", "legs.place", "legs.side_setback", "screws.leg")


class DesignPanel(Panel):
    """Mattress, slats, support, centre lines, legs and heights."""

    heading = "The bed"
    saves = True
    controls = DESIGN
    results = (
        Result("slat.count", "{} slats"),
        Result("slat.gap", "gap {}"),
        Result("lumber.boards", "{} boards"),
        Result("lumber.cost"),
    )

    def __init__(self, options: Options | None = None) -> None:
        self.drawn: Build | None = None
        super().__init__(options)
        self._read_height()

    def change(self, changes: Mapping[str, Any]) -> None:
        """As the base does; a mattress by name lets go of the measured size, a height replaces the other heights."""
        full = dict(changes)
        if "mattress.size" in full:
            full = {"mattress.width": None, "mattress.length": None} | full
        if "legs.per_side" in full and self.options.centre.lines:
            full["centre.legs"] = full["legs.per_side"]
        if "support.kind" in full:
            full = self._support(str(full["support.kind"])) | full
        if "height" in full or "height_by" in full:
            full = self._heights(full)
        self.drawn = self.plan.build
        super().change(full)

    def told_at(self, key: str) -> str:
        """As the base does; all heights have one box."""
        return "height" if key.startswith("heights.") else super().told_at(key)

    def _refresh(self) -> None:
        self._read_height()
        super()._refresh()

    def _support(self, kind: str) -> dict[str, Any]:
        """What goes with another support: the creator's choices where it is theirs, else what is usual."""
        theirs = self.start.creator
        if kind != theirs.support.kind:
            return dict.fromkeys(WITH_SUPPORT) | {"support.lumber": self._stock(kind)}
        raw = theirs.raw()
        stated = {key: raw.get(key.split(".")[0], {}).get(key.split(".")[1]) for key in WITH_SUPPORT}
        return stated | {"support.lumber": theirs.support.lumber}

    def _stock(self, kind: str) -> str:
        if self.options.build.units == "mm":
            return self.options.centre.lumber if kind == "runners" else self.options.support.lumber
        return "2x4" if kind == "runners" else "2x2"

    def _heights(self, changes: dict[str, Any]) -> dict[str, Any]:
        by = str(changes.pop("height_by", self.own["height_by"]))
        value = changes.pop("height", None) or exact_length(self._height_as(by), self.options.build.units)
        return changes | {f"heights.{by}": value, "height_by": by}

    def _height_as(self, by: str) -> Fraction:
        high = self.plan.build.heights
        tops = {"sleeping": high.slat_top, "mattress_top": high.sleeping or high.slat_top}
        return ({"underside": high.underside, "storage": high.storage, "leg": high.leg} | tops)[by]

    def _read_height(self) -> None:
        given = self.options.heights
        by = next((name for _, name in HEIGHTS if getattr(given, name) is not None), "storage")  # given by the boxes
        self.own["height_by"], self.own["height"] = by, getattr(given, by)

    def show(self, plan: Plan) -> Sequence[Shown]:
        """Stops, slat plan, leg map, heights, parts, what to mind."""
        found, drawn = plan.build.findings, self.drawn
        return [
            Findings(tuple(f for f in found if f.severity == "stop")),
            Later("Slat plan", lambda: pages.slats(plan, drawn)),
            Later("Leg map", lambda: pages.legs(plan, drawn)),
            Later("Heights", lambda: [*pages.heights(plan), pages.parts_list(plan)]),
            Heading("What to mind"),
            Findings(tuple(f for f in found if f.severity != "stop"), "Nothing else found by the design's rules."),
        ]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The design's facts."""
        return facts_of(plan, ["design"]).values()

    def remarks(self, plan: Plan) -> Sequence[Finding]:
        """What all rules found, whatever room they stand in."""
        return plan.findings

    def ahead(self, plan: Plan) -> Iterable[object]:
        """Room by room."""
        return plan.found_by_room()

    def figures(self, plan: Plan) -> dict[str, Fact]:
        """With the boards and what they cost."""
        return dict(facts_of(plan, ["design", "cutting"]))
