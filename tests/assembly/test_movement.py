"""What the boards do, and the days to go over the screws."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.design.builds import changed, demo
from tutorial_lib.assembly.movement import movement, retighten
from tutorial_lib.design.platform_bed import design


@pytest.fixture(scope="module")
def moves():
    return movement(design(demo()))


def test_slats_shrink_and_gaps_grow_by_as_much(moves):
    assert moves.slat == Fraction(7, 2) * Fraction("0.00274") * (8 - 15)
    assert moves.gap[1] - moves.gap[0] == -moves.slat


def test_a_humid_summer_closes_the_gap_again(moves):
    assert moves.gap[0] < moves.gap[2] < moves.gap[1]


def test_wood_bought_as_dry_as_the_room_stays():
    still = movement(design(changed(wood__moisture_bought=8.0)))
    assert still.slat == still.rail == still.grip == 0


def test_a_wood_without_a_figure_gets_our_guess():
    assert movement(design(changed(wood__species="Cedar, Western redcedar"))).tangential == 0.0027


@given(st.dates(date(2020, 1, 1), date(2040, 1, 1)))
def test_both_days_lie_ahead_within_fourteen_months(today):
    first, season = retighten(today)
    assert (first - today).days == 30
    assert 0 < (season - first).days <= 366
    assert (season.month, season.day) == (3, 1)


def test_the_demo_by_hand(moves):
    """Spruce-pine-fir 0.00274, from 15 to 8 %; a 1x4 slat, 2x6 rails, 4x4 legs; 6.2 % in winter, 12 in summer."""
    per_inch = Fraction("0.00274")
    assert (moves.bought, moves.room, moves.winter, moves.summer) == (15, 8, 6.2, 12)
    assert moves.rail == Fraction(11, 2) * per_inch * -7
    assert moves.grip == (Fraction(3, 2) + Fraction(7, 2)) * per_inch * -7
    gap = Fraction(107, 52)
    assert moves.gap == (gap, gap + Fraction(7, 2) * per_inch * 7, gap + Fraction(7, 2) * per_inch * 3)
    assert (moves.play, moves.tangential) == (Fraction(1, 8), 0.00274)


def test_first_of_march_itself_counts_for_the_next_year():
    assert retighten(date(2026, 1, 30)) == (date(2026, 3, 1), date(2027, 3, 1))
    assert retighten(date(2026, 1, 29)) == (date(2026, 2, 28), date(2026, 3, 1))
