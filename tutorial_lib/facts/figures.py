"""A fact's value as a person reads it: sixteenths or millimetres, whole counts, money; never a float with a tail."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.facts.fact import Fact, Facts
from tutorial_lib.measures import Units, Writer, decimals, money, writer
from tutorial_lib.measures.writer import SIGNS

BARE = ("count", "")


def write_value(fact: Fact, units: Units = "in") -> str:
    """The value with its unit.

    >>> write_value(Fact(key="slat.length", value=Fraction(153, 4), unit="in", kind="length", what="1x4 slat"))
    '38 1/4 in'
    >>> write_value(Fact(key="pilot.diameter", value=Fraction(9, 64), unit="in", kind="diameter", what="pilot bit"))
    '9/64 in'
    """
    if isinstance(fact.value, str):
        return fact.value
    w = writer(units)
    if isinstance(fact.value, tuple):
        return _row(fact.value, fact.unit, w)
    if fact.unit == "in":
        return _length(Fraction(fact.value), fact.kind, w)
    if fact.unit in SIGNS or fact.kind == "cost":
        return money(fact.value, fact.unit)
    text = decimals(fact.value, 2)
    return text if fact.unit in BARE else f"{text} {fact.unit}"


def _length(x: Fraction, kind: str, w: Writer) -> str:
    """At the tape's mark; a bit or hole by its sold size, a kerf as stated, a sag finer than a tape shows."""
    if kind == "diameter":
        return w.bit(x)
    if kind == "kerf":
        return w.stated(x)
    return w.calculated(x) if kind == "sag" else w.length(x)


def _row(values: tuple[Fraction | float | int, ...], unit: str, w: Writer) -> str:
    if unit == "in":
        return w.marks(Fraction(value) for value in values)
    return ", ".join(decimals(v, 2) for v in values) + (f" {unit}" if unit not in (*BARE, "grit") else "")


def lines(facts: Facts) -> Iterator[str]:
    """All facts as lines of text, their equals signs under each other."""
    wide = max(map(len, facts), default=0)
    for key, fact in facts.items():
        yield f"{key:<{wide}} = {write_value(fact, facts.units)} ({fact.what})"


def line(fact: Fact, units: Units = "in") -> str:
    """A fact as one line of text: "slat.length = 38 1/4 in (1x4 slat)"."""
    return f"{fact.key} = {write_value(fact, units)} ({fact.what})"
