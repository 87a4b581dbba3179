"""How a said value stands to a fact's: the same, near it, or wrong in one of the ways people get numbers wrong."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from tutorial_lib.measures import to_mm, writer
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import DURATIONS

MARK = Fraction(1, 32)  # marks in a row are said to the tape's eighth or sixteenth [in]
APART = 0.1  # [in, or the fact's unit] what lies further apart is never the same
COARSE, FINE, NONE_OFF = writer("mm").reading_error, writer("in").bit_error, Fraction(0)


def rough(value: Fraction) -> float:
    """A value as a float: quick to compare where a hair's breadth doesn't matter."""
    return value.numerator / value.denominator


def apart(a: Fraction, b: Fraction) -> float:
    """How far two values lie apart; a float, for ordering and for what is far off."""
    return abs(rough(a) - rough(b))


def close(said: Fraction, subject: Subject) -> bool:
    """Whether a value agrees with the plan within what a tape shows."""
    near, true = rough(said), subject.floats  # floats first: most values are far off
    if not (-APART <= near - true[0] <= APART or (len(true) > 1 and any(-APART <= near - v <= APART for v in true))):
        return False
    if not subject.is_length:
        return said == subject.value
    return abs(said - nearest(said, subject)) <= (tolerance(subject) if len(subject.values) == 1 else MARK)


def nearest(said: Fraction, subject: Subject) -> Fraction:
    """The fact's value, or the nearest of its values."""
    if len(subject.values) == 1:
        return subject.value
    return min(subject.values, key=lambda v: apart(v, said))


def tolerance(subject: Subject) -> Fraction:
    """How far a said value may lie off: 1/64 in or 0.5 mm (diameters and kerf 1/128 in or 0.1 mm), 0 for counts."""
    if not subject.is_length:
        return NONE_OFF
    return FINE if subject.kind in ("diameter", "kerf") else COARSE


def slip_like(said: Fraction, subject: Subject) -> bool:
    """Whether a wrong value is near enough to be a slip for the fact."""
    true = subject.value
    if true == 0 or said <= 0:
        return False
    if subject.is_count:
        return abs(said - true) <= max(Fraction(2), true / 8)
    if not subject.is_length:
        return Fraction(1, 2) <= said / true <= 2
    return 0.8 < roughly(said, true) < 1.25 or abs(said - true) <= 2


def roughly(said: Fraction, true: Fraction) -> float:
    """One value as a multiple of another; floats, as it only sorts by size."""
    return (said.numerator * true.denominator) / (said.denominator * true.numerator)


FASTENER_LENGTHS = ("screw_length", "bolt_length")
SHARES = frozenset(Fraction(a, b) for a, b in ((1, 2), (2, 1), (2, 3), (3, 2), (3, 4), (4, 3)))
UNIT_MIXED = (12.0, 1 / 12, 10.0, 0.1)
METRIC = ("mm", "cm", "m")


def may_slip(said: Fraction, subject: Subject) -> bool:
    """Whether a wrong value can be a slip for a fact: within twice or half, a factor of units, a digit left out."""
    near, true = rough(said), subject.floats[0]
    if len(subject.values) > 1 or true <= 0 or near <= 0:
        return False
    mixed = near >= 1 and units_mixed(near / true, subject)
    return within_twice(near, subject) or mixed or digit_dropped(said, subject)


def within_twice(near: float, subject: Subject) -> bool:
    """Whether a value is within twice or half a fact's; not of facts with several values."""
    true = subject.floats[0]
    return len(subject.floats) == 1 and true > 0 and 0.5 <= near / true <= 2


def units_mixed(ratio: float, subject: Subject) -> bool:
    """Whether one value is another in a wrong unit: feet for inches, in a metric plan centimetres for millimetres.

    Nobody gives in feet what is under an inch.
    """
    if not (0.08 < ratio < 0.11 or 9.9 < ratio < 12.1):
        return False
    factors = UNIT_MIXED if subject.unit in METRIC else UNIT_MIXED[: 2 * (subject.floats[0] >= 1)]
    return any(abs(ratio - factor) < 1e-9 * factor for factor in factors)


def digit_dropped(said: Fraction, subject: Subject) -> bool:
    """Whether a time is said with its first or last digit left out ("two hours" for twelve)."""
    if subject.unit not in DURATIONS:
        return False
    text = str(subject.value)
    return len(text) == 2 and str(said) in (text[0], text[1])


@lru_cache(maxsize=65536)  # by whole numbers, which are quicker to look up by than fractions
def way_off(over: int, under: int, subject: Subject, steps: frozenset[Fraction]) -> str:
    """How a value stands to a fact's: equal, typical (a usual slip), slip (near) or far."""
    said = Fraction(over, under)
    if close(said, subject):
        return "equal"
    if typical_slip(said, subject, steps):
        return "typical"
    return "slip" if slip_like(said, subject) else "far"


