"""Numbers that are names, orders, clock times, shares or dozens."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import cardinal, figure, near
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.fractions_said import fraction
from tutorial_lib.narration.numbers.lexicon import CARDINALS, DOZENS, LENGTHS, ORDINALS, UNITS
from tutorial_lib.narration.numbers.one import BEDS
from tutorial_lib.narration.numbers.words import Gap, Word


def special(words: Sequence[Word], at: int) -> Expression | None:
    """Numbers that are names, orders or clock times, and dozens and pairs."""
    low, text = words[at].low, words[at].text
    if ":" in text and len(text) > 1:
        hours, minutes = text.split(":")[:2]
        return Expression(first=at, last=at + 1, values=(int(hours) + Fraction(int(minutes), 60),), form="clock")
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
    return Expression(
        first=first, last=hour[1], values=(hour[0] + (part if words[at + 1].low == "past" else -part),), form="clock"
    )


def label(words: Sequence[Word], at: int, low: str, text: str) -> Expression | None:
    """ "number two", "No. 8", "#8", "M8", "T25": a name with a number in it."""
    if low in ("number", "no", "#", "nr") and near(words, at + 1) and low != "no":
        named = cardinal(words, at + 1)
        gauge = low == "#" or (named and near(words, named[1]) and words[named[1]].low in ("screw", "screws"))
        return (
            Expression(first=at, last=named[1], values=(named[0],), form="gauge" if gauge else "label")
            if named
            else None
        )
    glued = at + 1 < len(words) and words[at + 1].gap == Gap.NONE and not words[at + 1].hyphen
    if text in ("M", "m", "T", "TX", "PH", "PZ", "P", "FFP", "C") and glued:
        size = figure(words[at + 1].text)
        if size is not None:
            return Expression(
                first=at,
                last=at + 2,
                values=(size,),
                unit="mm" if text in "Mm" else "",
                form="number" if text in "Mm" else "label",
            )
    return None


def dozen(words: Sequence[Word], at: int, low: str) -> Expression | None:
    """ "a dozen", "two dozen", "half a dozen", "a pair", "a couple", and "a couple of feet" as a length."""
    if low == "score" and at and words[at - 1].low == "a" and near(words, at + 1) and words[at + 1].low == "of":
        return Expression(first=at - 1, last=at + 1, values=(Fraction(20),), form="dozen")
    half = half_dozen(words, at)
    if half:
        return Expression(first=at, last=half, values=(Fraction(6),), form="dozen")
    if low in DOZENS:
        return lengths_loose(words, at, at + 1) if low != "score" else None
    if low in ("a", "another") and near(words, at + 1) and words[at + 1].low in ("dozen", "pair", "couple"):
        return lengths_loose(words, at if low == "a" else at + 1, at + 2)
    several = cardinal(words, at)
    if several and near(words, several[1]) and words[several[1]].low in ("dozen", "dozens", "pair", "pairs"):
        return Expression(
            first=at, last=several[1] + 1, values=(several[0] * DOZENS[words[several[1]].low],), form="dozen"
        )
    return None


def half_dozen(words: Sequence[Word], at: int) -> int:
    """Where "half a dozen", "a half dozen" or "half-dozen" ends, 0 when it isn't said."""
    for said in (["half", "a", "dozen"], ["a", "half", "dozen"], ["half", "dozen"]):
        if [w.low for w in words[at : at + len(said)]] == said and near(words, at + len(said) - 1):
            return at + len(said)
    return 0


def lengths_loose(words: Sequence[Word], first: int, stop: int) -> Expression:
    """A dozen, pair or couple; a length where its unit follows ("every couple of feet")."""
    value = Fraction(DOZENS[words[stop - 1].low])
    at = stop + (near(words, stop) and words[stop].low == "of")
    unit = UNITS.get(words[at].low, "") if near(words, at) else ""
    if value == 2 and unit in LENGTHS and words[at].low != "in":
        return Expression(first=first, last=at + 1, values=(value,), unit=unit)
    return Expression(first=first, last=stop, values=(value,), form="dozen")


def ordinal(words: Sequence[Word], at: int, low: str) -> Expression | None:
    """ "first", "third", "fourteenth", "2nd"; not where it is the lower half of a fraction."""
    if low in ORDINALS:
        part = fraction(words, at)
        return None if part else Expression(first=at, last=at + 1, values=(Fraction(ORDINALS[low]),), form="ordinal")
    tens = cardinal(words, at)
    if (
        tens
        and near(words, tens[1])
        and words[tens[1]].gap == Gap.NONE
        and words[tens[1]].low in ("st", "nd", "rd", "th")
    ):
        return Expression(first=at, last=tens[1] + 1, values=(tens[0],), form="ordinal")
    if (
        tens
        and tens[0] in (20, 30)
        and near(words, tens[1])
        and words[tens[1]].low in ORDINALS
        and not fraction(words, at)
    ):
        number = ORDINALS[words[tens[1]].low]
        if number < 10:
            return Expression(first=at, last=tens[1] + 1, values=(tens[0] + number,), form="ordinal")
    return None


def lone(words: Sequence[Word], at: int) -> Expression | None:
    """Shares and times over without a measure: "half", "halfway", "twice", "a podcast and a half"."""
    low = words[at].low
    if low in ("half", "halfway", "halves", "quarter", "quarters"):
        hour = near(words, at + 1) and low == "half" and words[at + 1].low in CARDINALS  # "half eight"
        if hour:
            return Expression(
                first=at, last=at + 2, values=(CARDINALS[words[at + 1].low] + Fraction(1, 2),), form="clock"
            )
        return Expression(first=at, last=at + 1, values=(Fraction(1, 4 if "quarter" in low else 2),), form="ratio")
    if low == "single" and at and words[at - 1].low == "a" and near(words, at + 1) and words[at + 1].low not in BEDS:
        return Expression(first=at - 1, last=at + 1, values=(Fraction(1),))
    if low in ("inch", "metre", "meter") and at and words[at - 1].low in ("same", "full"):  # "that same inch between"
        return Expression(first=at, last=at + 1, values=(Fraction(1),), unit=UNITS[low])
    if low == "none" and is_answer(words, at):
        return Expression(first=at, last=at + 1, values=(Fraction(0),))
    if low in ("twice", "thrice"):
        return Expression(first=at, last=at + 1, values=(Fraction(2 if low == "twice" else 3),), form="times")
    return and_a_half(words, at)


def and_a_half(words: Sequence[Word], at: int) -> Expression | None:
    """ "a day and a half", "a podcast and a half": one and a half of a unit, or of anything."""
    said = [w.low for w in words[at : at + 5]]
    if len(said) < 5 or said[0] != "a" or said[1] in CARDINALS or said[2:] != ["and", "a", "half"]:
        return None
    unit = UNITS.get(said[1], "")
    return Expression(first=at, last=at + 5, values=(Fraction(3, 2),), unit=unit, form="number" if unit else "ratio")


def is_answer(words: Sequence[Word], at: int) -> bool:
    """Whether "none" counts ("how many? none", "none in the middle") and isn't "none of these" or "none the less"."""
    if near(words, at + 1):
        return words[at + 1].low in ("in", "on", "at", "here", "there", "under", "between")
    asked = {w.low for w in words[max(0, at - 8) : at]}
    return words[at].gap >= Gap.SENTENCE and {"how", "many"} <= asked
