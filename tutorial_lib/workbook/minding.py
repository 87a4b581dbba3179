"""The findings under a drawing, one line each, with what was tried and helps as buttons that change the build."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from html import escape
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import TutorialError
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.plan import Plan
from tutorial_lib.workbook.rows import Fold
from tutorial_lib.workbook.sections import SHOWN, finding_line

if TYPE_CHECKING:
    from tutorial_lib.workbook.panel import Panel

REST = 0.8  # [s] without a move before remedies are tried


class Minding:
    """Rows of findings; remedies are worked out beside the redraws, while nothing moves."""

    def __init__(self, panel: Panel, w: Any) -> None:
        self.panel, self.w = panel, w
        self.box = w.VBox()
        self.cures: dict[Finding, Any] = {}  # where a finding's buttons go
        self.waiting: Any = None

    def show(self, found: Sequence[Finding], none: str) -> None:
        """Shows these findings, worst first; says ``none`` where there are none."""
        self.stop()
        self.cures = {}
        if not found:
            self.box.children = (self.w.HTML(escape(none)),) if none else ()
            return
        lines = [self._row(finding) for finding in found]
        first, folded = lines[:SHOWN], lines[SHOWN:]
        if len(folded) == 1:
            first, folded = lines, []
        fold = Fold(self.w, folded) if folded else None
        self.box.children = (*first, *((fold.button, fold.inside) if fold else ()))
        self._begin()

    def _row(self, finding: Finding) -> Any:
        line, cures = self.w.HTML(finding_line(finding)), self.w.HBox()
        row = self.w.HBox([line, cures])
        for widget, name in ((line, "tw-said"), (cures, "tw-cures"), (row, "tw-finding")):
            widget.add_class(name)
        if (finding.severity != "note" or finding.remedies) and self.panel.saves:
            self.cures[finding] = cures
        return row

    def stop(self) -> None:
        """Gives up what is being tried."""
        if self.waiting is not None:
            self.waiting.cancel()
            self.waiting = None

    def _begin(self) -> None:
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return
        if self.cures:
            self.waiting = loop.create_task(self._try_all(loop))

    async def _try_all(self, loop: asyncio.AbstractEventLoop) -> None:
        await asyncio.sleep(REST)
        plan = self.panel.plan
        for finding in tuple(self.cures):
            remedies = await loop.run_in_executor(None, tried, plan, finding)
            self.offer(finding, remedies)

    def offer(self, finding: Finding, remedies: Sequence[Remedy]) -> None:
        """Puts a finding's remedies beside it as buttons."""
        if finding in self.cures:
            self.cures[finding].children = tuple(self._button(remedy) for remedy in remedies)

    def _button(self, remedy: Remedy) -> Any:
        button = self.w.Button(description=remedy.text, tooltip=str(remedy), layout={"width": "auto"})
        button.on_click(lambda _: self.panel.change(dict(remedy.changes)))
        return button


def tried(plan: Plan, finding: Finding) -> tuple[Remedy, ...]:
    """What was tried against a finding and helps; nothing where that can't be worked out."""
    from tutorial_lib.remedies import told

    try:
        return told(plan, finding).remedies
    except TutorialError:
        return ()
