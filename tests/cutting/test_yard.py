"""Boards at hand: those of another thickness or width are told, those of the plan's are not."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import demo
from tutorial_lib.cutting.yard import USUAL_FEET, yard
from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design


@pytest.mark.parametrize(
    ("own", "size"),
    [({}, None), ({"thickness": "3/4 in", "width": "3 1/2 in"}, None), ({"width": "3 7/16 in"}, ("3/4", "55/16")),
     ({"thickness": "11/16 in"}, ("11/16", "7/2"))],
)  # fmt: skip
def test_own_boards_of_another_size_are_told(own, size):
    row = {"length": "8 ft", "available": 2} | own
    found = yard(design(change(demo(), {"lumber.1x4.stock": [row]}))).sizes
    expected = [] if size is None else [("1x4", *map(Fraction, size))]
    assert [(one.section, one.thickness, one.width) for one in found] == expected


def test_where_nothing_is_listed_the_usual_lengths_are_looked_at_without_a_price():
    found = yard(design(change(demo(), {"lumber.1x4.stock": []})))
    slats = [stock for stock in found.stocks if stock.section == "1x4"]
    assert [stock.length for stock in slats] == [12 * feet for feet in USUAL_FEET]
    assert "1x4" in found.unpriced
