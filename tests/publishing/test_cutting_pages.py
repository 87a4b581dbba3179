"""The shopping and cutting pages as blocks."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Picture
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