def typical_slip(said: Fraction, subject: Subject, steps: frozenset[Fraction]) -> bool:
    """Whether a wrong value is one that slips usually give: one off, a part left out, digits swapped, another unit.

    ``steps`` are the lengths that get added or forgotten: thicknesses and clearances, once and twice [in].
    """
    true = subject.floats[0]
    if true == 0 or said.numerator <= 0:
        return False
    if subject.is_count:
        return count_slip(said, subject)
    if not subject.is_length:
        return subject.unit in DURATIONS or said / subject.value in SHARES
    near = 0.08 < roughly(said, subject.value) < 12.5
    return near and length_slip(said, subject, steps)


def count_slip(said: Fraction, subject: Subject) -> bool:
    """One off, a half or a third too many, or a total added up wrongly."""
    off = abs(said - subject.value)
    total = subject.scope in ("total", "bed") and off <= subject.value / 4
    return off == 1 or said / subject.value in SHARES or total


def length_slip(said: Fraction, subject: Subject, steps: frozenset[Fraction]) -> bool:
    """Another of the shop's lengths, digits wrong, units mixed, a half or a whole off, a thickness forgotten."""
    true = subject.value
    ratio = roughly(said, true)
    if subject.kind in FASTENER_LENGTHS and 0.333 < ratio < 3.001:
        return True
    digits = swapped(said, true) or one_digit_off(said, true) or units_mixed(ratio, subject)
    if digits or abs(said - true) in (Fraction(1, 2), Fraction(1)):
        return True
    return 0.667 < ratio < 1.5 and (abs(said - true) in steps or whole_right(said, true))


def near_miss(said: Fraction, subject: Subject) -> bool:
    """Whether a wrong length is so near the fact's that the value alone makes one think of it: a digit, a fraction."""
    if not subject.is_length or subject.floats[0] <= 2:
        return False
    return 0.3 < roughly(said, subject.value) < 3 and missed(said.numerator, said.denominator, subject)


@lru_cache(maxsize=65536)
def missed(over: int, under: int, subject: Subject) -> bool:
    """Whether the whole inches are right, digits stand in another order, or one of them is wrong."""
    said, true = Fraction(over, under), subject.value
    return whole_right(said, true) or swapped(said, true) or one_digit_off(said, true)


def whole_right(said: Fraction, true: Fraction) -> bool:
    """Whether the whole inches are right and only the fraction is wrong."""
    return true > 2 and int(said) == int(true) and said.denominator <= 64


def digits_swapped(said: Fraction, subject: Subject) -> bool:
    """Whether a value has the fact's digits in another order."""
    if subject.is_length:
        return swapped(said, subject.value)
    whole = said.denominator == subject.value.denominator == 1 and min(said, subject.value) >= 10
    return whole and said != subject.value and sorted(str(said)) == sorted(str(subject.value))


def swapped(said: Fraction, true: Fraction) -> bool:
    """Whether the whole inches, or the millimetres, hold the same digits in another order, with the same fraction."""
    if said % 1 == true % 1 and sorted(str(int(said))) == sorted(str(int(true))):
        return True
    digits = [str(round(to_mm(v))) for v in (said, true)]
    return len(digits[0]) > 2 and sorted(digits[0]) == sorted(digits[1])


def one_digit_off(said: Fraction, true: Fraction) -> bool:
    """Whether one digit of the whole inches, or of the millimetres, is wrong ("68" for "88")."""
    if said % 1 == true % 1 and true >= 10 and differing(str(int(said)), str(int(true))) == 1:
        return True
    mm = [to_mm(v) for v in (said, true)]
    whole = all(v.denominator == 1 for v in mm) and mm[1] >= 100
    return whole and differing(str(mm[0]), str(mm[1])) == 1


def differing(a: str, b: str) -> int:
    """In how many places two strings differ; many when their lengths do."""
    return sum(x != y for x, y in zip(a, b, strict=True)) if len(a) == len(b) else 99


class Differs(NamedTuple):
    """In which way a value differs from a fact's."""

    off: float  # log of the ratio; 0 where only the unit is wrong
    mixed: bool  # the unit is
    digits: bool  # some digits stand in another order, or one is wrong
    swapped: bool
    fraction: bool  # the whole inches are right
    one_off: bool


@lru_cache(maxsize=8192)
def differs(said: Fraction, subject: Subject) -> Differs:
    """How a value differs from a fact's."""
    true = subject.value
    mixed, swapped = units_mixed(roughly(said, true), subject), digits_swapped(said, subject)
    return Differs(
        off=0.0 if mixed else abs(math.log(roughly(said, nearest(said, subject)))),
        mixed=mixed,
        digits=swapped or (subject.is_length and one_digit_off(said, true)),
        swapped=swapped,
        fraction=subject.is_length and whole_right(said, true),
        one_off=subject.is_count and abs(said - true) == 1,
    )
