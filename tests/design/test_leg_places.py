"""Where the legs stand: under the rail, under the cleat or runner, or inside the corner."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.design.builds import changed
from tutorial_lib.design.legs import near_edges
from tutorial_lib.design.model import Build, Joint
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import DesignError
from tutorial_lib.measures import inch, writer

OPEN: dict[str, Any] = {"legs__place": None, "legs__setback": None, "screws": None, "support__recess": None}
UNDER: dict[str, Any] = OPEN | {"legs__place": "under the rail"}
RUNNERS: dict[str, Any] = OPEN | {"support__kind": "runners", "support__lumber": "2x6", "support__end_play": None}


def leg_joints(build: Build, leg: str) -> dict[tuple[str, str], Joint]:
    """Joints of one leg to what it carries: (part above, fastener)."""
    return {
        (build.pieces[joint.near].use, joint.fastener): joint
        for joint in build.joints_of("leg")
        if joint.far == f"leg {leg}"
    }


def test_level_cleats_and_rails_stand_on_the_leg() -> None:
    """2x6 rails, 2x4 slats, 2x2 cleats: 5 1/2 less 1 1/2 less 1 1/2 is a recess of 2 1/2, cleat and rail end level."""
    build = design(changed(**UNDER, slats__lumber="2x4", support__end_play=None))
    assert build.heights.recess == inch("2 1/2")
    leg = build.pieces["leg L1"].box
    assert leg.lo[:2] == (0, 0), "out to the bed's end, flush with the rail's face"
    assert leg.hi[2] == build.pieces["side rail left"].box.lo[2] == build.pieces["cleat left"].box.lo[2]
    joints = leg_joints(build, "L1")
    assert set(joints) == {("cleat", "screw"), ("side_rail", "bearing"), ("end_rail", "bearing")}
    assert all(joint.bears for joint in joints.values())
    assert set(leg_joints(build, "L2")) == {("cleat", "screw"), ("side_rail", "bearing")}


def test_a_cleat_above_the_leg_leaves_the_rail_a_bracket() -> None:
    build = design(changed(**UNDER | {"support__recess": "1 1/2 in"}))
    assert set(leg_joints(build, "L2")) == {("side_rail", "bracket")}
    assert build.pieces["cleat left"].box.lo[2] > build.pieces["leg L2"].box.hi[2]


def test_a_recess_that_puts_the_cleats_below_the_rails_is_refused() -> None:
    with pytest.raises(DesignError, match="3/4 in below the rails"):
        design(changed(**UNDER | {"support__recess": "4 in"}))


def test_with_cleats_legs_stand_inside_the_corner_by_themselves() -> None:
    build = design(changed(**OPEN))
    assert build.options.leg_place == "inside"
    assert set(leg_joints(build, "L1")) >= {("side_rail", "screw"), ("end_rail", "screw")}


def test_runners_stand_on_legs_under_the_rail_by_themselves() -> None:
    build = design(changed(**RUNNERS))
    assert build.options.leg_place == "under the rail"
    leg = build.pieces["leg L1"].box
    assert leg.lo[:2] == (0, 0) and leg.hi[2] == build.pieces["runner left"].box.lo[2]
    assert set(leg_joints(build, "L1")) == {("runner", "screw")}


def test_end_rails_over_a_corner_leg_only_rest_on_a_narrow_runner() -> None:
    """A 2x4 runner is covered by the corner leg: no driver gets at a screw up into the end rail; a 2x6 leaves room."""
    for lumber, fastener in (("2x4", "bearing"), ("2x6", "screw")):
        build = design(changed(**RUNNERS | {"support__lumber": lumber}))
        ends = [j for j in build.joints_of("runner") if build.pieces[j.far].use == "end_rail"]
        assert {joint.fastener for joint in ends} == {fastener}


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        (RUNNERS | {"legs__place": "inside"}, "legs.place"),
        (RUNNERS | {"legs__place": "under the rail", "legs__side_setback": "2 in"}, "legs.side_setback"),
        ({"legs__side_setback": "2 in"}, "legs.side_setback"),
        (RUNNERS | {"support__end_play": "1 in"}, "support.end_play"),
        (RUNNERS | {"centre__lines": 1, "centre__ends": "hanger"}, "centre.ends"),
        ({"legs__place": "under the rail", "legs__setback": None}, "screws.leg.kind"),
        ({"centre__lines": 1, "centre__ends": "block", "centre__lumber": "2x6"}, "centre.ends"),
        ({"slats__edge_gap": "1 in"}, "slats.edge_gap"),
        ({"legs__omit": ["L4"]}, "legs.omit"),
        ({"legs__omit": ["A1"]}, "legs.omit"),
    ],
)
def test_what_can_t_be_had_together_is_refused_by_name(changes: dict[str, Any], named: str) -> None:
    with pytest.raises(DesignError) as caught:
        design(changed(**changes))
    assert [fault.where for fault in caught.value.faults] == [named]


def test_a_stated_side_setback_stands_the_legs_beside_the_rail() -> None:
    build = design(changed(**RUNNERS, legs__side_setback="2 in"))
    assert build.options.leg_place == "under" and build.pieces["leg L1"].box.lo[1] == 2


def test_stated_setbacks_and_undersides_are_kept() -> None:
    keys = {"centre__lines": 1, "centre__setback": "1 1/2 in", "centre__kind": "beam", "centre__lumber": "2x6"}
    build = design(changed(mattress__width="60 in", **keys))
    assert build.pieces["leg A1"].box.lo[0] == inch("1 1/2")
    hung = design(changed(support__recess="4 in", screws__leg=None))
    assert hung.heights.underside == inch("11 1/2"), "the cleat, which hangs lowest, is where it was asked for"


def test_legs_inside_the_corner_hold_both_rails() -> None:
    build = design(changed(legs__place="inside", legs__setback=None, support__recess=None))
    fastened = {build.pieces[joint.near].use for joint in build.joints_of("leg") if joint.far == "leg L1"}
    assert fastened == {"side_rail", "end_rail"}
    for slat in build.part("slat").pieces:
        screwed = [j for j in build.joints_of("slat") if j.near == slat.label and j.fastener == "screw"]
        assert len(screwed) == 2, "one screwed seat an end"


def test_centre_legs_of_an_l_have_both_boards_under_the_line() -> None:
    build = design(changed(**RUNNERS | {"legs__kind": "corner L", "legs__lumber": "2x4", "centre__lines": 1}))
    for leg in (leg for leg in build.legs if leg.line == "line 1"):
        assert len([j for j in build.joints_of("line_leg") if j.far in leg.pieces]) == 2


def test_a_bolt_goes_through_both_boards_of_a_doubled_leg() -> None:
    build = design(changed(legs__kind="doubled", legs__lumber="2x4"))
    bolted = [j for j in build.joints_of("leg") if j.fastener == "bolt"]
    assert {j.beyond for j in bolted if j.far == "leg L1 ply a"} == {("leg L1 ply b",)}


@pytest.mark.parametrize(("rail", "held"), [("1 3/8 in", "screw"), ("1 5/16 in", "bracket")])
def test_a_strip_of_leg_too_narrow_for_seam_and_edge_takes_no_screws(rail: str, held: str) -> None:
    """A level cleat covers as much of a leg's inner board, from its seam on, as the rail is thick.

    1 3/8 in is 3/4 in off the seam and 5/8 in to the edge; a thinner rail leaves the leg to a bracket.
    """
    plank = {"thickness": rail, "width": "5 1/2 in", "stock": [{"length": "8 ft"}]}
    build = design(changed(frame__rail="plank", lumber__plank=plank, support__lumber="2x4", support__recess="1 1/4 in",
                           support__end_play=None, screws=None, legs__kind="doubled", legs__lumber="2x4",
                           legs__place="under the rail", legs__setback=None))  # fmt: skip
    assert {j.fastener for j in build.joints_of("leg") if j.far.startswith("leg L1")} == {held, "bearing"}


@pytest.mark.parametrize(("end", "edges"), [(12, [0, 4, 8]), ("191/16", None)])
def test_three_legs_of_four_inches_fit_in_twelve_and_not_in_less(end: int | str, edges: list[int] | None) -> None:
    def placed() -> list[Fraction]:
        return near_edges(3, Fraction(0), Fraction(end), Fraction(4), "legs.per_side", writer("in"))

    if edges is None:
        with pytest.raises(DesignError, match="3 legs of 4 in don't fit in the 11 15/16 in"):
            placed()
    else:
        assert placed() == edges
