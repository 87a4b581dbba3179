"""Single values of a build file: what each unit makes of them, on either side of each limit."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.design.values import (
    read_gallons,
    read_hours,
    read_length_field,
    read_money,
    read_pounds,
    write_hours,
    write_money,
)
from tutorial_lib.measures import convert


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("4 h", 4),
        ("3 hours", 3),
        ("30 min", Fraction(1, 2)),
        ("2 d", 48),
        ("1/2 h", Fraction(1, 2)),
        ("1.5 H", Fraction(3, 2)),
    ],
)
def test_hours(text, hours):
    assert read_hours(text) == hours


@pytest.mark.parametrize(("text", "pounds"), [("275 lb", 275), ("3 lbs", 3), ("1/4 lb", Fraction(1, 4))])
def test_pounds(text, pounds):
    assert read_pounds(text) == pounds


def test_kilograms_become_pounds():
    assert read_pounds("125 kg") == convert(125, "kg", "lb")
    assert float(read_pounds("125 kg")) == pytest.approx(275.578, abs=0.001)


@pytest.mark.parametrize(
    ("text", "gallons"),
    [("1 quart", Fraction(1, 4)), ("1/2 pint", Fraction(1, 16)), ("2 gallons", 2), ("1.5 quarts", Fraction(3, 8))],
)
def test_gallons(text, gallons):
    assert read_gallons(text) == gallons


def test_litres_become_gallons():
    assert float(read_gallons("2.5 litres")) == pytest.approx(0.66043, abs=1e-5)
    assert read_gallons("750 ml") * 2 == read_gallons("1.5 l") == read_gallons("150 cl")


@pytest.mark.parametrize("read", [read_hours, read_pounds])
@pytest.mark.parametrize("bad", ["4", "h", "4 feet", "1/0 h", 4, None, "-1 h", ""])
def test_a_bare_or_strange_amount_is_refused(read, bad):
    with pytest.raises(ValueError, match="write it as text with its unit"):
        read(bad)


@pytest.mark.parametrize("bad", ["0 quart", "1", "quart", "1 bucket", "1/0 pint"])
def test_a_strange_can_is_refused(bad):
    with pytest.raises(ValueError, match="write a can's size"):
        read_gallons(bad)


@pytest.mark.parametrize(
    ("given", "amount"), [("7.25", Fraction(29, 4)), (7.25, Fraction(29, 4)), (3, 3), ("0", 0), (0, 0)]
)
def test_money(given, amount):
    assert read_money(given) == amount


@pytest.mark.parametrize("given", ["-0.01", -1, Fraction(1, 2) * 0 - 0.5])
def test_a_price_below_nothing_is_refused(given):
    with pytest.raises(ValueError, match="can't be negative"):
        read_money(given)


@pytest.mark.parametrize("given", [True, None, [], "seven", "1/0"])
def test_what_is_no_price_is_refused(given):
    with pytest.raises(ValueError, match="price"):
        read_money(given)


@pytest.mark.parametrize(
    ("amount", "text"),
    [(Fraction(29, 4), "7.25"), (Fraction(7), "7.00"), (Fraction(1, 10), "0.10"), (Fraction(1, 20), "0.05"),
     (Fraction(1, 8), "0.125"), (Fraction(1999, 100), "19.99")],
)  # fmt: skip
def test_money_reads_back_as_it_is_written(amount, text):
    assert write_money(amount) == text
    assert read_money(text) == amount


@pytest.mark.parametrize(
    ("hours", "text"), [(Fraction(4), "4 h"), (Fraction(1, 2), "0.5 h"), (Fraction(1, 3), "20 min")]
)
def test_hours_read_back_as_they_are_written(hours, text):
    assert write_hours(hours) == text
    assert read_hours(text) == hours


def test_a_length_needs_a_unit_and_a_fraction_passes():
    assert read_length_field(Fraction(3, 2)) == Fraction(3, 2)
    assert read_length_field("3/4 in") == Fraction(3, 4)
    for bad in (3, 1.5, None):
        with pytest.raises(ValueError, match="write the length as text"):
            read_length_field(bad)
