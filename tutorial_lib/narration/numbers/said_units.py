"""Units and fractions that belong to the number before them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import cardinal, near, tens_and_ones, whole_figure
from tutorial_lib.narration.numbers.fractions_said import ARTICLES, fraction, is_number, lost_slash
from tutorial_lib.narration.numbers.lexicon import CARDINALS, PLURAL_CARDINALS, UNITS
from tutorial_lib.narration.numbers.words import Gap, Word


def unit_at(words: Sequence[Word], at: int, value: Fraction) -> str | None:
    """The unit a word is, given that a number stands before it."""
    if not near(words, at):
        return None
    low = words[at].low
    if low in SIGNS:
        return UNITS.get(low) if words[at].gap == Gap.NONE and not is_possessive(words, at) else None
    if low in SHORT:
        return short_unit(words, at)
    unit = unit_by_next(words, at)
    return None if unit == "ft" and names_part(words, at, value) else unit


SIGNS = ("'", "’", "′", '"', "”", "″", "''")
SHORT = ("in", "m", "h", "k", "p", "min", "g")


def unit_by_next(words: Sequence[Word], at: int) -> str | None:
    """The unit a word is, by the word after it where that decides ("per cent", "five below out", "two times four")."""
    low, after = words[at].low, words[at + 1].low if near(words, at + 1) else ""
    if low == "per" and after == "cent":
        return "pct"
    if low == "below" and after in ("out", "outside", "zero", "freezing"):
        return "f_below"
    if low == "second":
        return None
    return UNITS.get(low) if UNITS.get(low) != "times" or not cardinal(words, at + 1) else None


def names_part(words: Sequence[Word], at: int, value: Fraction) -> bool:
    """Whether "foot" after a small number is an end of the bed ("one foot rail")."""
    return words[at].low in ("foot", "feet") and value <= 2 and not words[at].hyphen and foot_of_bed(words, at)


def is_possessive(words: Sequence[Word], at: int) -> bool:
    """Whether an apostrophe has its "s" after it and is no sign of feet."""
    return at + 1 < len(words) and words[at + 1].gap == Gap.NONE and words[at + 1].low == "s"


def short_unit(words: Sequence[Word], at: int) -> str | None:
    """ "in" after a number is a preposition unless glued to it or at the end of a clause; "m" follows a figure."""
    word = words[at]
    if word.low == "m":
        return "m" if word.gap == Gap.NONE or words[at - 1].text[-1].isdecimal() else None
    if word.low != "in":
        return {"h": "h", "k": "px", "p": "pence", "min": "min", "g": "g"}[word.low] if word.gap == Gap.NONE else None
    if not words[at - 1].text[-1:].isdecimal() and words[at - 1].text not in "½¼¾⅛⅜⅝⅞⅓⅔":
        return None
    return "in" if word.gap == Gap.NONE or ends_size(words, at + 1) else None


def ends_size(words: Sequence[Word], at: int) -> bool:
    """Whether a size ends before a word: at a pause, or before what it is a size of."""
    return at >= len(words) or words[at].gap >= Gap.COMMA or words[at].low in ("x", "by", "long", "wide")


def foot_of_bed(words: Sequence[Word], at: int) -> bool:
    """Whether "foot" names an end of the bed ("a foot rail", "the foot end", "the foot of the bed")."""
    after, then = (words[i].low if near(words, i) else "" for i in (at + 1, at + 2))
    if after == "of":
        return not near(words, at + 2) or then in ("the", "my", "your", "this")
    return after in ("rail", "rails", "end", "ends", "board", "post")


def point(words: Sequence[Word], value: Fraction, at: int) -> tuple[Fraction, int] | None:
    """Decimals in words: "two point four", "two point oh eight", "two hundred point seventy-one", "one comma eight"."""
    if not (near(words, at) and words[at].low in ("point", "comma")):
        return None
    tens = tens_and_ones(words, at + 1) if near(words, at + 1) else None
    if tens and tens[0] >= 10:
        return value + Fraction(int(tens[0]), 100), tens[1]
    digits, stop = digits_after(words, at + 1)
    return (value + Fraction(int(digits), 10 ** len(digits)), stop) if digits else None


def digits_after(words: Sequence[Word], at: int) -> tuple[str, int]:
    """The digits said one by one behind a point, or one figure, and the word after them."""
    digits = ""
    while near(words, at) and len(digits) < 12:
        digit = decimal_digits(words[at])
        if not digit or (len(digit) > 1 and digits):
            break
        digits, at = digits + digit, at + 1
    return digits, at


def decimal_digits(word: Word) -> str:
    """The digits a word adds behind the point; "" when it is none."""
    if whole_figure(word.text, 6) is not None:
        return word.text
    digit = 0 if word.low in ("oh", "o") else (CARDINALS | PLURAL_CARDINALS).get(word.low, 10)
    return str(digit) if digit < 10 else ""


def add_fraction(words: Sequence[Word], at: int, whole: Fraction) -> tuple[Fraction, int] | None:
    """A fraction that belongs to the whole number before it, with or without "and"."""
    if not near(words, at) or whole.denominator != 1:
        return None
    linked = words[at].low in ("and", "&", "n")
    start = at + 1 if linked else at
    if not near(words, start):
        return None
    part = fraction(words, start, after_whole=linked) or fraction_in_figures(words, at, start)
    if part is None or part[0] >= 1 or not (linked or joins(words, whole, start, part[1])):
        return None
    return whole + part[0], part[1]


def fraction_in_figures(words: Sequence[Word], at: int, start: int) -> tuple[Fraction, int] | None:
    """A fraction without its bar after a whole number in figures ("37 3 4"), and not a list ("1 2 3 4")."""
    counted = near(words, at - 1) and is_number(words, at - 2)
    figures = start > at or (words[at - 1].text[-1:].isdecimal() and not counted)
    return lost_slash(words, start, whole=True) if figures else None


def joins(words: Sequence[Word], whole: Fraction, start: int, stop: int) -> bool:
    """Whether a fraction without "and" belongs to the whole number and isn't a measure of its own."""
    apart = words[start].low in (*ARTICLES, "half", "quarter", "eighth")
    return not apart and not counts_fasteners(words, whole, start, stop)


def counts_fasteners(words: Sequence[Word], whole: Fraction, start: int, stop: int) -> bool:
    """ "two three-eighths bolts" is a count and a size."""
    tied = start + 1 < stop and words[start + 1].hyphen
    noun = words[stop].low if near(words, stop) else ""
    return tied and whole <= 12 and noun in ("bolts", "screws", "dowels", "lags", "holes", "bits")
