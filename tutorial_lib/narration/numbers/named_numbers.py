"""Numbers that are names, orders, shares or dozens, and "one" where it stands for a thing."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import cardinal, figure, near
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.fractions_said import fraction
from tutorial_lib.narration.numbers.lexicon import CARDINALS, DOZENS, ORDINALS, PLURAL_CARDINALS, UNITS
from tutorial_lib.narration.numbers.said_units import add_fraction
from tutorial_lib.narration.numbers.words import Gap, Word


def special(words: Sequence[Word], at: int) -> Expression | None:
    """Numbers that are names, orders or clock times, and dozens and pairs."""
    low, text = words[at].low, words[at].text
    if ":" in text and len(text) > 1:
        hours, minutes = text.split(":")[:2]
        return Expression(at, at + 1, (int(hours) + Fraction(int(minutes), 60),), form="clock")
    return clock(words, at) or label(words, at, low, text) or dozen(words, at, low) or ordinal(words, at, low)


def clock(words: Sequence[Word], at: int) -> Expression | None:
    """ "half past six", "a quarter to five"."""
    first = at
    if words[at].low == "a" and near(words, at + 1) and words[at + 1].low == "quarter":
        at += 1
    if words[at].low not in ("half", "quarter") or not near(words, at + 2) or words[at + 1].low not in ("past", "to"):
        return None
    hour = cardinal(words, at + 2)
    part = Fraction(1, 4 if words[at].low == "quarter" else 2)
    if hour is None or not 1 <= hour[0] <= 12 or (words[at + 1].low == "to" and part == Fraction(1, 2)):
        return None
    return Expression(first, hour[1], (hour[0] + (part if words[at + 1].low == "past" else -part),), form="clock")


def label(words: Sequence[Word], at: int, low: str, text: str) -> Expression | None:
    """ "number two", "No. 8", "#8", "M8", "T25": a name with a number in it."""
    if low in ("number", "no", "#", "nr") and near(words, at + 1) and low != "no":
        named = cardinal(words, at + 1)
        gauge = low == "#" or (named and near(words, named[1]) and words[named[1]].low in ("screw", "screws"))
        return Expression(at, named[1], (named[0],), form="gauge" if gauge else "label") if named else None
    glued = at + 1 < len(words) and words[at + 1].gap == Gap.NONE and not words[at + 1].hyphen
    if text in ("M", "m", "T", "TX", "PH", "PZ", "P", "FFP", "C") and glued:
        size = figure(words[at + 1].text)
        if size is not None:
            return Expression(at, at + 2, (size,), "mm" if text in "Mm" else "", "number" if text in "Mm" else "label")
    return None


def dozen(words: Sequence[Word], at: int, low: str) -> Expression | None:
    """ "a dozen", "two dozen", "half a dozen", "a pair", "a couple"."""
    if low == "score" and at and words[at - 1].low == "a" and near(words, at + 1) and words[at + 1].low == "of":
        return Expression(at - 1, at + 1, (Fraction(20),), form="dozen")
    if low in DOZENS:
        return Expression(at, at + 1, (Fraction(DOZENS[low]),), form="dozen") if low not in ("score",) else None
    if low == "half" and near(words, at + 2) and words[at + 1].low == "a" and words[at + 2].low == "dozen":
        return Expression(at, at + 3, (Fraction(6),), form="dozen")
    if low in ("a", "another") and near(words, at + 1) and words[at + 1].low in ("dozen", "pair", "couple"):
        return Expression(at if low == "a" else at + 1, at + 2, (Fraction(DOZENS[words[at + 1].low]),), form="dozen")
    several = cardinal(words, at)
    if several and near(words, several[1]) and words[several[1]].low in ("dozen", "pair", "pairs"):
        return Expression(at, several[1] + 1, (several[0] * DOZENS[words[several[1]].low],), form="dozen")
    return None


def ordinal(words: Sequence[Word], at: int, low: str) -> Expression | None:
    """ "first", "third", "fourteenth", "2nd"; not where it is the lower half of a fraction."""
    if low in ORDINALS:
        part = fraction(words, at)
        return None if part else Expression(at, at + 1, (Fraction(ORDINALS[low]),), form="ordinal")
    tens = cardinal(words, at)
    if (
        tens
        and near(words, tens[1])
        and words[tens[1]].gap == Gap.NONE
        and words[tens[1]].low in ("st", "nd", "rd", "th")
    ):
        return Expression(at, tens[1] + 1, (tens[0],), form="ordinal")
    if (
        tens
        and tens[0] in (20, 30)
        and near(words, tens[1])
        and words[tens[1]].low in ORDINALS
        and not fraction(words, at)
    ):
        number = ORDINALS[words[tens[1]].low]
        if number < 10:
            return Expression(at, tens[1] + 1, (tens[0] + number,), form="ordinal")
    return None


def lone(words: Sequence[Word], at: int) -> Expression | None:
    """Shares and times over without a measure: "half", "halfway", "twice", "a podcast and a half"."""
    low = words[at].low
    if low in ("half", "halfway", "halves", "quarter", "quarters"):
        hour = near(words, at + 1) and low == "half" and words[at + 1].low in CARDINALS  # "half eight"
        if hour:
            return Expression(at, at + 2, (CARDINALS[words[at + 1].low] + Fraction(1, 2),), form="clock")
        return Expression(at, at + 1, (Fraction(1, 4 if "quarter" in low else 2),), form="ratio")
    if low == "single" and at and words[at - 1].low == "a" and near(words, at + 1) and words[at + 1].low not in BEDS:
        return Expression(at - 1, at + 1, (Fraction(1),))
    if low in ("inch", "metre", "meter") and at and words[at - 1].low in ("same", "full"):  # "that same inch between"
        return Expression(at, at + 1, (Fraction(1),), UNITS[low])
    if low in ("twice", "thrice"):
        return Expression(at, at + 1, (Fraction(2 if low == "twice" else 3),), form="times")
    if (
        low == "a"
        and at + 4 < len(words)
        and words[at + 1].low not in CARDINALS
        and [w.low for w in words[at + 2 : at + 5]] == ["and", "a", "half"]
    ):
        return Expression(at, at + 5, (Fraction(3, 2),), form="ratio")
    return None


DETERMINERS = frozenset(
    "the this that these those each every which any another no first last next other same big small long short middle "
    "inside outside my your our like such some good bad right left single spare proper".split()
)
BEDS = frozenset("bed mattress size day time thing one frame room sheet from".split())
STEPS = frozenset("step part operation episode chapter number phase stage day take shot scene".split())
GOES_ON = frozenset("in at on under down halfway through of into per".split())


def is_pronoun(words: Sequence[Word], at: int) -> bool:
    """Whether "one" stands for a thing ("the short one", "I built one for a cousin") and isn't a number."""
    if words[at].low == "ones":
        return True
    if words[at].low != "one" or (at + 1 < len(words) and words[at + 1].hyphen) or fraction(words, at):
        return False
    if (
        at and words[at - 1].low in ("each", "every", "another") and words[at].gap < Gap.COMMA
    ):  # "each one twenty-seven"
        return True
    if add_fraction(words, at + 1, Fraction(1)):
        return False
    before = words[at - 1].low if at and words[at].gap < Gap.COMMA else ""
    after = words[at + 1].low if near(words, at + 1) else ""
    if cardinal(words, at) != (Fraction(1), at + 1) or after in UNITS or after in ("dozen", "pair", "by"):
        return False
    if before in ("just", "only", "exactly") and (not after or after in GOES_ON):
        return False
    if after == "for" and near(words, at + 2) and words[at + 2].low in ("every", "each", "left", "right", "either"):
        return False
    if words[at].gap >= Gap.SENTENCE and at + 1 < len(words) and words[at + 1].gap >= Gap.SENTENCE:  # "One."
        return False
    if before in STEPS:
        return False
    if before == "the" and at > 1 and words[at - 2].low in ("just", "only"):
        return False
    if words[at].gap == Gap.COMMA and at + 1 < len(words) and words[at + 1].gap == Gap.COMMA:  # "two by six, one, ..."
        return words[at - 1].low not in (*CARDINALS, *PLURAL_CARDINALS) and not words[at - 1].text[-1:].isdigit()
    if before == "and" and after in ("that's", "at", "more", "in", "goes", "is"):
        return False
    if before in DETERMINERS:
        return not after or after in PRONOUN_TAILS or words[at - 1].low in ("another", "each", "every", "like")
    return not after or (after in PRONOUN_TAILS and after not in GOES_ON)


PRONOUN_TAILS = frozenset(
    "is and that's was with without for to from goes sits gets on in at will would you i we he she they so because "
    "but that which or has had can then as if out like and's really here there again".split()
)
