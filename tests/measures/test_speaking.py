"""Numbers and lengths as one says them."""

from fractions import Fraction

import pytest

from tutorial_lib.errors import InputError
from tutorial_lib.measures import mm, say_length, say_number


@pytest.mark.parametrize(
    ("n", "words"),
    [
        (0, "zero"), (14, "fourteen"), (20, "twenty"), (47, "forty-seven"), (100, "one hundred"),
        (1210, "one thousand two hundred ten"), (2_000_001, "two million one"), (-3, "minus three"),
    ],
)  # fmt: skip
def test_whole_numbers(n: int, words: str) -> None:
    assert say_number(n) == words


@pytest.mark.parametrize(
    ("x", "words"),
    [
        (Fraction(381, 8), "forty-seven and five eighths"),
        (Fraction(213, 4), "fifty-three and a quarter"),
        (Fraction(33, 16), "two and a sixteenth"),
        (Fraction(1, 8), "an eighth"),
        (Fraction(1, 2), "a half"),
        (Fraction(75), "seventy-five"),
        (Fraction(0), "zero"),
        (Fraction(107, 52), "two and a sixteenth"),
    ],
)
def test_lengths(x: Fraction, words: str) -> None:
    assert say_length(x) == words


def test_fine_marks_and_millimetres() -> None:
    assert say_length(Fraction(3, 32), denominator=32) == "three thirty-seconds"
    assert say_length(mm(1400), "mm") == "one thousand four hundred"


def test_what_can_not_be_said_is_refused() -> None:
    with pytest.raises(InputError, match="too large"):
        say_number(10**12)
    with pytest.raises(InputError, match="a length is said in"):
        say_length(Fraction(1), "cm")
