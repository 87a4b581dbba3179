"""Lengths as exact Fraction inches: read from what people type, written as their tape shows them, said in words.

Inside the library a length is a :class:`fractions.Fraction` of inches and nothing else. The one pint registry
lives in :mod:`tutorial_lib.measures.units`; pint itself is imported only when a unit is really converted. What a
person is told goes through the :class:`Writer` of the plan's own units.
"""

from tutorial_lib.measures.quantities import quantity
from tutorial_lib.measures.reading import inch, read_length
from tutorial_lib.measures.scales import Kind, Units, decimals, figure
from tutorial_lib.measures.speaking import say_length, say_number
from tutorial_lib.measures.units import Frac, convert, factor, registry
from tutorial_lib.measures.writer import Writer, money, writer
from tutorial_lib.measures.writing import (
    MM_PER_INCH,
    Rounded,
    exact_decimal,
    exact_length,
    is_decimal,
    mm,
    round_to,
    rounded,
    sold_length,
    to_mm,
    write_feet,
    write_inches,
    write_length,
)

__all__ = [
    "MM_PER_INCH",
    "Frac",
    "Kind",
    "Rounded",
    "Units",
    "Writer",
    "convert",
    "decimals",
    "exact_decimal",
    "exact_length",
    "factor",
    "figure",
    "inch",
    "is_decimal",
    "mm",
    "money",
    "quantity",
    "read_length",
    "registry",
    "round_to",
    "rounded",
    "say_length",
    "say_number",
    "sold_length",
    "to_mm",
    "write_feet",
    "write_inches",
    "write_length",
    "writer",
]
