"""Agrees, rounded or conflicts: a said value against the plan's, by what a tape shows and how it was hedged."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.narration.linking.slips import nearest
from tutorial_lib.narration.linking.subjects import Subject

FINE = ("diameter", "kerf")
MM = Fraction(5, 127)


def verdict(said: Fraction, subject: Subject, hedge: int, units: str) -> tuple[str, str]:
    """The verdict on one linked claim, and the reason in words.

    Args:
        said: what was said [in, or the fact's unit].
        subject: the fact it speaks of.
        hedge: -1 just under, +1 just over, 2 rough either way, 0 none.
        units: the plan's unit of length.
    """
    true = nearest(said, subject)
    off = said - true
    if abs(off) <= tolerance(subject, units):
        return "agrees", "the plan has the same"
    if hedge and abs(off) <= abs(true) * Fraction(6, 100) and right_side(off, hedge):
        return "rounded", "said as a rough value, and on the right side"
    if not hedge and subject.is_length and is_rounding(said, true, units):
        return "rounded", "the plan's value to the fraction it is said in"
    return "conflicts", "the plan says otherwise"


def tolerance(subject: Subject, units: str) -> Fraction:
    """1/64 in or 0.5 mm; diameters and kerf 1/128 in or 0.1 mm; counts, grits and times exactly."""
    if not subject.is_length:
        return Fraction(0)
    fine = subject.kind in FINE
    if units == "mm":
        return (Fraction(1, 10) if fine else Fraction(1, 2)) * MM
    return Fraction(1, 128) if fine else Fraction(1, 64)


def right_side(off: Fraction, hedge: int) -> bool:
    """Whether the plan lies on the side the hedge says ("just shy of a foot": the plan is less)."""
    return hedge == 2 or (hedge == -1 and off > 0) or (hedge == 1 and off < 0)


def is_rounding(said: Fraction, true: Fraction, units: str) -> bool:
    """Whether an unhedged value is the plan's, rounded to the tape fraction or decimal it is said in."""
    value = said / MM
    if units == "mm" or (said.denominator > 64 and value.denominator in (1, 2, 5, 10)):  # or said in millimetres
        return abs(said - true) <= (MM if value.denominator == 1 else MM / 20)
    if said.denominator == 1:
        return abs(said - true) <= Fraction(1, 32)
    if said.denominator in (2, 4, 8, 16, 32, 64):
        return abs(said - true) <= Fraction(1, 2 * said.denominator) and said.denominator >= 8
    return abs(said - true) <= Fraction(1, 2 * said.denominator)
