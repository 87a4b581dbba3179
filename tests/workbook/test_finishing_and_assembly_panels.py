"""The panels of notebooks 04 and 05."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.publishing.blocks import Working
from tutorial_lib.workbook.assembly_panel import AssemblyPanel, MovementPanel, OrderPanel
from tutorial_lib.workbook.finishing_panel import FaceMapPanel, FinishingPanel


def test_more_coats_take_more_finish_and_time():
    panel = FinishingPanel(demo())
    days = panel.stated["finish.days"].value
    panel.set("finish.coats", 4)
    assert panel.stated["finish.coats"].value == 4
    assert panel.stated["finish.days"].value > days
    assert "finish.coats" in panel.changed


@pytest.mark.parametrize(
    ("key", "value"), [("finish.kind", "varnish"), ("finish.grits", (80, 120, 180)), ("finish.seal_hidden", True)]
)
def test_finishing_controls(key, value):
    panel = FinishingPanel(demo())
    panel.set(key, value)
    assert panel.errors == {}
    assert panel.widget is not None


def test_face_maps_are_drawn_for_parts_that_show():
    assert "side rail" in FaceMapPanel(demo()).html()


def test_one_pair_of_hands_is_told():
    panel = AssemblyPanel(demo())
    panel.set("room.helpers", 1)
    assert "takes two people" in panel.html()


def test_another_order_is_refused_with_its_reason():
    panel = OrderPanel()
    assert "before the" in panel.html()
    panel.set("order", panel.controls[0].choices[0][1])  # as the steps have it
    assert "This order can be worked." in panel.html()


def test_the_days_to_retighten():
    panel = MovementPanel(demo())
    panel.set("today", "2026-05-02")
    assert "1 June 2026" in panel.html()
    panel.set("today", "soon")
    assert "no date" in panel.errors["today"]


def test_the_diagonals_working_squares_whole_lengths() -> None:
    (working,) = (b for b in MovementPanel(demo()).blocks if isinstance(b, Working) and b.name == "Diagonal")
    assert working.values == "√((41 1/2 in)² + (78 3/4 in)²)"
