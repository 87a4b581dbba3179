"""Numbers that are names, orders, clock times, shares or dozens."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import cardinal, figure, near, word_before
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.fractions_said import fraction
from tutorial_lib.narration.numbers.lexicon import (
    CARDINALS,
    DENOMINATORS,
    DOZENS,
    LENGTHS,
    ORDINALS,
    PLURAL_CARDINALS,
    UNITS,
)
from tutorial_lib.narration.numbers.one import BEDS, ends_number
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
    part = {"half": HALF, "quarter": QUARTER}.get(words[at].low)
    if part is None or not near(words, at + 2):
        return None
    hour = cardinal(words, at + 2)
    if hour is None or not 1 <= hour[0] <= 12:
        return None
    sign = PAST_TO.get((words[at + 1].low, part))
    return Expression(first=first, last=hour[1], values=(hour[0] + sign * part,), form="clock") if sign else None


QUARTER, HALF = Fraction(1, 4), Fraction(1, 2)
PAST_TO = {("past", HALF): 1, ("past", QUARTER): 1, ("to", QUARTER): -1}  # nobody says "half to"


def label(words: Sequence[Word], at: int, low: str, text: str) -> Expression | None:
    """ "number two", "No. 8", "#8", "M8", "T25": a name with a number in it."""
    if low in ("number", "#", "nr"):
        return numbered(words, at)
    glued = at + 1 < len(words) and words[at + 1].gap == Gap.NONE and not words[at + 1].hyphen
    size = figure(words[at + 1].text) if glued and text in GLUED else None
    if size is None:
        return None
    if text in "Mm":
        return Expression(first=at, last=at + 2, values=(size,), unit="mm")
    return Expression(first=at, last=at + 2, values=(size,), form="label")


def numbered(words: Sequence[Word], at: int) -> Expression | None:
    """ "number two", "#8"; with screws after it, or the sign, a gauge."""
    named = cardinal(words, at + 1) if near(words, at + 1) else None
    if named is None:
        return None
    screws = words[at].low == "#" or is_gauge(words, *named) or is_of_screws(words, named[0], at)
    gauge = screws and not is_bit(words, named[1])
    return Expression(first=at, last=named[1], values=(named[0],), form="gauge" if gauge else "label")


def is_gauge(words: Sequence[Word], value: Fraction, stop: int) -> bool:
    """Whether "number eight" names screws: in the plural, before "screws" within three words, or before a length."""
    if words[stop - 1].low in PLURAL_CARDINALS or (near(words, stop) and words[stop].low == "s"):
        return True
    if value >= 4 and near(words, stop + 1) and words[stop].low in ("by", "x", "×"):
        return cardinal(words, stop + 1) is not None
    return any(near(words, at) and words[at].low in ("screw", "screws") for at in reaching(words, stop, 3))


THINNEST, SAME_BREATH = 4, 16  # gauge; [words] of a sentence from screws to their number


def is_of_screws(words: Sequence[Word], value: Fraction, at: int) -> bool:
    """Whether "number nine" stands by itself after screws or a length ("three screws, two and a half, number nine")."""
    apart = words[at].gap in (Gap.COMMA, Gap.STOP) or word_before(words, at) in JOINS or ends_number(words[at - 1])
    apart = apart or words[at - 1].low in DENOMINATORS
    if value < THINNEST or at == 0 or not apart or words[at].gap >= Gap.SENTENCE:
        return False
    for place in range(at - 1, max(-1, at - 1 - SAME_BREATH), -1):
        if words[place].low in ("screw", "screws", "inchers"):
            return True
        if words[place].gap >= Gap.SENTENCE:
            return False
    return False


JOINS = frozenset("but and those these with of use using are they're".split())


def reaching(words: Sequence[Word], at: int, most: int) -> Iterator[int]:
    """The words from here on in one breath, so many at most."""
    for place in range(at, min(len(words), at + most)):
        if words[place].gap >= Gap.COMMA:
            return
        yield place


def is_bit(words: Sequence[Word], at: int) -> bool:
    """Whether a number names a driver's bit or a grade ("#2 Phillips", "number 2 square bit", "No. 2 pine")."""
    return any(words[place].low in NO_SCREW for place in reaching(words, at, 2))


