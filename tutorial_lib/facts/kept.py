"""Facts in the form in which they are kept from one command to the next: exactly as they are, in plain JSON values.

The facts file is for people and their other programs, in the plan's own unit; this is for this very program alone.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from tutorial_lib.facts.fact import Board, Fact, Facts, Number, Value


def as_kept(facts: Facts) -> Any:
    """Facts as JSON values; :func:`from_kept` makes equal ones of them."""
    return [facts.name, facts.title, facts.units, [_row(fact) for fact in facts.values()]]


def from_kept(data: Any) -> Facts:
    """The facts that were kept.

    Raises:
        TypeError, ValueError: they are not as :func:`as_kept` gives them.
    """
    name, title, units, rows = data
    return Facts(name, title, units, map(_fact, rows))


def _row(fact: Fact) -> list[Any]:
    board = fact.board and [fact.board.section, _number(fact.board.length)]
    return [fact.key, _value(fact.value), fact.unit, fact.kind, fact.what, fact.said_as, fact.working, board]


def _fact(row: Any) -> Fact:
    key, value, unit, kind, what, said_as, working, board = row
    return Fact(
        key=key, value=_read(value), unit=unit, kind=kind, what=what, said_as=tuple(said_as), working=working,
        board=board and Board(board[0], _exact(board[1])),
    )  # fmt: skip


def _value(value: Value) -> Any:
    """A word as it is, a row of numbers in a table of its own."""
    if isinstance(value, str):
        return value
    return {"row": list(map(_number, value))} if isinstance(value, tuple) else _number(value)


def _number(x: Number | None) -> Any:
    """A fraction as numerator and denominator; whole numbers and floats as they are."""
    return [x.numerator, x.denominator] if isinstance(x, Fraction) else x


def _read(value: Any) -> Value:
    return tuple(map(_exact, value["row"])) if isinstance(value, dict) else _exact(value)


def _exact(x: Any) -> Any:
    return Fraction(*x) if isinstance(x, list) else x
