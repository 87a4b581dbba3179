"""Moves every control of every panel to its ends and to odd values, and holds what happens to the library. By hand:

    python -m tests.workbook.sweep [PANEL ...] [--builds NAME ...]

A move is either taken, and then the panel's build is the one the library makes of the same change, with the same
facts; or refused: nothing has changed, the words stand beside the control, and what was typed stays in its box.
A control that is shown does something: of its moves at least one is seen, in the panel or in what is made of the
bed. Tests take a sample of the same moves.
"""

from __future__ import annotations

import argparse
import os
import tempfile
from collections.abc import Callable, Iterator, Sequence
from html import unescape
from itertools import chain
from pathlib import Path
from typing import Any

from tests.workbook.odd_moves import PRESS, Move, give, moves
from tutorial_lib.adapting import adapt
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError, TutorialError
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.html import html
from tutorial_lib.publishing.sheet import sheet_source
from tutorial_lib.workbook.adapting_panel import AdaptingPanel, FamilyPanel, WrongCutPanel
from tutorial_lib.workbook.assembly_panel import AssemblyPanel, MovementPanel, OrderPanel
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.cutting_panel import CuttingPanel, MarkingPanel
from tutorial_lib.workbook.design_panel import DesignPanel
from tutorial_lib.workbook.drilling_panel import DrillingPanel, HolesPanel
from tutorial_lib.workbook.finishing_panel import FinishingPanel
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.said_panel import SaidPanel
from tutorial_lib.workbook.sections import flat
from tutorial_lib.workbook.start_panel import StartPanel
from tutorial_lib.workbook.strength_panel import RemedyPanel, StrengthPanel, WorkingPanel
from tutorial_lib.workbook.values import stated

BUILDS = Path(__file__).parents[2] / "assets" / "builds"
CAPTIONS = BUILDS.parent / "captions" / "spare-room-twin.vtt"
PANELS: dict[str, Callable[[Options], Panel]] = {
    made.__name__: made
    for made in (
        StartPanel, DesignPanel, StrengthPanel, WorkingPanel, RemedyPanel, CuttingPanel, MarkingPanel, DrillingPanel,
        HolesPanel, FinishingPanel, AssemblyPanel, OrderPanel, MovementPanel, SaidPanel, AdaptingPanel, WrongCutPanel,
        FamilyPanel,
    )
}  # fmt: skip
# These remember what was done to them; each move begins with a new one in a folder of its own.
KEEPING = (StartPanel, SaidPanel, AdaptingPanel)
TAKEN_BY_A_BUTTON = ("fact",)  # choices that are seen when a button is pressed
# Their controls choose what is shown of the bed and leave the bed alone.
LOOKING = (WorkingPanel, HolesPanel, OrderPanel, WrongCutPanel, SaidPanel, FamilyPanel)


def builds() -> dict[str, Path]:
    """Every bed that is shipped, by name."""
    return {path.stem: path for path in sorted(BUILDS.rglob("*.toml"))}


def move(panel: Panel, one: Move) -> list[str]:
    """Makes a move as a person does, through the widget; what is not as it should be."""
    before, plan = panel.options, panel.plan
    if not give(panel, one):
        return []
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
    if isinstance(one.value, str) and one.value != PRESS and panel.control(one.key).value != one.value:
        wrong.append(f"not left as typed: {panel.control(one.key).value!r}")
    if not told.strip().endswith((".", ")", "?")) or "Traceback" in told or "validation" in told:
        wrong.append(f"no sentence: {told}")
    return wrong


def _taken(panel: Panel, one: Move, before: Options) -> list[str]:
    wrong = []
    expected = _library(panel, one, before)
    if expected is not None and panel.options != expected:
        wrong.append("another build than the library makes of it")
    if not isinstance(panel, LOOKING):
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
    if isinstance(panel, AdaptingPanel):
        return _adapted(panel, one, before)
    if "." not in one.key:
        return before if isinstance(panel, LOOKING) else None
    if one.key in TOGETHER or one.key.endswith(".kind"):
        return None
    control = next(c for c in panel.controls if c.key == one.key)
    typed = isinstance(one.value, str) and control.kind != "choice"
    value = stated(control.kind, one.value, before.build.units) if typed else one.value
    try:
        return change(before, {one.key: list(value) if isinstance(value, tuple) else value})
    except TutorialError as error:
        raise AssertionError(f"taken, but the library refuses it: {error}") from error


