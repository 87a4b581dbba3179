"""Every page that shows a load figure carries the caution; the drawings say by word what they show."""

from __future__ import annotations

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Caution, Table, Working, pictures
from tutorial_lib.publishing.topics import strength as pages
from tutorial_lib.strength.words import CAUTION


@pytest.fixture(scope="module")
def plan():
    return Plan(demo())


def test_every_page_carries_the_caution(plan):
    found = pages.pages(plan)
    assert len(found) == 3
    assert all(Caution(CAUTION) in page.blocks for page in found)


def test_every_load_case_says_what_it_stands_for_and_where_it_comes_from(plan):
    table = pages.load_cases(plan.strength)
    told = {row[0] for row in table.rows}
    assert {"lying, all in the middle", "the empty bed dragged", "each leg missing in turn"} <= told
    assert all(all(row) for row in table.rows)


def test_governing_figures_open_their_workings(plan):
    steps = [block for block in pages.pages(plan)[2].blocks if isinstance(block, Working)]
    assert any("CD" in step.formula and "Cfu" in step.formula for step in steps)
    assert all(step.source for step in steps)


def test_drawings_tell_loads_and_words(plan):
    shown = [picture.scene for page in pages.pages(plan) for picture in pictures(page.blocks)]
    told = " ".join(scene.alt for scene in shown)
    assert "L2" in told and "may go" in told and "must stay" in told
    assert any("slats, kneeling" in scene.alt for scene in shown)


def test_an_unstable_bed_shows_no_rating():
    first = pages.pages(Plan(changed(legs__omit=["L1", "L2"])))[0]
    assert "No load figure" in str(first.blocks[0])
    assert not any(isinstance(block, Table) for block in first.blocks)
