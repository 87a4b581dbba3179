"""A right value takes the place of the wrong one in its own manner: words or figures, one or several."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tutorial_lib.narration import Item
from tutorial_lib.publishing.corrections import consequence
from tutorial_lib.publishing.same_words import in_the_same_words


def slip(quote: str, unit: str, said: tuple[Fraction | int, ...], plan: tuple[Fraction | int, ...], kind: str) -> Item:
    """A number said wrongly."""
    value, right = tuple(map(Fraction, said)), tuple(map(Fraction, plan))
    return Item(place=1, t=None, quote=quote, value=value, unit=unit, kind=kind, plan_value=right, verdict="conflicts",
                why="", start=0, end=1)  # fmt: skip


@pytest.mark.parametrize(
    ("quote", "unit", "plan", "expected"),
    [
        ("two by fours", "nominal", (2, 6), "two by sixes"),
        ("Two-by-four", "nominal", (1, 8), "One-by-eight"),
        ("2x4s", "nominal", (2, 6), "2x6s"),
        ("2 by 4", "nominal", (1, 8), "1x8"),
        ("two by six", "nominal", (2, 8), "two by eight"),
        ("number twelve", "gauge", (9,), "number nine"),
        ("number twelves", "gauge", (8,), "number eights"),
        ("#12", "gauge", (8,), "#8"),
        ("eleven dollars", "usd", (Fraction(81, 10),), "$8.10"),
        ("ninety days", "days", (30,), "thirty days"),
        ("3 weeks", "weeks", (4,), "4 weeks"),
        ("three", "count", (4,), "four"),
    ],
)
def test_a_slip_is_put_right_in_its_own_manner(
    quote: str, unit: str, plan: tuple[Fraction | int, ...], expected: str
) -> None:
    assert in_the_same_words(slip(quote, unit, (1,), plan, "other"), "in") == expected


def test_too_slight_a_board_is_not_safe_and_a_stouter_one_moves_what_stands_on_it() -> None:
    assert consequence(slip("2x4", "nominal", (2, 4), (2, 6), "lumber"))[1].startswith("not safe")
    assert "moves" in consequence(slip("2x8", "nominal", (2, 8), (2, 6), "lumber"))[0]


def test_a_coat_too_soon_is_looked_at_and_one_too_late_is_not() -> None:
    soon = slip("one hour", "h", (1,), (4,), "time")
    late = slip("ten hours", "h", (10,), (4,), "time")
    assert "dries hard" in consequence(replace(soon, subject="finish.recoat"))[1]
    assert consequence(replace(late, subject="finish.recoat"))[1] == "safe"
    assert consequence(replace(soon, subject="assembly.retighten"))[1] == "safe"


def test_a_price_or_a_longer_wait_harms_nobody() -> None:
    assert consequence(slip("$9", "usd", (9,), (8,), "price"))[1] == "safe"
    assert consequence(slip("4 days", "days", (4,), (3,), "wait"))[0].startswith("nobody")
