"""What numbers said aloud come to."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.narration import read_captions
from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.hearing import hear
from tutorial_lib.narration.linking.subjects import subjects_of
from tutorial_lib.narration.linking.sums import before, spoken_sums, sums_up

PLAN = facts({"slat.count": fact(17, "count", "part_count", "slats", "slat", "slats")})


def claims(text: str) -> list[Claim]:
    """The numbers of a text."""
    return hear(read_captions(text), subjects_of(PLAN), "in", frozenset()).claims


@pytest.mark.parametrize(
    ("said", "comes_to"),
    [
        ("The slats get four screws each, and 17 slats times four is 60.", {68}),
        ("You get seventeen on this side of the bed, seventeen on that side, and that's 36.", {34}),
        ("So it is two here, two here, two and two, and that makes twelve.", {8, 6}),
        ("You wind up with 14 in there, so for the two of them you need 26.", {28}),
        ("There are 17 slats and six legs, and that makes 24.", set()),  # nothing between them says how
    ],
)
def test_sums_said_aloud(said: str, comes_to: set[int]) -> None:
    found = claims(said)
    assert spoken_sums(found, len(found) - 1) == comes_to


def test_two_counts_come_to_their_product_and_their_sum_and_pieces_to_boards() -> None:
    found = claims("The 17 slats come four from each board, so that's five.")
    made = before(found, len(found) - 1)
    assert {(Fraction(68), "count"), (Fraction(21), "count")} <= made.sums
    assert (Fraction(5), "count") in made.shares and (Fraction(4), "count") not in made.shares


def test_what_was_said_long_before_adds_up_to_nothing() -> None:
    far = (
        "There are 17 slats. "
        + "And then we go on with the bed and look at it. " * 8
        + "That makes four, times two is eight."
    )
    found = claims(far)
    assert all(Fraction(17 * 4) != value for value, _ in before(found, len(found) - 1).sums)


def test_a_number_sums_up_after_a_word_for_it_or_before_in_all() -> None:
    sure, plain = claims("That makes twelve. The bed has four legs that I cut at 12.")[0::2]
    assert sums_up(sure) and not sums_up(plain)
