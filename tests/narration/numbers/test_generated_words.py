"""Number words, units, signs and figures in any order are read without a fault.

A million words by hand: python -m tests.narration.numbers.test_generated_words [COUNT] [SEED]
"""

from __future__ import annotations

import random
import sys
from itertools import pairwise

from tests.narration.plans import fact, facts
from tutorial_lib.narration import check
from tutorial_lib.narration.captions.cues import Cue, Talk
from tutorial_lib.narration.numbers import lexicon
from tutorial_lib.narration.numbers.expressions import expressions
from tutorial_lib.narration.numbers.words import words_of

PLAN = facts({"slat.count": fact(14, "count", "part_count", "slats", "slat")})
LISTS = (
    *(lexicon.CARDINALS, lexicon.PLURAL_CARDINALS, lexicon.SCALES, lexicon.DOZENS, lexicon.ORDINALS),
    *(lexicon.DENOMINATORS, lexicon.VULGAR, lexicon.UNITS, lexicon.MONEY_SIGNS),
)
OTHERS = """
a an the of and by x × point comma oh o minus negative - − / one two this that every each half none to for too ate won
number no # M T8 or plus 's s th n & in it's slats screws by came paid was past quarter 2x4 5/4 8/4 3/8 1/0 0/0 12:30
99:99:99 1,920 .5 2.4 ² ³ ① ⅐ ٣ 1234567890123456789 0 00 016 3 8 16 7 64 100 1e9 ∞ ½½ ' " ” ( ) [ ] . , ? ! : ; — … |
"""
VOCABULARY = [*sorted({w for words in LISTS for w in words}), *OTHERS.split()]


def salad(chance: random.Random, count: int) -> str:
    """Words of the vocabulary in any order, here and there glued or hyphened."""
    return "".join(chance.choice(VOCABULARY) + chance.choice(("", "-", " ", " ", " ", " ", ", ")) for _ in range(count))


def read_all(count: int, seed: int) -> int:
    """Reads so many generated words in talks of sixty; how many numbers were found in them."""
    chance, found = random.Random(seed), 0
    for _ in range(count // 60):
        cues = tuple(
            Cue(number=i + 1, text=salad(chance, 15), start=i * 4.0, end=i * 4.0 + chance.choice((2, 4)))
            for i in range(4)
        )
        talk = Talk(name="", form="vtt", cues=cues)
        words = words_of(talk)
        for metric in (False, True):
            items = expressions(words, frozenset(), metric)
            assert all(a.last <= b.first for a, b in pairwise(items)), talk.text
            assert all(e.first < e.last <= len(words) and e.values for e in items), talk.text
            found += len(items)
        if chance.random() < 0.1:
            check(talk, PLAN)
    return found


def test_words_in_any_order_are_read_without_a_fault() -> None:
    assert read_all(6_000, seed=15) > 1_000


if __name__ == "__main__":
    print(read_all(*(int(a) for a in (sys.argv[1:] + ["1000000", "1"][len(sys.argv) - 1 :]))), "numbers found")
