"""Moves every control of every panel to its ends and to odd values, and holds what happens to the library. By hand:

    python -m tests.workbook.sweep [PANEL ...] [--builds NAME ...]

A move is either taken, and then the panel's build is the one the library makes of the same change, with the same
facts; or refused: nothing has changed, the words stand beside the control, and what was typed stays in its box.
Tests take a sample of the same moves.
"""

from __future__ import annotations

import argparse
import os
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from html import unescape
from pathlib import Path
from typing import Any

from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.options import Options
from tutorial_lib.errors import TutorialError
from tutorial_lib.measures import exact_length
from tutorial_lib.plan import Plan
from tutorial_lib.workbook.adapting_panel import AdaptingPanel, WrongCutPanel
from tutorial_lib.workbook.assembly_panel import AssemblyPanel, MovementPanel, OrderPanel
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.cutting_panel import CuttingPanel, MarkingPanel
from tutorial_lib.workbook.design_panel import DesignPanel
from tutorial_lib.workbook.drilling_panel import DrillingPanel, HolesPanel
from tutorial_lib.workbook.finishing_panel import FinishingPanel
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.strength_panel import RemedyPanel, StrengthPanel, WorkingPanel
from tutorial_lib.workbook.values import stated

BUILDS = Path(__file__).parents[2] / "assets" / "builds"
PANELS: dict[str, Callable[[Options], Panel]] = {
    made.__name__: made
    for made in (
        DesignPanel, StrengthPanel, WorkingPanel, RemedyPanel, CuttingPanel, MarkingPanel, DrillingPanel, HolesPanel,
        FinishingPanel, AssemblyPanel, OrderPanel, MovementPanel, AdaptingPanel, WrongCutPanel,
    )
}  # fmt: skip
ODD = {
    "length": ("", "1000 in", "-1", "wide", "0", "1/3 in", "7 1/2\"", "2000 mm"),
    "number": ("", "0", "-3", "2.5", "many", "999"),
    "weight": ("", "0", "95 kg", "heavy", "-4 lb"),
    "money": ("", "0", "-1", "$4.20", "dear", "1e9"),
    "hours": ("", "0", "90 min", "soon"),
    "lengths": ("", "95 7/8; 96 1/4", "-2; 3", "long"),
    "words": ("", "one, two", "“quoted”"),
    "text": ("", "a word", "<b>bold</b>", "é ☆"),
}  # fmt: skip


@dataclass(frozen=True)
class Move:
    """A control and the value a person gives it in its widget."""

    key: str
    value: Any


def builds() -> dict[str, Path]:
    """Every bed that is shipped, by name."""
    return {path.stem: path for path in sorted(BUILDS.rglob("*.toml"))}


def moves(panel: Panel) -> Iterator[Move]:
    """Every control that is shown, to its ends and to odd values."""
    for control in panel.controls:
        if panel.enabled(control) and control.kind not in ("button", "upload", "boards"):
            yield from (Move(control.key, value) for value in _values(control, panel))


