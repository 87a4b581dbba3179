"""The base of all notebook panels; ipywidgets is imported here only.

A panel says which controls it has, what to show for a plan and which facts it speaks of::

    class SlatPanel(Panel):
        controls = (Control("slats.gap", "Gap at most", "length", high=Fraction(4)),)

        def show(self, plan: Plan) -> list[Block]:
            return [Picture(slat_plan(plan.build))]

        def facts(self, plan: Plan) -> Iterable[Fact]:
            return slats.facts(plan)

In a notebook ``SlatPanel()`` as a cell's last line shows it, with the facts as text beside the widgets.
"""

from __future__ import annotations

import gc
from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from html import escape
from pathlib import Path
from typing import Any, ClassVar

from tutorial_lib.design.build_file import change, exact_length
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError, TutorialError
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.figures import line, write_value
from tutorial_lib.measures import mm, read_length
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Heading
from tutorial_lib.publishing.html import html
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control, look_up


class Panel(ABC):
    """Controls, live drawing, facts; a bad value explains itself and keeps the last good drawing."""

    controls: ClassVar[tuple[Control, ...]] = ()
    saves: ClassVar[bool] = False  # offer "save as my build" and "back to the creator's"
    heading: ClassVar[str] = ""

    def __init__(self, options: Options | None = None) -> None:
        self.start = current.current() if options is None else current.Current(options, options, options.build.name)
        self.options: Options = self.start.options
        self.own: dict[str, Any] = {c.key: c.value for c in self.controls if not c.bound}
        self.errors: dict[str, str] = {}
        self.changed: frozenset[str] = frozenset()
        self.before: dict[str, Fact] = {}  # the facts before the last change
        self.plan = Plan(self.options)
        self._view: _View | None = None
        self.blocks: list[Block] = list(self.show(self.plan))
        self.stated: dict[str, Fact] = {fact.key: fact for fact in self.facts(self.plan)}

    # what a panel says of itself

    @abstractmethod
    def show(self, plan: Plan) -> Sequence[Block]:
        """What is drawn and told for a plan."""

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The facts the panel speaks of."""
        return ()

    def enabled(self, control: Control) -> bool:
        """False for a control that means nothing with the present options."""
        return True

    # what happens when a control moves

    def set(self, key: str, value: Any) -> None:
        """Changes one option (as the build file states it) or one of the panel's own values, and redraws."""
        self.change({key: value})

    def change(self, changes: Mapping[str, Any]) -> None:
        """Changes several at once; on a fault the last good plan stays and the fault is told beside its control."""
        bound = {key: value for key, value in changes.items() if "." in key}
        own = dict(self.own)
        try:
            self.own |= {key: value for key, value in changes.items() if "." not in key}
            options = change(self.options, bound) if bound else self.options
            plan = Plan(options) if bound else self.plan
            blocks, stated = list(self.show(plan)), {fact.key: fact for fact in self.facts(plan)}
        except TutorialError as error:
            self.own = own
            self._refuse(error, list(changes))
            return
        before, self.errors = self.stated, {}
        self.options, self.plan, self.blocks, self.stated = options, plan, blocks, stated
        self.changed = frozenset(k for k, f in stated.items() if k not in before or before[k].value != f.value)
        self.before = before
        self._refresh()

    def reset(self) -> None:
        """Back to the creator's build, in this panel and for all notebooks."""
        if self.start.options != self.start.creator:
            self.start = current.reset()
        self._take(self.start.creator)

    def save(self, name: str) -> Path:
        """Saves the build under a new name and makes it the one all notebooks work on; where it was written."""
        options = change(self.options, {"build.name": name})
        path = current.save_as(name, options, self.start.creator)
        self.start = current.current()
        self._take(self.start.options)
        return path

    def _take(self, options: Options) -> None:
        before = self.stated
        self.options, self.plan, self.errors = options, Plan(options), {}
        self.blocks = list(self.show(self.plan))
        self.stated = {fact.key: fact for fact in self.facts(self.plan)}
        self.before = before
        self.changed = frozenset(k for k, f in self.stated.items() if k not in before or before[k].value != f.value)
        self._refresh()

    def _refuse(self, error: TutorialError, keys: list[str]) -> None:
        faults = error.faults if isinstance(error, InputError) else (Fault("", str(error)),)
        self.errors = {}
        for fault in faults:
            place = next((k for k in keys if k in fault.where), keys[0] if len(keys) == 1 else "")
            self.errors[place] = " ".join(filter(None, (self.errors.get(place), fault.what)))
        self._refresh()

    def _refresh(self) -> None:
        if self._view is not None:
            self._view.refresh()

    # what it looks like

    def lines(self) -> list[str]:
        """The facts as lines of text: what nbval compares and a screen reader reads."""
        return [line(fact, self.options.build.units) for fact in self.stated.values()]

    def change_lines(self) -> list[str]:
        """What changed, before and after: "slats: 14 → 15"."""
        units = self.options.build.units
        out = []
        for key in self.stated:
            if key in self.changed:
                fact, old = self.stated[key], self.before.get(key)
                if isinstance(fact.value, tuple):  # too long for a line; the drawing shows them
                    out.append(f"{fact.what}: as drawn")
                    continue
                was = f"{write_value(old, units)} → " if old else ""
                out.append(f"{fact.what}: {was}{write_value(fact, units)}")
        return out

    def html(self) -> str:
        """The blocks as HTML."""
        return html(self.blocks)

    @property
    def widget(self) -> Any:
        """The ipywidgets box; made when first asked for."""
        if self._view is None:
            self._view = _View(self)
        return self._view.box

    def control(self, key: str) -> Any:
        """The widget a person moves for a key."""
        _ = self.widget
        assert self._view is not None
        return self._view.inputs[key]

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> Any:
        bundle = self.widget._repr_mimebundle_()
        data = dict(bundle[0] if isinstance(bundle, tuple) else bundle)
        data["text/plain"] = "\n".join(self.lines()) or self.heading
        return data


