"""Notebook 04's panel: the finish, its coats and grits, and all that follows from them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from tutorial_lib.facts import Fact
from tutorial_lib.finishing.coats import KINDS
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block
from tutorial_lib.publishing.topics import finishing as pages
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel

GRITS = ((120, 180), (80, 120, 180), (80, 120, 150), (100, 150, 180), (80, 120, 180, 220))


class FinishingPanel(Panel):
    """What shows, sanding, coats and time."""

    heading = "Finishing"
    controls = (
        Control(key="finish.kind", label="Finish", kind="choice", choices=tuple((name, name) for name in KINDS)),
        Control(key="finish.coats", label="Coats", kind="count", low=Fraction(0), high=Fraction(5)),
        Control(
            key="finish.grits",
            label="Grits",
            kind="choice",
            choices=tuple((", ".join(f"P{g}" for g in row), row) for row in GRITS),
        ),
        Control(key="finish.seal_hidden", label="Seal hidden faces too", kind="check"),
    )

    def show(self, plan: Plan) -> Sequence[Block]:
        """What shows, sanding, coats, time."""
        return [*pages.what_shows(plan), *pages.sanding(plan), *pages.coats(plan), *pages.time(plan)]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The finishing facts."""
        return pages.facts(plan)


class FaceMapPanel(Panel):
    """Every part that shows, unfolded."""

    heading = "Face maps"

    def show(self, plan: Plan) -> Sequence[Block]:
        """The face maps."""
        return pages.face_maps(plan)
