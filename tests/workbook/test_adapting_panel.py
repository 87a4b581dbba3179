"""Notebook 07's panels: what is asked for adds up, a fault keeps the last bed, back returns every number."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import DEMO, demo
from tutorial_lib.design.build_file import read_build
from tutorial_lib.workbook.adapting_panel import AdaptingPanel, FamilyPanel, WrongCutPanel
from tutorial_lib.workbook.board_list import AtHand


def test_asked_for_adds_up_and_goes_back() -> None:
    panel = AdaptingPanel(demo())
    first = panel.lines()
    panel.set("mattress", "full")
    panel.change({"saw.kerf": "3/32 in", "rail thickness": "1 7/16 in"})
    assert panel.plan.build.mattress[0] == 53
    assert panel.options.saw.kerf == Fraction(3, 32)
    assert panel.plan.build.part("side_rail").section.thickness == Fraction(23, 16)
    panel.reset()
    assert panel.options == demo() and panel.lines() == first and not panel.asked


def test_taking_a_wish_back() -> None:
    panel = AdaptingPanel(demo())
    panel.set("load.people", 1)
    panel.set("load.people", 2)
    assert panel.options == demo() and not panel.asked


def test_a_fault_keeps_the_last_bed() -> None:
    panel = AdaptingPanel(demo())
    panel.set("measured", "54 by banana")
    assert panel.errors and panel.options == demo()


def test_a_storage_box_lifts_the_bed_over_its_centre_line() -> None:
    panel = AdaptingPanel(demo())
    panel.change({"mattress": "full", "box": "13 in"})
    assert panel.plan.build.heights.storage >= Fraction(27, 2)
    assert "13 1/2" in panel.html() or "to spare" in panel.html()


def test_boards_at_hand_are_not_bought() -> None:
    panel = AdaptingPanel(demo())
    panel.set("have", (AtHand(3, "2x6", "8 ft"),))
    assert [b.count for b in panel.plan.cutting.own_boards] == [3]
    panel.set("have", (AtHand(3, "three planks", "8 ft"),))
    assert "three planks" in panel.errors["have"] and [b.count for b in panel.plan.cutting.own_boards] == [3]
    panel.set("have", ())
    assert panel.options == demo()


def test_boards_at_hand_are_a_list_with_a_row_for_each_kind() -> None:
    panel = AdaptingPanel(demo())
    boards = panel.control("have")
    boards.add_button.click()
    (row,) = boards.rows
    row.section.value = "2x6"
    assert panel.options == demo()  # half a row changes nothing
    row.count.value, row.length.value = 2, "8 ft"
    assert [b.count for b in panel.plan.cutting.own_boards] == [2]
    boards.add_button.click()
    boards.rows[1].section.value, boards.rows[1].length.value = "1x4", "10 ft"
    boards.rows[1].actual.value = "3/4 x 3 7/16"
    assert {b.section for b in panel.plan.cutting.own_boards} == {"2x6", "1x4"}
    boards.remove(boards.rows[0])
    assert {b.section for b in panel.plan.cutting.own_boards} == {"1x4"} and len(boards.inside.children) == 1
    boards.rows[0].length.value = "ten feet"
    assert "have" in panel.errors and boards.rows[0].length.value == "ten feet"  # stays as typed
    panel.reset()
    assert not boards.rows and panel.options == demo()


def test_metric() -> None:
    panel = AdaptingPanel(demo())
    panel.set("metric", True)
    assert panel.options.build.units == "mm"
    assert panel.control("person").description == "Each weighs (kg)" and panel.own["person"] == 91
    assert panel.control("measured").placeholder == "such as 1380 x 1890 mm"  # the example in the units that are read
    panel.set("metric", False)
    assert panel.options == demo()
    assert panel.control("measured").placeholder == "such as 54 x 74 1/2 in"


def test_a_bed_in_millimetres_is_not_asked_whether_it_is() -> None:
    panel = AdaptingPanel(read_build((DEMO.parent / "guest-bed-90.toml").read_text(encoding="utf-8")).bed)
    assert panel.control("measured").placeholder == "such as 1380 x 1890 mm"
    assert not panel.enabled(next(control for control in panel.controls if control.key == "metric"))


def test_its_widgets_follow() -> None:
    panel = AdaptingPanel(demo())
    panel.control("mattress").value = "queen"
    assert panel.plan.build.mattress == (Fraction(60), Fraction(80))


def test_wrong_cut_panel() -> None:
    panel = WrongCutPanel(demo())
    assert "as planned" in panel.html()  # what it should be, before one says what it is
    assert [c.key for c in panel.controls if panel.enabled(c)] == ["part", "actual"]
    panel.change({"part": "leg", "actual": "14 3/4 in"})
    assert panel.lines()[0].startswith("keep: Use them") and "17 in" in panel.html()


def test_family_panel(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tutorial_lib.workbook.adapting_panel.MOST_ASKED", ("twin", "queen"))
    panel = FamilyPanel(demo())
    assert len(panel.lines()) == len(panel.members) == 2


def test_who_waits_for_a_bed_sees_how_many_were_tried() -> None:
    panel = AdaptingPanel(demo())
    _ = panel.widget
    view = panel._view
    assert view is not None
    told: list[str] = []
    view.title.observe(lambda event: told.append(event["new"]), "value")
    panel.set("legs.per_side", 1)
    assert any("working it out … 12 ways to build it tried" in text for text in told)
    assert "working" not in view.title.value and "tw-busy" not in view.box._dom_classes
    panel.set("measured", "junk")  # refused: nothing is left of it either
    assert "working" not in view.title.value and "tw-busy" not in view.box._dom_classes
