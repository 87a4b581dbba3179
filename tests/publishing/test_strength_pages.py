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


def test_the_rating_carries_the_caution(plan):
    assert Caution(CAUTION) in pages.rating(plan.strength)


def test_every_load_case_says_what_it_stands_for_and_where_it_comes_from(plan):
    table = pages.load_cases(plan.strength)
    told = {row[0] for row in table.rows}
    assert {"lying, all in the middle", "the empty bed dragged", "each leg missing in turn"} <= told
    assert all(all(row) for row in table.rows)


def test_governing_figures_open_their_workings(plan):
    strong = plan.strength
    uses = [use for _, use in pages.governing_rows(strong)]
    steps = [block for block in pages.workings(strong, uses) if isinstance(block, Working)]
    assert any("CD" in step.formula and "Cfu" in step.formula for step in steps)
    assert all(step.source for step in steps)


def test_drawings_tell_loads_and_words(plan):
    shown = [picture.scene for picture in pictures(pages.legs(plan))] + [pages.chart(plan.strength)]
    told = " ".join(scene.alt for scene in shown)
    assert "L2" in told and "may go" in told and "must stay" in told
    assert any("slats, kneeling" in scene.alt for scene in shown)


def test_an_unstable_bed_shows_no_rating():
    first = pages.rating(Plan(changed(legs__omit=["L1", "L2"])).strength)
    assert "No load figure" in str(first[0])
    assert not any(isinstance(block, Table) for block in first)
