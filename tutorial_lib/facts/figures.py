"""A fact's value as a person reads it: sixteenths or millimetres, whole counts, money; never a float with a tail."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.facts.fact import Fact, Facts, Value
from tutorial_lib.measures import Units, write_inches, write_length

SIGNS = {"usd": "$", "eur": "€", "gbp": "£"}


def write_value(fact: Fact, units: Units = "in") -> str:
    """The value with its unit.

    >>> write_value(Fact("slat.length", Fraction(153, 4), "in", "length", "1x4 slat"))
    '38 1/4 in'
    >>> write_value(Fact("rating.lying", 275, "lb", "load", "each of two sleepers"))
    '275 lb'
    """
    if isinstance(fact.value, str):
        return fact.value
    if isinstance(fact.value, tuple):
        return _list(fact.value, fact.unit, units)
    if fact.unit == "in":
        return write_length(Fraction(fact.value), units, _mark(fact))
    if fact.unit in SIGNS:
        return f"{SIGNS[fact.unit]}{float(fact.value):.2f}"
    text = plain(fact.value)
    return text if fact.unit in ("count", "") else f"{text} {fact.unit}"


def plain(value: Fraction | float | int) -> str:
    """A number with at most two decimals, no tail."""
    return f"{float(value):.2f}".rstrip("0").rstrip(".")


def _mark(fact: Fact) -> int:
    return {"diameter": 32, "kerf": 64}.get(fact.kind, 16)


def _list(values: Value, unit: str, units: Units) -> str:
    if not isinstance(values, tuple):
        return str(values)
    if unit != "in":
        return ", ".join(map(plain, values)) + (f" {unit}" if unit not in ("count", "grit", "") else "")
    if units == "mm":
        return ", ".join(write_length(Fraction(v), "mm").removesuffix(" mm") for v in values) + " mm"
    return ", ".join(write_inches(Fraction(v)) for v in values) + " in"


def lines(facts: Facts) -> Iterator[str]:
    """All facts as lines of text, their equals signs under each other."""
    wide = max(map(len, facts), default=0)
    for key, fact in facts.items():
        yield f"{key:<{wide}} = {write_value(fact, facts.units)} ({fact.what})"


def line(fact: Fact, units: Units = "in") -> str:
    """A fact as one line of text: "slat.length = 38 1/4 in (1x4 slat)"."""
    return f"{fact.key} = {write_value(fact, units)} ({fact.what})"
