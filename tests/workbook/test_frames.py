"""Lists as DataFrames."""

from __future__ import annotations

from tests.design.builds import demo
from tutorial_lib.lists import list_of
from tutorial_lib.lists.table import made as table_made
from tutorial_lib.plan import Plan
from tutorial_lib.workbook.frames import WHOLE, frame, table_html


def test_a_frame_has_the_lists_headings_and_sorts_lengths_as_numbers():
    made = frame(list_of(Plan(demo()), "parts")).sort_values("length (in)")
    assert [str(x) for x in made["length (in)"]] == ["13 3/4", "38 1/4", "38 1/2", "73 1/2", "78 3/4"]
    assert "73 1/2" in made.to_html()


def test_a_short_cell_stays_on_one_line():
    short, long = "cleat to " + "r" * (WHOLE - 9), "cleat to " + "r" * (WHOLE - 8)
    told = table_html(table_made("t", "T", ("for", "count"), [(short, 14), (long, 3)]), contains="cleat to")
    assert short.replace(" ", "\u00a0") in told and long in told
