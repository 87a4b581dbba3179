"""The widgets of one panel: controls on the left, drawing and result beside them; ipywidgets is imported here only."""

from __future__ import annotations

import asyncio
import gc
from base64 import b64encode
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import cache
from html import escape
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import InputError, TutorialError
from tutorial_lib.publishing.blocks import Heading
from tutorial_lib.publishing.html import html
from tutorial_lib.workbook.minding import Minding
from tutorial_lib.workbook.resting import BEHIND, BREATH, PAUSE, REST, Waiting
from tutorial_lib.workbook.rows import Rows, classed, not_taken
from tutorial_lib.workbook.sections import Later, Section, arrange, result_line

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan
    from tutorial_lib.workbook.panel import Panel

SAVE, UNDO, REVERT, BACK = "Save", "Undo save", "Revert", "Back to the creator's"
WEIGHTS = (("Regular", 400), ("Semibold", 600), ("Bold", 700))


def _tidy() -> None:
    """Collects what is no longer used now, rather than while a control moves; what was loaded is looked at once."""
    gc.collect()
    if not gc.get_freeze_count():
        gc.freeze()


def widgets() -> Any:
    """The widget library, loaded when first asked for."""
    import ipywidgets

    return ipywidgets


def style() -> Any:
    """The look of all panels, as a widget that carries it."""
    return widgets().HTML(f"<style>{look()}</style>")


@cache
def look() -> str:
    """The style sheet with its typeface in it, so that nothing is fetched and words are as wide as they were laid."""
    fonts = files("tutorial_lib.drawing") / "fonts"
    faces = "".join(_face((fonts / f"SaltmarshSans-{cut}.woff2").read_bytes(), weight) for cut, weight in WEIGHTS)
    return faces + files("tutorial_lib.workbook").joinpath("look.css").read_text("utf-8")


def _face(data: bytes, weight: int) -> str:
    held = f"data:font/woff2;base64,{b64encode(data).decode('ascii')}"
    return f'@font-face{{font-family:"Saltmarsh Sans";font-weight:{weight};src:url("{held}") format("woff2")}}'


