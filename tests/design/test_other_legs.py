"""Centre legs of another kind than the side legs, and blocks glued into the corners of L legs."""

from __future__ import annotations

from typing import Any

import pytest

from tests.design.builds import changed
from tests.soundness import failures_of
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import DesignError, InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import inch
from tutorial_lib.plan import plan

LINE: dict[str, Any] = {
    "mattress__size": "full", "mattress__width": None, "mattress__length": None, "centre__lines": 1,
    "centre__kind": "flat", "centre__lumber": "2x6", "screws": None, "legs__setback": None, "legs__place": None,
    "support__recess": None, "support__end_play": None,
}  # fmt: skip
RUNNERS: dict[str, Any] = LINE | {"support__kind": "runners", "support__lumber": "2x6"}


@pytest.mark.parametrize(("bed", "kind", "shapes", "sides"), [
    (LINE, "doubled", ["box", "box"], ["box"]), (RUNNERS, "tube", ["tube", "plate"], ["box"]),
    (RUNNERS | {"legs__kind": "tube"}, "post", ["box"], ["tube", "plate"]),
])  # fmt: skip
def test_centre_legs_of_their_own_kind(bed: dict[str, Any], kind: str, shapes: list[str], sides: list[str]) -> None:
    lumber = {"doubled": "2x4", "post": "4x4"}.get(kind)
    made = plan(changed(**bed, centre__leg_kind=kind, centre__leg_lumber=lumber))
    build = made.build
    kinds = {leg.line in ("left", "right"): [build.pieces[label].shape for label in leg.pieces] for leg in build.legs}
    assert kinds == {False: shapes, True: sides}
    assert not list(failures_of(0, made))
    facts = facts_of(made, ["design"])
    assert facts["leg.count"].value == 9
    assert facts["centre_leg.count"].value == 3
    if "plate" in shapes + sides:
        assert facts["flange.count"].value == (3 if "plate" in shapes else 6)


def test_alike_legs_keep_one_name_only_of_one_stock() -> None:
    level = RUNNERS | {"centre__lumber": "2x6"}
    assert {part.use for part in design(changed(**level)).parts if "leg" in part.use} == {"leg"}
    other = design(changed(**level, centre__leg_lumber="4x6"))
    assert {part.use for part in other.parts if "leg" in part.use} == {"corner_leg", "mid_leg", "centre_leg"}
    assert other.part("centre_leg").section.name == "4x6"


L_LEGS: dict[str, Any] = LINE | {"legs__kind": "corner L", "legs__lumber": "2x4", "legs__glue_blocks": "2x2"}


def test_glue_blocks_stand_in_the_corners_of_l_legs_and_carry_nothing() -> None:
    with_blocks, bare = plan(changed(**L_LEGS)), plan(changed(**L_LEGS | {"legs__glue_blocks": None}))
    build = with_blocks.build
    assert build.part("glue_block").count == 6
    for leg in build.legs:
        for label in leg.blocks:
            block, boards = build.pieces[label].box, [build.pieces[board].box for board in leg.pieces]
            assert sum(block.contact(board) is not None for board in boards) == 2
            assert block.lo[2] - boards[0].lo[2] == boards[0].hi[2] - block.hi[2] == inch("1/2")
    assert not list(failures_of(0, with_blocks))
    both = [{key: fact.value for key, fact in facts_of(made).items() if key.startswith("rating.")}
            for made in (with_blocks, bare)]  # fmt: skip
    assert both[0] == both[1]
    step = with_blocks.assembly.steps[0]
    assert any("Glue a block" in text and "no figure here counts on it" in text for text in step.do)


def test_glue_blocks_that_can_not_be_had_are_refused() -> None:
    with pytest.raises(DesignError, match='legs.glue_blocks.*legs.kind = "corner L"'):
        design(changed(**LINE, legs__glue_blocks="2x2"))
    with pytest.raises(DesignError, match="4x4.*3 1/2 in thick, and the corner of the L has 2 in"):
        design(changed(**L_LEGS | {"legs__glue_blocks": "4x4"}))
    with pytest.raises(InputError, match="corner L"):
        changed(**LINE, centre__leg_kind="corner L")
