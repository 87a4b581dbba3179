"""The drilling pages say every fastener, face and box, and nothing lies over anything."""

from __future__ import annotations

import pytest

from tests.publishing.test_templates import PLANS, plan
from tutorial_lib.drawing import templates as draw
from tutorial_lib.measures import writer
from tutorial_lib.publishing.blocks import Table
from tutorial_lib.publishing.html import html
from tutorial_lib.publishing.topics import drilling


@pytest.mark.parametrize("name", PLANS)
def test_every_hole_stands_in_the_table_of_its_face_once(name: str) -> None:
    made = plan(name)
    w = writer(made.options.build.units)
    for group in made.drilling.schedule:
        for face in group.faces:
            rows = [row for table in drilling.hole_tables(made, group, face) for row in table.rows]
            wanted = [
                (w.mark(h.u), w.mark(h.v), h.bit, "through" if h.depth is None else w.mark(h.depth))
                for h in group.on(face)
            ]
            assert [row[:4] for row in rows] == wanted
            assert all(set(row[4:]) == {drilling.TICK} for row in rows)


def test_the_demos_table_agrees_with_a_tape_and_a_pencil() -> None:
    """Left side rail by hand: cleat 2 5/8 from the rail's end, its screws 3/4 in and 9 apart, half a cleat under slats
    that lie 1 in under the top; corner screws into the middle of an end rail; leg bolts 1 in inside a 3 1/2 in leg that
    stands 4 1/2 in."""
    made = plan("demo")
    left = next(g for g in made.drilling.schedule if g.pieces == ("side rail left",))
    inside = [row for table in drilling.hole_tables(made, left, "inside face") for row in table.rows]
    assert [row[0] for row in inside] == [
        "3 3/8", "12 3/8", "21 3/8", "30 3/8", "39 3/8", "48 3/8", "57 3/8", "66 3/8", "75 3/8",
    ]  # fmt: skip
    assert {row[1:4] for row in inside} == {("2 1/2", "1/8 in", "1 1/16")}
    outside = [row for table in drilling.hole_tables(made, left, "outside face") for row in table.rows]
    assert [row[0] for row in outside[:3]] == ["3/4"] * 3 and [row[0] for row in outside[-3:]] == ["78"] * 3
    assert [row[1] for row in outside[:3]] == ["1 1/4", "2 3/4", "4 1/4"]
    assert [row[0] for row in outside[3:5]] == ["5 1/2", "7"]


def test_left_and_right_rail_have_a_table_each() -> None:
    groups = [g.pieces for g in plan("demo").drilling.schedule if g.part == "side_rail"]
    assert groups == [("side rail left",), ("side rail right",)]


@pytest.mark.parametrize("name", PLANS)
def test_a_hole_has_one_bit_on_every_output(name: str) -> None:
    made = plan(name)
    for end in draw.ends(made):
        printed = [text for text in draw.template(made.build, end).texts() if text.endswith((" in", " mm"))]
        assert sorted(printed) == sorted(hole.bit for hole in end.holes)


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
