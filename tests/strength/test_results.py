"""What the ratings, findings, leg map and words come to, and what must hold for every bed."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest

from tests.design.builds import changed, demo
from tests.strength.beds import check, check_heavier, check_legs, check_mirrored, check_taken, random_bed
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan
from tutorial_lib.strength import results
from tutorial_lib.strength.result import _between
from tutorial_lib.strength.words import CAUTION, may_not_say, may_print, may_say

INCH = writer("in")
BEDS = Path(__file__).parents[1] / "data" / "worked"


@pytest.fixture(scope="module")
def strong():
    return Plan(demo()).strength


def _rules(plan, severity):
    return {finding.rule for finding in plan.strength.findings if finding.severity == severity}


def test_the_demo_is_rated_in_steps_of_ten_pounds(strong):
    for rating in (strong.lying, strong.sitting):
        assert rating.pounds % 10 == 0
        assert 100 <= rating.pounds <= 300
        assert rating.pounds <= rating.exact


def test_a_metric_plan_is_rated_in_steps_of_five_kilograms():
    rating = Plan(changed(build__units="mm")).strength.lying
    kilograms = writer("mm").convert("weight", rating.pounds)
    assert kilograms % 5 == 0
    assert writer("mm").weight(rating.pounds) == f"{kilograms} kg"


def test_every_use_opens_its_working_and_names_its_duration(strong):
    for use in strong.uses:
        assert use.workings
        assert all(step.source and step.formula and step.told(INCH) for step in use.workings)
        assert use.duration in (1.0, 1.15, 1.25, 1.6)


def test_careful_sets_every_duration_to_one():
    strong = Plan(changed(load__careful=True)).strength
    assert {use.duration for use in strong.uses} == {1.0}


def test_a_raised_bed_has_no_rating():
    strong = Plan(changed(heights__underside="60 in")).strength
    assert strong.lying.pounds == strong.sitting.pounds == 0
    assert "guard rails" in may_say(strong)


def test_a_side_on_one_leg_is_a_stop_and_has_no_rating():
    plan = Plan(changed(legs__omit=["L2", "L3"]))
    assert {"tipping", "no way to the floor", "balance"} & _rules(plan, "stop")
    assert (plan.strength.lying.pounds, plan.strength.sitting.pounds) == (0, 0)


def test_end_legs_must_stay(strong):
    words = {entry.leg.label: entry.word for entry in strong.legs}
    assert {label for label, word in words.items() if word == "must stay"} == {"L1", "L3", "R1", "R3"}
    assert "tips" in next(e for e in strong.legs if e.leg.label == "L1").words(INCH)


def test_the_leg_map_says_what_the_bed_without_that_leg_is_rated(strong):
    entry = next(e for e in strong.legs if e.leg.label == "L2")
    without = Plan(changed(legs__omit=["L2"])).strength
    assert (entry.lying.pounds, entry.sitting.pounds) == (without.lying.pounds, without.sitting.pounds)


def test_no_leg_left_out_raises_what_is_printed(strong):
    for gone in (["L2"], ["R2"], ["L2", "R2"]):
        less = Plan(changed(legs__omit=gone)).strength
        assert less.lying.pounds <= strong.lying.pounds
        assert less.sitting.pounds <= strong.sitting.pounds


def test_two_legs_a_side_are_never_rated_above_three():
    bed = read_build((BEDS / "bed3.toml").read_text(encoding="utf-8"))
    two, three = (Plan(change(bed, {"legs.per_side": count})).strength for count in (2, 3))
    assert two.sitting.exact > three.sitting.exact  # an elastic answer can be
    assert two.sitting.pounds == three.sitting.pounds
    assert two.lying.pounds <= three.lying.pounds


def test_a_centre_line_on_hangers_has_no_rating():
    plan = Plan(changed(centre__lines=1, centre__ends="hanger", centre__legs=0))
    assert "no published value" in _rules(plan, "caution")
    assert plan.strength.lying.pounds == 0


def test_sag_is_comfort_and_no_stop():
    plan = Plan(change(demo(), {"mattress.size": "king", "mattress.width": None, "mattress.length": None}))
    assert "comfort" in _rules(plan, "note")


def test_wet_wood_lowers_what_screws_hold():
    dry, wet = (Plan(changed(wood__moisture_bought=moisture)).strength for moisture in (15.0, 25.0))
    assert wet.sitting.exact < 0.75 * dry.sitting.exact


def test_the_words_name_wood_people_and_what_it_is_not_tested_for(strong):
    for text in (may_say(strong), may_print(strong)):
        assert "Spruce-Pine-Fir No.2" in text
        assert "two people" in text
        assert "lying" in text
        assert "sitting on one edge" in text
        assert "children" in text
        assert "jumping" in text
    assert "tested" in may_say(strong)
    assert may_not_say(strong).startswith("Not:")
    assert "licensed" in CAUTION


def test_legs_carry_all_that_lies_on_the_bed(strong):
    outcome = strong.outcome
    people = 2.0
    for response in outcome.responses:
        loads = list(outcome.lines.leg_loads(response))
        assert sum(load.whole.live for load in loads) == pytest.approx(people, rel=1e-6)
        dead = sum(load.whole.dead for load in loads)
        assert dead > outcome.weight  # the end rails hang on the corners as well


INTERNAL = ("ply a", "ply b", "centre_leg", "side_rail", " CD", "CD ", "mid_leg")


@pytest.mark.parametrize("seed", range(20))
def test_random_beds_hold_what_must_hold(seed):
    strong = check(seed)
    told = " ".join([*(str(f) for f in strong.findings), may_say(strong), may_print(strong)])
    assert not [word for word in INTERNAL if word in told]
    if seed % 5 == 0:
        check_legs(strong)


@pytest.mark.parametrize("seed", range(20, 24))
def test_a_heavier_person_never_lowers_a_use(seed):
    check_heavier(results(*random_bed(seed)))


@pytest.mark.parametrize("seed", range(24, 28))
def test_no_line_and_no_screw_taken_away_raises_what_is_printed(seed):
    check_taken(results(*random_bed(seed)), random.Random(seed))


def test_where_the_frame_alone_says_more_without_a_part_it_is_not_printed():
    assert check_taken(results(*random_bed(28)), random.Random(28)) > 0


def test_no_screw_left_out_raises_what_is_printed(strong):
    """By the frame alone, with nothing to hold it to."""
    build, fastenings = strong.build, strong.fastenings
    for number, held in enumerate(fastenings):
        if held.joint.kind == "cleat" and held.joint.near == "cleat left":
            for gone in (0, len(held.driven) // 2, len(held.driven) - 1):
                fewer = replace(held, driven=held.driven[:gone] + held.driven[gone + 1 :])
                less = results(build, (*fastenings[:number], fewer, *fastenings[number + 1 :]))
                assert less.lying.pounds <= strong.lying.pounds
                assert less.sitting.pounds <= strong.sitting.pounds


def test_a_wood_known_by_its_weight_alone_has_a_plan_without_strength():
    plan = Plan(changed(wood__species="white oak"))
    assert plan.strength.lying.pounds == 0
    assert [f.rule for f in plan.strength.findings] == ["no design values"]
    assert "no design values are known for" in may_say(plan.strength)


@pytest.mark.parametrize("seed", range(29, 33))
def test_a_mirrored_bed_is_rated_the_same(seed):
    check_mirrored(results(*random_bed(seed)))


def test_a_mirrored_bed_without_a_leg_is_rated_the_same():
    keys = {"legs.omit": ["L2"]}, {"legs.omit": ["R2"]}
    one, other = (Plan(change(demo(), key)).strength for key in keys)
    assert one.lying.exact == pytest.approx(other.lying.exact, rel=1e-6)
    assert one.sitting.exact == pytest.approx(other.sitting.exact, rel=1e-6)


def test_a_bed_without_a_figure_says_so_of_each_leg():
    strong = Plan(changed(heights__underside="60 in")).strength
    assert {entry.words(INCH).split(" stays: ")[1] for entry in strong.legs} == {
        "the bed has no load figure as it stands."
    }


def test_one_person_lies_alone():
    strong = Plan(changed(load__people=1)).strength
    assert not [use for use in strong.uses if "all" in use.case.name or "each in" in use.case.name]
    assert " each " not in may_say(strong) + " ".join(entry.words(INCH) for entry in strong.legs)


def test_what_is_printed_is_held_to_the_bed_it_was_taken_out_of(strong):
    better = Plan(changed(screws__cleat__spacing="4 in")).strength
    held = results(better.build, better.fastenings, whole=lambda: strong)
    assert better.sitting.pounds > strong.sitting.pounds == held.sitting.pounds
    assert held.sitting.capped == "the bed with all its legs"


def test_screws_farther_apart_never_rate_higher():
    spaced = [Plan(changed(screws__cleat__spacing=f"{inches} in")).strength for inches in (4, 6, 9, 13)]
    for kind in ("lying", "sitting"):
        printed = [getattr(known, kind).pounds for known in spaced]
        assert printed == sorted(printed, reverse=True)


@pytest.mark.parametrize(("gone", "counts"), [("ab", [0, 1, 1]), ("abcd", [0, *[1] * 4, *[2] * 6, *[3] * 4]),
                                              ("abcde", [0, *[1] * 5, *[4] * 5])])  # fmt: skip
def test_a_bed_less_several_legs_is_held_to_those_with_fewer_left_out(gone, counts):
    """Every set of fewer; of more than four only one leg left out, and all but one."""
    whole = SimpleNamespace(left_out=())
    whole.without = lambda *labels: SimpleNamespace(left_out=labels)
    assert [len(outcome.left_out) for outcome in _between(whole, gone)] == counts


def test_a_leg_left_out_on_either_side_is_felt_alike():
    queen = {"mattress.width": "60 in", "mattress.length": "80 in", "centre.lines": 1}
    worst: list[dict[str, float]] = [{}, {}]
    for label, found in zip(("L2", "R2"), worst, strict=True):
        for use in Plan(change(demo(), queen | {"legs.omit": [label]})).strength.uses:
            found[use.key] = max(found.get(use.key, 0.0), use.ratio)
    assert worst[0] == pytest.approx(worst[1], rel=1e-3) and len(worst[0]) > 5
