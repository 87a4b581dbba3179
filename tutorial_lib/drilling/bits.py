"""Drill bits for a screw in a wood: pilot, clearance and countersink, each a bit that is sold in the plan's series.

Two rules for pilots differ, and which one is used is always said:

- lateral load: the standard, NDS 2018 12.1.5.3: 7/8 of the root up to G 0.6, the whole root above;
- withdrawal or only holding down: Wood Handbook ch. 8: about 70 % of the root in softwood, 90 % in hardwood
  (the standard, 12.1.5.2, asks for none up to G 0.5, for 70 % up to 0.6 and for 90 % above).

End grain takes the same pilot as side grain.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Literal

from tutorial_lib.measures import Units, writer
from tutorial_lib.records import dataclass
from tutorial_lib.tables import BitRow, drill_bits

KEPT = 256  # bits worked out that are kept at hand: a bed asks for the same few again and again
LOWEST_GRAVITY, HIGHEST_GRAVITY = 0.31, 0.73  # NDS 2018 Tables 12.2 and 12.3.3
DENSE = 0.6  # NDS 12.1.5: above it the standard asks for fuller lead holes
TOLERANCE = 1e-6  # [in] in comparisons of sizes held as floats
LOOSE = Fraction(1, 64)  # [in] over the shank, so that the thread doesn't hold the near piece off
BOLT_PLAY = Fraction(1, 32)  # [in] over a bolt's shank; NDS 2018 12.1.3.2 allows 1/32 to 1/16
SINK_STEP = {"in": Fraction(1, 64), "mm": Fraction(1, 2)}  # [in], [mm]

Use = Literal["lateral", "withdrawal", "hold down"]


@dataclass(frozen=True)
class Bit:
    """A hole's ideal size and the one bit that is taken for it."""

    wanted: float  # [in]
    size: Fraction  # [in] of the bit as sold
    rule: str  # which rule gave it, in words


@lru_cache(maxsize=16)
def sold(units: Units, kind: str = "") -> tuple[BitRow, ...]:
    """Ordinary bits of one series, thinnest first: twist bits, and spade bits above them; or those of one kind."""
    if kind:
        return drill_bits(units, kind)
    twist = drill_bits(units, "twist")
    return (*twist, *(bit for bit in drill_bits(units, "spade") if bit.diameter > twist[-1].diameter))


def nearest(x: float, units: Units = "in") -> Fraction:
    """The sold bit nearest a size [in]; a tie goes up.

    >>> nearest(0.1242)
    Fraction(1, 8)
    """
    return min((bit.diameter for bit in sold(units)), key=lambda size: (abs(float(size) - x), -size))


def at_least(x: float, units: Units = "in") -> Fraction:
    """The smallest sold bit not under a size, the widest when none is [in].

    >>> at_least(0.1926)
    Fraction(13, 64)
    """
    sizes = [bit.diameter for bit in sold(units)]
    return next((size for size in sizes if float(size) >= x - TOLERANCE), sizes[-1])


def at_most(x: float, units: Units = "in") -> Fraction:
    """The widest sold bit not over a size, the thinnest when none is [in]."""
    sizes = [bit.diameter for bit in sold(units)]
    return max((size for size in sizes if float(size) <= x + TOLERANCE), default=sizes[0])


@lru_cache(maxsize=KEPT)
def named(size: Fraction, depth: Fraction, units: Units = "in") -> str:
    """The bit as one asks for it, a long one where an ordinary one of this size doesn't bore so deep.

    Args:
        size: of the bit [in].
        depth: of the hole [in].
        units: the plan's units.

    >>> named(Fraction(1, 8), Fraction(3, 2)), named(Fraction(1, 8), Fraction(2))
    ('1/8 in', 'long 1/8 in')
    """
    name = writer(units).bit(size)
    if any(bit.diameter == size and bit.reach >= depth for bit in sold(units)):
        return name
    if any(bit.diameter == size and bit.reach >= depth for bit in sold(units, "long twist")):
        return f"long {name}"
    known = any(bit.diameter == size for bit in sold(units))
    return f"extra long {name}" if known else name


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


@lru_cache(maxsize=KEPT)
def pilot(root: float, gravity: float, use: Use, units: Units = "in") -> Bit:
    """The pilot for the thread: the nearest bit, never one wider than the root.

    Args:
        root: thread root [in].
        gravity: specific gravity of the wood.
        use: what the screw does there.
        units: the plan's units.
    """
    share, rule = pilot_share(gravity, use)
    wanted = root * share
    size = nearest(wanted, units)
    return Bit(wanted, size if float(size) <= root + TOLERANCE else at_most(root, units), rule)


@lru_cache(maxsize=KEPT)
def lag_pilot(diameter: float, gravity: float, units: Units = "in") -> Bit:
    """The pilot for a lag screw's thread: the middle of the standard's range, to the nearest bit.

    NDS 2018 12.1.4.2: 65-85 % of D above G 0.6, 60-75 % from 0.5 to 0.6, 40-70 % to 0.5.
    """
    low, high = (0.65, 0.85) if gravity > DENSE else (0.60, 0.75) if gravity > 0.5 else (0.40, 0.70)
    wanted = diameter * (low + high) / 2
    return Bit(wanted, nearest(wanted, units), f"middle of {low:.0%} to {high:.0%} of the shank, NDS 12.1.4.2")


@lru_cache(maxsize=KEPT)
def clearance(diameter: float, units: Units = "in") -> Bit:
    """The hole in the near piece, so that the thread doesn't hold it off: D + 1/64 in, rounded up."""
    wanted = diameter + float(LOOSE)
    rule = f"shank + {_short(LOOSE, units)} (common practice, no source)"
    return Bit(wanted, at_least(wanted, units), rule)


@lru_cache(maxsize=KEPT)
def bolt_hole(diameter: float, units: Units = "in") -> Bit:
    """The hole for a bolt, 1/32 in over its shank. NDS 2018 12.1.3.2 allows 1/32 to 1/16 in."""
    wanted = diameter + float(BOLT_PLAY)
    return Bit(wanted, at_least(wanted, units), f"shank + {_short(BOLT_PLAY, units)}, NDS 12.1.3.2")


@lru_cache(maxsize=KEPT)
def countersink(head: float, units: Units = "in") -> Bit:
    """The countersink's width: head + 1/32 in, rounded up to 1/64 in or half a millimetre."""
    wanted = head + float(BOLT_PLAY)
    rule = f"head + {_short(BOLT_PLAY, units)} (common practice, no source)"
    w = writer(units)
    steps = -int(-(float(w.convert("length", wanted)) / float(SINK_STEP[units]) - TOLERANCE) // 1)
    return Bit(wanted, SINK_STEP[units] * steps / Fraction(w.convert("length", Fraction(1))), rule)


def _short(x: Fraction, units: Units) -> str:
    w = writer(units)
    return w.calculated(x) if w.metric else w.bit(x)


def covered(gravity: float) -> bool:
    """True if the standard's formulas hold for this wood. NDS 2018: 0.31 <= G <= 0.73."""
    return LOWEST_GRAVITY <= gravity <= HIGHEST_GRAVITY
