"""Agrees, rounded or conflicts: a said value against the plan's, by what a tape shows and how it was hedged."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.measures import Units, mm, writer
from tutorial_lib.narration.linking.slips import nearest, rough
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import MASSES, MONEY

FINE = ("diameter", "kerf", "gauge")
MM = mm(1)


def verdict(said: Fraction, subject: Subject, hedge: int, units: Units) -> tuple[str, str]:
    """The verdict on one linked claim, and the reason in words.

    Args:
        said: what was said [in, or the fact's unit].
        subject: the fact it speaks of.
        hedge: -1 just under, +1 just over, 2 rough either way, 0 none.
        units: the plan's unit of length.
    """
    if subject.kind == "gauge":  # a name, never rounded
        off = abs(said - subject.value)
        return ("agrees", "the plan has the same") if off <= tolerance(subject, units) else CONTRADICTED
    if is_far_off(rough(said), subject):
        return CONTRADICTED
    true = nearest(said, subject)
    off = said - true
    if abs(off) <= tolerance(subject, units):
        return "agrees", "the plan has the same"
    if hedge:
        near = abs(off) <= abs(true) * Fraction(6, 100) and right_side(off, hedge)
        loosely = "said as a rough value, and on the right side"
        return ("rounded", loosely) if near else CONTRADICTED
    if subject.is_length and is_rounding(said, true, units):
        return "rounded", "the plan's value to the fraction it is said in"
    if not subject.is_length and is_whole_of(said, true, subject.unit):
        return "rounded", "the plan's value to the whole it is said in"
    return CONTRADICTED


CONTRADICTED = ("conflicts", "the plan says otherwise")


def is_far_off(said: float, subject: Subject) -> bool:
    """Whether a value is further off than any rounding or hedge allows: quick to tell, and most are."""
    true = subject.floats[0]
    return len(subject.floats) == 1 and abs(said - true) > 1 + 0.07 * abs(true)


def tolerance(subject: Subject, units: Units) -> Fraction:
    """1/64 in or 0.5 mm; diameters and kerf 1/128 in or 0.1 mm; counts, grits and times exactly."""
    if not subject.is_length:
        return Fraction(0)
    tape = writer(units)
    return tape.bit_error if subject.kind in FINE else tape.reading_error


def is_whole_of(said: Fraction, true: Fraction, unit: str) -> bool:
    """Whether an amount of money or a weight is the plan's, rounded to a whole."""
    return unit in (*MONEY, *MASSES) and said.denominator == 1 and abs(said - true) <= Fraction(1, 2)


def right_side(off: Fraction, hedge: int) -> bool:
    """Whether the plan lies on the side the hedge says ("just shy of a foot": the plan is less)."""
    return hedge == 2 or (hedge == -1 and off > 0) or (hedge == 1 and off < 0)


def is_rounding(said: Fraction, true: Fraction, units: Units) -> bool:
    """Whether an unhedged value is the plan's, rounded to the tape fraction or decimal it is said in."""
    value = said / MM
    if units == "mm" or (said.denominator > 64 and value.denominator in (1, 2, 5, 10)):  # or said in millimetres
        return abs(said - true) <= (MM if value.denominator == 1 else MM / 20)
    if said.denominator in (1, 2, 4):  # as it is written: to the nearest sixteenth
        return abs(said - true) <= Fraction(1, 32)
    if said.denominator in (8, 16, 32, 64):
        return abs(said - true) <= Fraction(1, 2 * said.denominator)
    return abs(said - true) <= Fraction(1, 2 * said.denominator)
