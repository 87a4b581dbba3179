"""American Softwood Lumber Standard PS 20-20, section 2.2: board measure.

A board foot is one foot long, one foot wide and one inch thick by its nominal sizes, or what holds as much.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.cutting.bed import Purchase, _board_feet


@pytest.mark.parametrize(
    ("section", "feet", "board_feet"),
    [("2x6", 12, Fraction(12)), ("1x12", 1, Fraction(1)), ("2x4", 8, Fraction(16, 3)), ("1x4", 10, Fraction(10, 3))],
)
def test_board_measure_goes_by_nominal_sizes(section, feet, board_feet):
    purchase = Purchase(section=section, stock=f"{feet} ft", length=Fraction(12 * feet), count=1)
    assert _board_feet(purchase) == board_feet


def test_metric_sections_are_not_sold_by_the_board_foot():
    assert _board_feet(Purchase(section="45x95", stock="2400 mm", length=Fraction(12000, 127), count=1)) == 0
