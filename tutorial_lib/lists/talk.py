"""The check of what is said on camera as a list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutorial_lib.lists.table import Cell, List, made

if TYPE_CHECKING:
    from fractions import Fraction

    from tutorial_lib.narration import Report


def check_report(report: Report) -> List:
    """Every number said, in spoken order, with its verdict."""
    columns = ("time", "said", "value", "unit", "is about", "plan", "difference", "verdict", "why", "sentence")
    rows = (
        (item.time or f"line {item.place}", item.quote, _numbers(item.value), item.unit, item.what or item.subject,
         _numbers(item.plan_value), None if item.difference is None else _number(item.difference),
         item.verdict.replace("_", " "), item.why, item.sentence)
        for item in report.items
    )  # fmt: skip
    return made("check", "Numbers said on camera", columns, rows)


def _number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else round(float(value), 4)


def _numbers(values: tuple[Fraction, ...]) -> Cell:
    if len(values) == 1:
        return _number(values[0])
    return ", ".join(f"{_number(value):g}" for value in values) or None
