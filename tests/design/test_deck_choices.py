"""Decks, heights and corners as people ask for them: refused with a reason, or worked out whole."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.design.builds import changed
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.sheet_decks import sag_of
from tutorial_lib.design.straps import straps_of
from tutorial_lib.errors import DesignError, InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import inch
from tutorial_lib.plan import Plan, plan

QUEEN: dict[str, Any] = {"mattress__size": "queen", "mattress__width": None, "mattress__length": None}
LINE: dict[str, Any] = {"centre__lines": 1, "centre__lumber": "2x6", "centre__kind": "flat"}


def rules(made: Plan) -> dict[str, str]:
    return {finding.rule: finding.what for finding in made.findings}


@pytest.mark.parametrize("name", ["plywood", "3/4 plywood", "OSB", "18 mm ply"])
def test_a_sheet_is_refused_for_want_of_air(name: str) -> None:
    with pytest.raises(DesignError, match=r'slats.lumber.*no air .*15 %.*lumber = "1x4", gap = "2 1/4 in"'):
        design(changed(slats__lumber=name))


def test_a_wide_sheet_sags_too_and_a_narrow_one_is_not_said_to() -> None:
    with pytest.raises(DesignError, match="sag 5/8 in over 60 1/2 in"):
        design(changed(slats__lumber="plywood", **QUEEN))
    with pytest.raises(DesignError) as caught:
        design(changed(slats__lumber="plywood", **QUEEN, centre__lines=1))
    assert "sag" not in str(caught.value)


def test_a_sheet_sags_as_a_simple_beam_under_a_load_on_part_of_it() -> None:
    """Loaded along its whole span it is 5 W L^3 / 384 EI; 200 lb over 60 in are 40 lb a foot."""
    assert sag_of(Fraction(20), Fraction(200)) == Fraction(3, 2) * 5 * 40 * 20**3 / (384 * 440_000)


@pytest.mark.parametrize("word", ["mitred", "mitered", "mitre", "Miter"])
def test_mitred_corners_are_refused_with_their_reason(word: str) -> None:
    with pytest.raises(InputError, match="frame.corners.*end grain.*end rails cap"):
        changed(frame__corners=word)


@pytest.mark.parametrize("kind", ["beam", "flat"])
def test_the_free_height_under_everything_can_be_given(kind: str) -> None:
    build = design(changed(heights__storage="11 in", centre__lines=1, centre__lumber="2x6", centre__kind=kind))
    assert build.heights.storage == 11
    assert min(piece.box.lo[2] for piece in build.pieces.values() if piece.axis != 2) == 11


def test_the_height_of_the_mattress_can_be_given() -> None:
    build = design(changed(heights__mattress_top="25 in", mattress__box_spring="5 in"))
    assert build.heights.sleeping == 25
    assert build.heights.slat_top == 25 - 8 - 5
    with pytest.raises(DesignError, match="mattress.thickness"):
        design(changed(heights__mattress_top="25 in", mattress__thickness=None))


def test_straps_set_the_gaps_and_carry_nothing() -> None:
    screwed, strapped = plan(changed()), plan(changed(slats__hold="straps"))
    straps = straps_of(strapped.build)
    assert straps is not None
    assert straps.count == 2
    assert straps.length == strapped.build.slats.opening + 2 * inch("2")
    assert straps.staples == 2 * 2 * 14
    assert [b - a for a, b in zip(straps.marks, straps.marks[1:], strict=False)] == [
        b - a for a, b in zip(screwed.build.slats.marks, screwed.build.slats.marks[1:], strict=False)
    ]
    held = {job.joint.near for job in strapped.drilling.of("slat")}
    assert held == {"slat 1", "slat 14"}
    ratings = [{key: fact.value for key, fact in facts_of(made).items() if key.startswith("rating.")}
               for made in (screwed, strapped)]  # fmt: skip
    assert ratings[0] == ratings[1]
    assert "loose slats" not in rules(strapped)
    assert {item.name for item in strapped.drilling.hardware} >= {"staple or tack"}


def test_loose_slats_take_no_screws_and_are_warned_of() -> None:
    made = plan(changed(slats__hold="loose"))
    assert not made.drilling.of("slat")
    assert "gaps wander" in rules(made)["loose slats"]


def test_slats_left_unscrewed_on_the_middle_line() -> None:
    made = plan(changed(slats__middle="unscrewed", **LINE))
    assert not [job for job in made.drilling.jobs if job.joint.kind == "slat_line"]
    assert len(made.drilling.of("slat")) == 28
    step = next(step for step in made.assembly.steps if step.key == "slat")
    assert any("no screw goes in there" in text for text in step.do)


def test_of_two_lengths_the_one_that_the_wood_takes() -> None:
    """2 in through 1 1/2 leaves 9/16 with its head 1/16 deep, less than 6 D of a #9."""
    made = plan(changed(screws__cleat__length="2 or 2 1/2 in", screws__slat__length="1 1/2 or 1 3/4 in"))
    facts = facts_of(made)
    assert facts["cleat.screw_length"].value == inch("2 1/2")
    assert "cleat.other_screw_length" not in facts
    assert facts["slat.screw_length"].value == inch("1 1/2")
    assert facts["slat.other_screw_length"].value == inch("1 3/4")
    told = [finding.what for finding in made.drilling.findings if finding.rule == "two lengths"]
    assert "2 1/2 in is used; 2 in reaches 0.562 in" in told[0]
    assert "1 3/4 in would do too" in told[1]


