"""Notebook 00's panel: pick the bed all notebooks work on, and see it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from tutorial_lib.errors import InputError
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.findings import Finding
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Heading, Picture, Text
from tutorial_lib.publishing.topics.design import chosen
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.sections import Result

KEYS = (
    "mattress.width",
    "mattress.length",
    "frame.width",
    "frame.length",
    "frame.height",
    "slat.count",
    "slat.gap",
    "leg.count",
)


def _names() -> tuple[tuple[str, str], ...]:
    return tuple((name, name) for name in current.builds())


class StartPanel(Panel):
    """Choose the bed; the other notebooks open on it."""

    heading = "The bed all chapters work on"
    results = (
        Result("frame.width", "{} wide"),
        Result("frame.length", "{} long"),
        Result("slat.count", "{} slats"),
        Result("lumber.boards", "{} boards"),
        Result("lumber.cost"),
    )

    def offered(self) -> tuple[Control, ...]:
        """The builds there are, and ways to bring another."""
        return (
            Control(key="bed", label="Bed", kind="choice", choices=_names(), value=self.start.name),
            Control(key="creator", label="Back to the creator's", kind="button"),
            Control(key="path", label="Open a build file", kind="text", value="", empty="its path"),
            Control(key="upload", label="Hand in a build file", kind="upload", empty=".toml"),
        )

    def change(self, changes: Mapping[str, Any]) -> None:
        """Takes another build for all notebooks."""
        try:
            self.start = self._chosen(changes)
        except InputError as error:
            self._refuse(error, list(changes))
            return
        self.own["bed"], self.own["path"] = self.start.name, ""
        self._take(self.start.options)

    def _chosen(self, changes: Mapping[str, Any]) -> current.Current:
        if "creator" in changes:
            return current.reset()
        if "upload" in changes:
            return current.take_upload(*changes["upload"])
        if changes.get("path"):
            return current.open_build(str(changes["path"]))
        return current.choose(str(changes.get("bed", self.start.name)))

    def enabled(self, control: Control) -> bool:
        """Nothing to go back to on a creator's own build."""
        return control.key != "creator" or self.start.options != self.start.creator

    def show(self, plan: Plan) -> Sequence[Block]:
        """The bed in space."""
        from tutorial_lib.drawing.whole import whole_bed

        build = plan.options.build
        own = self.start.options != self.start.creator
        said = f"Your own build, made from {self.start.creator.build.title}." if own else f"From {build.channel}."
        return [
            Heading(build.title),
            *([Text(said)] if own or build.channel else []),
            Picture(whole_bed(plan.build)),
        ]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The bed in a few figures."""
        return chosen(dict(facts_of(plan, ["design"])), KEYS)

    def remarks(self, plan: Plan) -> Sequence[Finding]:
        """Where the build stands: what all rules found."""
        return plan.findings

    def ahead(self, plan: Plan) -> Iterable[object]:
        """Room by room."""
        return plan.found_by_room()

    def figures(self, plan: Plan) -> dict[str, Fact]:
        """With the boards and what they cost."""
        return dict(facts_of(plan, ["design", "cutting"]))
