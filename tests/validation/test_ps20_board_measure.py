"""American Softwood Lumber Standard PS 20-20, section 2.2: board measure.

A board foot is one foot long, one foot wide and one inch thick by its nominal sizes, or what holds as much.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.validation.printed import Printed, Source, cells
from tutorial_lib.cutting.bed import Purchase, _board_feet

PS20 = Source(
    title="American Softwood Lumber Standard PS 20",
    edition="2020",
    place="section 2.2, board measure",
    state="seen",
    rounding="to four decimals",
)


def _feet(section: str, feet: int) -> float:
    purchase = Purchase(section=section, stock=f"{feet} ft", length=Fraction(12 * feet), count=1)
    return float(_board_feet(purchase))


PRINTED: tuple[Printed, ...] = cells(
    PS20,
    0.0001,
    [
        ("2x4, 8 ft", 5.3333, lambda: _feet("2x4", 8)),
        ("2x10, 16 ft", 26.6667, lambda: _feet("2x10", 16)),
        ("1x12, 10 ft", 10, lambda: _feet("1x12", 10)),
    ],
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()


def test_several_boards_hold_so_many_times_as_much():
    two = Purchase(section="2x6", stock="12 ft", length=Fraction(144), count=2)
    assert _board_feet(two) in (12, 24)


def test_metric_sections_are_not_sold_by_the_board_foot():
    assert _board_feet(Purchase(section="45x95", stock="2400 mm", length=Fraction(12000, 127), count=1)) == 0