@pytest.mark.parametrize(("text", "lengths"), [
    ("3 or 3 1/2 in", ("3", "3 1/2")), ("3 in or 3 1/2 in", ("3", "3 1/2")), ('3" or 3 1/2"', ("3", "3 1/2")),
    ("2 1/2 in", ("2 1/2",)),
])  # fmt: skip
def test_two_lengths_said_in_one_breath(text: str, lengths: tuple[str, ...]) -> None:
    assert changed(screws__leg={"length": text}).screws.leg.lengths == tuple(map(inch, lengths))


def test_runner_ends_may_have_screws_of_their_own() -> None:
    bed = {"support__kind": "runners", "support__lumber": "2x6", "support__recess": None, "support__end_play": None,
           "legs__place": None, "legs__setback": None, "screws": None}  # fmt: skip
    made = plan(changed(**bed, screws__runner_end={"gauge": "#9", "length": "2 1/2 in", "count": 1}))
    ends, rows = made.drilling.of("runner_end"), made.drilling.of("runner")
    assert {made.build.pieces[job.joint.far].use for job in ends} == {"end_rail"}
    assert {made.build.pieces[job.joint.far].use for job in rows} == {"side_rail"}
    assert {job.fastener.gauge for job in ends} == {"#9"} != {job.fastener.gauge for job in rows}
    facts = facts_of(made)
    assert facts["runner_end.screw_length"].value == inch("2 1/2")
    assert facts["runner_end.screws_each"].value == 1


def test_halves_have_straps_of_their_own() -> None:
    made = plan(changed(slats__hold="straps", slats__halves=True, **LINE))
    straps = straps_of(made.build)
    assert straps is not None
    assert straps.count == 4, "two on each side of the line"
    assert straps.staples == 2 * 2 * 28
    assert max(straps.places) < made.build.part("slat").length


@pytest.mark.parametrize(("rail", "deep"), [("2x8", "7 1/4"), ("2x10", "9 1/4")])
def test_deeper_rails_are_kept(rail: str, deep: str) -> None:
    made = plan(changed(frame__rail=rail, mattress__thickness="14 in"))
    assert made.build.part("side_rail").section.width == inch(deep)
    assert not [finding for finding in made.findings if finding.severity == "stop"]
