"""Legs that are met at their tops and legs that stand beside what they hold are told apart."""

from __future__ import annotations

from typing import Any

from tests.design.builds import changed
from tutorial_lib.assembly.steps import Step
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
