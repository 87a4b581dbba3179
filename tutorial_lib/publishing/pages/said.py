"""What was said on camera: the timeline, the ledger by time, findings across the talk, corrections, cue cards."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tutorial_lib.drawing.talk import talk_timeline
from tutorial_lib.narration.verdicts.checking import Item, Report
from tutorial_lib.narration.verdicts.report import NAMES as COUNTED
from tutorial_lib.narration.verdicts.writing import written
from tutorial_lib.publishing.blocks import Block, Column, Findings, Heading, Note, Page, Picture, Table, Text
from tutorial_lib.publishing.corrections import corrections
from tutorial_lib.publishing.cue_cards import cue_cards

NAMES = {
    "agrees": "agrees",
    "rounded": "rounded",
    "conflicts": "CONFLICTS",
    "not_in_plan": "not in the plan",
    "not_a_claim": "no claim",
}
FILTERS = (
    ("conflicts", ("conflicts",)),
    ("conflicts and rounded", ("conflicts", "rounded")),
    ("every claim", ("agrees", "rounded", "conflicts", "not_in_plan")),
    ("every number", tuple(NAMES)),
)


def overview(report: Report) -> list[Block]:
    """The timeline and the counts."""
    counts = ", ".join(f"{n} {COUNTED[name]}" for name, n in report.counts.items() if n)
    return [
        Heading("The talk"),
        Text(f"{len(report.items)} numbers: {counts}."),
        Picture(talk_timeline(report)),
        *[Note(note) for note in report.notes],
    ]


def ledger(report: Report, verdicts: Sequence[str], chosen: Item | None = None) -> list[Block]:
    """Every number with one of the verdicts: when, what was said in which words, what the plan has, and why."""
    shown = [i for i in report.items if i.verdict in verdicts]
    if not shown:
        return [Heading("Ledger"), Text("Nothing to show.")]
    place = "time" if report.talk.timed else "line"
    columns = (
        Column(place, align="right"),
        Column("cue" if report.talk.timed else "at", align="right"),
        Column("said, in its sentence", share=0.5),
        Column("said", align="right"),
        Column("plan", align="right"),
        Column("difference", align="right"),
        Column("verdict"),
        Column("why", share=0.5),
    )
    strong = frozenset(n for n, i in enumerate(shown) if i.verdict == "conflicts" or i is chosen)
    return [Heading("Ledger"), Table(columns, tuple(row(i, report.units) for i in shown), strong=strong)]


def row(item: Item, units: str) -> tuple[str, ...]:
    """One row of the ledger."""
    said = written(item.value[0], item.unit, units) if item.value and item.unit != "nominal" else ""
    plan = (
        written(min(item.plan_value, key=lambda v: abs(v - item.value[0])), item.unit, units) if item.plan_value else ""
    )
    off = item.difference
    gap = "" if not off else ("+" if off > 0 else "−") + written(abs(off), item.unit, units)
    mark = " (yours)" if item.decided else ""
    return (
        item.time or str(item.place),
        str(item.place),
        f"“{item.quote}”: {item.sentence}",
        said,
        plan,
        gap,
        NAMES[item.verdict] + mark,
        item.why,
    )


def across(report: Report) -> list[Block]:
    """What was found across claims."""
    return [Heading("Across the talk"), Findings(report.cross, "Nothing said contradicts anything else said.")]


def corrections_page(report: Report) -> list[Block]:
    """The corrections to pin under the video."""
    rows = tuple(
        (c.time or f"line {c.place}", c.what, c.said, c.right, c.affected, c.safe) for c in corrections(report)
    )
    if not rows:
        return [Heading("Corrections"), Text("Every number checked agrees with the plan.")]
    columns = (
        Column("time", align="right"),
        Column("about"),
        Column("said"),
        Column("right"),
        Column("who is affected", share=0.6),
        Column("safe?", share=0.4),
    )
    return [Heading("Corrections"), Table(columns, rows)]


def cards(facts: Any) -> list[Block]:
    """Cue cards by chapter: what to say, what to show, what not to say."""
    found = cue_cards(facts)
    blocks: list[Block] = [Heading("Cue cards")]
    for chapter in dict.fromkeys(c.chapter for c in found):
        rows = tuple((c.what, c.say, c.show, c.dont) for c in found if c.chapter == chapter)
        columns = (Column("about"), Column("say", share=0.5), Column("show"), Column("don't say", share=0.5))
        blocks += [Heading(chapter, 3), Table(columns, rows)]
    return blocks


def correction_pages(report: Report) -> list[Page]:
    """The corrections as a page of their own."""
    return [Page("Corrections", tuple(corrections_page(report)), 70)]
