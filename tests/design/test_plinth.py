"""A set-back plinth: boards round legs that stand in from the edges; they carry nothing and touch no floor."""

from __future__ import annotations

from typing import Any

import pytest

from tests.design.builds import changed
from tests.soundness import failures_of
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.plinth import OFF_FLOOR
from tutorial_lib.errors import DesignError
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import inch
from tutorial_lib.plan import plan

FLOATING: dict[str, Any] = {
    "mattress__size": "queen", "mattress__width": None, "mattress__length": None, "support__kind": "runners",
    "support__lumber": "2x6", "support__recess": None, "support__end_play": None, "slats__lumber": "2x4",
    "centre__lines": 1, "centre__kind": "flat", "centre__lumber": "2x6", "centre__setback": "3 in", "screws": None,
    "legs__setback": "3 in", "legs__side_setback": "2 in", "heights__underside": "10 in", "plinth__lumber": "1x8",
}  # fmt: skip


@pytest.mark.parametrize("legs", [{}, {"legs__kind": "doubled", "legs__lumber": "2x4"}], ids=["posts", "doubled"])
def test_the_boards_stand_round_the_legs_and_carry_nothing(legs: dict[str, Any]) -> None:
    made, bare = plan(changed(**FLOATING | legs)), plan(changed(**FLOATING | legs | {"plinth__lumber": None}))
    build, thick = made.build, inch("3/4")
    sides, ends = build.part("plinth_side").pieces, build.part("plinth_end").pieces
    assert {piece.box.lo[2] for piece in (*sides, *ends)} == {OFF_FLOOR}
    assert sides[0].box.lo[1] == 2 - thick
    assert min(piece.box.lo[0] for piece in ends) == 3 - thick
    held = {(joint.near, joint.far) for joint in build.joints_of("plinth")}
    for leg in build.legs:
        if leg.line in ("left", "right"):
            assert any(near == f"plinth side {leg.line}" and far in leg.pieces for near, far in held)
    assert not list(failures_of(0, made))
    both = (facts_of(made), facts_of(bare))
    ratings = [{key: fact.value for key, fact in facts.items() if key.startswith("rating.")} for facts in both]
    assert ratings[0] == ratings[1]
    assert made.strength.leg_loads[0].load == pytest.approx(bare.strength.leg_loads[0].load)


def test_the_plinth_is_told_cut_and_screwed() -> None:
    made = plan(changed(**FLOATING))
    facts = facts_of(made)
    assert facts["plinth.side_setback"].value == inch("1 1/4")
    assert facts["plinth.end_setback"].value == inch("2 1/4")
    assert facts["plinth.below_deck"].value == 10 - inch("1/4") - inch("7 1/4")
    assert facts["plinth_side.count"].value == facts["plinth_end.count"].value == 2
    assert facts["plinth_side.length"].value == made.build.outside[1] - 2 * inch("2 1/4")
    assert facts["plinth.screw_total"].value == sum(len(job.spots) for job in made.drilling.of("plinth"))
    step = next(step for step in made.assembly.steps if step.key == "plinth")
    assert any("stand back 1 1/4 in from the bed's sides and 2 1/4 in from its ends" in text for text in step.do)
    assert made.assembly.steps.index(step) > [s.key for s in made.assembly.steps].index("runner")


@pytest.mark.parametrize(("changes", "told"), [
    ({"support__kind": "cleats", "support__lumber": "2x2", "legs__side_setback": None}, "set back under runners"),
    ({"legs__kind": "tube", "legs__place": None, "legs__side_setback": None}, "posts or doubled legs"),
    ({"legs__omit": ["L2"]}, "leave none of them out"),
    ({"storage__width": "20 in"}, "shuts in the boxes"),
    ({"legs__side_setback": "11/16 in"}, "3/4 in thick, and the legs stand in by 11/16 in"),
    ({"heights__underside": "7 7/16 in"}, "1/16 in too wide"),
])  # fmt: skip
def test_a_plinth_that_can_not_be_had_is_refused(changes: dict[str, Any], told: str) -> None:
    with pytest.raises(DesignError, match=f"plinth.lumber.*{told}"):
        design(changed(**FLOATING | changes))


def test_a_plinth_that_just_fits_is_built() -> None:
    build = design(changed(**FLOATING | {"legs__side_setback": "3/4 in", "heights__underside": "7 1/2 in"}))
    assert build.part("plinth_side").pieces[0].box.lo[1] == 0
    assert build.part("plinth_side").pieces[0].box.hi[2] == build.heights.underside


FRAME: dict[str, Any] = FLOATING | {
    "plinth__lumber": "2x8", "plinth__carries": True, "heights__underside": "7 1/4 in", "centre__setback": "4 in",
    "support__lumber": "2x8", "legs__setback": "4 in", "legs__side_setback": "3 3/4 in",
}  # fmt: skip


def test_an_inner_frame_stands_on_the_floor_and_reaches_the_deck_and_is_never_counted() -> None:
    made = plan(changed(**FRAME))
    bare = plan(changed(**FRAME | {"plinth__lumber": None, "plinth__carries": None}))
    build = made.build
    boards = [piece for piece in build.pieces.values() if piece.use in ("plinth_side", "plinth_end")]
    assert {(piece.box.lo[2], piece.box.hi[2]) for piece in boards} == {(0, build.heights.underside)}
    assert build.part("plinth_side").pieces[0].box.lo[1] == inch("2 1/4")
    assert build.part("plinth_side").several == "base sides"
    assert not list(failures_of(0, made))
    strong = (made.strength, bare.strength)
    assert len({(s.lying.pounds, s.sitting.pounds) for s in strong}) == 1
    assert strong[0].lying.pounds
    assert any("count on the legs alone" in finding.what for finding in made.findings)
    step = next(step for step in made.assembly.steps if step.key == "plinth")
    assert any("flush with the legs' feet" in text for text in step.do)
    assert "plinth.off_floor" not in facts_of(made)


@pytest.mark.parametrize(("changes", "where", "told"), [
    ({"heights__underside": "8 in"}, "plinth.carries", 'heights.underside = "7 1/4 in"'),
    ({"plinth__lumber": "1x8"}, "plinth.lumber", "3/4 in thick"),
    ({"legs__leveller": "1/2 in"}, "legs.leveller", "leave it out"),
    ({"plinth__lumber": None}, "plinth.carries", "of which boards"),
])  # fmt: skip
def test_an_inner_frame_that_can_not_be_had_is_refused(changes: dict[str, Any], where: str, told: str) -> None:
    with pytest.raises(DesignError, match=told) as caught:
        design(changed(**FRAME | changes))
    assert where in [fault.where for fault in caught.value.faults]
