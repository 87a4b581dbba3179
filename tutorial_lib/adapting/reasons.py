"""Why a fact is what it is in the adapted bed: its working, or the change that caused it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutorial_lib.measures import writer

if TYPE_CHECKING:
    from tutorial_lib.adapting.adapt import Adaptation
    from tutorial_lib.adapting.changed import Change
    from tutorial_lib.facts import Fact

# A fact stated outright is explained by the choice behind it.
BEHIND = {
    "mattress.width": "mattress", "mattress.length": "mattress", "mattress.thickness": "mattress.thickness",
    "frame.mattress_clearance": "clearance.side", "frame.end_clearance": "clearance.end",
    "centre_line": "centre.lines", "centre_beam": "centre.lines", "centre_runner": "centre.lines",
    "centre_leg": "centre.lines", "line_end": "centre.lines", "line_leg": "centre.lines", "beam_block": "centre.lines",
    "slat.thickness": "slats.lumber", "slat.width": "slats.lumber", "rail": "frame.rail", "kerf": "saw.kerf",
    "trim": "saw.trim", "finish": "finish", "leg.count": "legs.per_side", "rating": "load",
}  # fmt: skip
BARE = ("", "stated", "as measured", "pieces of the plan", "actual size", "cut plan", "the grid less those left out")


def _gone(key: str, step: Change | None, adaptation: Adaptation) -> str:
    """Why a fact is gone."""
    if key == "lumber.cost":
        return f"no price is given for {', '.join(sorted(adaptation.yours.cutting.unpriced))}"
    return step.why if step else "your bed has none"


def reason(key: str, fact: Fact | None, adaptation: Adaptation) -> str:
    """Why a fact has changed, is new or is gone."""
    step = cause(key, adaptation.changes)
    if key.startswith("stock.") or key == "lumber.boards":
        return "the cut plan of your parts"
    if fact is None:
        return _gone(key, step, adaptation)
    if key == "slat.count" or (key.startswith("slat.gap") and fact.working in BARE):
        return _slats(adaptation)
    if key == "leg.count" and adaptation.yours.build.options.centre.lines != adaptation.creator.options.centre.lines:
        return "legs under the sides and under the centre lines"
    if fact.working not in BARE:
        return fact.working
    return step.why if step else fallback(adaptation.changes)


def cause(key: str, steps: tuple[Change, ...]) -> Change | None:
    """The change of the build file behind a fact, where one can be named."""
    behind = BEHIND.get(key) or BEHIND.get(key.split(".")[0])
    heads = [behind] if behind else [key.split(".")[0] + "s", key.split(".")[0]]
    for head in heads:
        for step in steps:
            if step.key == head or step.key.startswith(f"{head}."):
                return step
    return None


def fallback(steps: tuple[Change, ...]) -> str:
    """The first change, when nothing nearer can be named."""
    if not steps:
        return ""
    first = steps[0]
    return f"follows from {first.key}: {first.before} → {first.after}"


def _slats(adaptation: Adaptation) -> str:
    build = adaptation.yours.build
    units = build.options.build.units
    opening, gap = writer(units).length(build.slats.opening), build.options.slats.gap
    limit = f", gaps of {writer(units).length(gap)} at most" if gap else ""
    return f"{build.slats.count} slats of {writer(units).length(build.slats.width)} fill {opening}{limit}"
