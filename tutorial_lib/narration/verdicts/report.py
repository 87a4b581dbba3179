"""The check report as text, and the whole check in one call for the command line."""

from __future__ import annotations

from typing import Any

from tutorial_lib.narration.captions.reading import read_captions
from tutorial_lib.narration.verdicts.across import Planner
from tutorial_lib.narration.verdicts.checking import Item, Report, check
from tutorial_lib.narration.verdicts.writing import written

NAMES = {
    "agrees": "agree",
    "rounded": "rounded",
    "conflicts": "conflict",
    "not_in_plan": "not in the plan",
    "not_a_claim": "no claim",
}


def text(report: Report, everything: bool = False) -> str:
    """What the check found, for people: conflicts first, then what was found across claims, then the counts.

    Args:
        report: the check.
        everything: list every number, not only the conflicts and those not in the plan.
    """
    count = len(report.items)
    lines = [f"{report.talk.name}: {count} {'number' if count == 1 else 'numbers'}"]
    shown = report.items if everything else report.conflicts
    if not report.items:
        lines.append("No number was found in it, so nothing was checked; numbers are read in English only.")
    elif not report.conflicts:
        lines.append("Nothing said contradicts the plan.")
    for item in shown:
        lines += describe(item, report.units)
    if report.cross:
        lines += ["", "Across the talk"] + [f"  {finding}" for finding in report.cross]
    counted = ", ".join(f"{count} {NAMES[name]}" for name, count in report.counts.items() if count)
    lines += ["", counted] if counted else []
    lines += [f"note: {note}" for note in report.notes]
    return "\n".join(lines) + "\n"


def describe(item: Item, units: str) -> list[str]:
    """Two lines on one number: place, quote, said, plan; and why."""
    where = item.time or f"line {item.place}"
    words = item.verdict.replace("_", " ")
    head = f'  {where:>8}  {words:<12} "{item.quote}"'
    if item.plan_value and item.value and item.difference is not None:
        off = item.difference
        sign = "+" if off > 0 else "-" if off < 0 else ""
        head += f" = {written(item.value[0], item.unit, units)}; plan {written(item.plan_value[0], item.unit, units)}"
        head += f" ({sign}{written(abs(off), item.unit, units)})" if off else ""
    return [head, f"            {item.why}", f"            … {item.sentence} …"]


def check_text(
    facts: Any,
    captions: bytes | str,
    name: str,
    planner: Planner | None = None,
    decisions: dict[str, Any] | None = None,
) -> tuple[Report, str, int]:
    """The whole check: report, text, and exit status (1 on a conflict, else 0)."""
    found = check(read_captions(captions, name), facts, planner, decisions)
    return found, text(found), int(bool(found.conflicts))