class _View:
    """The widgets of one panel."""

    def __init__(self, panel: Panel) -> None:
        import ipywidgets as w

        self.panel, self.w = panel, w
        self.inputs: dict[str, Any] = {}
        self.sliders: dict[str, Any] = {}
        self.faults: dict[str, Any] = {}
        self.quiet = False
        rows = [self._row(control) for control in panel.controls]
        self.general, self.news, self.drawing = w.HTML(), w.HTML(), w.VBox()
        chosen = w.VBox(rows, layout={"margin": "0 16px 8px 0"})
        top = w.HBox([chosen, self.news], layout={"flex_flow": "row wrap"})
        parts = [top, self.general, self.drawing]
        if panel.saves:
            parts.insert(1, self._saving())
        self.box = w.VBox(parts)
        self.refresh()
        gc.collect()
        gc.freeze()  # what is loaded by now stays; without this the collector's pauses show while a control moves

    def _row(self, control: Control) -> Any:
        fault = self.faults[control.key] = self.w.HTML()
        main = self.inputs[control.key] = self._input(control)
        parts = [main, fault]
        if control.kind == "length":
            slider = self.sliders[control.key] = self._slider(control)
            parts.insert(1, slider)
        return self.w.HBox(parts, layout={"align_items": "center"})

    def _input(self, control: Control) -> Any:
        w = self.w
        common = {"description": control.label, "style": {"description_width": "150px"}, "layout": {"width": "330px"}}
        if control.kind == "button":
            button = w.Button(description=control.label, layout={"width": "auto", "margin": "2px 2px 2px 154px"})
            button.on_click(lambda _: self._act(control.key, True))
            return button
        made: Any
        if control.kind == "choice":
            made = w.Dropdown(options=list(control.choices), value=None, **common)
        elif control.kind == "count":
            made = w.IntSlider(min=int(control.low), max=int(control.high), **common)
        elif control.kind == "check":
            made = w.Checkbox(**common | {"indent": True})
        else:
            made = w.Text(continuous_update=False, placeholder=control.empty,
                          **common | {"layout": {"width": "300px"}})
        made.observe(lambda event: self._act(control.key, event["new"]), "value")
        return made

    def _slider(self, control: Control) -> Any:
        low, step = self._tape(control)
        steps = int((control.high - low) / step)
        slider = self.w.IntSlider(min=0, max=steps, readout=False, layout={"width": "150px"})
        slider.tooltip = f"{control.label}: slide"
        slider.observe(lambda event: self._slid(control, event["new"]), "value")
        return slider

    def _slid(self, control: Control, steps: int) -> None:
        low, step = self._tape(control)
        self._act(control.key, exact_length(low + steps * step, self.panel.options.build.units))

    def _tape(self, control: Control) -> tuple[Fraction, Fraction]:
        """Lowest value and step of a slider: marks of an inch tape, or every 5 mm."""
        if self.panel.options.build.units == "in":
            return control.low, control.step
        step = mm(5) if control.step >= Fraction(1, 8) else mm(1)
        return round(control.low / step) * step, step

    def _act(self, key: str, value: Any) -> None:
        if self.quiet:
            return
        control = next(c for c in self.panel.controls if c.key == key)
        if control.kind in ("length", "text") and isinstance(value, str):
            value = self._typed(control, value)
        self.panel.set(key, value)

    def _typed(self, control: Control, text: str) -> str | None:
        """A bare number gets the plan's unit; an empty box leaves the choice open."""
        if not text.strip():
            return None
        if control.kind == "length":
            try:
                units = self.panel.options.build.units
                return exact_length(read_length(text, units), units)
            except InputError:
                pass  # the build file's own reading tells what is wrong
        return text

    def refresh(self) -> None:
        """Writes the panel's state into the widgets."""
        panel = self.panel
        if not panel.errors:  # the drawing first: it is what the person waits for
            self._draw()
            self.news.value = _news(panel)
        self.general.value = _told(panel.errors.get("", ""))
        for control in panel.controls:
            message = panel.errors.get(control.key, "")
            self.faults[control.key].value = _told(message)
            if not message:
                self._fill(control)

    def _draw(self) -> None:
        """One widget a section, so that only what changed goes to the browser, the first section first."""
        sections = [html(blocks) for blocks in _sections(self.panel.blocks)]
        shown = list(self.drawing.children)
        shown += [self.w.HTML(layout={"width": "100%"}) for _ in sections[len(shown):]]
        for made, text in zip(shown, sections, strict=False):
            made.value = text
        if len(shown) != len(self.drawing.children) or len(sections) < len(shown):
            self.drawing.children = tuple(shown[: len(sections)])

    def _fill(self, control: Control) -> None:
        self.quiet = True
        try:
            made = self.inputs[control.key]
            made.disabled = not self.panel.enabled(control)
            if control.kind == "button":
                return
            options = self.panel.options
            value = look_up(options, control.key) if control.bound else self.panel.own[control.key]
            if isinstance(value, Fraction):
                self._place_slider(control, value)
                value = exact_length(value, options.build.units)
            if control.kind in ("length", "text"):
                value = value or ""
            if control.kind == "choice" and value not in [v for _, v in control.choices]:
                made.options = [*control.choices, (str(value), value)]
            if made.value != value:
                made.value = value
        finally:
            self.quiet = False

    def _place_slider(self, control: Control, value: Fraction) -> None:
        slider = self.sliders.get(control.key)
        if slider is not None:
            low, step = self._tape(control)
            slider.value = max(0, min(slider.max, round((value - low) / step)))
            slider.disabled = not self.panel.enabled(control)

    def _saving(self) -> Any:
        w = self.w
        name = w.Text(description="Name for my build", value="my-bed", style={"description_width": "150px"},
                      layout={"width": "330px"})
        save = w.Button(description="Save as my build", layout={"width": "auto"})
        back = w.Button(description="Back to the creator's", layout={"width": "auto"})
        told = w.HTML()
        save.on_click(lambda _: self._keep(name.value, told))
        back.on_click(lambda _: self._back(told))
        return w.HBox([name, save, back, told], layout={"align_items": "center"})

    def _back(self, told: Any) -> None:
        self.panel.reset()
        told.value = "The creator's build again."

    def _keep(self, name: str, told: Any) -> None:
        try:
            path = self.panel.save(name)
        except InputError as error:
            told.value = _told("; ".join(fault.what for fault in error.faults))
        else:
            told.value = f"Saved as {escape(path.name)} in {escape(path.parent.name)}; all notebooks now work on it."


def _sections(blocks: Sequence[Block]) -> list[list[Block]]:
    """The blocks cut at every heading."""
    out: list[list[Block]] = [[]]
    for block in blocks:
        if isinstance(block, Heading) and out[-1]:
            out.append([])
        out[-1].append(block)
    return out


def _told(message: str) -> str:
    if not message:
        return ""
    return (f'<span style="border-left:6px solid #D55E00;padding-left:6px;color:#000;line-height:1.3;'
            f'display:inline-block;max-width:34em"><b>Not taken:</b> {escape(message)}</span>')


def _news(panel: Panel) -> str:
    lines = panel.change_lines()
    if not lines:
        return ""
    shown = "".join(f"<li>{escape(text)}</li>" for text in lines)
    return (f'<div style="border-left:6px solid #0072B2;padding-left:8px;line-height:1.35;color:#000"><b>Changed</b>'
            f'<ul style="margin:2px 0;padding-left:18px;max-width:30em">{shown}</ul></div>')