def _values(control: Control, panel: Panel) -> Iterator[Any]:
    units = panel.options.build.units
    if control.kind == "choice":
        found = [value for _, value in control.choices]
        yield from (found[0], found[-1], found[len(found) // 2])
    elif control.kind == "count":
        yield from (int(control.low), int(control.high))
    elif control.kind == "check":
        yield from (True, False)
    else:
        if control.kind == "length":
            yield from (exact_length(Fraction(end), units) for end in (control.low, control.high))
        yield from ODD[control.kind]


def move(panel: Panel, one: Move) -> list[str]:
    """Makes a move as a person does, through the widget; what is not as it should be."""
    before, plan = panel.options, panel.plan
    widget = panel.control(one.key)
    if widget.value == one.value:
        return []
    widget.value = one.value
    told = panel.errors.get(one.key, "")
    if panel.errors and not told:
        return [f"told elsewhere: {panel.errors}"]
    return _refused(panel, one, before, plan, told) if told else _taken(panel, one, before)


def _refused(panel: Panel, one: Move, before: Options, plan: Plan, told: str) -> list[str]:
    view = panel._view
    assert view is not None
    wrong = []
    if panel.options != before or panel.plan is not plan:
        wrong.append("refused, but the bed has changed")
    if told not in unescape(view.faults[one.key].value):
        wrong.append(f"not told beside its control: {told}")
    if isinstance(one.value, str) and panel.control(one.key).value != one.value:
        wrong.append(f"not left as typed: {panel.control(one.key).value!r}")
    if not told.strip().endswith((".", ")", "?")) or "Traceback" in told or "validation" in told:
        wrong.append(f"no sentence: {told}")
    return wrong


def _taken(panel: Panel, one: Move, before: Options) -> list[str]:
    wrong = []
    expected = _library(panel, one, before)
    if expected is not None and panel.options != expected:
        wrong.append("another build than the library makes of it")
    facts = {fact.key: fact.value for fact in panel.facts(Plan(panel.options))}
    if facts != {key: fact.value for key, fact in panel.stated.items()}:
        wrong.append("shows facts that are not the build's")
    control = next((c for c in panel.controls if c.key == one.key), None)
    if control is not None and control.kind == "length" and one.value and panel.enabled(control):
        wrong += _slider(panel, control)
    return wrong


def _slider(panel: Panel, control: Control) -> list[str]:
    view = panel._view
    assert view is not None
    slider = view.sliders[control.key]
    return [] if slider.min <= slider.value <= slider.max else [f"its slider stands at {slider.value}"]


def _library(panel: Panel, one: Move, before: Options) -> Options | None:
    """The build that follows from the move alone; None where the panel changes more than this key."""
    if "." not in one.key:
        return before if isinstance(panel, WorkingPanel | HolesPanel | OrderPanel | WrongCutPanel) else None
    if isinstance(panel, AdaptingPanel) or one.key in TOGETHER or one.key.endswith(".kind"):
        return None
    control = next(c for c in panel.controls if c.key == one.key)
    typed = isinstance(one.value, str) and control.kind != "choice"
    value = stated(control.kind, one.value, before.build.units) if typed else one.value
    try:
        return change(before, {one.key: list(value) if isinstance(value, tuple) else value})
    except TutorialError as error:
        raise AssertionError(f"taken, but the library refuses it: {error}") from error


# Keys that change others too: a size by name lets go of the measured one, a line's legs go with the sides'.
TOGETHER = ("mattress.size", "support.kind", "legs.per_side", "saw.prefer", "finish.grits")


def swept(
    make: Callable[[Options], Panel], options: Options, keep: Callable[[Move], bool] = lambda one: True
) -> Iterator[str]:
    """Every move on a fresh start; what is wrong, a line each."""
    panel = make(options)
    assert panel.widget is not None
    for one in list(moves(panel)):
        if not keep(one):
            continue
        try:
            wrong = move(panel, one)
        except Exception as error:  # told, so that the rest is swept too
            wrong = [f"{type(error).__name__}: {error}"]
        yield from (f"{type(panel).__name__} {one.key} = {one.value!r}: {words}" for words in wrong)
        if panel.options != options or panel.errors or wrong:
            panel = make(options)
            assert panel.widget is not None


def main() -> None:
    """Sweeps and prints what is wrong."""
    parser = argparse.ArgumentParser()
    parser.add_argument("panels", nargs="*", default=list(PANELS))
    parser.add_argument("--builds", nargs="+", default=list(builds()))
    args = parser.parse_args()
    os.environ["TUTORIAL_STATE"] = tempfile.mkdtemp()
    count = 0
    for name in args.builds:
        options = read_build(builds()[name].read_text(encoding="utf-8")).bed
        for panel in args.panels:
            for line in swept(PANELS[panel], options):
                count += 1
                print(f"{name}: {line}", flush=True)
            print(f"{name} {panel} done", flush=True)
    print(f"{count} wrong")


if __name__ == "__main__":
    main()
