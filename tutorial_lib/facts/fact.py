"""A Fact is one named number of the plan: what is shown, said, printed, compared or checked."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import InputError
from tutorial_lib.measures import Units, quantity, to_mm
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    import pint

Number = Fraction | float | int
Value = Number | str | tuple[Number, ...]


@dataclass(frozen=True)
class Board:
    """A board as it is sold."""

    section: str = ""  # "2x6", "45x95"
    length: Fraction | None = None  # [in]


@dataclass(frozen=True, kw_only=True)
class Fact:
    """One named number, with what it is in words and the working that gave it.

    Lengths are exact Fractions of an inch and have unit "in", also in a metric plan; everything else is held in the
    plan's own unit. The facts file has lengths in the plan's unit too.
    """

    key: str
    value: Value
    unit: str  # in, count, grit, h, min, d, lb, kg, sq ft, m², usd …; "" for a word or a bare ratio
    kind: str  # closed list: length, section, part_count, stock_count …
    what: str
    said_as: tuple[str, ...] = ()
    working: str = ""
    board: Board | None = None  # that it counts, measures or is cut from

    @property
    def quantity(self) -> pint.Quantity[Any]:
        """The number as a pint quantity, exact where the fact is.

        Raises:
            InputError: the fact is a word, or a row of marks (see :attr:`quantities`).
        """
        if isinstance(self.value, str | tuple):
            told = "a word" if isinstance(self.value, str) else "several numbers; ask for its quantities"
            raise InputError(f"{self.key} is {told}.")
        return quantity(self.value, self.unit)

    @property
    def quantities(self) -> tuple[pint.Quantity[Any], ...]:
        """All its numbers as pint quantities; none of a word."""
        if isinstance(self.value, str):
            return ()
        values = self.value if isinstance(self.value, tuple) else (self.value,)
        return tuple(quantity(value, self.unit) for value in values)


class Facts(Mapping[str, Fact]):
    """Facts of one plan by key, in the order of the job."""

    def __init__(self, name: str, title: str, units: Units, facts: Iterable[Fact]) -> None:
        self.name = name
        self.title = title
        self.units: Units = units
        self._facts: dict[str, Fact] = {}
        for fact in facts:
            if fact.key in self._facts:
                raise ValueError(f"fact {fact.key} stated twice")
            self._facts[fact.key] = fact

    def __getitem__(self, key: str) -> Fact:
        return self._facts[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._facts)

    def __len__(self) -> int:
        return len(self._facts)

    def as_json(self) -> dict[str, Any]:
        """The facts file's content: every number in the plan's unit, exact ones as text beside it."""
        return {
            "name": self.name,
            "title": self.title,
            "units": self.units,
            "quantities": {key: _entry(fact, self.units) for key, fact in self._facts.items()},
        }

    def dumps(self) -> str:
        """The facts file as text, ending in a newline."""
        return json.dumps(self.as_json(), indent=1, ensure_ascii=False) + "\n"


def _entry(fact: Fact, units: Units) -> dict[str, Any]:
    in_mm = units == "mm" and fact.unit == "in"
    value = each_length(fact.value, to_mm) if in_mm else fact.value
    entry: dict[str, Any] = {"value": _plain(value)}
    if (exact := _exact(value)) is not None:
        entry["exact"] = exact
    entry |= {"unit": "mm" if in_mm else fact.unit, "kind": fact.kind, "what": fact.what}
    if fact.said_as:
        entry["said_as"] = list(fact.said_as)
    if fact.working:
        entry["working"] = fact.working
    if fact.board:
        entry["board"] = _board_entry(fact.board, units)
    return entry


def _board_entry(board: Board, units: Units) -> dict[str, Any]:
    """A board by its section and its length in the plan's unit, a fraction as text."""
    entry: dict[str, Any] = {"section": board.section} if board.section else {}
    if board.length is not None:
        length = to_mm(board.length) if units == "mm" else board.length
        entry["length"] = int(length) if length.denominator == 1 else str(length)
    return entry


def each_length(value: Value, change: Callable[[Fraction], Fraction]) -> Value:
    """A value with each of its lengths changed; words stay, floats stay floats."""
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return tuple(_changed(v, change) for v in value)
    return _changed(value, change)


def _changed(x: Number, change: Callable[[Fraction], Fraction]) -> Number:
    return float(change(Fraction(x))) if isinstance(x, float) else change(Fraction(x))


def _plain(value: Value) -> Any:
    """A value as JSON has it: whole numbers without a decimal point."""
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return [_plain(v) for v in value]
    return int(value) if value == int(value) else float(value)


def _exact(value: Value) -> Any:
    """Fractions as text, "153/4"; None for what is a word or only calculated."""
    if isinstance(value, tuple):
        told = [_exact(v) for v in value]
        return told if None not in told else None
    return str(value) if isinstance(value, Fraction | int) else None
