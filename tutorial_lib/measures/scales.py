"""Every kind of quantity a plan speaks of: the unit it is held in, and how each system of units writes it.

The rounding rules of all that is told stand here and nowhere else; lengths follow the tape (``writing``).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from tutorial_lib.records import dataclass

Units = Literal["in", "mm"]
"""A plan's own units: inches and pounds, or millimetres and kilograms."""

Kind = Literal[
    "length", "run", "calculated", "weight", "force", "stress", "modulus", "moment", "line load", "spread load",
    "spring", "stiffness", "density", "area", "section area", "section modulus", "inertia", "volume", "coverage",
    "board volume", "temperature",
]  # fmt: skip


@dataclass(frozen=True)
class Scale:
    """How one system of units writes one kind of quantity."""

    unit: str  # for pint
    written: str  # as people write it
    places: int | None  # decimals at most; None: three or four figures that count


@dataclass(frozen=True)
class Held:
    """One kind of quantity: the unit it is held in, and its two scales."""

    unit: str  # for pint
    inch: Scale
    metric: Scale


def _held(unit: str, inch: tuple[str, str, int | None], metric: tuple[str, str, int | None]) -> Held:
    return Held(unit, Scale(*inch), Scale(*metric))


HELD: dict[Kind, Held] = {
    "length": _held("in", ("in", "in", 0), ("mm", "mm", 0)),  # at the tape's mark
    "run": _held("ft", ("ft", "ft", 0), ("m", "m", 0)),  # of edges in all, of grain
    "calculated": _held("in", ("in", "in", 3), ("mm", "mm", 1)),  # finer than a tape: sag, penetration, distances
    "weight": _held("lb", ("lb", "lb", 0), ("kg", "kg", 0)),  # people, boards, what stands on a leg
    "force": _held("lbf", ("lbf", "lb", None), ("N", "N", None)),  # in a fastener, a member, a working
    "stress": _held("psi", ("psi", "psi", None), ("N/mm**2", "N/mm²", None)),
    "modulus": _held("psi", ("psi", "psi", None), ("N/mm**2", "N/mm²", None)),  # of elasticity
    "moment": _held("lbf*in", ("lbf*in", "lb in", None), ("N*m", "N m", None)),
    "line load": _held("lbf/in", ("lbf/in", "lb/in", None), ("N/mm", "N/mm", None)),
    "spread load": _held("psi", ("lbf/ft**2", "lb/sq ft", None), ("kN/m**2", "kN/m²", None)),
    "spring": _held("lbf/in", ("lbf/in", "lb/in", None), ("N/mm", "N/mm", None)),
    "stiffness": _held("lbf*in**2", ("lbf*in**2", "lb in²", None), ("kN*m**2", "kN m²", None)),  # E I
    "density": _held("lb/ft**3", ("lb/ft**3", "lb/cu ft", 1), ("kg/m**3", "kg/m³", 0)),
    "area": _held("ft**2", ("ft**2", "sq ft", 2), ("m**2", "m²", 2)),  # to sand and to finish
    "section area": _held("in**2", ("in**2", "in²", None), ("mm**2", "mm²", None)),
    "section modulus": _held("in**3", ("in**3", "in³", None), ("mm**3", "mm³", None)),
    "inertia": _held("in**4", ("in**4", "in⁴", None), ("cm**4", "cm⁴", None)),
    "volume": _held("gal", ("floz", "fl oz", 0), ("ml", "ml", 0)),  # of liquids
    "coverage": _held("ft**2/gal", ("ft**2/gal", "sq ft a gallon", 0), ("m**2/l", "m² a litre", 1)),
    "board volume": _held("bf", ("bf", "board ft", 2), ("m**3", "m³", 3)),
    "temperature": _held("degF", ("degF", "°F", 0), ("degC", "°C", 0)),
}

# Which kind a bare quantity is, by its pint dimensions; the first of several.
BY_UNIT: tuple[Kind, ...] = (
    "calculated", "weight", "force", "stress", "moment", "line load", "stiffness", "density", "area", "volume",
    "coverage", "inertia", "temperature",
)  # fmt: skip


def figure(value: float | Fraction) -> str:
    """A number with three or four figures that count, as a person writes it.

    >>> figure(1443.75), figure(26.0), figure(0.0603)
    ('1444', '26', '0.06')
    """
    if value == float("inf"):
        return "beyond any limit"
    return decimals(value, counting_places(value))


def counting_places(value: float | Fraction) -> int:
    """Decimals that leave three or four figures that count."""
    size = abs(float(value))
    return 0 if size >= 100 else 1 if size >= 10 else 2 if size >= 0.05 else 3


def decimals(value: float | Fraction, places: int) -> str:
    """A number with at most so many decimals and no tail of zeros.

    >>> decimals(2.50, 2), decimals(Fraction(1, 3), 2), decimals(-0.001, 2)
    ('2.5', '0.33', '0')
    """
    text = f"{float(value):.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text
