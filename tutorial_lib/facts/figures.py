"""A fact's value as a person reads it: sixteenths or millimetres, whole counts, money; never a float with a tail."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.facts.fact import Fact, Facts
from tutorial_lib.measures import Units, Writer, decimals, money, writer
from tutorial_lib.measures.writer import SIGNS

BARE = ("count", "")
MONEY = ("cost", "price")  # kinds of facts
AS_STATED, BY_SIZE = ("kerf", "trim"), ("diameter", "gauge")


def write_value(fact: Fact, units: Units = "in", both: bool = False) -> str:
    """The value with its unit; a length in the other system too where both are asked for.

    >>> write_value(Fact(key="slat.length", value=Fraction(153, 4), unit="in", kind="length", what="1x4 slat"))
    '38 1/4 in'
    >>> write_value(Fact(key="pilot.diameter", value=Fraction(9, 64), unit="in", kind="diameter", what="pilot bit"))
    '9/64 in'
    """
    if isinstance(fact.value, str):
        return fact.value
    if fact.unit == "in":
        told = f"{write_number(fact, units)} {units}"
        return f"{told} ({write_value(fact, writer(units).other.units)})" if both else told
    if (fact.unit in SIGNS or fact.kind in MONEY) and not isinstance(fact.value, tuple):
        return money(fact.value, fact.unit)
    if fact.kind == "gauge":
        return f"#{write_number(fact, units)}"
    text, several = write_number(fact, units), isinstance(fact.value, tuple)
    return text if fact.unit in BARE or (several and fact.unit == "grit") else f"{text} {fact.unit}"


def write_number(fact: Fact, units: Units = "in") -> str:
    """The value without its unit, for a table's cell; several after commas."""
    if isinstance(fact.value, str):
        return fact.value
    w = writer(units)
    values = fact.value if isinstance(fact.value, tuple) else (fact.value,)
    return ", ".join(_length(Fraction(v), fact.kind, w) if fact.unit == "in" else decimals(v, 2) for v in values)


def _length(x: Fraction, kind: str, w: Writer) -> str:
    """At the tape's mark; a bit or hole by its sold size, a kerf as stated, a sag finer than a tape shows."""
    if kind in BY_SIZE:
        return w.bit_number(x)
    if kind in AS_STATED:
        return w.stated_number(x)
    return w.number("calculated", x) if kind == "sag" else w.mark(x)


def marked(x: Fraction, kind: str, w: Writer) -> Fraction:
    """The number that is written for one length [in] of a fact, in the plan's unit."""
    if kind in BY_SIZE or kind in AS_STATED:
        return Fraction(w.convert("length", x))
    return Fraction(str(w.rounded("calculated", x))) if kind == "sag" else w.marked(x)


def lines(facts: Facts) -> Iterator[str]:
    """All facts as lines of text, their equals signs under each other."""
    wide = max(map(len, facts), default=0)
    for key, fact in facts.items():
        yield f"{key:<{wide}} = {write_value(fact, facts.units)} ({fact.what})"


def line(fact: Fact, units: Units = "in") -> str:
    """A fact as one line of text: "slat.length = 38 1/4 in (1x4 slat)"."""
    return f"{fact.key} = {write_value(fact, units)} ({fact.what})"
