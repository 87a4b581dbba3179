"""Whole assemblies: weights, alternatives, doors, findings."""

from __future__ import annotations

from functools import cache

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.plan import Plan


@cache
def made(**keys):
    return Plan(changed(**keys) if keys else demo()).assembly


def rules(**keys):
    return {f.rule: f for f in made(**keys).findings}


def test_the_demo_has_nothing_to_mind():
    assert made().findings == ()


def test_weight_by_hand():
    # rails 2 x 78 3/4 and 2 x 38 1/2 of 1 1/2 x 5 1/2, cleats, 14 slats, 6 legs; SPF at 15 %
    cubic = (2 * 78.75 + 2 * 38.5) * 1.5 * 5.5 + 2 * 73.5 * 2.25 + 14 * 38.25 * 3.5 * 0.75 + 6 * 13.75 * 12.25
    density = 62.4 * 0.42 / (1 + 0.009 * 0.42 * 15) * 1.15
    assert made().weight == pytest.approx(cubic / 1728 * density)
    assert made().frame_weight == pytest.approx((cubic - 14 * 38.25 * 3.5 * 0.75) / 1728 * density)


def test_the_turn_weighs_the_frame_without_slats():
    assert made().lift.weight == pytest.approx(made().frame_weight)


def test_trestles_save_the_turn():
    (other,) = made().alternatives
    assert (made().turns, other.turns) == (1, 0)
    assert "11 1/2 in" in other.what


def test_one_person_alone_is_told_to_get_help():
    assert rules(room__helpers=1)["lifting"].severity == "caution"
    assert "lifting" not in rules()


def test_a_wide_door_and_a_narrow_one():
    assert rules(room__door_width="30 in", room__door_height="80 in")["door"].severity == "note"
    assert rules(room__door_width="16 in", room__door_height="40 in")["door"].severity == "caution"
    assert "door" not in rules()


@pytest.mark.parametrize(
    ("stairs", "severity"),
    [
        ({"room__stair_width": "36 in", "room__landing": "48 in"}, "note"),
        ({"room__stair_width": "30 in"}, "caution"),
        ({"room__stair_width": "48 in", "room__stair_headroom": "40 in"}, "caution"),
    ],
)
def test_stairs(stairs, severity):
    assert rules(**stairs)["stairs"].severity == severity
    assert "stairs" not in rules()


def test_diagonals_of_the_demo():
    assert made().squaring.outside_diagonal == pytest.approx(89.0158, abs=1e-4)
    assert made().squaring.inside_diagonal == pytest.approx(84.9724, abs=1e-4)
