"""What the check heard in the video, packed for the page: only what a comparison with another bed needs."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

from tutorial_lib.narration import Choice, Item, Report, Talk


def packed(report: Report | None) -> str:
    """The report as JSON; empty where there are no captions."""
    if report is None:
        return ""
    items = [_item(item) for item in report.items if item.subject or item.choices]
    return json.dumps({"units": report.units, "items": items}, separators=(",", ":"))


def _item(item: Item) -> dict[str, Any]:
    return {
        "t": item.t,
        "quote": item.quote,
        "value": [str(value) for value in item.value],
        "unit": item.unit,
        "kind": item.kind,
        "subject": item.subject,
        "verdict": item.verdict,
        "before": item.before,
        "after": item.after,
        "choices": [[choice.subject, choice.verdict] for choice in item.choices],
    }


def unpacked(text: str) -> Report | None:
    """The report of the packed text; what no comparison looks at is left empty."""
    if not text:
        return None
    found = json.loads(text)
    return Report(Talk(name="", form="vtt", cues=()), found["units"], tuple(map(_read, found["items"])))


def _read(item: dict[str, Any]) -> Item:
    choices = tuple(
        Choice(subject=subject, what="", plan_value=(), unit="", kind="", verdict=verdict, why="")
        for subject, verdict in item.pop("choices")
    )
    value = tuple(map(Fraction, item.pop("value")))
    return Item(**item, value=value, choices=choices, place=0, why="", start=0, end=0)
