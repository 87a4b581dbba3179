"""The steps as a person reads them."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.assembly.steps import counted, fastener_name, numbered, tool, weigh
from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.plan import Plan

RUNNERS = {
    "support__kind": "runners",
    "support__lumber": "2x6",
    "support__recess": None,
    "support__end_play": None,
    "screws": None,
    "legs__kind": "doubled",
    "legs__lumber": "2x4",
}


@cache
def steps():
    return Plan(demo()).assembly.steps


@cache
def runner_plan():
    return Plan(changed(**RUNNERS))


def step(key):
    return next(s for s in steps() if s.key == key)


def test_the_steps_of_the_demo():
    assert [s.key for s in steps()] == [
        "dry fit",
        "corner",
        "square",
        "cleat",
        "leg",
        "turn",
        "slat",
        "level",
        "retighten",
    ]
    assert [s.number for s in steps()] == list(range(1, 10))


def test_screws_of_the_demo_by_kind_and_count():
    told = {s.key: [(x.count, x.name) for x in s.screws] for s in steps() if s.screws}
    assert told == {
        "corner": [(12, "4 in structural screw")],
        "cleat": [(18, "#9 x 2 1/2 in wood screw")],
        "leg": [(12, "3/8 x 5 1/2 in carriage bolt")],
        "slat": [(28, "#8 x 1 1/2 in wood screw")],
    }


def test_slats_hide_the_cleat_screws():
    assert step("slat").hides == ("cleat left to side rail left", "cleat right to side rail right")
    assert step("leg").hides == ()


def test_the_frame_is_squared_before_anything_holds_it():
    order = [s.key for s in runner_plan().assembly.steps]
    assert order.index("corner") < order.index("square") < order.index("runner")


def test_a_turn_says_its_weight_and_people():
    turn = step("turn")
    assert turn.people == 2
    assert "two people" in turn.do[0]
    assert f"{turn.weight:.0f} lb" in turn.do[0]


def test_boards_of_a_leg_are_made_up_before_the_leg_enters():
    found = runner_plan().assembly.steps
    made, enters = (next(s for s in found if getattr(s, field)) for field in ("made", "new"))
    legs = next(s for s in found if s.key == "leg from above" or s.key == "leg")
    assert set(legs.new) == set(made.made)
    assert made.number < legs.number
    assert enters.key == "corner"


def test_legs_of_two_boards_count_as_legs():
    bed = runner_plan().build
    boards = [label for leg in bed.legs for label in leg.pieces]
    assert counted(bed, boards) == "6 legs"
    assert counted(bed, boards, boards=True) == "12 leg boards"


def test_nothing_is_nothing():
    assert counted(Plan(demo()).build, ()) == "nothing"


@pytest.mark.parametrize(("people", "words"), [(1, "one person"), (2, "two people"), (7, "7 people")])
def test_people_in_words(people, words):
    assert numbered(people) == words


def test_weights_in_the_plans_units():
    assert (weigh(100, "in"), weigh(100, "mm")) == ("100 lb", "45 kg")


def test_a_lag_screw_is_driven_with_a_wrench():
    lag = Fastener(
        kind="lag screw", gauge="", length=Fraction(3), diameter=0.25, root=0.173, head=0.4, thread=Fraction(2),
        yield_strength=70000.0,
    )  # fmt: skip
    assert fastener_name(lag, "in") == "1/4 x 3 in lag screw"
    assert tool(lag, 0.125) == "drill with a 1/8 in bit, socket wrench"


def test_every_step_says_where_to_look_and_what_can_go_wrong():
    for s in (*steps(), *runner_plan().assembly.steps):
        assert s.do and s.look and s.wrong, s.key