NO_SCREW = frozenset("phillips square bit bits driver drive pine spruce fir grade common pencil robertson pozi".split())


GLUED = ("M", "m", "T", "TX", "PH", "PZ", "P", "FFP", "C")  # letters before a number that is a name


def dozen(words: Sequence[Word], at: int, low: str) -> Expression | None:
    """ "a dozen", "two dozen", "half a dozen", "a pair", "a couple", and "a couple of feet" as a length."""
    if low == "score":
        return score(words, at)
    half = half_dozen(words, at)
    if half:
        return Expression(first=at, last=half, values=(Fraction(6),), form="dozen")
    if low in DOZENS:
        return lengths_loose(words, at, at + 1)
    if low in ("a", "another") and near(words, at + 1) and words[at + 1].low in ("dozen", "pair", "couple"):
        return lengths_loose(words, at if low == "a" else at + 1, at + 2)
    return several_dozen(words, at)


def score(words: Sequence[Word], at: int) -> Expression | None:
    """ "a score of"; not what one keeps or cuts."""
    counted = at > 0 and words[at - 1].low == "a" and near(words, at + 1) and words[at + 1].low == "of"
    return Expression(first=at - 1, last=at + 1, values=(Fraction(20),), form="dozen") if counted else None


def several_dozen(words: Sequence[Word], at: int) -> Expression | None:
    """ "two dozen", "four pair"."""
    several = cardinal(words, at)
    if several is None or not near(words, several[1]):
        return None
    low = words[several[1]].low
    if low not in ("dozen", "dozens", "pair", "pairs"):
        return None
    return Expression(first=at, last=several[1] + 1, values=(several[0] * DOZENS[low],), form="dozen")


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
    if tens is None or not near(words, tens[1]):
        return None
    value, stop = tens
    if words[stop].gap == Gap.NONE and words[stop].low in ("st", "nd", "rd", "th"):
        return Expression(first=at, last=stop + 1, values=(value,), form="ordinal")
    ones = ORDINALS.get(words[stop].low, 10) if value in (20, 30) else 10  # "twenty first"
    if ones < 10 and not fraction(words, at):
        return Expression(first=at, last=stop + 1, values=(value + ones,), form="ordinal")
    return None


def lone(words: Sequence[Word], at: int) -> Expression | None:
    """Shares and times over without a measure: "half", "halfway", "twice", "a podcast and a half"."""
    low = words[at].low
    if low in PARTS:
        return part_alone(words, at, low)
    if low == "single":
        return a_single(words, at)
    if low in ("inch", "metre", "meter"):  # "that same inch between"
        same = at > 0 and words[at - 1].low in ("same", "full")
        return Expression(first=at, last=at + 1, values=(Fraction(1),), unit=UNITS[low]) if same else None
    if low == "none":
        return Expression(first=at, last=at + 1, values=(Fraction(0),)) if is_answer(words, at) else None
    if low in ("twice", "thrice"):
        return Expression(first=at, last=at + 1, values=(Fraction(2 if low == "twice" else 3),), form="times")
    return and_a_half(words, at)


PARTS = ("half", "halfway", "halves", "quarter", "quarters")
SHARES = (*PARTS, "single", "none", "twice", "thrice")


def part_alone(words: Sequence[Word], at: int, low: str) -> Expression:
    """ "half", "halfway", "quarter" as a share; "half eight" as a time of day."""
    if near(words, at + 1) and low == "half" and words[at + 1].low in CARDINALS:
        hour = CARDINALS[words[at + 1].low] + Fraction(1, 2)
        return Expression(first=at, last=at + 2, values=(hour,), form="clock")
    return Expression(first=at, last=at + 1, values=(Fraction(1, 4 if "quarter" in low else 2),), form="ratio")


def a_single(words: Sequence[Word], at: int) -> Expression | None:
    """ "a single screw" is one; a single bed isn't."""
    counted = at > 0 and words[at - 1].low == "a" and near(words, at + 1) and words[at + 1].low not in BEDS
    return Expression(first=at - 1, last=at + 1, values=(Fraction(1),)) if counted else None


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
