"""The strength panel: people, wood and legs change what is shown; a bad choice keeps the last good drawing."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.workbook.strength_panel import RemedyPanel, StrengthPanel, WorkingPanel


@pytest.fixture
def panel():
    return StrengthPanel(demo())


def test_heavier_people_use_more(panel):
    before = panel.stated["strength.sitting"].value
    panel.set("person", 300)
    assert panel.stated["strength.sitting"].value > before
    assert panel.options.load.person == 300


def test_a_leg_is_taken_away_and_put_back(panel):
    panel.set("leg L2", True)
    assert panel.options.legs.omit == ("L2",)
    assert "leg.L2.load" not in panel.stated
    assert "left out: L2" in panel.html()
    panel.set("leg L2", True)
    assert panel.options.legs.omit == ()


def test_a_leg_that_must_stay_ends_in_a_stop_not_a_number(panel):
    panel.change({"leg L2": True})
    panel.change({"leg L1": True})
    assert "rating.lying" not in panel.stated
    assert "nothing to stand on" in panel.html() or "tips" in panel.html()


def test_a_grade_the_species_has_not_explains_itself_and_keeps_the_drawing(panel):
    before = panel.html()
    panel.set("wood.grade", "No.3/Stud")
    assert "grade of Spruce-Pine-Fir" in panel.errors["wood.grade"]
    assert panel.html() == before


def test_the_other_panels_show_workings_and_words():
    assert "NDS 2018" in WorkingPanel(demo()).html()
    assert "May be said" in RemedyPanel(demo()).html()


def test_as_many_figures_open_as_there_are():
    panel = WorkingPanel(demo())
    (opened,) = panel.controls
    seen = set()
    for number in range(1, int(opened.high) + 1):
        panel.set("number", number)
        seen.add(panel.html())
    assert len(seen) == opened.high


def test_a_remedy_has_a_button_that_does_it():
    panel = RemedyPanel(demo())
    first = panel.cures[0]
    panel.set("remedy 0", True)
    assert panel.options.raw() == change(demo(), dict(first.changes)).raw()
