"""Fractions as they are said or captioned: "five eighths", "a half", "3/8", "seven sixty-fourths", "quarter-inch"."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import Read, near, tens_and_ones, whole_figure
from tutorial_lib.narration.numbers.lexicon import CARDINALS, DENOMINATORS, UNITS, VULGAR
from tutorial_lib.narration.numbers.words import Gap, Word

ARTICLES = ("a", "an")
COMMON = (2, 4, 8, 16, 32, 64, 1000)  # "an eighth" is a size; "a third" is mostly an ordinal


def slashed(text: str) -> Fraction | None:
    """The value of "5/8" or a vulgar-fraction sign, None for anything else."""
    if text in VULGAR:
        return VULGAR[text]
    for bar in "/⁄∕":
        top, found, bottom = text.partition(bar)
        above, below = whole_figure(top.strip(), 4), whole_figure(bottom.strip(), 3)
        if found and above is not None and below:
            return Fraction(above, below)
    return None


def denominator(words: Sequence[Word], at: int, within: bool = True) -> tuple[int, int] | None:
    """The lower half of a fraction: "eighths", "thirty-seconds", "64ths"."""
    if at >= len(words) or (within and not near(words, at)):
        return None
    low, after = words[at].low, words[at + 1].low if near(words, at + 1) else ""
    if (low, after.rstrip("s")) in THIRTY_SECONDS:  # "3 30 seconds", as captions hear it
        return THIRTY_SECONDS[low, after.rstrip("s")], at + 2
    if low in ("32", "64", "16", "8") and after in ("nds", "nd", "ths", "th"):
        return int(low), at + 2
    return (DENOMINATORS[low], at + 1) if low in DENOMINATORS else None


THIRTY_SECONDS = {("thirty", "second"): 32, ("30", "second"): 32, ("sixty", "fourth"): 64, ("60", "fourth"): 64,
                  ("sixty", "force"): 64, ("60", "force"): 64}  # fmt: skip


def fraction(words: Sequence[Word], at: int, after_whole: bool = False) -> Read | None:
    """A proper fraction that starts at a word.

    Args:
        words: the transcript.
        at: where to look.
        after_whole: a whole number and "and" stand before it, so that "a third" can only be a fraction.
    """
    if at >= len(words):
        return None
    written = slashed(words[at].text)
    if written is not None:
        return (written, past_ending(words, at + 1)) if written.denominator > 1 else None
    if words[at].low in (*ARTICLES, "one"):
        return with_article(words, at, after_whole)
    top = numerator(words, at)
    if top is not None:
        below = denominator(words, top[1])
        if below and top[0] < below[0] and fits_eight(words, top[0], below, after_whole):
            return Fraction(top[0], below[0]), below[1]
    return bare_part(words, at) or lost_slash(words, at)


def past_ending(words: Sequence[Word], at: int) -> int:
    """Past an ending glued to a written fraction ("3/4's", "3/8ths")."""
    glued = [w.low for w in words[at : at + 2] if w.gap == Gap.NONE]
    if glued[:2] in (["'", "s"], ["’", "s"]):
        return at + 2
    return at + 1 if glued[:1] and glued[0] in ("s", "th", "ths") else at


def lost_slash(words: Sequence[Word], at: int, whole: bool = False) -> Read | None:
    """A fraction of an inch whose bar the captions lost ("3 8", "37 3 4", "76 and 7 16").

    Args:
        words: the transcript.
        at: the figure that may be its upper half.
        whole: a whole number stands before it.
    """
    halves = tape_fraction(words, at)
    if halves is None:
        return None
    top, below = halves
    may_be = whole or (below >= 8 and not beside_number(words, at))
    return (Fraction(top, below), at + 2) if may_be and ends_measure(words, at + 2, below, whole) else None


def tape_fraction(words: Sequence[Word], at: int) -> tuple[int, int] | None:
    """Two figures that are the halves of a fraction on a tape."""
    if not near(words, at + 1) or words[at + 1].hyphen or words[at].hyphen:
        return None
    top, below = whole_figure(words[at].text, 2), whole_figure(words[at + 1].text, 2)
    return (top, below) if top and below in TAPE and top < below and top % 2 else None


def beside_number(words: Sequence[Word], at: int) -> bool:
    """Whether a number stands right before or after two figures."""
    return is_number(words, at - 1) or is_number(words, at + 2)


TAPE = (2, 4, 8, 16, 32, 64)  # parts of an inch on a tape


def is_number(words: Sequence[Word], at: int) -> bool:
    """Whether a word is a number, in words or figures."""
    return 0 <= at < len(words) and (words[at].low in CARDINALS or words[at].text[:1].isdecimal())


def ends_measure(words: Sequence[Word], at: int, below: int, whole: bool) -> bool:
    """Whether two figures before a word can be a fraction, and not counts or a count and a size."""
    if not near(words, at):
        return True
    low = words[at].low
    if low in ("by", "x", "×"):
        return below >= 8
    if words[at].hyphen or UNITS.get(low, "in") != "in" or low in ("ths", "th", "nds"):
        return False
    return whole or not low.endswith("s") or len(low) < 4 or low.endswith(("ss", "'s", "us", "is"))


AFTER_EIGHTHS = frozenset(
    "by inch of bolt bit drill long thick wide deep short shy proud play clearance overhang reveal gap".split()
)


def fits_eight(words: Sequence[Word], top: int, below: tuple[int, int], after_whole: bool = False) -> bool:
    """ "five eight inch" is five eighths misheard; "five eight", "four eight-inch" and "two eight inch" aren't."""
    if words[below[1] - 1].low == "eights":  # "three eights by six", misheard; "five eights" are boards
        measured = near(words, below[1]) and words[below[1]].low in AFTER_EIGHTHS
        return top % 2 == 1 and top < below[0] and (after_whole or measured)
    if words[below[1] - 1].low != "eight":
        return True
    inch = near(words, below[1]) and words[below[1]].low in ("inch", "inches") and not words[below[1]].hyphen
    return inch and top % 2 == 1


