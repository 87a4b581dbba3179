"""Notebook 04's panel: the finish, its coats and grits, and all that follows from them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tutorial_lib.design.options import BARE, Options
from tutorial_lib.facts import Fact
from tutorial_lib.finishing.coats import KINDS
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Heading
from tutorial_lib.publishing.topics import finishing as pages
from tutorial_lib.workbook.choices import Group
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.sections import Result

GRITS = ((120, 180), (80, 120, 180), (80, 120, 150), (100, 150, 180), (80, 120, 180, 220))


FINISH = Group("")


def _finished(options: Options) -> bool:
    return options.finish.kind != BARE


def _laid(options: Options) -> bool:
    return options.finish.laid > 0


class FinishingPanel(Panel):
    """What shows, sanding, coats and time."""

    heading = "Finishing"
    saves = True
    results = (Result("finish.coats", "{} coats"), Result("finish.can"), Result("finish.days", "ready in {} at most"))
    controls = (
        FINISH.choice("finish.kind", "Finish", tuple((name, name) for name in KINDS)),
        FINISH.box("finish.name", "As the can has it", empty="golden oak"),
        FINISH.count("finish.coats", "Coats", 0, 5, when=_finished),
        FINISH.box("finish.recoat", "Between coats", "hours", empty="as usual for it", when=_laid),
        FINISH.choice("finish.grits", "Grits", tuple((", ".join(f"P{g}" for g in row), row) for row in GRITS)),
        FINISH.check("finish.seal_hidden", "Seal hidden faces too"),
    )

    def show(self, plan: Plan) -> Sequence[Block]:
        """What shows, sanding, coats, time."""
        part = [Heading("What to do with each part"), *pages.each_part(plan)]
        return [*pages.what_shows(plan), *pages.time(plan), *part, *pages.sanding(plan), *pages.coats(plan)]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The finishing facts."""
        return pages.facts(plan)


class FaceMapPanel(Panel):
    """Every part that shows, unfolded."""

    heading = "Face maps"

    def show(self, plan: Plan) -> Sequence[Block]:
        """The face maps."""
        return pages.face_maps(plan)
