"""A beam on any supports gives the closed forms, holds equilibrium, and refuses what would fall."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutorial_lib.strength.beams import Beam, PointLoad, SpreadLoad, Unstable, bend, rest

EI = 1e6
places = st.floats(0, 100)


def test_simple_beam_under_a_spread_load():
    bent = bend(Beam.uniform(0, 80, EI, (0, 80)), [SpreadLoad(0, 80, 2)])
    assert bent.greatest_moment[1] == pytest.approx(2 * 80**2 / 8)
    assert bent.greatest_sag[1] == pytest.approx(5 * 2 * 80**4 / (384 * EI))
    assert bent.greatest_shear == pytest.approx(80)


def test_simple_beam_under_a_point_load():
    bent = bend(Beam.uniform(0, 80, EI, (0, 80)), [PointLoad(40, 100)])
    assert bent.greatest_moment == (pytest.approx(40), pytest.approx(100 * 80 / 4))
    assert bent.greatest_sag == (pytest.approx(40, abs=0.01), pytest.approx(100 * 80**3 / (48 * EI)))


def test_two_equal_spans_under_a_spread_load():
    bent = bend(Beam.uniform(0, 52, EI, (0, 26, 52)), [SpreadLoad(0, 52, 1)])
    assert [r for _, r in bent.reactions] == pytest.approx([3 / 8 * 26, 10 / 8 * 26, 3 / 8 * 26])
    assert bent.moment_range == (pytest.approx(-(26**2) / 8), pytest.approx(9 * 26**2 / 128))
    assert bent.greatest_sag[1] == pytest.approx(26**4 / (184.6 * EI), rel=1e-3)


def test_point_load_on_an_overhang():
    bent = bend(Beam.uniform(0, 60, EI, (0, 50)), [PointLoad(60, 100)])
    assert [r for _, r in bent.reactions] == pytest.approx([-20, 120])
    assert bent.sag(60) == pytest.approx(100 * 10**2 * 60 / (3 * EI))


def test_spread_load_with_an_overhang():
    bent = bend(Beam.uniform(0, 60, EI, (0, 50)), [SpreadLoad(0, 60, 10)])
    assert bent.moment(50) == pytest.approx(-10 * 10**2 / 2)
    assert bent.sag(60) == pytest.approx(10 * 10 * (4 * 100 * 50 - 50**3 + 3 * 1000) / (24 * EI))


def test_a_stiffer_half_sags_less_than_a_weak_one():
    plain = bend(Beam.uniform(0, 80, EI, (0, 80)), [PointLoad(40, 100)])
    halves = bend(Beam(0, 80, ((40, EI), (80, 2 * EI)), (0, 80)), [PointLoad(40, 100)])
    # mid-span sag of the stepped beam: half of each flexibility, P L^3 / 48 x (1 + 1/2) / 2
    assert halves.sag(40) == pytest.approx(plain.sag(40) * 0.75)


def test_a_spring_gives_by_its_load():
    bent = bend(Beam(0, 80, ((80, EI),), (0,), ((80, 500.0),)), [PointLoad(40, 100)])
    assert bent.sag(80) == pytest.approx(50 / 500)


def test_a_support_that_would_pull_comes_off():
    bent = rest(Beam.uniform(0, 60, EI, (0, 20, 40)), [PointLoad(10, 100)])
    assert bent.lifted == (40,)
    assert [r for _, r in bent.reactions] == pytest.approx([50, 50])


@pytest.mark.parametrize("supports", [(), (30,)])
def test_fewer_than_two_supports_are_refused(supports):
    with pytest.raises(Unstable, match="needs two"):
        bend(Beam.uniform(0, 60, EI, supports), [PointLoad(10, 100)])


def test_a_load_beyond_the_last_support_tips_the_beam():
    with pytest.raises(Unstable, match="tips"):
        rest(Beam.uniform(0, 60, EI, (0, 20)), [PointLoad(50, 100)])


def test_a_support_beside_the_beam_is_refused():
    with pytest.raises(Unstable, match="beside the beam"):
        bend(Beam.uniform(0, 60, EI, (0, 70)), [])


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(places, st.floats(0, 500)), min_size=1, max_size=8),
    st.lists(st.integers(0, 10), min_size=2, max_size=6, unique=True),
)
def test_reactions_sum_to_the_load_and_balance_its_moment(points, feet):
    supports = [10.0 * f for f in feet]
    loads = [PointLoad(x, p) for x, p in points] + [SpreadLoad(13, 77, 1.5)]
    bent = bend(Beam.uniform(0, 100, EI, supports), loads)
    total = sum(load.load for load in loads)
    about = sum(x * p for x, p in points) + 1.5 * 64 * 45
    assert sum(r for _, r in bent.reactions) == pytest.approx(total, abs=1e-5)
    assert sum(x * r for x, r in bent.reactions) == pytest.approx(about, abs=1e-3)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(places, st.floats(1, 500)), min_size=1, max_size=6), st.integers(1, 3))
def test_the_work_of_the_load_never_falls_when_a_leg_goes(points, gone):
    feet = (0.0, 25.0, 50.0, 75.0, 100.0)
    loads = [PointLoad(x, p) for x, p in points]
    whole = rest(Beam.uniform(0, 100, EI, feet), loads).work
    less = rest(Beam.uniform(0, 100, EI, [f for f in feet if f != feet[gone]]), loads).work
    assert less >= whole - 1e-9
