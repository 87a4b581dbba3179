"""The left column of a panel: a row for every control under its group, with what it was and what is wrong."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from html import escape
from itertools import groupby
from typing import TYPE_CHECKING, Any

from tutorial_lib.measures import exact_length, mm
from tutorial_lib.workbook.board_list import BoardList
from tutorial_lib.workbook.controls import Control, look_up
from tutorial_lib.workbook.values import TYPED, shown, stated

if TYPE_CHECKING:
    from tutorial_lib.workbook.panel import Panel

NONE_OF_THESE = "none of these"
OPEN = "\N{NO-BREAK SPACE}"  # a choice that leaves it open: a list of choices shows nothing for none
LABEL, BOX, WIDE, SLIDER = "140px", "250px", "390px", "130px"


class Fold:
    """A button that shows and hides some rows; it goes where there is nothing to show."""

    def __init__(self, w: Any, rows: list[Any]) -> None:
        self.number = len(rows)
        self.inside = classed(w.VBox(rows, layout={"display": "none"}), "tw-more")
        self.button = classed(w.Button(), "tw-fold")
        self.button.on_click(lambda _: self._turn())
        self.count(self.number)

    def _turn(self) -> None:
        self.inside.layout.display = "" if self.inside.layout.display == "none" else "none"
        self.count(self.number)

    def hold(self, rows: list[Any]) -> None:
        """Other rows to show."""
        self.inside.children = tuple(rows)
        self.count(len(rows))

    def count(self, number: int) -> None:
        """How many rows there are to show."""
        self.number = number
        self.button.layout.display = "" if number else "none"
        self.button.description = f"▸ {number} more" if self.inside.layout.display == "none" else "▾ fewer"


class Rows:
    """Inputs, sliders and remarks by control key.

    Args:
        panel: whose controls they are.
        w: the ipywidgets module, imported by the view alone.
        act: told the key and the value when a person moves a control.
    """

    def __init__(self, panel: Panel, w: Any, act: Callable[[str, Any], None]) -> None:
        self.panel, self.w, self.act = panel, w, act
        self.controls = panel.controls
        self.inputs: dict[str, Any] = {}
        self.sliders: dict[str, Any] = {}
        self.faults: dict[str, Any] = {}
        self.was: dict[str, Any] = {}
        self.rows: dict[str, Any] = {}
        self.folds: list[tuple[Fold, list[Control]]] = []
        self.headings: list[tuple[Any, list[Control]]] = []
        self.quiet = False
        self.shared: dict[tuple[str, str], Any] = {}  # layouts and styles that many widgets have
        self.box = w.VBox(self._groups())
        self.box.add_class("tw-controls")

    def _groups(self) -> list[Any]:
        out: list[Any] = []
        for name, members in groupby(self.panel.controls, key=lambda control: control.group):
            controls = list(members)
            if name:
                heading = classed(self.w.HTML(escape(name)), "tw-group")
                self.headings.append((heading, controls))
                out.append(heading)
            out += [self._row(control) for control in controls if not control.more]
            folded = [control for control in controls if control.more]
            if folded:
                fold = Fold(self.w, [self._row(control) for control in folded])
                self.folds.append((fold, folded))
                out += [fold.button, fold.inside]
        return out

    def _row(self, control: Control) -> Any:
        key = control.key
        self.faults[key] = self._made("HTML", _dom_classes=("tw-fault",))
        self.was[key] = self._made("HTML", _dom_classes=("tw-was",))
        main = self.inputs[key] = self._input(control)
        parts = [main.box if control.kind == "boards" else main]
        if control.kind == "length":
            slider = self.sliders[key] = self._slider(control)
            parts.append(slider)
        line = self.w.HBox(parts, layout=self._layout(""), _dom_classes=("tw-line",))
        self.rows[key] = self.w.VBox([line, self.was[key], self.faults[key]], _dom_classes=("tw-row",))
        return self.rows[key]

    def _made(self, kind: str, width: str = "", **given: Any) -> Any:
        """A widget; those of a width share one layout, those of a kind one style: fewer models to tell a browser of.

        Without a width it has a layout of its own, which may be hidden.
        """
        style = self.shared.get((kind, "style"), {"description_width": LABEL})
        layout = {"layout": self._layout(width)} if width else {}
        made = getattr(self.w, kind)(style=style, **layout, **given)
        self.shared[kind, "style"] = made.style
        return made

    def _layout(self, width: str) -> Any:
        if ("layout", width) not in self.shared:
            self.shared["layout", width] = self.w.Layout(**({"width": width} if width else {}))
        return self.shared["layout", width]

    def _input(self, control: Control) -> Any:
        w = self.w
        if control.kind == "button":
            named = {"description": f"{control.label} ({control.letter})", "tooltip": f"Key {control.letter}"}
            given = named if control.letter else {"description": control.label}
            button = w.Button(**given, layout={"width": "auto", "margin": "2px 2px 2px 146px"})
            button.on_click(lambda _: self.act(control.key, True))
            return button
        if control.kind == "upload":
            return self._upload(control)
        if control.kind == "boards":
            return BoardList(w, [name for name, _ in control.choices], lambda rows: self.act(control.key, rows))
        made = self._field(control)
        made.observe(lambda event: self._moved(control, event["new"]), "value")
        return made

    def _field(self, control: Control) -> Any:
        """What is chosen, ticked, slid or typed in."""
        label = control.label
        if control.kind == "choice":
            return self._made("Dropdown", WIDE, description=label, options=offered(control), value=None)
        if control.kind == "count":
            return self._made("IntSlider", WIDE, description=label, min=int(control.low), max=int(control.high))
        if control.kind == "check":
            return self._made("Checkbox", WIDE, description=label, indent=True)
        wide = BOX if control.kind == "length" else WIDE
        return self._made("Text", wide, description=label, continuous_update=False, placeholder=control.empty)

    def _upload(self, control: Control) -> Any:
        """A button that hands in a file: its name and its bytes."""
        made = self.w.FileUpload(description=control.label, tooltip=control.label, accept=control.empty, multiple=False,
                                 layout={"width": "auto", "margin": "2px 2px 2px 146px"})  # fmt: skip

        def taken(event: Any) -> None:
            for found in event["new"]:
                self.act(control.key, (found["name"], bytes(found["content"])))
            if event["new"]:
                made.value = ()  # the same file may be handed in again

        made.observe(taken, "value")
        return made

    def _slider(self, control: Control) -> Any:
        low, step = self._tape(control)
        steps = int((control.high - low) / step)
        slider = self._made("IntSlider", SLIDER, min=0, max=steps, readout=False)
        slider.tooltip = f"{control.label}: slide"
        slider.observe(lambda event: self._slid(control, event["new"]), "value")
        return slider

    def _slid(self, control: Control, steps: int) -> None:
        low, step = self._tape(control)
        self._moved(control, exact_length(low + steps * step, self.panel.options.build.units))

    def _tape(self, control: Control) -> tuple[Fraction, Fraction]:
        """Lowest value and step of a slider: marks of an inch tape, or every 5 mm."""
        if self.panel.options.build.units == "in":
            return control.low, control.step
        step = mm(5) if control.step >= Fraction(1, 8) else mm(1)
        return round(control.low / step) * step, step

    def _moved(self, control: Control, value: Any) -> None:
        if self.quiet:
            return
        if control.kind == "choice" and value == OPEN:
            value = None
        if control.kind in TYPED and isinstance(value, str):
            value = stated(control.kind, value, self.panel.options.build.units)
        self.act(control.key, value)

    def serve(self, controls: tuple[Control, ...]) -> bool:
        """Takes other choices of the same controls over; False where rows have to be made anew."""
        if controls == self.controls:
            return True
        if [_row_of(control) for control in controls] != [_row_of(control) for control in self.controls]:
            return False
        self.quiet = True
        for new, old in zip(controls, self.controls, strict=True):
            if new.kind == "choice" and new.choices != old.choices:
                self.inputs[new.key].options = offered(new)
            if new.kind == "count":
                self.inputs[new.key].max, self.inputs[new.key].description = int(new.high), new.label
            if new.kind in TYPED:
                self.inputs[new.key].placeholder = new.empty
        self.quiet, self.controls = False, controls
        return True

    def refresh(self) -> None:
        """Writes the panel's state into the rows; what a person typed and can't be taken stays as typed."""
        for control in self.panel.controls:
            message = self.panel.errors.get(control.key, "")
            self.faults[control.key].value = not_taken(message)
            self.faults[control.key].layout.display = "" if message else "none"
            if not message:
                self._fill(control)
        for heading, controls in self.headings:
            heading.layout.display = "" if any(map(self.panel.enabled, controls)) else "none"
        for fold, controls in self.folds:
            fold.count(sum(self.panel.enabled(control) for control in controls))

    def _fill(self, control: Control) -> None:
        self.quiet = True
        try:
            made = self.inputs[control.key]
            self.rows[control.key].layout.display = "" if self.panel.enabled(control) else "none"
            if control.kind in ("button", "upload"):
                self._say_was(control.key, "")
                return
            options = self.panel.options
            value = look_up(options, control.key) if control.bound else self.panel.own[control.key]
            self._tell_was(control, value)
            if control.kind == "length":
                self._place_slider(control, value)
            if control.kind in TYPED:
                value = shown(control.kind, value, options.build.units)
            if control.kind == "choice":
                named = str(value)
                value = OPEN if value is None else value
                if value not in [v for _, v in offered(control)]:
                    made.options = [*offered(control), (NONE_OF_THESE if value == OPEN else named, value)]
            if made.value != value:
                made.value = value
        finally:
            self.quiet = False

    def _tell_was(self, control: Control, value: Any) -> None:
        """What a choice of the build was before anything was moved, where it differs now."""
        before = look_up(self.panel.start.options, control.key) if control.bound else value
        if before == value:
            self._say_was(control.key, "")
            return
        named = {v: words for words, v in control.choices}
        text = named.get(before) or shown(control.kind, before, self.panel.options.build.units) or "not stated"
        self._say_was(control.key, f"was {escape(text)}")

    def _say_was(self, key: str, text: str) -> None:
        self.was[key].value = text
        self.was[key].layout.display = "" if text else "none"
        (self.rows[key].add_class if text else self.rows[key].remove_class)("tw-moved")

    def _place_slider(self, control: Control, value: Any) -> None:
        """Where the box says; for an empty box where the plan chose."""
        if value is None and control.fact in self.panel.stated:
            value = self.panel.stated[control.fact].value
        slider, (low, step) = self.sliders[control.key], self._tape(control)
        slider.max = int((control.high - low) / step)
        slider.value = max(0, min(slider.max, round((value - low) / step))) if isinstance(value, int | Fraction) else 0


def _row_of(control: Control) -> tuple[str, ...]:
    label = "" if control.kind == "count" else control.label  # it may name the plan's unit
    return control.key, label, control.group, control.kind


def offered(control: Control) -> list[tuple[str, Any]]:
    """The choices of a list, as the widget takes them."""
    return [(words, OPEN if value is None else value) for words, value in control.choices]


def classed(widget: Any, name: str) -> Any:
    """The widget, with a name the style sheet knows."""
    widget.add_class(name)
    return widget


def not_taken(message: str) -> str:
    """Why a value was not taken, in one remark; nothing for no message."""
    return f"<b>Not taken:</b> {escape(message)}" if message else ""
