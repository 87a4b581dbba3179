"""Shares, limits and people."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.assembly.lifting import LOAD, Lift, recommended, turn


def test_a_long_frame_takes_two_however_light():
    assert turn(20, 78, 5.5).people == 2
    assert turn(20, 60, 5.5).people == 1


def test_the_floor_carries_half():
    assert turn(100, 60, 5.5).share == 50


@given(st.floats(1, 400), st.floats(10, 100), st.floats(0, 29))
def test_nobody_lifts_more_than_the_limit(weight, long, edge):
    done = turn(weight, long, edge)
    assert done.index <= 1
    assert done.people == 1 or done.people == 2 or done.share / (done.people - 1) > done.limit


@given(st.floats(0, 30), st.floats(0, 80), st.floats(0, 80), st.floats(0, 140))
def test_no_lift_is_better_than_the_best(h, v, d, a):
    assert 0 <= recommended(Lift(h, v, d, a)) <= LOAD


def test_beyond_reach_nothing_should_be_lifted():
    assert recommended(Lift(26, 30, 10)) == recommended(Lift(10, 71, 10)) == recommended(Lift(10, 30, 10, 136)) == 0


def test_the_best_lift_is_the_load_constant():
    assert recommended(Lift(10, 30, 10, 0, "good")) == pytest.approx(51)


def test_a_turn_by_hand():
    # limit: 51 x (10/15) x (1 - 0.0075 x 24.5) x (0.82 + 1.8/24.5) x 0.95
    done = turn(180, 72, 5.5)
    assert done.limit == pytest.approx(51 * 10 / 15 * (1 - 0.0075 * 24.5) * (0.82 + 1.8 / 24.5) * 0.95)
    assert (done.weight, done.share, done.people) == (180, 90, 4)
    assert done.index == pytest.approx(90 / 4 / done.limit)


def test_from_72_in_on_a_frame_is_long():
    assert (turn(20, 72, 5.5).people, turn(20, 72.01, 5.5).people) == (1, 2)


@pytest.mark.parametrize("edge", [30, 31, 40])
def test_an_edge_at_the_waist_has_no_way_to_go(edge):
    assert turn(50, 60, edge).limit == pytest.approx(51 * 10 / 15 * (1 - 0.0075 * (edge - 30)))