class View:
    """Draws a panel and hands on what a person moves."""

    def __init__(self, panel: Panel) -> None:
        w = widgets()
        self.panel, self.w = panel, w
        self.rows = Rows(panel, w, panel.set)
        self.waiting = Waiting()  # the delayed part of the last redraw
        self.following = Waiting()  # what catches up with the panel it follows
        self.shown = 0  # number of the view on show
        self.sections: tuple[Section | Later, ...] = ()
        self.title, self.general = w.HTML(), w.HTML()
        self.drawing, self.result = classed(w.HTML(), "tw-drawing"), classed(w.HTML(), "tw-result")
        self.drawing.tabbable = True  # it may scroll: the keyboard reaches it
        self.minding, self.news, self.rest = Minding(panel, w), w.HTML(), w.VBox()
        self.tabs = classed(w.ToggleButtons(options=[], layout={"display": "none"}), "tw-tabs")
        self.tabs.observe(lambda event: self._turn(event["new"]), "value")
        self.told = w.HTML()
        self.named: str | None = None  # the build whose name stands in the bar
        sight = classed(w.VBox([self.tabs, self.drawing, self.result]), "tw-sight")
        right = classed(w.VBox([sight, classed(w.VBox([self.minding.box, self.news]), "tw-minded")]), "tw-right")
        self.right, self.body = right, classed(w.VBox(), "tw-body")
        self.box = classed(w.VBox([style(), self._head(), self.general, self.body, self.rest]), "tw-panel")
        self._lay()
        self.refresh(at_once=True)
        _tidy()

    def _lay(self) -> None:
        """Controls beside the drawing, or the drawing alone."""
        self.inputs, self.sliders, self.faults = self.rows.inputs, self.rows.sliders, self.rows.faults
        self.body.children = (self.rows.box, self.right) if self.panel.controls else (self.right,)
        (self.body.remove_class if self.panel.controls else self.body.add_class)("tw-alone")

    def _head(self) -> Any:
        parts = [classed(self.title, "tw-title")]
        if self.panel.saves:
            parts.append(self._saving())
        head = classed(self.w.HBox(parts), "tw-head")
        if not (self.panel.heading or self.panel.saves):
            head.layout.display = "none"
        return head

    def refresh(self, *, at_once: bool = False) -> None:
        """Writes the panel's state into the widgets: the drawing first, since it is what the person waits for."""
        if not self.rows.serve(self.panel.controls):  # another build, with other legs, boards, parts
            self.rows = Rows(self.panel, self.w, self.panel.set)
            self._lay()
        if not self.panel.errors:
            self._draw()
            self.news.value = _news(self.panel.change_lines())
        self.box.remove_class("tw-busy")
        self.general.value = not_taken(self.panel.errors.get("", "")) or escape(self.panel.start.problem)
        self.title.value = self._titled()
        self._bar()
        self.rows.refresh()
        self.minding.stop()
        self._soon(at_once)

    def busy(self, told: str) -> None:
        """Says what goes on while somebody waits for a bed; the next redraw takes it away."""
        self.title.value = self._heading(told)
        self.box.add_class("tw-busy")

    def _heading(self, words: str) -> str:
        return f'<b>{escape(self.panel.heading)}</b> <span class="tw-quiet">{escape(words)}</span>'

    def _titled(self) -> str:
        panel = self.panel
        changed = ", changed and not saved" if panel.options != panel.start.options else ""
        name = f"{panel.options.build.title}{changed}" if panel.saves else ""
        return self._heading(name)

    def _draw(self) -> None:
        arranged = arrange(self.panel.blocks)
        self.sections = arranged.views
        self.shown = min(self.shown, max(len(self.sections) - 1, 0))
        titles = [section.title or "Overview" for section in self.sections]
        self._show()
        if list(self.tabs.options) != titles:
            self.tabs.options = titles
        self.tabs.layout.display = "" if len(titles) > 1 else "none"
        if titles and self.tabs.value != titles[self.shown]:
            self.tabs.value = titles[self.shown]
        self._rest(arranged.rest)

    def _show(self) -> None:
        if not self.sections:
            self.drawing.value = ""
            return
        section = self.sections[self.shown]
        alone = len(self.sections) == 1 and section.title  # else its tab says it
        self.drawing.value = html([Heading(section.title), *section.blocks] if alone else section.blocks)

    def _turn(self, title: str | None) -> None:
        titles = [section.title or "Overview" for section in self.sections]
        if title in titles and titles.index(title) != self.shown:
            self.shown = titles.index(title)
            self._show()

    def _rest(self, sections: Sequence[Section]) -> None:
        """One widget a section, so that only what changed goes to the browser."""
        texts = [f"<h3>{escape(section.title)}</h3>{html(section.blocks)}" for section in sections]
        made = list(self.rest.children)[: len(texts)]
        made += [self.w.HTML(layout={"width": "100%"}) for _ in texts[len(made) :]]
        for widget, text in zip(made, texts, strict=True):
            widget.value = text
        if len(made) != len(self.rest.children):
            self.rest.children = tuple(made)

    def _soon(self, at_once: bool) -> None:
        """Tells the rest after a pause without further moves."""
        if at_once:
            self.waiting.stop()
            self._tell()
        else:
            self.waiting.begin(self._tell_later, self._tell)

    async def _tell_later(self) -> None:
        """Room by room, so that a move never waits for more than one of them."""
        await asyncio.sleep(PAUSE)
        with suppress(TutorialError):  # told below
            for _ in self.panel.ahead(self.panel.plan):
                await asyncio.sleep(BREATH)
        self._tell()

    def _tell(self) -> None:
        """The result line and the findings, which may need the whole chain."""
        panel = self.panel
        try:
            found = panel.remarks(panel.plan)
            facts, before = panel.figures(panel.plan), panel.before_figures()
        except TutorialError as error:
            self.result.value, found = f'<span class="tw-item">{escape(str(error))}</span>', ()
        else:
            self.result.value = result_line(panel.results, facts, before, panel.units, found)
        self.result.layout.display = "" if self.result.value else "none"
        self.minding.show(found, arrange(panel.blocks).none)

    def catch_up(self, plan: Plan, show: Callable[[], None]) -> None:
        """Shows another panel's new plan after a rest without moves; until then this one says that it is behind."""
        self.following.begin(lambda: self._catch_up(plan, show), show)

    async def _catch_up(self, plan: Plan, show: Callable[[], None]) -> None:
        self.box.add_class("tw-behind")
        self.general.value = BEHIND
        await asyncio.sleep(REST)
        await asyncio.get_event_loop().run_in_executor(None, self.panel.prepare, plan)
        self.box.remove_class("tw-behind")
        self.general.value = ""
        show()

    def _saving(self) -> Any:
        w = self.w
        self.name = w.Text(description="save as", style={"description_width": "60px"}, layout={"width": "210px"})
        buttons = {word: w.Button(description=word, layout={"width": "auto"}) for word in (SAVE, UNDO, REVERT, BACK)}
        classed(buttons[SAVE], "tw-main")
        panel = self.panel
        buttons[SAVE].on_click(lambda _: self._do(lambda: _saved(panel.save(self.name.value))))
        buttons[UNDO].on_click(lambda _: self._do(lambda: _undone(panel.undo_save())))
        buttons[REVERT].on_click(lambda _: self._do(self._reverted))
        buttons[BACK].on_click(lambda _: self._do(self._reset))
        self.buttons = buttons
        buttons[UNDO].layout.display = "none"
        return classed(w.HBox([self.name, *buttons.values(), self.told]), "tw-saving")

    def _do(self, act: Callable[[], str]) -> None:
        """What a button of the bar does, and what it says."""
        try:
            self.told.value = escape(act())
        except TutorialError as error:
            faults = error.faults if isinstance(error, InputError) else ()
            self.told.value = not_taken("; ".join(fault.what for fault in faults) or str(error))
            return
        self.buttons[UNDO].layout.display = "" if self.panel.start.own else "none"

    def _reverted(self) -> str:
        self.panel.revert()
        return "As its file says."

    def _reset(self) -> str:
        self.panel.reset()
        return "The creator's build again."

    def _bar(self) -> None:
        """The bar's name and buttons, as the build is."""
        start = self.panel.start
        if not self.panel.saves or self.named == start.name:
            return
        self.named = start.name
        self.name.value = start.name if start.own else "my-bed"


def _saved(path: Path) -> str:
    return f"Saved: {path.name} in {path.parent.name}. All notebooks work on it."


def _undone(path: Path) -> str:
    return f"Taken back: {path.name} is as it was before it was saved. Undo again to have it again."


def _news(lines: Sequence[str]) -> str:
    """What the last move changed, folded."""
    if not lines:
        return ""
    items = "".join(f"<li>{escape(text)}</li>" for text in lines)
    said = f"Changed by the last move: {len(lines)}"
    return f'<details class="tw-fold"><summary>{said}</summary><ul>{items}</ul></details>'
