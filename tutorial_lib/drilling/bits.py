"""Drill bits for a screw in a wood: pilot, clearance and countersink, in fractional and metric sizes.

Two rules for pilots differ, and which one is used is always said:

- lateral load: the standard, NDS 2018 12.1.5.3: 7/8 of the root up to G 0.6, the whole root above;
- withdrawal or only holding down: Wood Handbook ch. 8: about 70 % of the root in softwood, 90 % in hardwood
  (the standard, 12.1.5.2, asks for none up to G 0.5, for 70 % up to 0.6 and for 90 % above).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from tutorial_lib.measures import to_mm

STEP = 64  # fractional bits by 1/64 in
METRIC_STEP = Fraction(1, 2)  # [mm] metric bits by half millimetres
LOWEST_GRAVITY, HIGHEST_GRAVITY = 0.31, 0.73  # NDS 2018 Tables 12.2 and 12.3.3
DENSE = 0.6  # NDS 12.1.5: above it the standard asks for fuller lead holes

Use = Literal["lateral", "withdrawal", "hold down"]


@dataclass(frozen=True)
class Bit:
    """A hole's ideal size and the bits that come nearest."""

    wanted: float  # [in]
    inch: Fraction  # [in] fractional bit
    metric: Fraction  # [mm] metric bit
    rule: str  # which rule gave it, in words


def nearest(x: float) -> Fraction:
    """The fractional bit nearest a size [in]; a tie goes up.

    >>> nearest(0.1242)
    Fraction(1, 8)
    """
    return Fraction(floor(x * STEP + 0.5), STEP)


def at_least(x: float) -> Fraction:
    """The smallest fractional bit not under a size [in].

    >>> at_least(0.1926)
    Fraction(13, 64)
    """
    return Fraction(ceil(round(x * STEP, 9)), STEP)


def _metric(x: float, up: bool) -> Fraction:
    steps = float(to_mm(Fraction(x))) / float(METRIC_STEP)
    return METRIC_STEP * (ceil(round(steps, 9)) if up else floor(steps + 0.5))


def pilot_share(gravity: float, use: Use) -> tuple[float, str]:
    """Part of the root diameter that a pilot takes, and the rule's name.

    Args:
        gravity: specific gravity of the wood (0.31 to 0.73).
        use: what the screw does there.

    Source: NDS 2018 12.1.5.3 for lateral load; Wood Handbook ch. 8 otherwise.

    >>> pilot_share(0.42, "lateral")[0]
    0.875
    """
    if use == "lateral":
        return (1.0, "the whole root, NDS 12.1.5.3") if gravity > DENSE else (0.875, "7/8 of the root, NDS 12.1.5.3")
    if gravity > DENSE:
        return 0.9, "90 % of the root, Wood Handbook ch. 8 and NDS 12.1.5.2"
    asked = "NDS 12.1.5.2 asks for none" if gravity <= 0.5 else "as NDS 12.1.5.2"
    return 0.7, f"70 % of the root, Wood Handbook ch. 8; {asked}"


def pilot(root: float, gravity: float, use: Use, end_grain: bool = False) -> Bit:
    """The pilot for the thread, to the nearest bit; one 1/64 in larger in end grain.

    Args:
        root: thread root [in].
        gravity: specific gravity of the wood.
        use: what the screw does there.
        end_grain: the point ends in end grain (one size up: common practice, no source).
    """
    share, rule = pilot_share(gravity, use)
    wanted = root * share
    extra = Fraction(1, STEP) if end_grain else Fraction(0)
    if end_grain:
        rule += "; one size up in end grain (common practice, no source)"
    return Bit(wanted, nearest(wanted) + extra, _metric(wanted + float(extra), up=False), rule)


def lag_pilot(diameter: float, gravity: float) -> Bit:
    """The pilot for a lag screw's thread: the middle of the standard's range, to the nearest bit.

    NDS 2018 12.1.4.2: 65-85 % of D above G 0.6, 60-75 % from 0.5 to 0.6, 40-70 % to 0.5.
    """
    low, high = (0.65, 0.85) if gravity > DENSE else (0.60, 0.75) if gravity > 0.5 else (0.40, 0.70)
    wanted = diameter * (low + high) / 2
    rule = f"middle of {low:.0%} to {high:.0%} of the shank, NDS 12.1.4.2"
    return Bit(wanted, nearest(wanted), _metric(wanted, up=False), rule)


def clearance(diameter: float) -> Bit:
    """The hole in the near piece, so that the thread doesn't hold it off: D + 1/64 in, rounded up."""
    wanted = diameter + 1 / STEP
    return Bit(wanted, at_least(wanted), _metric(wanted, up=True), "shank + 1/64 in (common practice, no source)")


def bolt_hole(diameter: float) -> Bit:
    """The hole for a bolt, 1/32 in over its shank. NDS 2018 12.1.3.2 allows 1/32 to 1/16 in."""
    wanted = diameter + 1 / 32
    return Bit(wanted, at_least(wanted), _metric(wanted, up=True), "shank + 1/32 in, NDS 12.1.3.2")


def countersink(head: float) -> Bit:
    """The countersink's width: head + 1/32 in, rounded up."""
    wanted = head + 1 / 32
    return Bit(wanted, at_least(wanted), _metric(wanted, up=True), "head + 1/32 in (common practice, no source)")


def covered(gravity: float) -> bool:
    """True if the standard's formulas hold for this wood. NDS 2018: 0.31 <= G <= 0.73."""
    return LOWEST_GRAVITY <= gravity <= HIGHEST_GRAVITY
