"""Values of the report as people read them."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.measures import writer
from tutorial_lib.narration.numbers.lexicon import LENGTHS


def written(value: Fraction, unit: str, units: str) -> str:
    """A value of the report with its unit."""
    if unit in LENGTHS:
        finest = 64 if value < 1 else 16
        return writer(units).length(value * LENGTHS[units], finest)
    number = str(value) if value.denominator == 1 else f"{float(value):g}"
    return number if unit in ("count", "") else f"{number} {unit}"
