"""The shopping and cutting pages as blocks."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Picture, Table
from tutorial_lib.publishing.topics import cutting
from tutorial_lib.publishing.typeset import compile_pdf, source


@pytest.fixture(scope="module")
def plan():
    return Plan(change(demo(), {"shop.carry": "100 in", "shop.store_cuts": 5}))


def test_the_shopping_list_adds_up(plan):
    table = cutting.shopping_table(plan)
    assert table.rows[-1] == ("All", "", "without the 10 lines that have no price", "", "$89.50")


def test_every_layout_is_drawn_once(plan):
    pictures = [b for b in cutting.boards(plan) if isinstance(b, Picture)]
    assert len(pictures) == len(plan.cutting.sawn.layouts)


def test_stop_block_settings_are_listed_longest_first_in_each_lumber(plan):
    table, _ = [b for b in cutting.at_the_saw(plan) if isinstance(b, Table)]
    assert table.rows[0] == ("2", "78 3/4 in", "side rail", "2x6")
    assert sum(int(row[0]) for row in table.rows) == sum(len(b.pieces) for b in plan.cutting.plan.boards)


def test_store_cuts_are_asked_for_together(plan):
    (items,) = [b for b in cutting.store(plan) if hasattr(b, "items")]
    assert items.items[0].startswith(("4 × 1x4 10 ft: one cut about", "5 × 1x4 10 ft: one cut about"))


def test_a_bed_without_lumber_that_fits_still_has_its_pages():
    none = Plan(change(demo(), {f"lumber.{s}.stock": [{"length": "1 ft"}] for s in ("2x6", "2x2", "1x4", "4x4")}))
    assert [p.title for p in cutting.pages(none)][:1] == ["Shopping list"]


def test_the_pages_typeset_as_a_tagged_pdf(plan):
    text = source(cutting.pages(plan), title="Bed", subtitle="Channel", version="1", paper="a4")
    assert compile_pdf(text).startswith(b"%PDF")
