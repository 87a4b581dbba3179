"""What a tape shows: nearest mark, ties up, and rounding said."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.errors import InputError
from tutorial_lib.measures import mm, round_to, rounded, to_mm, write_feet, write_inches, write_length

lengths = st.fractions(min_value=0, max_value=400, max_denominator=5000)


@pytest.mark.parametrize(
    ("x", "denominator", "text"),
    [
        (Fraction(381, 8), 16, "47 5/8"),
        (Fraction(1, 32), 16, "1/16"),
        (Fraction(1, 32), 32, "1/32"),
        (Fraction(31, 32), 16, "1"),
        (Fraction(0), 16, "0"),
        (Fraction(-5, 4), 16, "-1 1/4"),
        (Fraction(12), 16, "12"),
    ],
)
def test_inches(x: Fraction, denominator: int, text: str) -> None:
    assert write_inches(x, denominator) == text


def test_units_are_written() -> None:
    assert write_length(Fraction(381, 8)) == "47 5/8 in"
    assert write_length(Fraction(381, 8), "mm") == "1210 mm"
    assert write_length(mm(1400), "mm") == "1400 mm"


@pytest.mark.parametrize(
    ("x", "text"),
    [
        (Fraction(381, 8), "3'-11 5/8\""),
        (Fraction(96), "8'-0\""),
        (Fraction(3, 4), "0'-3/4\""),
        (Fraction(-18), "-1'-6\""),
    ],
)
def test_feet(x: Fraction, text: str) -> None:
    assert write_feet(x) == text


def test_a_full_foot_is_never_twelve_inches() -> None:
    assert write_feet(Fraction(12) - Fraction(1, 100)) == "1'-0\""


@pytest.mark.parametrize(
    ("x", "units", "note"),
    [
        (Fraction(381, 8), "in", ""),
        (Fraction(3, 64), "in", "rounded up by 1/64 in"),
        (Fraction(5, 64), "in", "rounded down by 1/64 in"),
        (Fraction(107, 52), "in", "rounded up by 0.005 in"),
        (Fraction(10000001, 160000000), "in", "rounded down by less than 0.001 in"),
        (Fraction(3, 2), "mm", "rounded down by 0.1 mm"),
        (mm(38), "mm", ""),
    ],
)
def test_rounding_is_said(x: Fraction, units: str, note: str) -> None:
    result = rounded(x, units)
    assert result.note == note
    assert result.exact == (note == "")


def test_unknown_units_are_refused() -> None:
    with pytest.raises(InputError, match='units = "cm"'):
        write_length(Fraction(1), "cm")


@given(lengths, st.sampled_from([1, 2, 4, 8, 16, 32, 64]))
def test_rounding_goes_to_the_nearest_mark_and_ties_up(x: Fraction, denominator: int) -> None:
    off = round_to(x, denominator) - x
    assert -Fraction(1, 2 * denominator) < off <= Fraction(1, 2 * denominator)


@given(lengths, st.sampled_from(["in", "mm"]))
def test_what_is_written_differs_by_what_is_said(x: Fraction, units: str) -> None:
    result = rounded(x, units)
    assert result.exact == (result.by == 0)
    assert rounded(x + result.by, units).exact
    assert rounded(x + result.by, units).text == result.text


@given(lengths)
def test_millimetres_round_trip(x: Fraction) -> None:
    assert mm(to_mm(x)) == x
