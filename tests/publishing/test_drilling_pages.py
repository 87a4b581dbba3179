"""The drilling pages say every fastener, face and box, and nothing lies over anything."""

from __future__ import annotations

import pytest

from tests.publishing.test_templates import PLANS, plan
from tutorial_lib.drawing.layout import overlapping_words
from tutorial_lib.publishing.blocks import Table, pictures
from tutorial_lib.publishing.html import html
from tutorial_lib.publishing.pages import drilling
from tutorial_lib.publishing.typeset import compile_pdf, source


@pytest.mark.parametrize("name", PLANS)
def test_no_words_lie_on_words(name: str) -> None:
    for page in drilling.pages(plan(name)):
        for picture in pictures(page.blocks):
            assert overlapping_words(picture.scene) == [], picture.scene.alt


@pytest.mark.parametrize("name", PLANS)
def test_every_drilled_face_is_drawn(name: str) -> None:
    made = plan(name)
    holes = next(page for page in drilling.pages(made) if page.title == "Hole schedule")
    faces = sum(len(group.faces) for group in made.drilling.schedule)
    assert len(pictures(holes.blocks)) == faces


def test_the_table_of_fasteners_totals_what_is_driven() -> None:
    made = plan("demo")
    table: Table = drilling.fasteners(made)
    assert sum(int(row[3]) for row in table.rows) == sum(f.count for f in made.drilling.fastenings)


def test_the_neighbours_on_the_shelf_are_told() -> None:
    told = " ".join(drilling.why(plan("demo")).items)
    assert "2 1/4 in reaches 0.812 in" in told and "5 in is short of grip, washer and nut" in told


def test_metric_pages_speak_millimetres() -> None:
    text = html([drilling.fasteners(plan("metric"))])
    assert " mm" in text and "/64 in" not in text


def test_pages_make_a_pdf() -> None:
    made = plan("demo")
    assert compile_pdf(source(drilling.pages(made), title="t", subtitle="s", version="1")).startswith(b"%PDF")
