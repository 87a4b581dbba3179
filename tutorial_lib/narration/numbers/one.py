"""The word "one": a number ("one here, one there"), a name ("rule one"), or a word for a thing ("the short one")."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import cardinal, near, word_before
from tutorial_lib.narration.numbers.fractions_said import fraction
from tutorial_lib.narration.numbers.lexicon import CARDINALS, ORDINALS, PLURAL_CARDINALS, SCALES, TENS, UNITS
from tutorial_lib.narration.numbers.said_units import add_fraction
from tutorial_lib.narration.numbers.words import Gap, Word

DETERMINERS = frozenset(
    "the this that these those each every which any another no first last next other same big small long short middle "
    "inside outside my your our like such some good bad right left single spare proper odd fat old new".split()
)
POINTERS = frozenset("this that next last other middle odd first short long big small same".split())
BEDS = frozenset("bed mattress size day time thing one frame room sheet from".split())
STEPS = frozenset(
    "step part operation episode chapter number phase stage day take shot scene version correction rule question "
    "station weekend lesson week unit".split()
)
GOES_ON = frozenset("in at on under down halfway through of into per".split())
PRONOUN_TAILS = frozenset(
    "is and that's was with without for to from goes sits gets on in at will would you i we he she they so because "
    "but that which or has had can then as if out like and's really here there again".split()
)
PLACES = frozenset(
    "here there left right center centre in on at to for into over under from off each and one now next again".split()
)
SHARED = 9  # [words] how far apart the shares of one count are said


def is_pronoun(words: Sequence[Word], at: int) -> bool:
    """Whether "one" stands for a thing ("the short one", "I built one for a cousin") and isn't a number."""
    if words[at].low != "one":
        return words[at].low == "ones"
    before = word_before(words, at)
    if is_measured(words, at):
        return False
    if (
        before in ORDINALS and near(words, at + 1) and words[at + 1].low not in SCALES
    ):  # "the third one eleven inches in"
        return True
    if before in ("each", "another", "every", "this", "that"):
        return before == "each" or not tens_follow(words, at)
    if cardinal(words, at) != (Fraction(1), at + 1) or is_named(words, at, before):
        return False
    if before == "of" and at > 1 and words[at - 2].low == "out":  # "three out of one board": out of each
        return True
    if before in DETERMINERS:
        return points_at_thing(words, at, before)
    return not (is_shared(words, at) or is_counted(words, at, before)) and stands_for_thing(words, at)


def tens_follow(words: Sequence[Word], at: int) -> bool:
    """Whether "one" goes on as a number ("in that one twenty")."""
    return near(words, at + 1) and words[at + 1].low in TENS


def is_measured(words: Sequence[Word], at: int) -> bool:
    """Whether a unit, a fraction or a second half of a word follows ("one inch", "one and a half", "one-eighth")."""
    if (
        (at + 1 < len(words) and words[at + 1].hyphen)
        or fraction(words, at)
        or add_fraction(words, at + 1, Fraction(1))
    ):
        return True
    after = words[at + 1].low if near(words, at + 1) else ""
    return after in UNITS or after in ("dozen", "pair", "by")


def is_named(words: Sequence[Word], at: int, before: str) -> bool:
    """Whether "one" is the number of a step ("rule one") or all of a sentence ("One.")."""
    alone = words[at].gap >= Gap.SENTENCE and at + 1 < len(words) and words[at + 1].gap >= Gap.SENTENCE
    return alone or before in STEPS


def points_at_thing(words: Sequence[Word], at: int, before: str) -> bool:
    """Whether "one" after "this", "the" or an adjective is a thing; "just the one", "the one screw" are numbers."""
    if before == "the" and at > 1 and words[at - 2].low in ("just", "only"):
        return False
    after = words[at + 1].low if near(words, at + 1) else ""
    return before in POINTERS or not after or after in PRONOUN_TAILS or before in ("another", "each", "every", "like")


def is_counted(words: Sequence[Word], at: int, before: str) -> bool:
    """Whether "one" counts by what stands before and after it ("just one", "one for every leg", "and one in the")."""
    after = words[at + 1].low if near(words, at + 1) else ""
    if before in ("just", "only", "exactly") and (not after or after in GOES_ON):
        return True
    if after == "for":
        return near(words, at + 2) and words[at + 2].low in ("every", "each", "left", "right", "either")
    if [w.gap for w in words[at : at + 2]] == [Gap.COMMA, Gap.COMMA]:  # "two by six, one, ..."
        return ends_number(words[at - 1])
    return before == "and" and after in ("that's", "at", "more", "in", "goes", "is")


def ends_number(word: Word) -> bool:
    """Whether a word is a number or ends one."""
    return word.low in CARDINALS or word.low in PLURAL_CARDINALS or word.text[-1:].isdecimal()


def is_shared(words: Sequence[Word], at: int) -> bool:
    """Whether a count beside it is shared out the same way ("one here one there", "two for the side, one for ...")."""
    return is_share(words, at) and any(
        is_share(words, i) for i in range(max(0, at - SHARED), min(len(words), at + SHARED + 1)) if i != at
    )


def is_share(words: Sequence[Word], at: int) -> bool:
    """Whether a small count stands before a place or alone between pauses, and no pointing word before it."""
    low = words[at].low
    if not 0 < CARDINALS.get(low, 0) <= 4 and words[at].text not in ("1", "2", "3", "4"):
        return False
    if at and words[at].gap < Gap.COMMA and words[at - 1].low in DETERMINERS:
        return False
    if near(words, at + 1):
        return words[at + 1].low in PLACES
    return words[at].gap >= Gap.COMMA or words[at - 1].low in ("and", "one", "two", "three", "four")


def stands_for_thing(words: Sequence[Word], at: int) -> bool:
    """Whether nothing that "one" could count follows."""
    after = words[at + 1].low if near(words, at + 1) else ""
    return not after or (after in PRONOUN_TAILS and after not in GOES_ON)
