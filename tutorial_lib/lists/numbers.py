"""Facts and parts as lists."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.facts.figures import marked, write_number
from tutorial_lib.lists.table import Cell, Column, List, Mark, made, mark
from tutorial_lib.measures import Writer, writer

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan


def facts(plan: Plan) -> List:
    """Every number of the plan with its working."""
    w = writer(plan.options.build.units)
    rows = (
        (fact.key, fact.what, _value(w, fact), w.units if fact.unit == "in" else fact.unit, fact.working)
        for fact in facts_of(plan).values()
    )
    value = Column("value", tape=not w.metric)
    return made("facts", "Facts", ("fact", "what it is", value, "unit", "working"), rows)


def _value(w: Writer, fact: Fact) -> Cell:
    """A number as a number; several, and words, as text."""
    if isinstance(fact.value, str):
        return fact.value
    if isinstance(fact.value, tuple):
        return write_number(fact, w.units)
    if fact.unit == "in":
        return Mark(marked(Fraction(fact.value), fact.kind, w), write_number(fact, w.units))
    value = Fraction(fact.value).limit_denominator(10**6)
    return int(value) if value.denominator == 1 else round(float(value), 2)


def parts(plan: Plan) -> List:
    """What is cut: part, count, lumber, cut length and actual size."""
    w = writer(plan.options.build.units)
    rows = (
        (
            part.name, part.count, part.section.name, mark(w, part.length), mark(w, part.section.thickness),
            mark(w, part.section.width), part.section.species, part.section.grade, part.stands,
        )
        for part in plan.build.made
    )  # fmt: skip
    columns = (
        "part", "count", "lumber", Column("length", w.units), Column("thickness", w.units), Column("width", w.units),
        "wood", "grade", "stands",
    )  # fmt: skip
    return made("parts", "Parts", columns, rows)
