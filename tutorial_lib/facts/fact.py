"""A Fact is one named number of the plan: what is shown, said, printed, compared or checked."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import Units

LARGEST = 10**12  # no number of a bed comes near it
Value = Fraction | float | int | str | tuple[Fraction | float | int, ...]


@dataclass(frozen=True)
class Fact:
    """One named number, with what it is in words and the working that gave it.

    Lengths are held in inches as exact Fractions and have unit "in", also in a metric plan;
    :meth:`Facts.as_json` writes them in the plan's unit.
    """

    key: str
    value: Value
    unit: str  # in, count, grit, h, min, lb, usd …; "" for a word
    kind: str  # closed list: length, section, part_count, stock_count …
    what: str
    said_as: tuple[str, ...] = ()
    working: str = ""


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
        """The facts file: lengths as numbers in the plan's unit."""
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
    metric = units == "mm" and fact.unit == "in"
    entry: dict[str, Any] = {
        "value": _number(fact.value, Fraction(127, 5) if metric else Fraction(1)),
        "unit": "mm" if metric else fact.unit,
        "kind": fact.kind,
        "what": fact.what,
    }
    if fact.said_as:
        entry["said_as"] = list(fact.said_as)
    if fact.working:
        entry["working"] = fact.working
    return entry


def _number(value: Value, factor: Fraction) -> Any:
    if isinstance(value, tuple):
        return [_number(v, factor) for v in value]
    if isinstance(value, str):
        return value
    if isinstance(value, float):
        scaled_float = value * float(factor)
        return int(scaled_float) if scaled_float.is_integer() else scaled_float
    scaled = Fraction(value) * factor
    return int(scaled) if scaled.denominator == 1 else float(scaled)


def read_facts(text: str, where: str) -> Facts:
    """A facts file as Facts; lengths in mm become inches.

    Args:
        text: the JSON text.
        where: the file's name, for messages.

    Raises:
        InputError: not JSON, not an object with "quantities", or an entry without value, unit, kind and what.
    """
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        raise InputError(
            Fault(
                f"{where}:{error.lineno}",
                f"not JSON: {error.msg}. Write a facts file with `tutorial facts BUILD --json FILE`.",
            )
        ) from None
    except (ValueError, RecursionError):
        raise InputError(Fault(where, "a number in it has thousands of digits, or it is nested too deeply.")) from None
    if not isinstance(data, dict) or not isinstance(data.get("quantities"), dict):
        raise InputError(Fault(where, 'a facts file is an object with "name", "title", "units" and "quantities".'))
    units = data.get("units", "in")
    faults = [] if units in ("in", "mm") else [Fault(where, f'"units" is {units!r}; it is "in" or "mm".')]
    facts = []
    for key, entry in data["quantities"].items():
        try:
            facts.append(_read(key, entry))
        except ValueError as error:
            faults.append(Fault(f"{where} {key}", f"{error}; a fact has value, unit, kind and what."))
    if faults:
        raise InputError(faults)
    return Facts(str(data.get("name", where)), str(data.get("title", "")), units, facts)


def _read(key: str, entry: Any) -> Fact:
    """One entry; ValueError says what is wrong with it."""
    if not isinstance(entry, dict):
        raise ValueError("it is no object")
    unit, value = _text(entry, "unit"), _exact(entry.get("value"))
    said_as = entry.get("said_as", [])
    if not isinstance(said_as, list) or not all(isinstance(word, str) for word in said_as):
        raise ValueError("said_as is no list of texts")
    if unit == "mm":
        value, unit = _scale(value, Fraction(5, 127)), "in"
    working = _text(entry, "working") if "working" in entry else ""
    return Fact(key, value, unit, _text(entry, "kind"), _text(entry, "what"), tuple(said_as), working)


def _text(entry: Mapping[str, Any], name: str) -> str:
    if not isinstance(entry.get(name), str):
        raise ValueError(f"{name} is missing, or is no text")
    return str(entry[name])


def _exact(value: Any) -> Value:
    if isinstance(value, list):
        return tuple(_exact_number(v) for v in value)
    return value if isinstance(value, str) else _exact_number(value)


def _exact_number(value: Any) -> Fraction | int:
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < LARGEST:
        raise ValueError("value is missing, or is no number within reach")
    return value if isinstance(value, int) else Fraction(str(value))


def _scale(value: Value, factor: Fraction) -> Value:
    if isinstance(value, tuple):
        return tuple(Fraction(v) * factor for v in value)
    if isinstance(value, str):
        return value
    return Fraction(value) * factor