def _adapted(panel: AdaptingPanel, one: Move, before: Options) -> Options | None:
    """The bed the library makes of a viewer's one wish."""
    kind = next(c.kind for c in panel.controls if c.key == one.key)
    if one.key in ("mattress", "measured"):
        return adapt(before, one.value or None).yours.options
    if one.key == "person":
        weight = f"{one.value} {writer(before.build.units).unit('weight')}"
        return adapt(before, None, {"load.person": weight}).yours.options
    if "." not in one.key:
        return None
    value = stated(kind, one.value, before.build.units) if kind == "length" else one.value
    return adapt(before, None, {one.key: value} if value is not None else {}).yours.options


# Keys that change others too: a size by name lets go of the measured one, a line's legs go with the sides'.
TOGETHER = ("mattress.size", "support.kind", "legs.per_side", "saw.prefer", "finish.grits")


def swept(
    make: Callable[[Options], Panel], options: Options, keep: Callable[[Move], bool] = lambda one: True
) -> Iterator[str]:
    """Every move on a fresh start; what is wrong, a line each."""
    panel = _fresh(make, options)
    first, plan = dict(panel.own), panel.plan
    for one in list(moves(panel)):
        if not keep(one):
            continue
        try:
            wrong = move(panel, one)
        except Exception as error:  # told, so that the rest is swept too
            wrong = [f"{type(error).__name__}: {error}"]
        yield from (f"{type(panel).__name__} {one.key} = {one.value!r}: {words}" for words in wrong)
        if wrong or isinstance(panel, KEEPING):
            panel = _fresh(make, options)
            plan = panel.plan
        else:
            panel.own = dict(first)
            panel.take(options, plan)


def _fresh(make: Callable[[Options], Panel], options: Options) -> Panel:
    if make in KEEPING:
        os.environ["TUTORIAL_STATE"] = tempfile.mkdtemp()
    panel = SaidPanel(options, str(CAPTIONS)) if make is SaidPanel else make(options)
    assert panel.widget is not None
    return panel


def idle(make: Callable[[Options], Panel], options: Options, keys: Sequence[str] = ()) -> Iterator[str]:
    """Controls that are shown on this bed and do nothing: none of their moves is seen anywhere.

    Args:
        make: the panel.
        options: the bed.
        keys: controls to try; all when left out.
    """
    panel = make(options)
    own, plan, seen = dict(panel.own), panel.plan, _seen(panel)
    made: list[Any] = []
    tried: dict[str, bool] = {}
    for one in [m for m in moves(panel) if (not keys or m.key in keys) and m.key not in TAKEN_BY_A_BUTTON]:
        if tried.get(one.key):
            continue
        panel.set(one.key, _as_moved(panel, one))
        does = not panel.errors and (panel.options != options or panel.own != own)
        if does and _seen(panel) == seen:
            made = made or [_made(plan)]
            does = _made(panel.plan) != made[0]
        tried[one.key] = does
        panel.own = dict(own)
        panel.take(options, plan)
    yield from (key for key, does in tried.items() if not does)


def _as_moved(panel: Panel, one: Move) -> Any:
    kind = next(c.kind for c in panel.controls if c.key == one.key)
    typed = isinstance(one.value, str) and kind not in ("choice", "button")
    return stated(kind, one.value, panel.units) if typed else one.value


def _seen(panel: Panel) -> tuple[Any, ...]:
    """What a panel shows: drawings, words, figures."""
    return html(flat(panel.blocks)), {key: fact.value for key, fact in panel.stated.items()}


def _made(plan: Plan) -> Any:
    """What is made of a bed: every fact, and every word of its booklet."""
    try:
        return [(f.key, f.value) for f in facts_of(plan).values()], sheet_source(plan)
    except InputError as error:
        return str(error)


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
            found = swept(PANELS[panel], options)
            doing_nothing = (f"{panel} {key}: does nothing" for key in idle(PANELS[panel], options))
            for line in chain(found, doing_nothing):
                count += 1
                print(f"{name}: {line}", flush=True)
            print(f"{name} {panel} done", flush=True)
    print(f"{count} wrong")


if __name__ == "__main__":
    main()
