"""The cutting panel without a browser."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.workbook.cutting_panel import CuttingPanel, MarkingPanel

pytest.importorskip("ipywidgets")


@pytest.fixture
def panel():
    return CuttingPanel(demo())


def test_an_own_price_changes_the_cost(panel):
    panel.set("price 1x4 10 ft", "9")
    assert panel.errors == {}
    assert panel.change_lines() == ["price of one 10-ft 1x4: $8.30 → $9.00", "all lumber: $89.50 → $93.00"]
    assert panel.own["price 1x4 10 ft"] == "9.00"


def test_a_bad_price_is_told_beside_it(panel):
    panel.set("price 1x4 10 ft", "dear")
    assert list(panel.errors) == ["price 1x4 10 ft"]
    assert panel.plan.cutting.cost == 8950


def test_a_thinner_blade_may_save_a_board(panel):
    panel.set("saw.trim", "6 in")
    assert "slat.per_board" in panel.changed


def test_the_cliff_is_taken_with_a_click(panel):
    panel.set("clearance.side", "1 3/32 in")
    assert panel.enabled(panel.controls[-1])
    before = panel.plan.cutting.cost
    panel.set("shorten", True)
    assert panel.errors == {}
    assert panel.plan.cutting.cost < before
    assert not panel.enabled(panel.controls[-1])


def test_the_marking_panel_shows_its_plot():
    panel = MarkingPanel(demo())
    assert "absolute marks from one end" in panel.html()


def test_measured_boards_are_typed_in(panel):
    panel.set("measured 1x4 10 ft", "119; 114")
    assert panel.errors == {}
    assert any("measured 119 in" in block.scene.alt for block in panel.blocks if hasattr(block, "scene"))
    panel.set("measured 1x4 10 ft", "long")
    assert list(panel.errors) == ["measured 1x4 10 ft"]


def test_a_price_that_cannot_be_stays_as_typed_with_the_reason_beside_it() -> None:
    panel = CuttingPanel(demo())
    box = panel.control("price 1x4 12 ft")
    box.value = "-1"
    assert set(panel.errors) == {"price 1x4 12 ft"} and box.value == "-1"
