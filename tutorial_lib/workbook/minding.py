"""The findings under a drawing, one line each, with what was tried and helps as buttons that change the build."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from concurrent.futures import BrokenExecutor
from html import escape
from typing import TYPE_CHECKING, Any

from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.workbook import beside
from tutorial_lib.workbook.resting import REST, Waiting
from tutorial_lib.workbook.rows import Fold, classed
from tutorial_lib.workbook.sections import SHOWN, finding_line

if TYPE_CHECKING:
    from tutorial_lib.workbook.panel import Panel


class Row:
    """A line that says one finding after another: what stays between two moves is not made anew for the browser."""

    def __init__(self, w: Any, press: Callable[[Remedy], None]) -> None:
        self.w, self.press = w, press
        self.line, self.cures = classed(w.HTML(), "tw-said"), classed(w.HBox(), "tw-cures")
        self.box = classed(w.HBox([self.line, self.cures]), "tw-finding")
        self.buttons: list[Any] = []
        self.remedies: tuple[Remedy, ...] = ()

    def say(self, finding: Finding) -> None:
        """Says a finding, for which nothing was tried yet."""
        self.line.value = finding_line(finding)
        self.offer(())

    def offer(self, remedies: Sequence[Remedy]) -> None:
        """Has a button for each of these."""
        self.remedies = tuple(remedies)
        self.buttons += [self._button(number) for number in range(len(self.buttons), len(remedies))]
        for button, remedy in zip(self.buttons, remedies, strict=False):
            button.description, button.tooltip = remedy.text, str(remedy)
        self.cures.children = tuple(self.buttons[: len(remedies)])

    def _button(self, number: int) -> Any:
        button = self.w.Button(layout={"width": "auto"})
        button.on_click(lambda _: self.press(self.remedies[number]))
        return button


class Minding:
    """Rows of findings; remedies are worked out beside the redraws, while nothing moves."""

    def __init__(self, panel: Panel, w: Any) -> None:
        self.panel, self.w = panel, w
        self.box, self.none = w.VBox(), w.HTML()
        self.fold = Fold(w, [])
        self.rows: list[Row] = []
        self.cures: dict[Finding, Row] = {}  # the row in which a finding's buttons go
        self.waiting = Waiting()

    def show(self, found: Sequence[Finding], none: str) -> None:
        """Shows these findings, worst first; says ``none`` where there are none."""
        self.stop()
        self.rows += [Row(self.w, self._press) for _ in range(len(self.rows), len(found))]
        rows = dict(zip(found, self.rows, strict=False))
        for finding, row in rows.items():
            row.say(finding)
        self.cures = {f: r for f, r in rows.items() if (f.severity != "note" or f.remedies) and self.panel.saves}
        self.none.value = "" if found else escape(none)
        self._place([row.box for row in rows.values()])
        if self.cures:
            self.waiting.begin(self._try_all, lambda: None)

    def _place(self, lines: list[Any]) -> None:
        """The first few in sight, the rest folded away where it is more than one."""
        shown = SHOWN if len(lines) > SHOWN + 1 else len(lines)
        self.fold.hold(lines[shown:])
        parts = lines[:shown] or [self.none]
        self.box.children = (*parts, self.fold.button, self.fold.inside) if lines[shown:] else tuple(parts)

    def stop(self) -> None:
        """Gives up what is being tried."""
        self.waiting.stop()

    async def _try_all(self) -> None:
        await asyncio.sleep(REST)
        options, loop = self.panel.plan.options, asyncio.get_running_loop()
        for finding in tuple(self.cures):
            try:
                found = await loop.run_in_executor(beside.process(), beside.remedies, options, finding)
            except BrokenExecutor:  # the system ended the process; another is begun at the next rest
                beside.process.cache_clear()
                return
            self.offer(finding, found)

    def offer(self, finding: Finding, remedies: Sequence[Remedy]) -> None:
        """Puts a finding's remedies beside it as buttons."""
        if finding in self.cures:
            self.cures[finding].offer(remedies)

    def _press(self, remedy: Remedy) -> None:
        self.panel.change(dict(remedy.changes))
