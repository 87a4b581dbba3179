"""The shopping and cutting pages as blocks."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Picture, Table
from tutorial_lib.publishing.topics import cutting


@pytest.fixture(scope="module")
def plan():
    return Plan(change(demo(), {"shop.carry": "100 in", "shop.store_cuts": 5}))


def test_every_layout_is_drawn_once(plan):
    pictures = [b for b in cutting.boards(plan) if isinstance(b, Picture)]
    assert len(pictures) == len(plan.cutting.sawn.layouts)


def test_store_cuts_are_asked_for_together(plan):
    (items,) = [b for b in cutting.store(plan) if hasattr(b, "items")]
    assert items.items[0].startswith(("4 × 1x4 10 ft: one cut about", "5 × 1x4 10 ft: one cut about"))


def test_boards_without_a_price_cost_no_nothing() -> None:
    lumber = demo().raw()["lumber"]
    stock = {f"lumber.{name}.stock": [{k: v for k, v in row.items() if k != "price"} for row in found["stock"]]
             for name, found in lumber.items() if found.get("stock")}  # fmt: skip
    (ways,) = (b for b in cutting.alternatives(Plan(change(demo(), stock))) if isinstance(b, Table))
    assert ways.rows[0][0] == "cheapest" and ways.rows[0][2] == ""
    assert ways.rows[0][-1] == "without 1x4, 2x2, 2x6, 4x4: no price given"
