"""Small plans for tests, as facts."""

from __future__ import annotations

import json
from typing import Any

from tutorial_lib.facts import Facts, read_facts
from tutorial_lib.narration import Item
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.subjects import subject as subject_of


def fact(
    value: float, unit: str, kind: str, what: str, *said: str, board: tuple[str, int] | None = None
) -> dict[str, Any]:
    """An entry of a facts file; with the board it speaks of, by section and length."""
    entry = {"value": value, "unit": unit, "kind": kind, "what": what, "said_as": list(said)}
    return entry | ({"board": {"section": board[0], "length": board[1]}} if board else {})


def facts(quantities: dict[str, dict[str, Any]], units: str = "in") -> Facts:
    """A plan with these quantities."""
    return read_facts(json.dumps({"name": "t", "title": "t", "units": units, "quantities": quantities}), "t.json")


def subject(key: str, entry: dict[str, Any], units: str = "in") -> Subject:
    """One quantity as a subject."""
    made = subject_of(facts({key: entry}, units)[key])
    assert made is not None
    return made


def told(item: Item) -> tuple[str | None, str]:
    """What the check says a number is of, and "right", "wrong" or the verdict; how sure it is left out.

    A doubtful number is told as wrong for the fact it is suspected of, one that fits as right for the likeliest.
    """
    if item.verdict == "unsure":
        return next(c.subject for c in item.choices if c.verdict == "conflicts"), "wrong"
    if item.verdict == "fits":
        return item.choices[0].subject, "right"
    return item.subject, {"agrees": "right", "rounded": "right", "conflicts": "wrong"}.get(item.verdict, item.verdict)
