"""Boxes under the bed decide height and leg places; a split mattress asks for wood under its seam."""

from __future__ import annotations

from fractions import Fraction
from itertools import islice
from typing import Any

import pytest

from tests.design.builds import changed
from tutorial_lib.design.build_file import change, from_raw
from tutorial_lib.design.model import Build
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.storage import bays, box_places, filled_in_turn
from tutorial_lib.design.under_bed import _placed, moved_for_boxes, worth_trying
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import inch
from tutorial_lib.plan import plan

RUNNERS: dict[str, Any] = {
    "support__kind": "runners", "support__lumber": "2x4", "support__recess": None, "support__end_play": None,
    "legs__place": None, "legs__setback": None, "screws": None, "clearance__side": None,
}  # fmt: skip
BOXES: dict[str, Any] = {"storage": {"width": "21 in", "depth": "18 in", "height": "9 in", "count": 6}}


def rules(build: Build) -> dict[str, tuple[str, str]]:
    return {finding.rule: (finding.value, finding.limit) for finding in build.findings}


def test_boxes_give_the_height_where_none_is_given() -> None:
    build = design(changed(**RUNNERS, heights__underside=None, **BOXES))
    assert build.heights.storage == inch("9 1/2"), "the box and half an inch"
    assert "storage height" not in rules(build)


def test_no_height_and_no_boxes_is_refused() -> None:
    with pytest.raises(InputError, match="give exactly one of underside.*height of the boxes"):
        changed(heights__underside=None)


def test_a_given_height_is_kept_and_boxes_that_are_too_high_are_told() -> None:
    low = changed(**RUNNERS, heights__underside="9 7/16 in", **BOXES)
    assert rules(design(low))["storage height"] == ("9 7/16 in", "at least 9 1/2 in, the box and 1/2 in")
    remedy = next(f for f in design(low).findings if f.rule == "storage height").remedies[0]
    assert "storage height" not in rules(design(change(low, dict(remedy.changes))))
    assert "storage height" not in rules(design(changed(**RUNNERS, heights__underside="9 1/2 in", **BOXES)))


def test_the_inner_legs_make_room_for_the_boxes() -> None:
    """Three boxes of 21 in a side: two want 43 1/2 with half an inch between all, one 22; the middle leg moves."""
    build = design(changed(**RUNNERS, **BOXES))
    assert [end - start for start, end in bays(build, "left")] == [inch("24 3/4"), inch("43 1/2")]
    assert {leg.near_edge for leg in build.legs} == {Fraction(0), inch("28 1/4"), inch("75 1/4")}
    boxes = box_places(build)
    assert len(boxes) == 6
    for box in boxes:
        assert not any(box.overlaps(piece.box) for piece in build.pieces.values())
    assert "storage boxes" not in rules(build)


def test_legs_that_are_in_nobodys_way_stay_where_they_were() -> None:
    edges = [Fraction(0), Fraction(36), Fraction(72)]
    odd = changed(storage={"width": "20 in", "count": 6})
    assert moved_for_boxes(odd, edges, inch("3 1/2")) == [0, 27, 72], "two want 41 1/2 before the last leg"
    two = changed(storage={"width": "15 in", "count": 8})
    assert moved_for_boxes(two, edges, inch("3 1/2")) == edges
    assert moved_for_boxes(changed(storage={"width": "40 in", "count": 8}), edges, inch("3 1/2")) == edges


def test_boxes_that_find_no_room_are_told_with_what_helps() -> None:
    wide = changed(**RUNNERS, storage={"width": "23 in", "count": 6})
    assert rules(design(wide))["storage boxes"] == ("2 boxes", "3 boxes of 23 in")
    remedy = next(f for f in design(wide).findings if f.rule == "storage boxes").remedies[0]
    assert "storage boxes" not in rules(design(change(wide, dict(remedy.changes))))


@pytest.mark.parametrize(("sides", "free", "more"), [
    ("both", "21 1/8 in", "21 3/16 in"), ("left", "38 1/4 in", "38 5/16 in"), ("right", "38 1/4 in", "38 5/16 in"),
])  # fmt: skip
def test_boxes_end_before_what_stands_in_their_way(sides: str, free: str, more: str) -> None:
    """From both sides to the middle of 42 1/4 in; from one to the legs across, 3 1/2 in, less half an inch."""
    bed = {**RUNNERS, "clearance__side": "5/8 in"}
    storage = {"width": "20 in", "count": 2, "sides": sides}
    build = design(changed(**bed, storage=storage | {"depth": more}))
    assert build.outside[0] == inch("42 1/4")
    assert rules(build)["storage depth"] == (more, f"at most {free}")
    assert "storage depth" not in rules(design(changed(**bed, storage=storage | {"depth": free})))


