"""Values of the report as people read them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.measures import money, writer
from tutorial_lib.narration.numbers.lexicon import LENGTHS, MONEY

SPELT = {"h": "hour", "d": "day", "days": "day", "weeks": "week", "months": "month"}


def written(value: Fraction, unit: str, units: str) -> str:
    """A value of the report with its unit.

    >>> written(Fraction(9), "gauge", "in"), written(Fraction(81, 10), "usd", "in"), written(Fraction(30), "days", "in")
    ('#9', '$8.10', '30 days')
    """
    if unit in LENGTHS:
        finest = 64 if value < 1 else 16
        return writer(units).length(value * LENGTHS[units], finest)
    if unit in MONEY:
        return money(value, unit)
    number = str(value) if value.denominator == 1 else f"{float(value):g}"
    if unit in SPELT:
        return f"{number} {SPELT[unit]}{'' if value == 1 else 's'}"
    if unit == "gauge":
        return f"#{number}"
    return number if unit in ("count", "") else f"{number} {unit}"


def written_whole(values: Sequence[Fraction], unit: str, units: str) -> str:
    """The first of several values with its unit; a timber's name whole.

    >>> written_whole((Fraction(5, 4), Fraction(6)), "nominal", "in")
    '5/4x6'
    """
    return timber(values) if unit == "nominal" else written(values[0], unit, units)


def timber(name: Sequence[Fraction]) -> str:
    """A timber's name as it is written: "2x6"."""
    return "x".join(str(side) for side in name)
