"""Wrong values of the kinds people give."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.narration.plans import subject
from tutorial_lib.narration.linking.slips import close, typical_slip, units_mixed
from tutorial_lib.narration.linking.subjects import Subject

STEPS = frozenset((Fraction(3, 2), Fraction(3)))


def length(value: float, kind: str = "length") -> Subject:
    """A length of the plan."""
    return subject("rail.length", {"value": value, "unit": "in", "kind": kind, "what": "rail", "said_as": ["rail"]})


def count(value: int, what: str = "slats") -> Subject:
    """A count of the plan."""
    return subject("slat.count", {"value": value, "unit": "count", "kind": "part_count", "what": what})


@pytest.mark.parametrize(
    ("said", "true"),
    [
        (Fraction(155, 4), 38.25),  # a wrong fraction
        (Fraction(87), 78),  # digits swapped
        (Fraction(68), 88),  # one digit
        (Fraction(77), 80),  # two thicknesses forgotten
        (Fraction(120), 10),  # feet for inches
    ],
)
def test_usual_slips_of_a_length(said: Fraction, true: float) -> None:
    assert typical_slip(said, length(true), STEPS)
    assert not close(said, length(true))


@pytest.mark.parametrize(("said", "true"), [(13, 14), (15, 14), (7, 14)])
def test_usual_slips_of_a_count(said: int, true: int) -> None:
    assert typical_slip(Fraction(said), count(true), STEPS)


def test_a_total_short_by_one_piece_is_usual() -> None:
    assert typical_slip(Fraction(80), count(90, "slat screws in all"), STEPS)
    assert not typical_slip(Fraction(80), count(90), STEPS)


@pytest.mark.parametrize("said", [Fraction(2), Fraction(31), Fraction(900)])
def test_other_values_are_not(said: Fraction) -> None:
    assert not typical_slip(said, length(78), STEPS)


@pytest.mark.parametrize(("true", "mixed"), [(1.0, True), (0.875, False), (0.125, False)])
def test_nobody_gives_in_feet_what_is_under_an_inch(true: float, mixed: bool) -> None:
    assert units_mixed(12.0, length(true)) == mixed
    assert units_mixed(1 / 12, length(true)) == mixed
