"""Whole numbers as said: in words, in figures, pair-wise ("twenty-four ten"), digit-wise ("one four one oh")."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from tutorial_lib.narration.numbers.lexicon import CARDINALS, DENOMINATORS, ONES, PLURAL_CARDINALS, SCALES, TENS, UNITS
from tutorial_lib.narration.numbers.words import Gap, Word

Read = tuple[Fraction, int]  # value, index of the word after it


def figure(text: str) -> Fraction | None:
    """The value of a plain figure ("1,920", "3.0"), None for anything else.

    >>> figure("1,920")
    Fraction(1920, 1)
    """
    bare = text.replace(",", "")
    return Fraction(bare) if bare.replace(".", "", 1).isdecimal() and len(bare) < 16 else None


def whole_figure(text: str, most: int) -> int | None:
    """The value of a figure of no more than ``most`` digits, None for anything else.

    >>> whole_figure("16", 2), whole_figure("160", 2), whole_figure("²", 2)
    (16, None, None)
    """
    return int(text) if text.isdecimal() and len(text) <= most else None


def near(words: Sequence[Word], at: int, most: Gap = Gap.BREAK) -> bool:
    """Whether a word exists and no more than a line break stands before it."""
    return at < len(words) and words[at].gap <= most


def word_before(words: Sequence[Word], at: int) -> str:
    """The word right before one, "" after a pause."""
    return words[at - 1].low if at and words[at].gap < Gap.COMMA else ""


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
    scale = scale_alone(words, at)
    if scale is not None:
        return scale
    first = tens_and_ones(words, at)
    if first is None:
        return plural_number(words, at)
    return digit_wise(words, at) or scaled(words, *first)


def scale_alone(words: Sequence[Word], at: int) -> Read | None:
    """ "A hundred", or "hundred" alone ("every hundred and fifty", "hundred mil", "thousand nine hundred")."""
    low = words[at].low
    if low in ("a", "an"):
        scale = near(words, at + 1) and words[at + 1].low in SCALES
        return scaled(words, Fraction(1), at + 1) if scale else None
    if low not in ("hundred", "thousand") or (at and words[at - 1].low in LOOSE):
        return None
    return remainder(words, Fraction(SCALES[low]), at + 1, SCALES[low])


LOOSE = ("few", "several", "couple", "many", "some")  # "a few hundred" is no number


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
    joined = near(words, at) and words[at].low == "and"
    start = at + joined
    if not near(words, start) or starts_fraction(words, start):
        return value, at
    rest = tens_and_ones(words, start) or (figure_after_and(words, start) if joined else None)
    if rest is None or rest[0] == 0:
        return value, at
    amount, stop = below_scale(words, *rest, scale)
    return (value + amount, stop) if amount < scale else (value, at)


def below_scale(words: Sequence[Word], amount: Fraction, at: int, scale: int) -> Read:
    """The rest of a number, with a smaller scale of its own ("a thousand nine hundred twenty")."""
    smaller = SCALES.get(words[at].low, scale) if near(words, at) else scale
    return remainder(words, amount * smaller, at + 1, smaller) if smaller < scale else (amount, at)


def figure_after_and(words: Sequence[Word], at: int) -> Read | None:
    """The rest of a number in figures ("9 hundred and 2", "a hundred and 60")."""
    found = whole_figure(words[at].text, 2)
    tied = near(words, at + 1) and (words[at + 1].hyphen or whole_figure(words[at + 1].text, 9) is not None)
    return None if found is None or tied else (Fraction(found), at + 1)


def paired(words: Sequence[Word], value: Fraction, at: int) -> Read:
    """A number said in two groups: "one twenty", "ten seventy-five", "nine oh five", "twenty-four ten"."""
    if not near(words, at):
        return plural_tail(words, value, at)
    if words[at].low in NOUGHT:
        ones = ONES.get(words[at + 1].low, 0) if near(words, at + 1) else 0
        return (value * 100 + ones, at + 2) if 0 < ones < 10 else plural_tail(words, value, at)
    second = second_group(words, value, at)
    if second is None or not 10 <= second[0] < 100 or not pair_fits(words, value, second, at):
        return plural_tail(words, value, at)
    if near(words, second[1]) and words[second[1]].low in NOUGHT:  # "one fifty-three oh"
        return (value * 100 + second[0]) * 10, second[1] + 1
    tail = plural_tail(words, second[0], second[1])  # "one-twenty-fives"
    return value * 100 + tail[0], tail[1]


NOUGHT = ("oh", "o")


def second_group(words: Sequence[Word], value: Fraction, at: int) -> Read | None:
    """The second group of a number; of "one eighty one eighty", which is 180 twice, without the second "one"."""
    second = tens_and_ones(words, at)
    if second and second[0] % 10 == value and second[1] == at + 2 and said_again(words, second[1]):
        return second[0] - value, at + 1
    return second


def said_again(words: Sequence[Word], at: int) -> bool:
    """Whether the words before a place are said a second time there ("one eighty" of "one eighty one eighty")."""
    return near(words, at) and at >= 2 and words[at].low in TENS and words[at].low == words[at - 2].low


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
    if stands_apart(words, value, at, stop):
        return False
    if stop >= len(words) or words[stop].gap > Gap.BREAK:
        return True
    joined = value * 100 + second[0]
    if words[stop].low in ("by", "x", "×"):
        return words[at].hyphen or joined >= 1000 or value > 12 or by_larger(words, stop + 1)
    tied = words[stop].hyphen and not words[at].hyphen
    return not is_size(UNITS.get(words[stop].low), value, joined, tied)


def stands_apart(words: Sequence[Word], value: Fraction, at: int, stop: int) -> bool:
    """Whether two groups are numbers of their own: after another number, or items of a list."""
    first = at - 1 - (value > 20 and value % 10 > 0)
    return follows_number(words, first) or (value >= 10 and is_listed(words, stop))


def is_size(unit: str | None, count: Fraction, joined: Fraction, tied: bool) -> bool:
    """Whether the unit after two groups makes the second a size of its own, and the first a count."""
    if unit in ("ft", "m", "gauge", "years", "days", "weeks"):
        return True
    return (unit == "in" and joined > 144) or (tied and unit not in (None, "grit") and count <= 12)


def by_larger(words: Sequence[Word], at: int) -> bool:
    """Whether so large a number, or metres, follow "by" ("one sixty by two ten", "... by two thousand")."""
    if near(words, at) and (figure(words[at].text) or 0) >= 100:
        return True
    if not near(words, at + 1) or words[at].low not in ONES:
        return False
    low = words[at + 1].low
    return low in TENS or low == "ten" or low in SCALES or UNITS.get(low) == "m"


def is_listed(words: Sequence[Word], stop: int) -> bool:
    """Whether two groups are items of a list without commas ("twelve fourteen and twenty-four", "fifty sixty thirty")
    or a count and a size ("twelve fourteen and a half inch pieces")."""
    if not near(words, stop):
        return False
    joined = words[stop].low == "and" and near(words, stop + 1)
    return tens_and_ones(words, stop + joined) is not None or (joined and words[stop + 1].low == "a")


def follows_number(words: Sequence[Word], at: int) -> bool:
    """Whether a number in words stands right before a word ("three" before the "four" of "three four twenty")."""
    return (
        at > 0 and words[at].gap <= Gap.BREAK and not words[at].hyphen and 0 < CARDINALS.get(words[at - 1].low, 0) < 20
    )


def digit_wise(words: Sequence[Word], at: int) -> Read | None:
    """Three digits or more, one by one ("one four one oh" is 1410); not counts ("two two one", "one two three")."""
    stop = at
    digits: list[int] = []
    while stop < len(words) and len(digits) < 9 and (stop == at or words[stop].gap <= Gap.BREAK):
        digit = digit_said(words[stop], bool(digits))
        if digit > 9:
            break
        digits.append(digit)
        stop += 1
    if len(digits) < 3 or counts_one_by_one(digits) or goes_on(words, stop, len(digits)):
        return None
    return Fraction(int("".join(map(str, digits)))), stop


def digit_said(word: Word, inside: bool) -> int:
    """The digit a word is, 10 for none; "oh" only inside a number."""
    return 0 if inside and word.low in NOUGHT else CARDINALS.get(word.low, 10)


def counts_one_by_one(digits: Sequence[int]) -> bool:
    """Whether single digits are counts said in turn: counting up, one value again and again, small counts."""
    up = all(b == a + 1 for a, b in pairwise(digits))
    return up or len(set(digits)) == 1 or (max(digits) <= 4 and 0 not in digits and len(set(digits)) < len(digits))


def goes_on(words: Sequence[Word], stop: int, count: int) -> bool:
    """Whether the digits before a word belong to what follows: a fraction, a scale, a point, a timber size."""
    if stop < len(words) and starts_fraction(words, stop - 1):
        return True
    if not near(words, stop):
        return False
    low = words[stop].low
    return (
        low in SCALES or low in ("point", "times", *TENS) or (low == "by" and count == 3 and not words[stop - 1].hyphen)
    )
