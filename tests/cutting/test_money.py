"""Prices as people type them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.cutting.money import Price, read_price


@pytest.mark.parametrize(
    ("text", "amount"),
    [(".50", "1/2"), (",50 €", "1/2"), ("$ 7", "7"), ("7.", "7"), ("1,234.50", "2469/2"), ("1.234,50", "2469/2"),
     ("1,234", "1234"), ("0,234", "117/500"), ("1.234", "617/500"), ("12 345,6", "61728/5")],
)  # fmt: skip
def test_points_commas_and_spaces(text: str, amount: str) -> None:
    read = read_price(text)
    assert isinstance(read, Price) and read.amount == Fraction(amount)
