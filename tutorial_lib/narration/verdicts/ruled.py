"""Numbers that plain words tell, whatever their value: judged by rule, in the form of the report."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.verdicts.items import Choice, Item
from tutorial_lib.records import dataclass

SURE, ASKED = 0.97, 0.5  # certainty of what the words say plainly; of what is asked (judgement, no source)
MOST = 3  # facts offered for one number
ELSEWHERE = frozenset(  # doubts: not this bed, or not what is meant of it
    ("other", "other_size", "another_bed", "supposed", "left", "taken_back", "reported")
)


@dataclass(frozen=True, kw_only=True)
class Ruled:
    """What a rule says of a number."""

    value: tuple[Fraction, ...]
    unit: str
    verdict: str  # agrees, rounded, fits, unsure or conflicts
    choices: tuple[Choice, ...]  # the facts it may be about, the likeliest first


def told(at: Item, ruled: Ruled) -> Item:
    """The item of a number judged by rule, ``at`` its place."""
    first = ruled.choices[0]
    made = replace(at, value=ruled.value, unit=ruled.unit, kind=first.kind, verdict=ruled.verdict, certainty=SURE)
    if ruled.verdict in ("unsure", "fits"):
        return replace(made, choices=ruled.choices, certainty=ASKED, why=asked(ruled))
    return replace(
        made,
        subject=first.subject,
        plan_value=first.plan_value,
        what=first.what,
        why=f"said of the {first.what}: {first.why}",
    )


def asked(ruled: Ruled) -> str:
    """Why a number is a question, or merely fits."""
    if ruled.verdict == "fits":
        return f"fits {' or '.join(c.what for c in ruled.choices)}; which of them is meant isn't plain"
    wrong = next(c for c in ruled.choices if c.verdict == "conflicts")
    return f"wrong if it speaks of the {wrong.what} ({wrong.why})"


def judged(value: tuple[Fraction, ...], unit: str, choices: Sequence[Choice], sure: bool) -> Ruled:
    """What the facts that a number is said of make of it.

    Right for one of them is right; wrong for all is a conflict where it is sure which one is meant, else a question.
    """
    right = [c for c in choices if c.verdict != "conflicts"]
    if right:
        alike = len({c.plan_value for c in choices}) == 1  # corner legs and middle legs of one board
        verdict = right[0].verdict if len(right) == 1 or alike else "fits"
        return Ruled(value=value, unit=unit, verdict=verdict, choices=tuple(right[:MOST]))
    return Ruled(value=value, unit=unit, verdict="conflicts" if sure else "unsure", choices=tuple(choices[:MOST]))