def numerator(words: Sequence[Word], at: int) -> tuple[int, int] | None:
    """The upper half of a fraction, in words or figures."""
    written = whole_figure(words[at].text, 2)
    if written is not None:
        return written, at + 1
    found = tens_and_ones(words, at)
    if found and found[0] in (20, 30, 40, 50, 60) and near(words, found[1]):  # "twenty-five thirty-seconds"
        ones, tied = CARDINALS.get(words[found[1]].low, 0), denominator(words, found[1] + 1)
        if 0 < ones < 10 and tied and found[0] + ones < tied[0]:
            return int(found[0]) + ones, found[1] + 1
    return (int(found[0]), found[1]) if found and found[0] > 0 else None


def with_article(words: Sequence[Word], at: int, after_whole: bool) -> Read | None:
    """ "a half", "an eighth", "a thirty-second of an inch"; "a third" only where it can't be an ordinal."""
    below = denominator(words, at + 1)
    if below is None or (words[below[1] - 1].low == "eight" and not of_an_inch(words, below[1])):
        return None
    if words[at].low == "one":
        return None if words[at + 1].low.endswith("s") else (Fraction(1, below[0]), below[1])
    surely = below[0] in COMMON or after_whole or is_shared(words, below[1]) or measures(words, below[1])
    return (Fraction(1, below[0]), below[1]) if surely else None


def is_shared(words: Sequence[Word], at: int) -> bool:
    """Whether "each" or "of" follows, so that "a third" is a share."""
    return at < len(words) and words[at].low in ("each", "apiece", "of")


def of_an_inch(words: Sequence[Word], at: int) -> bool:
    """Whether "of an inch" follows, which makes a misheard "an eight" an eighth."""
    return [w.low for w in words[at : at + 3]] == ["of", "an", "inch"]


def measures(words: Sequence[Word], at: int) -> bool:
    """Whether a length unit follows, with or without "of an"."""
    at = skip_of(words, at)
    return near(words, at) and UNITS.get(words[at].low) in ("in", "mm", "cm", "m", "ft")


def skip_of(words: Sequence[Word], at: int) -> int:
    """Past "of an", "of a", "an" before a unit."""
    start = at
    if near(words, at) and words[at].low == "of":
        at += 1
    if near(words, at) and words[at].low in ARTICLES:
        at += 1
    return at if near(words, at) and words[at].low in UNITS else start


def bare_part(words: Sequence[Word], at: int) -> Read | None:
    """A part without a number before a unit: "quarter inch", "eighth-inch", "half an inch", "half a millimetre"."""
    below = denominator(words, at, within=False)
    if below is None or words[at].low == "eight":
        return None
    stop = skip_of(words, below[1])
    if near(words, stop) and UNITS.get(words[stop].low) in ("in", "mm", "cm", "m", "ft", "h", "lb", "kg"):
        return Fraction(1, below[0]), below[1]
    return None
