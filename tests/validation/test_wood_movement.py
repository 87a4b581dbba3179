"""Movement of wood: the Wood Handbook's worked example and one of a flooring maker; and between two humidities.

Wood Handbook (FPL-GTR-282), ch. 13: a flat-grain white fir board, 232 mm wide, from 8 to 11 % moisture, coefficient
0.00245: 1.705 mm. A flooring maker's page: 5 in of a wood of coefficient 0.00129, three points of moisture: 0.019 in.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.validation.printed import Printed, Source
from tutorial_lib.design.drying import moved, tangential
from tutorial_lib.tables.finishing import moisture_at

HANDBOOK = Source(
    title="Wood Handbook, FPL-GTR-282",
    edition="2021",
    place="ch. 13, example",
    state="seen",
    rounding="to 0.001 mm",
)
FLOORING = Source(
    title="Flooring dimensional change (coefficients after the Wood Handbook)",
    edition="flooringartists.com",
    place="worked example",
    state="seen",
    rounding="to 0.001 in",
)


def _moved(size: int, coefficient: float, before: float, after: float) -> float:
    return float(moved(Fraction(size), coefficient, before, after))


PRINTED: tuple[Printed, ...] = (
    Printed(HANDBOOK, "white fir, mm", 1.705, 0.0005, lambda: _moved(232, tangential("Fir, White"), 8, 11)),
    Printed(FLOORING, "board of 5 in, in", 0.019, 0.0005, lambda: _moved(5, 0.00129, 6, 9)),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()


def test_shrinking_and_swelling_are_alike():
    assert moved(Fraction(7, 2), 0.00245, 12, 8) == -moved(Fraction(7, 2), 0.00245, 8, 12)


def test_between_two_humidities_in_proportion():
    assert moisture_at(45) == pytest.approx((7.7 + 9.2) / 2)


@pytest.mark.parametrize("humidity", [5, 99])
def test_outside_the_table_there_is_no_figure(humidity):
    with pytest.raises(ValueError, match="no figure"):
        moisture_at(humidity)
