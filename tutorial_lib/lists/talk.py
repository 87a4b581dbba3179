"""The check of what is said on camera as a list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutorial_lib.lists.table import Cell, List, made
from tutorial_lib.narration.verdicts.writing import timber

if TYPE_CHECKING:
    from fractions import Fraction

    from tutorial_lib.narration import Item, Report


def check_report(report: Report) -> List:
    """Every number said, in spoken order, with its verdict."""
    columns = ("time", "said", "value", "unit", "is about", "plan", "difference", "verdict", "why", "sentence")
    rows = (_row(item) for item in report.items)
    return made("check", "Numbers said on camera", columns, rows)


def _row(item: Item) -> tuple[Cell, ...]:
    off = None if item.difference is None else _number(item.difference)
    told = item.verdict.replace("_", " ")
    value, plan = _value(item.value, item.unit), _value(item.plan_value, item.unit)
    about = item.what or item.subject
    return (item.time or f"line {item.place}", item.quote, value, item.unit, about, plan, off, told, item.why,
            item.sentence)  # fmt: skip


def _number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else round(float(value), 4)


def _value(values: tuple[Fraction, ...], unit: str) -> Cell:
    """Numbers as such, a timber's name as it is written."""
    return (timber(values) or None) if unit == "nominal" else _numbers(values)


def _numbers(values: tuple[Fraction, ...]) -> Cell:
    if len(values) == 1:
        return _number(values[0])
    return ", ".join(f"{_number(value):g}" for value in values) or None
