"""Lengths as people type them: read exactly, or refused with the reason."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.errors import LengthError
from tutorial_lib.measures import inch, mm, read_length, write_feet, write_inches, write_length

FORTY_SEVEN = Fraction(381, 8)


@pytest.mark.parametrize(
    "text",
    [
        "47 5/8", '47-5/8"', "47.625 in", "3' 11 5/8\"", "3 ft 11-5/8 in", "47 5⁄8", "47⅝", "47 ⅝ in.", "47 ⁵⁄₈",
        "47-⅝″",
        "3'-11 5/8\"", "3′ 11⅝″", "3 feet 11.625 inches", "47 5 / 8", "47,6250 in", "1209.675 mm", "120.9675 cm",
        "1.209675 m", "1 m 20.9675 cm", "3ft11 5/8in", "3' 11-5/8''",
    ],
)  # fmt: skip
def test_the_same_length_typed_in_many_ways(text: str) -> None:
    assert read_length(text, "in") == FORTY_SEVEN


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("¾", Fraction(3, 4)), ("5⁄8", Fraction(5, 8)), ("8 ft", Fraction(96)), ("1/8in", Fraction(1, 8)),
        ('2.5"', Fraction(5, 2)), ("5'4", Fraction(64)), ("9/8 in", Fraction(9, 8)), ("0", Fraction(0)),
        ("0 mm", Fraction(0)), ("1\u00a0ft", Fraction(12)),
    ],
)  # fmt: skip
def test_inch_lengths(text: str, inches: Fraction) -> None:
    assert read_length(text, "in") == inches


@pytest.mark.parametrize("text", ["140 cm", "1400 mm", "1.4 m", "1 m 40", "1m40", "1 m 400", "1,4 m", "1 m 40 cm"])
def test_metric_lengths_are_exact(text: str) -> None:
    assert read_length(text) == mm(1400)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("5 4", "no unit stands between 5 and 4"),
        ("1.2 3.4", "side by side"),
        ("-3 in", "negative"),
        ("−3 in", "negative"),
        ("475/8", "475/8 as it stands, or 47 5/8"),
        ("11/8", "or 1 1/8"),
        ("47 12/8", "not less than one"),
        ("1 m 4", "last number has no unit"),
        ("47,625 in", "comma"),
        ("3 ft 20 cm", "mixes inches and metric"),
        ("3.5 ft 2 in", "a part of a ft"),
        ("3 ft 14 in", "fill more than a ft"),
        ("5 in 3 ft", "larger unit first"),
        ("ten in", "has no number"),
        ("sixty", "has no number; write it like"),
        ("5 lb", "no unit of length"),
        ("2x4", "no unit of length"),
        ("1e3 mm", "no unit of length"),
        ("", "empty"),
        ("  ", "empty"),
        ("5/0 in", "fraction"),
        ("1/2/3 in", "fraction"),
        ("47-5", "dash"),
        ("3 ft -", "dash"),
        ("''", "can't be read"),
        ("٣ in", "can't be read"),
        ("9" * 70, "too long"),
        (5, "is not text"),
        (None, "is not text"),
    ],
)
def test_refused_with_the_reason(text: str, reason: str) -> None:
    with pytest.raises(LengthError, match=reason):
        read_length(text, "in")


def test_a_unit_is_asked_for_where_none_is_implied() -> None:
    with pytest.raises(LengthError, match="write 47 5/8 in, or 47 5/8 mm"):
        read_length("47 5/8")


def test_the_error_names_the_place() -> None:
    with pytest.raises(LengthError, match="pieces.csv row 4: ") as caught:
        read_length("-1 in", where="pieces.csv row 4")
    assert caught.value.faults[0].where == "pieces.csv row 4"


def test_the_default_may_be_millimetres() -> None:
    assert read_length("38", "mm") == mm(38)


def test_inch_takes_numbers_as_well() -> None:
    assert inch(3) == 3
    assert inch(Fraction(1, 3)) == Fraction(1, 3)


sixty_fourths = st.integers(0, 64 * 1200).map(lambda n: Fraction(n, 64))
tenths_mm = st.integers(0, 10 * 30000).map(lambda n: mm(n) / 10)


@given(sixty_fourths)
def test_written_inches_read_back_exactly(x: Fraction) -> None:
    assert read_length(write_inches(x, 64), "in") == x
    assert read_length(write_length(x, "in", 64)) == x
    assert read_length(write_feet(x, 64)) == x


@given(st.integers(0, 30000))
def test_written_millimetres_read_back_exactly(n: int) -> None:
    assert read_length(write_length(mm(n), "mm")) == mm(n)


@given(tenths_mm)
def test_metric_units_agree(x: Fraction) -> None:
    figure = x * Fraction(254, 10)
    assert read_length(f"{float(figure)!r} mm") == x
    assert read_length(f"{float(figure):.1f} mm") == read_length(f"{float(figure / 10):.2f} cm") == x


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused_in_one_way(text: str) -> None:
    try:
        assert read_length(text, "in") >= 0
    except LengthError as error:
        assert len(error.faults) == 1


@given(st.text(alphabet="0123456789 /-.,'\"ftinmc¾⅝", max_size=14))
def test_near_misses_are_read_or_refused_in_one_way(text: str) -> None:
    try:
        assert read_length(text, "in") >= 0
    except LengthError as error:
        assert len(error.faults) == 1
