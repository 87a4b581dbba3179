"""What the check heard in the video, packed for the page: only what a comparison and a booklet need."""

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
        "place": item.place,
        "t": item.t,
        "quote": item.quote,
        "value": [str(value) for value in item.value],
        "unit": item.unit,
        "kind": item.kind,
        "subject": item.subject,
        "plan_value": [str(value) for value in item.plan_value],
        "what": item.what,
        "verdict": item.verdict,
        "before": item.before,
        "after": item.after,
        "choices": [[choice.subject, choice.verdict] for choice in item.choices],
    }


def unpacked(text: str) -> Report | None:
    """The report of the packed text; what neither looks at is left empty."""
    if not text:
        return None
    found = json.loads(text)
    return Report(Talk(name="", form="vtt", cues=()), found["units"], tuple(map(_read, found["items"])))


def _read(item: dict[str, Any]) -> Item:
    choices = tuple(
        Choice(subject=subject, what="", plan_value=(), unit="", kind="", verdict=verdict, why="")
        for subject, verdict in item.pop("choices")
    )
    value, plan = (tuple(map(Fraction, item.pop(key))) for key in ("value", "plan_value"))
    return Item(**item, value=value, plan_value=plan, choices=choices, why="", start=0, end=0)
