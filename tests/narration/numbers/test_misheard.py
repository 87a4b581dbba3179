"""Number words that automatic captions write as another word."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.narration import check, read_captions

PLAN = facts(
    {
        "stock.2x8.count": fact(4, "count", "stock_count", "8-ft 2x8", "2x8s", board=("2x8", 96)),
        "stock.2x8.length": fact(96, "in", "stock_length", "8-ft 2x8", "2x8s", board=("2x8", 96)),
        "leg.count": fact(8, "count", "part_count", "legs", "leg", "legs"),
        "slat.screws_each": fact(2, "count", "screw_count", "screws in one slat", "slat", "slats"),
        "finish.coats": fact(2, "count", "coats", "coats of oil"),
        "slat.play": fact(4, "in", "gap", "play at each slat end", "slat", "slats"),
    },
)


@pytest.mark.parametrize(
    ("said", "quote", "value"),
    [
        ("at the yard i bought for 2 by 8s at 8 feet", "for", 4),
        ("now the legs you need ate of them", "ate", 8),
        ("each slat gets to screws", "to", 2),
        ("then it's oil to coats of it", "to", 2),
    ],
)
def test_a_misheard_word_is_the_number_meant(said: str, quote: str, value: int) -> None:
    items = [i for i in check(read_captions(said), PLAN).items if i.quote == quote]
    assert [i.value for i in items] == [(Fraction(value),)]


@pytest.mark.parametrize(
    "said",
    [
        "this goes to the side and that one is for slats",
        "the dog ate the tape and my brother won the bet",
        "I used to cut slats for my sister, and it's close to legs you'd see in a shop",
    ],
)
def test_plain_words_stay_words(said: str) -> None:
    assert not [i for i in check(read_captions(said), PLAN).items if i.quote in ("to", "for", "ate", "won")]
