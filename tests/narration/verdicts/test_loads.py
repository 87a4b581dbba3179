"""Loads said on camera against the rating."""

from __future__ import annotations

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.narration import check, read_captions
from tutorial_lib.narration.verdicts.answers import of

PLAN = facts(
    {
        "rating.lying": fact(150, "lb", "load_rating", "people lying: each may weigh"),
        "rating.sitting": fact(100, "lb", "load_rating", "people sitting on the edge: each may weigh"),
        "rating.people": fact(2, "count", "people_count", "people the ratings are for"),
        "slat.count": fact(14, "count", "part_count", "slats", "slat"),
    }
)


@pytest.mark.parametrize(
    ("said", "subject", "verdict"),
    [
        ("This bed holds 300 pounds lying down.", "rating.lying", "agrees"),  # two people of 150
        ("This bed holds 301 pounds lying down.", "rating.lying", "conflicts"),
        ("It takes 150 pounds each when you sleep in it.", "rating.lying", "agrees"),
        ("It takes 151 pounds each when you sleep in it.", "rating.lying", "conflicts"),
        ("The edge carries 200 pounds when you sit on it.", "rating.sitting", "agrees"),
        ("The edge carries 201 pounds when you sit on it.", "rating.sitting", "conflicts"),
        ("The bed holds 100 kilos.", None, "unsure"),  # 220 lb: lying yes, sitting no
        ("The bed holds 91 kilos.", None, "unsure"),  # 200.6 lb
        ("The bed holds 90 kilos.", "rating.sitting", "agrees"),  # 198 lb
        ("Two people of 151 pounds can sleep in it.", "rating.lying", "conflicts"),  # each
        ("Two people of 150 pounds can sleep in it.", "rating.lying", "agrees"),
        ("It holds two 101-pound people who sit on the edge.", "rating.sitting", "conflicts"),
        ("I'd put 250 pounds on it.", None, "unsure"),  # lying yes, sitting no
        ("The bed holds 500 pounds.", "rating.sitting", "conflicts"),  # over both
        ("We sat on it together and that's 380 pounds.", "rating.sitting", "conflicts"),  # two of 100 may
        ("We sat on it together and that's 200 pounds.", "rating.sitting", "agrees"),
        ("We both lay on it. That's 301 pounds.", "rating.lying", "conflicts"),
        ("We both lay on it. That's 300 pounds.", "rating.lying", "agrees"),
    ],
)
def test_what_the_bed_is_said_to_hold(said: str, subject: str | None, verdict: str) -> None:
    item = next(i for i in check(read_captions(said), PLAN).items if i.kind == "load_rating")
    assert (item.subject, item.verdict) == (subject, verdict)
    assert bool(item.choices) == (verdict == "unsure")


@pytest.mark.parametrize(
    "said",
    [
        "My neighbour's bed holds 800 pounds.",
        "My brother put 600 pounds of cement on his and it held.",
        "If you wanted to hold 900 pounds you would need more legs.",
        "The lumber weighs 92 pounds.",
        "We sat down and talked. The lumber was 380 pounds.",
    ],
)
def test_anecdotes_and_weights_are_no_loads(said: str) -> None:
    assert not [i for i in check(read_captions(said), PLAN).items if i.kind == "load_rating"]


def test_a_load_answered_is_held_against_what_was_asked() -> None:
    """ "A slip" about the load of two together is told against what two may weigh, not against one's."""
    talk = read_captions("I'd put 250 pounds on it.")
    (item,) = check(talk, PLAN).doubtful
    given = of(item, "slip", "rating.sitting")
    (told,) = check(talk, PLAN, answered=[given]).conflicts
    assert (told.plan_value, told.what) == ((200,), "load sitting on the edge, 2 people together")
    (right,) = check(talk, PLAN, answered=[of(item, "part", "rating.lying")]).with_verdict("agrees")
    assert right.plan_value == (300,)


@pytest.mark.parametrize(
    ("said", "subject"),
    [
        ("It carries two people at 150 pounds each, lying down, or on the edge less.", "rating.lying"),
        ("It carries two people at 100 pounds sitting on the edge, and more when you lie in it.", "rating.sitting"),
    ],
)
def test_the_use_said_right_after_a_load_is_the_one_meant(said: str, subject: str) -> None:
    item = next(i for i in check(read_captions(said), PLAN).items if i.kind == "load_rating")
    assert (item.subject, item.verdict) == (subject, "agrees")


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("It carries two people at 150 pounds each, lying down, and 101 sitting on the edge.", "conflicts"),
        ("It carries two people at 150 pounds each, lying down, and 100 sitting on the edge.", "agrees"),
        ("It holds 150 pounds each lying down. Sitting on the edge, 101 each.", "conflicts"),
        ("It holds 150 pounds each lying down. Sitting on the edge, 100 each.", "agrees"),
    ],
)
def test_a_load_that_goes_on_from_another_has_its_unit(said: str, expected: str) -> None:
    *_, last = (i for i in check(read_captions(said), PLAN).items if i.kind == "load_rating")
    assert (last.subject, last.unit, last.verdict) == ("rating.sitting", "lb", expected)


def test_a_bare_number_after_a_load_is_none_unless_a_use_is_said() -> None:
    said = check(read_captions("It holds 150 pounds each lying down. There are 14 slats each side."), PLAN).items
    assert [i.quote for i in said if i.kind == "load_rating"] == ["150 pounds"]


def test_what_people_weigh_is_not_taken_for_the_beds_weight() -> None:
    plan = facts({"weight.bed": fact(161, "lb", "weight", "whole bed without mattress", "bed")})
    for said in (
        "The bed would take two people at 165 pounds.",
        "The bed? It could take two people at 150 pounds each.",
    ):
        (people,) = (i for i in check(read_captions(said), plan).items if i.unit == "lb")
        assert people.verdict == "not_in_plan"
    (bed,) = check(read_captions("The whole bed weighs 150 pounds."), plan).items
    assert bed.verdict == "unsure"
