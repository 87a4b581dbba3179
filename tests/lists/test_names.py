"""Every joint of a list has a name of its own, by what it joins."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import facts_of
from tutorial_lib.lists import list_of
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan

GALLERY = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
BOXES = "uk-king-over-boxes"


def bed(name: str) -> Plan:
    """A bed of the gallery."""
    path = GALLERY / f"{name}.toml"
    return Plan(read_build(path.read_text(encoding="utf-8"), path.name))


@pytest.mark.parametrize("name", [BOXES, "full-oak-strapped", "queen-runners-set-in"])
def test_no_two_rows_of_fasteners_are_called_alike(name: str) -> None:
    called = [row[0] for row in list_of(bed(name), "fasteners").rows]
    assert len(set(called)) == len(called)


def test_slats_on_legs_cleats_and_the_centre_line_are_counted_apart() -> None:
    made = bed(BOXES)
    counts = {row[0]: row[5] for row in list_of(made, "fasteners").rows if str(row[0]).startswith("slat")}
    assert counts == {"slat to leg": 6, "slat to cleat": 22, "slat to centre line": 28}
    notes = [str(row[-1]) for row in list_of(made, "shopping").rows]
    assert "56 needed, 62 with spares: slat to leg, slat to centre line, slat to cleat" in notes


def test_the_sanding_discs_are_told_by_size_and_greatest_number() -> None:
    (fine, _) = (row for row in list_of(bed(BOXES), "shopping").rows if "sanding disc" in str(row[1]))
    assert (fine[2], fine[-1]) == (4, "125 mm; 4 at most")


def test_places_and_loads_of_legs_say_from_where_and_of_what() -> None:
    heads = list_of(bed(BOXES), "loads").heads
    assert "centre from the head rail's outer face (mm)" in heads and "most it carries at rest (kg)" in heads


def test_parts_of_several_lengths_all_tell_theirs_and_boards_of_legs_are_called_so() -> None:
    names = {row[0]: row[1] for row in list_of(bed(BOXES), "parts").rows}
    assert {name: count for name, count in names.items() if "cleat" in str(name)} == {
        "cleat (599 mm)": 2, "cleat (1138 mm)": 2,
    }  # fmt: skip
    assert names["centre leg board"] == 6 and names["middle leg"] == 2
    told = [str(row[2]) for row in list_of(bed(BOXES), "steps").rows]
    assert told[0].startswith("Take 6 centre leg boards, for 3 centre legs of two boards each, ply a and ply b: leg A1")
    assert told[1].startswith("Take 1 centre runner and 3 centre legs: ")


def test_every_hole_tells_from_which_end_and_which_edge_it_is_measured() -> None:
    """A centre runner in the middle of the bed has no outside edge: it is measured from its left one."""
    table = list_of(bed("queen-corner-posts"), "holes")
    assert table.heads[3:7] == ("along (in)", "from the", "across (in)", "from its")
    rows = [row for row in table.rows if row[1] == "centre runner"]
    assert {(row[4], row[6]) for row in rows} == {("head end", "left edge")}
    ends = [row for row in table.rows if row[1] == "centre leg" and row[2] == "top end"]
    assert ends and {(row[4], row[6]) for row in ends} == {("head side", "left edge")}


def test_no_hole_in_a_centre_runner_is_for_a_slat_s_end() -> None:
    rows = [row for row in list_of(bed("queen-corner-posts"), "holes").rows if row[1] == "centre runner"]
    assert {row[7] for row in rows} == {"slat", "centre line"}


def test_marks_of_slats_and_legs_say_where_the_tape_is_hooked() -> None:
    posts = bed("queen-corner-posts")
    rows = {row[0]: row[1:3] for row in list_of(posts, "marks").rows}
    slats, facts = posts.build.slats, facts_of(posts)
    assert tuple(rows[f"slat {n}"][1] for n in range(1, slats.count + 1)) == ("the head rail's inner face",) * 14
    assert [str(rows[f"slat {n}"][0]) for n in (1, 14)] == [writer("in").mark(facts["slat.marks"].value[i])
                                                           for i in (0, -1)]  # fmt: skip
    assert rows["leg L2"][1] == "the side rail's head end" and rows["leg A1"][1] == "the head rail's outer face"
    left = next(leg for leg in posts.build.legs if leg.label == "L2")
    assert rows["leg L2"][0] == left.near_edge - posts.build.part("side_rail").pieces[0].box.lo[0]
    assert "leg L1" not in rows  # a post stands in its corner, at no mark
    plain = {row[2] for row in list_of(bed("king-two-lines"), "marks").rows}
    assert plain == {"the head rail's inner face", "the bed's head end"}
