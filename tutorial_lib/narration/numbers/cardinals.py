"""Whole numbers as said: in words, in figures, pair-wise ("twenty-four ten"), digit-wise ("one four one oh")."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.lexicon import CARDINALS, DENOMINATORS, ONES, PLURAL_CARDINALS, SCALES, TENS, UNITS
from tutorial_lib.narration.numbers.words import Gap, Word

Read = tuple[Fraction, int]  # value, index of the word after it


def figure(text: str) -> Fraction | None:
    """The value of a plain figure ("1,920", "3.0"), None for anything else.

    >>> figure("1,920")
    Fraction(1920, 1)
    """
    bare = text.replace(",", "")
    return Fraction(bare) if bare.replace(".", "", 1).isdigit() and len(bare) < 16 else None


def near(words: Sequence[Word], at: int, most: Gap = Gap.BREAK) -> bool:
    """Whether a word exists and no more than a line break stands before it."""
    return at < len(words) and words[at].gap <= most


def tens_and_ones(words: Sequence[Word], at: int) -> Read | None:
    """A number below one hundred in words ("seventy-eight", "seventy eight", "nine")."""
    if at >= len(words):
        return None
    low = words[at].low
    if low in ONES:
        return Fraction(ONES[low]), at + 1
    if low not in TENS:
        return None
    value = Fraction(TENS[low])
    if near(words, at + 1) and 0 < ONES.get(words[at + 1].low, 0) < 10 and not starts_fraction(words, at + 1):
        return value + ONES[words[at + 1].low], at + 2
    return value, at + 1


def starts_fraction(words: Sequence[Word], at: int) -> bool:
    """Whether the word is a numerator ("three" of "three quarters") and not the end of a whole number."""
    if not near(words, at + 1):
        return False
    low = words[at + 1].low
    if low in ("thirty", "sixty") and near(words, at + 2):
        return words[at + 2].low in ("second", "seconds", "fourth", "fourths") and low[0] == words[at + 2].low[
            0
        ].replace("f", "s").replace("s", low[0])
    return low in DENOMINATORS and low not in ("half", "eight")


def cardinal(words: Sequence[Word], at: int) -> Read | None:
    """The longest whole number (or figure) that starts at a word.

    A figure takes a following "hundred" or "thousand"; words are also read pair-wise and digit-wise.
    """
    if at >= len(words):
        return None
    value = figure(words[at].text)
    if value is not None:
        return scaled(words, value, at + 1, figures=True)
    if words[at].low in ("a", "an") and near(words, at + 1) and words[at + 1].low in SCALES:
        return scaled(words, Fraction(1), at + 1)
    low = words[at].low
    if low == "hundred" and not (at and words[at - 1].low in ("few", "several", "couple", "many", "some")):
        return remainder(words, Fraction(100), at + 1, 100)  # "every hundred and fifty", "hundred mil"
    first = tens_and_ones(words, at)
    if first is None:
        return plural_number(words, at)
    return digit_wise(words, at) or scaled(words, first[0], first[1]) or first


def plural_number(words: Sequence[Word], at: int) -> Read | None:
    """A number named in the plural ("sixty-fives", "the twelves")."""
    low = words[at].low
    return (Fraction(PLURAL_CARDINALS[low]), at + 1) if low in PLURAL_CARDINALS else None


def scaled(words: Sequence[Word], value: Fraction, at: int, figures: bool = False) -> Read:
    """Goes on after a first group: hundreds and thousands, or a second group of a pair."""
    if near(words, at) and words[at].low in SCALES:
        scale = SCALES[words[at].low]
        value, at = remainder(words, value * scale, at + 1, scale)
        larger = near(words, at) and SCALES.get(words[at].low, 0) > scale  # "a hundred and five thousand"
        return scaled(words, value, at, figures=True) if larger else (value, at)
    if figures or value < 1:
        return value, at
    return paired(words, value, at)


def remainder(words: Sequence[Word], value: Fraction, at: int, scale: int) -> Read:
    """What follows "hundred" or "thousand" and is smaller than it."""
    start = at + 1 if near(words, at) and words[at].low == "and" else at
    if not near(words, start) or starts_fraction(words, start) or words[start].low in ("a", "an"):
        return value, at
    rest = tens_and_ones(words, start)
    if rest is None or rest[0] == 0:
        return value, at
    amount, stop = rest
    if near(words, stop) and words[stop].low in SCALES and SCALES[words[stop].low] < scale:
        amount, stop = remainder(words, amount * SCALES[words[stop].low], stop + 1, SCALES[words[stop].low])
    return (value + amount, stop) if amount < scale else (value, at)


def paired(words: Sequence[Word], value: Fraction, at: int) -> Read:
    """A number said in two groups: "one twenty", "ten seventy-five", "nine oh five", "twenty-four ten"."""
    if not near(words, at):
        return plural_tail(words, value, at)
    if words[at].low in ("oh", "o") and near(words, at + 1) and 0 < ONES.get(words[at + 1].low, 0) < 10:
        return value * 100 + ONES[words[at + 1].low], at + 2
    second = tens_and_ones(words, at)
    if second is None or not 10 <= second[0] < 100 or not pair_fits(words, value, second, at):
        return plural_tail(words, value, at)
    if near(words, second[1]) and words[second[1]].low in ("oh", "o"):  # "one fifty-three oh"
        return (value * 100 + second[0]) * 10, second[1] + 1
    tail = plural_tail(words, second[0], second[1])  # "one-twenty-fives"
    return value * 100 + tail[0], tail[1]


def plural_tail(words: Sequence[Word], value: Fraction, at: int) -> Read:
    """The plural end of a number in words: "sixty-fives", "one-tens"."""
    if near(words, at) and words[at].low in PLURAL_CARDINALS and (words[at].hyphen or value == 1):  # "one fifties"
        tail = PLURAL_CARDINALS[words[at].low]
        if value >= 20 and value % 10 == 0 and tail < 10:
            return value + tail, at + 1
        if 10 <= tail < 100:
            return value * 100 + tail, at + 1
    return value, at


def pair_fits(words: Sequence[Word], value: Fraction, second: Read, at: int) -> bool:
    """Whether two groups are one number, and not a count and a size ("four ten-foot", "two thirty-inch pieces")."""
    stop = second[1]
    if stop >= len(words) or words[stop].gap > Gap.BREAK:
        return True
    follower = words[stop].low
    tied = words[stop].hyphen and not words[at].hyphen
    unit = UNITS.get(follower)
    if follower in ("by", "x", "×"):
        return words[at].hyphen or value * 100 + second[0] >= 1000 or value > 12
    if unit == "ft" or (unit == "in" and value * 100 + second[0] > 144):
        return False
    if unit in ("m", "gauge", "years", "days", "weeks"):
        return False
    return not (tied and unit is not None and value <= 12 and unit != "grit")


def digit_wise(words: Sequence[Word], at: int) -> Read | None:
    """Three digits or more, one by one ("one four one oh" is 1410)."""
    digits = ""
    stop = at
    while stop < len(words) and len(digits) < 9 and (stop == at or words[stop].gap <= Gap.BREAK):
        low = words[stop].low
        digit = 0 if low in ("oh", "o") and digits else CARDINALS.get(low)
        if digit is None or digit > 9:
            break
        digits += str(digit)
        stop += 1
    if len(digits) < 3 or (stop < len(words) and starts_fraction(words, stop - 1)):
        return None
    if near(words, stop) and (
        words[stop].low in SCALES
        or words[stop].low == "point"
        or (words[stop].low == "by" and len(digits) == 3 and not words[stop - 1].hyphen)
    ):
        return None
    return Fraction(int(digits)), stop
