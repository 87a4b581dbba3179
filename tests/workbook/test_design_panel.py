"""The design panel: what each control does to the bed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import read_build
from tutorial_lib.workbook.design_panel import DesignPanel

pytest.importorskip("ipywidgets")
BUILD = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


@pytest.fixture
def panel() -> DesignPanel:
    made = DesignPanel(read_build(BUILD.read_text(encoding="utf-8")))
    assert made.widget is not None
    return made


def test_a_mattress_by_name_lets_go_of_the_measured_size(panel: DesignPanel) -> None:
    panel.control("mattress.size").value = "king"
    assert panel.plan.build.mattress == (76, 80)
    assert panel.control("mattress.width").value == ""
    assert "slats: 14 → 15" in panel.change_lines()


def test_a_measured_size_wins(panel: DesignPanel) -> None:
    panel.control("mattress.width").value = "39"
    assert panel.plan.build.mattress[0] == 39
    assert panel.options.mattress.size == "twin"


def test_runners_and_back_are_the_creators_cleats(panel: DesignPanel) -> None:
    first = panel.options
    panel.control("support.kind").value = "runners"
    assert panel.errors == {}
    assert panel.plan.build.has("runner")
    panel.control("support.kind").value = "cleats"
    assert panel.options == first


def test_one_height_replaces_another_and_the_bed_stays(panel: DesignPanel) -> None:
    before = panel.plan.build.heights
    panel.control("height_by").value = "sleeping"
    assert panel.control("height").value == "16 in"
    assert panel.plan.build.heights == before
    panel.control("height").value = "18"
    assert panel.plan.build.heights.slat_top == 18


def test_legs_per_line_counts_for_the_centre_too(panel: DesignPanel) -> None:
    panel.control("centre.lines").value = 1
    panel.control("legs.per_side").value = 4
    assert len(panel.plan.build.legs) == 12


def test_a_set_back_that_leaves_no_room_explains_itself(panel: DesignPanel) -> None:
    drawn = panel.html()
    panel.control("legs.setback").value = "70"
    assert "smaller set-back" in panel.errors["legs.setback"]
    assert panel.html() == drawn


def test_new_slats_and_legs_are_set_off(panel: DesignPanel) -> None:
    panel.control("legs.setback").value = "8"
    assert 'stroke="var(--changed,#0072B2)"' in panel.html()


def shown(panel: DesignPanel, key: str) -> bool:
    assert panel.control(key) is not None
    return panel._view.rows.rows[key].layout.display != "none"  # type: ignore[union-attr]


def test_only_what_the_bed_has_is_asked(panel: DesignPanel) -> None:
    assert not shown(panel, "centre.lumber")
    panel.control("centre.lines").value = 1
    assert shown(panel, "centre.lumber")
    assert shown(panel, "support.recess") and not shown(panel, "legs.tube_diameter")
    panel.control("support.kind").value = "runners"
    assert not shown(panel, "support.recess")
    assert not shown(panel, "legs.side_setback")  # the legs stand under the rail
    panel.control("legs.place").value = "under"
    assert shown(panel, "legs.side_setback")


def test_what_it_was_stands_beside_a_moved_control(panel: DesignPanel) -> None:
    panel.control("slats.gap").value = "2"
    assert panel._view.rows.was["slats.gap"].value == "was 2 1/4 in"  # type: ignore[union-attr]
    panel.control("slats.gap").value = "2 1/4"
    assert panel._view.rows.was["slats.gap"].value == ""  # type: ignore[union-attr]


def test_a_height_that_cannot_be_read_is_told_beside_its_box() -> None:
    panel = DesignPanel(demo())
    assert panel.widget is not None and panel._view is not None
    panel.control("height").value = "wide"
    assert list(panel.errors) == ["height"]
    assert "has no number" in panel._view.faults["height"].value
    assert panel.control("height").value == "wide"
