"""Bits: pilots to the nearest, clearance upward, the rule always named."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.drilling.bits import at_least, bolt_hole, clearance, countersink, covered, lag_pilot, nearest, pilot


def test_pilots_go_to_the_nearest_sixty_fourth() -> None:
    assert nearest(0.0994) == Fraction(3, 32) and nearest(0.1242) == Fraction(1, 8)


def test_clearance_never_goes_down() -> None:
    assert at_least(0.1251) == Fraction(9, 64) and at_least(0.125) == Fraction(1, 8)
    assert clearance(0.177).inch == Fraction(13, 64)


def test_the_two_rules_differ_and_are_named() -> None:
    across, pull = pilot(0.142, 0.42, "lateral"), pilot(0.142, 0.42, "withdrawal")
    assert across.inch == Fraction(1, 8) and pull.inch == Fraction(3, 32)
    assert "12.1.5.3" in across.rule and "Wood Handbook" in pull.rule and "asks for none" in pull.rule


def test_dense_wood_takes_fuller_holes() -> None:
    assert pilot(0.142, 0.67, "lateral").wanted == pytest.approx(0.142)
    assert pilot(0.142, 0.67, "withdrawal").wanted == pytest.approx(0.9 * 0.142)
    assert lag_pilot(0.375, 0.67).wanted > lag_pilot(0.375, 0.55).wanted > lag_pilot(0.375, 0.42).wanted


def test_end_grain_is_one_size_up() -> None:
    assert pilot(0.152, 0.42, "lateral", end_grain=True).inch == pilot(0.152, 0.42, "lateral").inch + Fraction(1, 64)


def test_metric_bits_are_half_millimetres() -> None:
    assert pilot(0.142, 0.42, "lateral").metric == 3
    assert clearance(0.177).metric == 5
    assert bolt_hole(0.375).inch == Fraction(13, 32) and bolt_hole(0.375).metric == Fraction(21, 2)
    assert countersink(0.337).inch == Fraction(3, 8)


@pytest.mark.parametrize(("gravity", "inside"), [(0.30, False), (0.31, True), (0.73, True), (0.74, False)])
def test_the_standard_covers_these_woods(gravity: float, inside: bool) -> None:
    assert covered(gravity) is inside
