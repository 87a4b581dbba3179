"""Reads the facts file (JSON): lengths in mm become inches, exact numbers are taken exactly."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import isclose
from typing import Any

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.facts.fact import Board, Fact, Facts, Number, Value, each_length
from tutorial_lib.measures import mm

LARGEST = 10**12  # no number of a bed comes near it
EXACT = re.compile(r"-?[0-9]{1,30}(/0*[1-9][0-9]{0,29})?")
NEAR = 1e-9  # relative; how far "value" may lie from "exact"


def read_facts(text: str, where: str) -> Facts:
    """A facts file as Facts; lengths in mm become inches, exact ones are taken exactly.

    Args:
        text: the JSON text.
        where: the file's name, for messages.

    Raises:
        InputError: not JSON, not an object with "quantities", or an entry without value, unit, kind and what, or one
            whose "exact" is another number than its "value".
    """
    data = _object(text, where)
    units = data.get("units", "in")
    faults = [] if units in ("in", "mm") else [Fault(where, f'"units" is {units!r}; it is "in" or "mm".')]
    exact = any(isinstance(entry, dict) and "exact" in entry for entry in data["quantities"].values())
    facts = []
    for key, entry in data["quantities"].items():
        try:
            facts.append(_read(key, entry, exact, units))
        except ValueError as error:
            faults.append(Fault(f"{where} {key}", f"{error}; a fact has value, unit, kind and what."))
    if faults:
        raise InputError(faults)
    return Facts(str(data.get("name", where)), str(data.get("title", "")), units, facts)


def _object(text: str, where: str) -> dict[str, Any]:
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        how = "Write a facts file with `tutorial facts BUILD --json FILE`."
        raise InputError(Fault(f"{where}:{error.lineno}", f"not JSON: {error.msg}. {how}")) from None
    except (ValueError, RecursionError):
        raise InputError(Fault(where, "a number in it has thousands of digits, or it is nested too deeply.")) from None
    if not isinstance(data, dict) or not isinstance(data.get("quantities"), dict):
        raise InputError(Fault(where, 'a facts file is an object with "name", "title", "units" and "quantities".'))
    return data


def _read(key: str, entry: Any, told_exactly: bool, units: str) -> Fact:
    """One entry; in a file that tells exact numbers one without is only calculated, elsewhere it is taken as written.

    ValueError says what is wrong with it.
    """
    if not isinstance(entry, dict):
        raise ValueError("it is no object")
    unit, value = _text(entry, "unit"), _value(entry.get("value"), entry.get("exact"))
    if "exact" not in entry:
        value = _each(value, float if told_exactly else _as_written)
    said_as = entry.get("said_as", [])
    if not isinstance(said_as, list) or not all(isinstance(word, str) for word in said_as):
        raise ValueError("said_as is no list of words")
    if unit == "mm":
        value, unit = each_length(value, mm), "in"
    return Fact(
        key=key,
        value=value,
        unit=unit,
        kind=_text(entry, "kind"),
        what=_text(entry, "what"),
        said_as=tuple(said_as),
        working=_text(entry, "working") if "working" in entry else "",
        board=_board(entry["board"], units) if "board" in entry else None,
    )


def _board(told: Any, units: str) -> Board:
    """A board as the writer of the file has it: its length in the file's unit."""
    if not isinstance(told, dict) or not {"section", "length"} >= set(told):
        raise ValueError("board is an object with section and length")
    length = told.get("length")
    if length is not None and not (isinstance(length, int) or (isinstance(length, str) and EXACT.fullmatch(length))):
        raise ValueError('the length of a board is a whole number, or a fraction as text, such as "153/4"')
    inches = None if length is None else mm(Fraction(length)) if units == "mm" else Fraction(length)
    return Board(_text(told, "section") if "section" in told else "", inches)


def _text(entry: Mapping[str, Any], name: str) -> str:
    if not isinstance(entry.get(name), str):
        raise ValueError(f"{name} is missing, or is no text")
    return str(entry[name])


def _value(value: Any, exact: Any) -> Value:
    if isinstance(value, list):
        if exact is not None and not (isinstance(exact, list) and len(exact) == len(value)):
            raise ValueError("exact has another count of numbers than value")
        return tuple(_number(v, None if exact is None else exact[i]) for i, v in enumerate(value))
    return value if isinstance(value, str) else _number(value, exact)


def _number(value: Any, exact: Any) -> Number:
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < LARGEST:
        raise ValueError("value is missing, or is no number within reach")
    if exact is None:
        return value
    if not isinstance(exact, str) or not EXACT.fullmatch(exact):
        raise ValueError(f'exact is a whole number or a fraction as text, such as "153/4", not {exact!r}')
    told = Fraction(exact)
    if not isclose(float(told), float(value), rel_tol=NEAR, abs_tol=NEAR):
        raise ValueError(f'value {value} and exact "{exact}" are two numbers')
    return told


def _as_written(value: Number) -> Number:
    return Fraction(str(value)) if isinstance(value, float) else value


def _each(value: Value, change: Callable[[Number], Number]) -> Value:
    if isinstance(value, str):
        return value
    return tuple(map(change, value)) if isinstance(value, tuple) else change(value)
