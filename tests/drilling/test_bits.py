"""Bits: pilots to the nearest, clearance upward, the rule always named."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.drilling.bits import (
    at_least,
    bolt_hole,
    clearance,
    countersink,
    covered,
    lag_pilot,
    named,
    nearest,
    pilot,
    pilot_share,
)
from tutorial_lib.measures import Units, inch, mm
from tutorial_lib.tables import drill_bits


def test_pilots_go_to_the_nearest_sixty_fourth() -> None:
    assert nearest(0.0994) == Fraction(3, 32) and nearest(0.1242) == Fraction(1, 8)


def test_clearance_never_goes_down() -> None:
    assert at_least(0.1251) == Fraction(9, 64) and at_least(0.125) == Fraction(1, 8)
    assert clearance(0.177).size == Fraction(13, 64)


def test_the_two_rules_differ_and_are_named() -> None:
    across, pull = pilot(0.142, 0.42, "lateral"), pilot(0.142, 0.42, "withdrawal")
    assert across.size == Fraction(1, 8) and pull.size == Fraction(3, 32)
    assert "12.1.5.3" in across.rule and "Wood Handbook" in pull.rule and "asks for none" in pull.rule


def test_dense_wood_takes_fuller_holes() -> None:
    assert pilot(0.142, 0.67, "lateral").wanted == pytest.approx(0.142)
    assert pilot(0.142, 0.67, "withdrawal").wanted == pytest.approx(0.9 * 0.142)
    assert lag_pilot(0.375, 0.67).wanted > lag_pilot(0.375, 0.55).wanted > lag_pilot(0.375, 0.42).wanted


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("gravity", [0.42, 0.67])
def test_a_pilot_is_never_wider_than_the_root(units: Units, gravity: float) -> None:
    for root in (0.086, 0.122, 0.131, 0.142, 0.152, 0.171, 0.192):
        taken = pilot(root, gravity, "lateral", units)
        assert float(taken.size) <= root + 1e-9
        assert taken.size in [bit.diameter for bit in drill_bits(units)]


def test_metric_bits_are_those_sold() -> None:
    assert pilot(0.142, 0.42, "lateral", "mm").size == mm(3)
    assert clearance(0.177, "mm").size == mm(5)
    assert bolt_hole(0.375).size == Fraction(13, 32)
    assert bolt_hole(float(mm(10)), "mm").size == mm(11), "10.8 wanted, no 10.5 is wide enough"
    assert countersink(0.337).size == Fraction(3, 8)
    assert countersink(float(mm(8)), "mm").size == mm(9)


@pytest.mark.parametrize(
    ("gravity", "sideways", "pulled", "lag"),
    [(0.50, 0.875, 0.7, 0.55), (0.51, 0.875, 0.7, 0.675), (0.60, 0.875, 0.7, 0.675), (0.61, 1.0, 0.9, 0.75)],
)  # fmt: skip
def test_pilots_by_the_wood_s_gravity(gravity: float, sideways: float, pulled: float, lag: float) -> None:
    # NDS 2018 12.1.5.3 and 12.1.4.2: the harder wood begins above 0.6, lag screws have a step above 0.5 too
    assert pilot_share(gravity, "lateral")[0] == sideways
    assert pilot_share(gravity, "withdrawal")[0] == pulled
    assert lag_pilot(0.25, gravity).wanted == pytest.approx(0.25 * lag)


def test_a_deep_hole_asks_for_a_long_bit() -> None:
    assert named(Fraction(1, 8), inch("1 5/8")) == "1/8 in"
    assert named(Fraction(1, 8), inch("1 11/16")) == "long 1/8 in"
    assert named(Fraction(1, 8), inch("3")) == "extra long 1/8 in"
    reach = next(bit.reach for bit in drill_bits("in", "long twist") if bit.diameter == Fraction(1, 8))
    assert named(Fraction(1, 8), reach) == "long 1/8 in"
    assert named(Fraction(1, 8), reach + Fraction(1, 64)) == "extra long 1/8 in"
    assert named(mm(5), mm(60), "mm") == "long 5 mm"


@pytest.mark.parametrize(("gravity", "inside"), [(0.30, False), (0.31, True), (0.73, True), (0.74, False)])
def test_the_standard_covers_these_woods(gravity: float, inside: bool) -> None:
    assert covered(gravity) is inside
