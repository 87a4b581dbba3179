"""The panel moves section, clashes and facts with its controls, and refuses what can't be used."""

from __future__ import annotations

from fractions import Fraction

from tests.drilling.builds import demo
from tutorial_lib.workbook.drilling_panel import DrillingPanel, HolesPanel


def test_a_longer_screw_is_a_stop_and_a_changed_fact() -> None:
    panel = DrillingPanel(demo())
    panel.set("screws.cleat.length", "3 in")
    assert panel.stated["cleat.screw_length"].value == 3 and "cleat.screw_length" in panel.changed
    assert "Take a shorter screw" in panel.html()


def test_clashes_show_and_go() -> None:
    panel = DrillingPanel(demo())
    panel.set("screws.slat.end_slat_shift", "0 in")
    assert "4 fasteners meet" in panel.html()
    panel.set("screws.slat.end_slat_shift", "5/8 in")
    assert "no two fasteners meet" in panel.html()


def test_an_emptied_box_leaves_the_length_open() -> None:
    panel = DrillingPanel(demo())
    panel.set("screws.cleat.length", None)
    assert panel.stated["cleat.screw_length"].value == Fraction(5, 2)


def test_a_gauge_that_is_not_sold_is_refused_beside_its_control() -> None:
    panel = DrillingPanel(demo())
    panel.set("screws.cleat.gauge", "#11")
    assert "no wood screw of size 11" in panel.errors["screws.cleat.gauge"]
    assert panel.stated["cleat.screw_length"].value == Fraction(5, 2)


def test_every_joint_can_be_looked_at() -> None:
    panel = DrillingPanel(demo())
    for joint in ("slat", "corner", "leg", "row"):
        panel.set("joint", joint)
        assert "in section" in panel.html()


def test_the_schedule_goes_through_all_groups() -> None:
    panel = HolesPanel(demo())
    seen = set()
    (pieces,) = panel.controls
    for number in range(1, int(pieces.high) + 1):
        panel.set("number", number)
        seen.add(panel.html())
    assert len(seen) == pieces.high == len(panel.plan.drilling.schedule)


def test_a_choice_left_open_is_named_in_its_list() -> None:
    panel = DrillingPanel(demo())
    gauge = panel.control("screws.cleat.gauge")
    gauge.value = "#10"
    assert panel.options.screws.cleat.gauge == "#10"
    gauge.label = "chosen"
    assert panel.options.screws.cleat.gauge is None and gauge.label == "chosen"
    assert DrillingPanel(panel.options).control("screws.cleat.gauge").label == "chosen"


def test_a_kind_that_cannot_be_had_is_told_beside_it() -> None:
    panel = DrillingPanel(demo())
    panel.set("screws.corner.kind", "carriage bolt")
    assert set(panel.errors) == {"screws.corner.kind"} and "thicker rails" in panel.errors["screws.corner.kind"]
