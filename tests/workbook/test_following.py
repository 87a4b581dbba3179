"""Panels of one notebook show one bed: what one changes the other shows, and what can't be used is told in both."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.workbook.assembly_panel import AssemblyPanel, MovementPanel
from tutorial_lib.workbook.cutting_panel import CuttingPanel, MarkingPanel
from tutorial_lib.workbook.design_panel import DesignPanel
from tutorial_lib.workbook.drilling_panel import DrillingPanel
from tutorial_lib.workbook.listing import Listing
from tutorial_lib.workbook.sections import Later

pytest.importorskip("ipywidgets")


@pytest.fixture(autouse=True)
def state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path))


def test_a_follower_shows_what_its_leader_shows() -> None:
    leader = AssemblyPanel(demo())
    follower = MovementPanel(follows=leader)
    assert follower.widget is not None and follower.plan is leader.plan
    leader.set("room.helpers", 1)
    assert follower.plan is leader.plan and follower.options.room.helpers == 1


def test_what_a_follower_changes_is_its_leaders_to_save() -> None:
    leader = AssemblyPanel(demo())
    follower = MovementPanel(follows=leader)
    follower.set("wood.moisture_room", 12.0)
    assert leader.options.wood.moisture_room == 12.0
    assert leader.plan is follower.plan
    assert "changed and not saved" in leader.widget.children[1].children[0].value


def test_a_followers_fault_stays_its_own() -> None:
    leader = CuttingPanel(demo())
    follower = MarkingPanel(follows=leader)
    follower.set("mattress.gap_limit", "wide")
    assert follower.errors and not leader.errors
    assert leader.options == follower.options == demo()


def test_a_screw_that_cannot_be_had_is_told_and_can_be_put_right() -> None:
    panel = DrillingPanel(change(demo(), {"screws.cleat.gauge": "#11"}))
    listing = Listing("fasteners", panel)
    assert "no wood screw of size 11" in " ".join(panel.errors.values())
    assert "no wood screw of size 11" in listing._repr_mimebundle_()["text/plain"]
    panel.set("screws.cleat.gauge", "#9")
    assert not panel.errors and "cleat\u00a0to\u00a0rail" in listing.html()


def test_another_kind_of_fastener_starts_whole() -> None:
    panel = DrillingPanel(demo())
    assert panel.widget is not None
    panel.control("screws.cleat.kind").value = "structural screw"
    assert not panel.errors and panel.options.screws.cleat.yield_strength
    panel.control("screws.cleat.kind").value = "wood screw"
    assert not panel.errors and panel.options.screws.cleat.root is None


def test_prices_and_own_boards_go_into_the_build() -> None:
    from tutorial_lib.workbook.board_list import AtHand

    panel = CuttingPanel(demo())
    assert panel.widget is not None
    panel.control("price 2x6 12 ft").value = "11"
    assert [(s.length, s.price) for s in panel.options.lumber["2x6"].stock][-1] == (144, 11)
    panel.control("price 2x6 12 ft").value = ""
    assert [s.length for s in panel.options.lumber["2x6"].stock] == [96]
    before = panel.plan.cutting.cost
    panel.set("have", (AtHand(5, "1x4", "10 ft"),))
    assert not panel.errors and panel.plan.cutting.cost < before
    panel.set("can 1 quart", "22")
    assert [can.price for can in panel.options.finish.cans if can.price] == [22]


def test_a_drawing_out_of_sight_waits() -> None:
    panel = DesignPanel(demo())
    assert panel.widget is not None
    made = [block for block in panel.blocks if isinstance(block, Later) and "blocks" in vars(block)]
    assert [block.title for block in made] == ["Slat plan"]


def test_a_heading_goes_where_nothing_stands_under_it() -> None:
    panel = DesignPanel(demo())
    assert panel.widget is not None and panel._view is not None
    shown = {heading.value: heading.layout.display for heading, _ in panel._view.rows.headings}
    assert shown["Corner posts"] == "none" and shown["Slats"] != "none"
