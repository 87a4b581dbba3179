"""A control's value as the text in its box, and what is typed as the build file states it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from tutorial_lib.design.values import write_hours, write_money
from tutorial_lib.errors import InputError
from tutorial_lib.measures import Units, exact_length, read_length, writer


def _length_told(value: Fraction, units: Units) -> str:
    """A length as the tape shows it; what was stated in inches a metric plan tells to 0.1 mm."""
    return writer(units).stated(value) if units == "mm" else exact_length(value, units)


def _weight_told(value: Fraction, units: Units) -> str:
    w = writer(units)
    return f"{w.number('weight', value, 1)} {w.unit('weight')}"


SHOWN: dict[str, Callable[[Any, Units], str]] = {
    "length": _length_told,
    "weight": _weight_told,
    "hours": lambda value, units: write_hours(value),
    "money": lambda value, units: write_money(value),
    "number": lambda value, units: f"{value:g}",
    "words": lambda value, units: ", ".join(value),
    "lengths": lambda value, units: "; ".join(exact_length(one, units) for one in value),
}
TYPED = (*SHOWN, "text")  # kinds of controls that are boxes to type in


def shown(kind: str, value: Any, units: Units) -> str:
    """What stands in a box for a value; nothing for none.

    >>> from fractions import Fraction
    >>> shown("length", Fraction(9, 4), "in"), shown("money", Fraction(8), "in"), shown("words", ("rail", "side"), "in")
    ('2 1/4 in', '8.00', 'rail, side')
    >>> shown("length", Fraction(1, 8), "mm"), shown("weight", Fraction(90), "mm"), shown("weight", Fraction(90), "in")
    ('3.2 mm', '40.8 kg', '90 lb')
    """
    if value is None or value == "" or value == ():
        return ""
    if isinstance(value, str):  # the panel's own, as it was typed
        return value
    return SHOWN[kind](value, units) if kind in SHOWN else str(value)


def stated(kind: str, text: str, units: Units) -> Any:
    """What is typed as the build file states it: a bare number gets the plan's unit, an empty box is none.

    >>> stated("weight", "200", "in"), stated("length", "2 1/4", "in"), stated("number", "14", "in")
    ('200 lb', '2 1/4 in', 14)
    """
    text = text.strip()
    if not text:
        return None
    return STATED.get(kind, _as_it_is)(text, units)


def _as_it_is(text: str, units: Units) -> str:
    return text


def _length(text: str, units: Units) -> str:
    try:
        return exact_length(read_length(text, units), units)
    except InputError:
        return text  # the build file's own reading tells what is wrong


def _with(unit: Callable[[Units], str]) -> Callable[[str, Units], str]:
    def read(text: str, units: Units) -> str:
        return f"{text} {unit(units)}" if text.replace(".", "", 1).isdigit() else text

    return read


def _number(text: str, units: Units) -> Any:
    if text.isdecimal():
        return int(text)
    try:
        return float(text)
    except ValueError:
        return text


STATED: dict[str, Callable[[str, Units], Any]] = {
    "length": _length,
    "weight": _with(lambda units: writer(units).unit("weight")),
    "hours": _with(lambda units: "h"),
    "money": lambda text, units: text.lstrip("$€£").strip(),
    "number": _number,
    "words": lambda text, units: [part.strip() for part in text.split(",") if part.strip()],
    "lengths": lambda text, units: [_length(part.strip(), units) for part in text.split(";") if part.strip()],
}
