"""Wood Handbook (FPL-GTR-282): ch. 13's worked example of movement, and Table 4-2's moisture at equilibrium.

The example: a flat-grain white fir board, 232 mm wide, from 8 to 11 % moisture, coefficient 0.00245: 1.705 mm.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.design.drying import moved, tangential
from tutorial_lib.tables.finishing import moisture_at


def test_the_worked_example():
    assert float(moved(Fraction(232), tangential("Fir, White"), 8, 11)) == pytest.approx(1.705, abs=0.0005)


def test_shrinking_and_swelling_are_alike():
    assert moved(Fraction(7, 2), 0.00245, 12, 8) == -moved(Fraction(7, 2), 0.00245, 8, 12)


@pytest.mark.parametrize(("humidity", "printed"), [(30, 6.2), (40, 7.7), (50, 9.2), (65, 12.0), (80, 16.0)])
def test_moisture_at_70_f(humidity, printed):
    assert moisture_at(humidity) == pytest.approx(printed)


def test_between_two_humidities_in_proportion():
    assert moisture_at(45) == pytest.approx((7.7 + 9.2) / 2)


@pytest.mark.parametrize("humidity", [5, 99])
def test_outside_the_table_there_is_no_figure(humidity):
    with pytest.raises(ValueError, match="no figure"):
        moisture_at(humidity)
