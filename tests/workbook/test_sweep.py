"""A sample of the sweep over all controls; by hand it is run whole, on every bed (tests/workbook/sweep.py)."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from tests.design.builds import demo
from tests.workbook.odd_moves import Move, moves
from tests.workbook.sweep import PANELS, idle, move, swept
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.design_panel import DesignPanel
from tutorial_lib.workbook.finishing_panel import FinishingPanel
from tutorial_lib.workbook.view import View

pytest.importorskip("ipywidgets")


def every(step: int, first: int = 0) -> Callable[[Move], bool]:
    """Keeps one move in so many."""
    count = iter(range(first, 100_000))
    return lambda one: next(count) % step == 0


@pytest.mark.parametrize(
    ("name", "step"),
    [("FinishingPanel", 3), ("MovementPanel", 3), ("DesignPanel", 31), ("CuttingPanel", 41), ("DrillingPanel", 31),
     ("AdaptingPanel", 41), ("AssemblyPanel", 7), ("HolesPanel", 1), ("StartPanel", 4)],
)  # fmt: skip
def test_every_move_is_taken_as_the_library_takes_it_or_refused_with_its_reason(
    name: str, step: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(View, "_tell", lambda view: None)  # the findings, which take whole plans
    monkeypatch.setenv("TUTORIAL_STATE", "")  # put back what a panel that remembers sets
    assert list(swept(PANELS[name], demo(), every(step))) == []


@pytest.mark.parametrize(
    ("name", "step"),
    [("DesignPanel", 19), ("StrengthPanel", 7), ("WorkingPanel", 1), ("CuttingPanel", 29), ("DrillingPanel", 13),
     ("HolesPanel", 1), ("FinishingPanel", 3), ("AssemblyPanel", 3), ("OrderPanel", 1), ("MovementPanel", 3),
     ("WrongCutPanel", 1)],
)  # fmt: skip
def test_nothing_that_is_shown_does_nothing(name: str, step: int) -> None:
    panel = PANELS[name](demo())
    shown = [control.key for control in panel.controls if panel.enabled(control)]
    assert list(idle(PANELS[name], demo(), shown[::step])) == []


def test_a_control_that_does_nothing_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    dead = Control(key="dead", label="Dead", kind="count", low=Fraction(0), high=Fraction(3), value=0)
    monkeypatch.setattr(FinishingPanel, "controls", (*FinishingPanel.controls, dead))
    monkeypatch.setattr("tests.workbook.sweep._made", lambda plan: ())
    assert list(idle(FinishingPanel, demo(), ["dead", "finish.coats"])) == ["dead"]


def test_a_move_that_goes_wrong_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    panel = FinishingPanel(demo())
    assert panel.widget is not None
    monkeypatch.setattr(FinishingPanel, "facts", lambda self, plan: ())
    assert move(panel, Move("finish.coats", 4)) == []  # no facts are its facts here
    monkeypatch.setattr("tests.workbook.sweep.change", lambda options, changes: demo())
    assert move(panel, Move("finish.coats", 5)) == ["another build than the library makes of it"]


def test_every_kind_of_control_has_odd_values() -> None:
    panel = DesignPanel(demo())
    swept_keys = {one.key for one in moves(panel)}
    shown = [c for c in panel.controls if panel.enabled(c)]
    assert {c.key for c in shown} == swept_keys


def test_placeholders_fit_their_boxes() -> None:
    controls: list[Control] = [c for make in PANELS.values() for c in getattr(make, "controls", ())]
    assert [c.key for c in controls if c.kind == "length" and len(c.empty) > 14] == []