def test_a_centre_lines_legs_stand_in_the_way() -> None:
    line = {"centre__lines": 1, "centre__kind": "flat", "centre__lumber": "2x6"}
    build = design(changed(**RUNNERS, **line, storage={"width": "20 in", "depth": "30 in", "count": 2}))
    middle, half = build.outside[0] / 2, inch("3 1/2") / 2
    assert rules(build)["storage depth"][1] == f"at most {facts_text(middle - half - Fraction(1, 2))}"


def facts_text(x: Fraction) -> str:
    from tutorial_lib.measures import writer

    return writer("in").length(x, 32)


def test_boxes_are_told_as_facts() -> None:
    facts = facts_of(plan(changed(**RUNNERS, heights__underside=None, **BOXES)), ["design"])
    assert facts["storage.box_count"].value == 6
    assert facts["storage.air"].value == inch("1/2")
    assert facts["storage.bay"].value == inch("24 3/4")
    assert "box" in facts["storage.air"].said_as
    assert not [key for key in facts_of(plan(changed()), ["design"]) if key.startswith("storage.")]


def test_the_options_are_written_back_as_they_were() -> None:
    bed = changed(**RUNNERS, heights__underside=None, **BOXES)
    assert from_raw(bed.raw()) == bed


KING: dict[str, Any] = {"mattress__size": "king", "mattress__width": None, "mattress__length": None,
                        "mattress__split": True, "clearance__side": None}  # fmt: skip


@pytest.mark.parametrize(("lines", "kind", "lumber", "told"), [
    (0, "beam", "2x6", ("0 in", "at least 3 in under the seam, or a line on each side of it")),
    (1, "beam", "2x6", ("1 1/2 in", "at least 3 in under the seam, or a line on each side of it")),
    (1, "flat", "2x4", None), (2, "beam", "2x6", None),
])  # fmt: skip
def test_wood_under_the_seam_of_two_halves(lines: int, kind: str, lumber: str, told: tuple[str, str] | None) -> None:
    build = design(changed(**KING, centre__lines=lines, centre__kind=kind, centre__lumber=lumber))
    assert rules(build).get("seam") == told
    assert "seam" not in rules(design(changed(**KING | {"mattress__split": False}, centre__lines=lines)))


def test_two_halves_may_each_be_over_their_size() -> None:
    """Half an inch each: an inch across, half an inch along."""
    build = design(changed(**KING, centre__lines=2, centre__lumber="2x6"))
    assert build.opening[0] - build.mattress[0] == 1
    tight = design(changed(**KING | {"clearance__side": "7/16 in"}, centre__lines=2, centre__lumber="2x6"))
    assert rules(tight)["clearance"] == ("7/8 in", "at least 1 in")


def test_very_many_boxes_are_shared_out_as_evenly_as_can_be_at_once() -> None:
    assert list(worth_trying(3, 2)) == [(0, 3), (1, 2), (2, 1), (3, 0)]
    few = list(islice(worth_trying(57, 11), 4000))
    assert len(few) == 55 and all(sum(share) == 57 and set(share) == {5, 6} for share in few)


@pytest.mark.parametrize(
    ("boxes", "rooms", "found"),
    [(8, [1, 9, 9], [1, 3, 4]), (7, [9, 9], [3, 4]), (0, [2, 2], [0, 0]), (4, [0, 4], [0, 4])],
)
def test_bays_are_filled_in_turn(boxes: int, rooms: list[int], found: list[int]) -> None:
    assert filled_in_turn(boxes, rooms) == found


def test_sixty_small_boxes_are_placed_soon() -> None:
    build = design(changed(**RUNNERS, legs__per_side=12, storage={"width": "2 in", "depth": "9 in", "count": 120}))
    assert len(box_places(build)) == 22, "one a bay, as far as they go"


@pytest.mark.parametrize(("second", "fits"), [("8", True), ("129/16", False)])
def test_bays_that_fill_the_side_to_the_last_sixteenth_fit(second: str, fits: bool) -> None:
    """Legs of 2 in at 0 and 20: bays of 8 and 8 leave the middle leg one place; a sixteenth more and it has none."""
    edges = [Fraction(0), Fraction(9), Fraction(20)]
    places = _placed(edges, [Fraction(8), Fraction(second)], Fraction(2))
    assert places == ([0, 10, 20] if fits else [])
