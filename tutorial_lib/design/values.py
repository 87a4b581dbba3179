"""Single values of the build file, read and written back the same: lengths, weights, times, money.

Units are required where they matter.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from pydantic import SerializationInfo

from tutorial_lib.errors import LengthError
from tutorial_lib.measures import Units, exact_decimal, exact_length, factor, is_decimal, read_length

LIQUIDS = ("gallon", "quart", "pint", "litre", "liter", "l", "ml", "cl")
_AMOUNT = re.compile(r"^\s*([0-9]+(?:\.[0-9]+)?|[0-9]+/[0-9]+)\s*([a-z]*)\s*$", re.IGNORECASE)


def read_length_field(value: Any) -> Fraction:
    """A length [in] from text with its unit; a Fraction passes through.

    Raises:
        ValueError: no text, no unit, ambiguous or negative.
    """
    if isinstance(value, Fraction):
        return value
    if not isinstance(value, str):
        raise ValueError(f'write the length as text with its unit, for example "{value} in" or "{value} mm"')
    try:
        return read_length(value, None)
    except LengthError as error:
        raise ValueError(" ".join(fault.what for fault in error.faults)) from None


def _amount(value: Any, units: Mapping[str, str], held: str, example: str) -> Fraction:
    if isinstance(value, Fraction):
        return value
    match = _AMOUNT.match(value) if isinstance(value, str) else None
    if match is None or match[2].lower() not in units or match[1].endswith("/0"):
        raise ValueError(f'write it as text with its unit, for example "{example}"')
    return Fraction(match[1]) * factor(units[match[2].lower()], held)


def read_pounds(value: Any) -> Fraction:
    """A weight [lb] from "275 lb" or "125 kg"."""
    return _amount(value, {"lb": "lb", "lbs": "lb", "kg": "kg"}, "lb", "275 lb")


def read_hours(value: Any) -> Fraction:
    """A time [h] from "4 h" or "30 min"."""
    return _amount(value, {"h": "h", "hours": "h", "min": "min", "d": "d"}, "h", "4 h")


def read_gallons(text: str) -> Fraction:
    """A can's size [US gal] from "1 quart", "1/2 pint", "750 ml" or "2.5 litres".

    >>> read_gallons("1/2 pint")
    Fraction(1, 16)
    """
    match = re.fullmatch(r"\s*([0-9]{1,4}(?:/[1-9]|\.[0-9]{1,3})?)\s*([a-z]+?)s?\s*", text.lower())
    if match is None or match[2] not in LIQUIDS or not Fraction(match[1]):
        raise ValueError(f'write a can\'s size with its unit, for example "1 quart" or "750 ml", not "{text}"')
    return Fraction(match[1]) * factor(match[2], "gallon")


MOST_MONEY = 1_000_000  # for one board; more is a slip


def read_money(value: Any) -> Fraction:
    """An amount of money from "7.25" or 7.25; never negative."""
    if isinstance(value, Fraction):
        return value
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise ValueError("write the price as a number, for example 7.25")
    text = str(value).strip()
    if text.startswith("-"):
        raise ValueError(f"a price can't be negative ({text}); 0 is an offcut on the shelf")
    if not re.fullmatch(r"[0-9]{1,12}(\.[0-9]{0,40})?", text):
        raise ValueError(f'"{text}" is not a price; write a number, for example 7.25')
    if Fraction(text) > MOST_MONEY:
        raise ValueError(f"a price of {text} is over {MOST_MONEY}; check it")
    return Fraction(text)


def write_length_field(value: Fraction, info: SerializationInfo) -> str:
    """A length [in] as text in the plan's units that reads back exactly."""
    return exact_length(value, _units(info))


def write_pounds(value: Fraction, info: SerializationInfo) -> str:
    """A weight [lb] as text in the plan's units that reads back exactly."""
    return pounds_text(value, _units(info))


def pounds_text(value: Fraction, units: Units) -> str:
    """A weight [lb] in the plan's units, or in the other ones where only they have an end."""
    kilograms = value * factor("lb", "kg")
    if is_decimal(kilograms) and (units == "mm" or not is_decimal(value)):
        return f"{exact_decimal(kilograms)} kg"
    return f"{exact_decimal(value)} lb"


def write_hours(value: Fraction) -> str:
    """A time [h] in hours, or minutes where hours have no end."""
    minutes = value * 60
    if is_decimal(minutes) and not is_decimal(value):
        return f"{exact_decimal(minutes)} min"
    return f"{exact_decimal(value)} h"


def write_money(value: Fraction) -> str:
    """An amount of money, all its digits and two decimals at least."""
    cents = value * 100
    if cents.denominator > 1:
        return exact_decimal(value)
    return f"{cents.numerator // 100}.{cents.numerator % 100:02d}"


def _units(info: SerializationInfo) -> Units:
    return "mm" if isinstance(info.context, Mapping) and info.context.get("units") == "mm" else "in"


WIDEST = Fraction(48)  # [in] of sheet goods; nothing a bed is cut from is wider


def of_a_board(across: Fraction) -> Fraction:
    """What a board may measure across.

    Raises:
        ValueError: it is wider than anything that is sold.
    """
    if across > WIDEST:
        raise ValueError("no board is more than 48 in (1219 mm) across")
    return across


def over_nothing(length: Fraction) -> Fraction:
    """A length of something that is there, or from one to the next.

    Raises:
        ValueError: it is 0.
    """
    if length <= 0:
        raise ValueError("has to be more than 0; left out, it is chosen")
    return length


def more_than_nothing(value: Fraction) -> Fraction:
    """A length that can't be 0: that of a board."""
    if not value:
        raise ValueError("a board has some length, thickness and width: more than 0")
    return value
