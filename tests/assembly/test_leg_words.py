"""Legs that are met at their tops and legs that stand beside what they hold are told apart."""

from __future__ import annotations

from typing import Any

from tests.design.builds import changed
from tutorial_lib.assembly.steps import Step
from tutorial_lib.design.model import Build
from tutorial_lib.plan import Plan

INSIDE: dict[str, Any] = {"legs__place": "inside", "legs__setback": None, "support__end_play": None, "screws": None}


def fitted(**changes: Any) -> tuple[Plan, Step]:
    """The plan, and the step that fits its legs."""
    made = Plan(changed(**changes))
    return made, next(step for step in made.assembly.steps if step.key == "leg" and step.new)


def test_legs_under_the_cleats_touch_them() -> None:
    _, step = fitted()
    assert step.look == ("Each leg tight against what it carries; no gap at its top.",)
    assert step.wrong == ("A leg that does not touch at its top hangs on its fasteners alone.",)


def test_legs_beside_the_rails_stand_level_with_the_cleats_and_carry_by_their_screws() -> None:
    made, step = fitted(**INSIDE)
    tops = {made.build.pieces[piece].box.hi[2] for leg in made.build.legs for piece in leg.pieces}
    assert tops == {made.build.heights.slat_bottom}
    assert step.look == ("The legs' tops level with the cleats' tops, 1 3/4 in below the rails' top edges.",)
    assert step.wrong == ("Nothing but screws holds the rails on these legs: leave none out.",)


def test_of_legs_that_a_short_cleat_reaches_and_legs_it_does_not_each_is_told_its_own() -> None:
    made, step = fitted(support__end_play="8 in", screws=None)
    corners = ", ".join(leg.label for leg in made.build.legs if leg.corner)
    others = ", ".join(leg.label for leg in made.build.legs if not leg.corner)
    assert step.look[0] == f"Legs {others}: tight against what is above, no gap at the top."
    assert step.look[1].startswith(f"Legs {corners}: tops level with the cleats' undersides, ")
    assert step.wrong[1].endswith(f" holds the rails on legs {corners}: leave none out.")


L_LEGS = {**INSIDE, "legs__kind": "corner L", "legs__lumber": "2x4", "legs__glue_blocks": None}
DOUBLED = {**INSIDE, "legs__kind": "doubled", "legs__lumber": "2x4"}


def made_up(**changes: Any) -> tuple[Build, str]:
    """The bed, and what its step for making up legs tells."""
    made = Plan(changed(**changes))
    return made.build, " ".join(next(step for step in made.assembly.steps if step.key == "ply").do)


def test_each_ply_lies_on_the_side_it_is_told_for() -> None:
    build, told = made_up(**DOUBLED)
    assert "ply a goes on the side that looks out of the bed, ply b on the inner side" in told
    for leg in build.legs:
        outer, inner = (build.pieces[f"leg {leg.label} ply {ply}"].box.centre[1] for ply in "ab")
        assert (outer < inner) is (leg.line == "left")


def test_the_second_board_of_a_corner_leg_lies_toward_the_end_it_is_told_for() -> None:
    build, told = made_up(**L_LEGS)
    assert "nearer the end of the bed; in a middle leg, nearer the head." in told
    for leg in build.legs:
        first, second = (build.pieces[f"leg {leg.label} ply {ply}"].box for ply in "ab")
        end = 0 if leg.x * 2 <= build.outside[1] else 1
        assert (first.lo[0] == second.lo[0]) if end == 0 else (first.hi[0] == second.hi[0])
        assert (first.centre[1] < second.centre[1]) is (leg.line == "left")


def test_boards_of_centre_legs_are_left_and_right() -> None:
    lined = {"mattress__width": "53 in", "centre__lines": 1, "centre__kind": "flat", "centre__lumber": "2x6"}
    build, told = made_up(**DOUBLED, **lined)
    assert "ply a goes on the bed's left, ply b on its right" in told
    centre = [leg for leg in build.legs if leg.line == "line 1"]
    assert centre
    for leg in centre:
        left, right = (build.pieces[f"leg {leg.label} ply {ply}"].box.centre[1] for ply in "ab")
        assert left < right


def test_legs_of_boards_are_counted_one_way() -> None:
    build, told = made_up(**DOUBLED)
    assert told.startswith("Take 12 leg boards, for 6 legs of two boards each, ply a and ply b: leg L1, leg L2")
    part = build.part("leg")
    assert (part.name, part.several, part.count) == ("leg board", "leg boards", 12)
