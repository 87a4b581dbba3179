"""What was said on camera as a list to work through; the timeline, findings across the talk, corrections, cue cards."""

from __future__ import annotations

from collections.abc import Sequence

from tutorial_lib.drawing.talk import talk_timeline
from tutorial_lib.facts import Facts
from tutorial_lib.narration import Item, Report
from tutorial_lib.narration.verdicts.items import RIGHT
from tutorial_lib.narration.verdicts.writing import timber, written, written_whole
from tutorial_lib.publishing.blocks import Block, Column, Findings, Heading, Note, Picture, Table, Text
from tutorial_lib.publishing.check_list import ELSE, headline, meaning
from tutorial_lib.publishing.corrections import corrections
from tutorial_lib.publishing.cue_cards import cue_cards

LISTS = (  # what the folded part of the list shows
    ("nothing more", ()),
    ("what is right", RIGHT),
    ("what is nothing of this bed", ELSE),
    ("every number", ("conflicts", "unsure", *RIGHT, *ELSE)),
)
MARKS = {
    "agrees": "right",
    "rounded": "right, rounded",
    "fits": "right for one of them",
    "unsure": "look at it",
    "conflicts": "WRONG",
    "not_in_plan": "not in the plan",
    "not_a_claim": "nothing of this bed",
}


def overview(report: Report) -> list[Block]:
    """The first line and the timeline."""
    other = len(report.with_verdict(*ELSE))
    besides = f"; {other} say nothing of this bed" if other else ""
    return [
        Heading(headline(report)),
        Text(f"{report.talk.name}, {len(report.items)} numbers{besides}. It can miss a slip."),
        Picture(talk_timeline(report)),
        *[Note(note) for note in report.notes],
    ]


def work_list(report: Report, chosen: Item | None = None) -> list[Block]:
    """What to correct and what to look at, in that order; nothing where there is nothing."""
    blocks: list[Block] = []
    for title, found in (("To correct", report.conflicts), ("To look at", report.doubtful)):
        if found:
            blocks += [Heading(title, 3), table(found, report, chosen)]
    return blocks


def folded(report: Report, verdicts: Sequence[str]) -> list[Block]:
    """The rest of the list, unfolded by what is asked for."""
    found = report.with_verdict(*verdicts)
    return [Heading("The rest", 3), table(found, report)] if found else []


def table(items: Sequence[Item], report: Report, chosen: Item | None = None) -> Table:
    """Numbers as rows: when, the words with the number in brackets, what was said, what the plan has, of what."""
    columns = (
        Column("at" if report.talk.timed else "line", align="right"),
        Column("said", share=0.5),
        Column("that is", align="right"),
        Column("the plan has", align="right"),
        Column("it speaks of", share=0.5),
        Column("so"),
    )
    strong = frozenset(n for n, item in enumerate(items) if item is chosen)
    return Table(columns, tuple(row(item, report) for item in items), strong=strong)


def row(item: Item, report: Report) -> tuple[str, ...]:
    """One row of the list."""
    units = report.units
    named = item.unit == "nominal"
    said = written_whole(item.value, item.unit, units) if item.value and not (named and item.subject is None) else ""
    plan = (
        [timber(item.plan_value)]
        if named and item.plan_value
        else [written(v, item.unit, units) for v in item.plan_value]
    )
    of = item.what if item.subject else "; or ".join(meaning(c, units) for c in item.choices) or item.why
    return (
        item.time or str(item.place),
        f"“{item.before}[{item.quote}]{item.after}”",
        said,
        plan[0] if len(plan) == 1 else ", ".join(plan),
        of,
        MARKS[item.verdict] + (" (you said so)" if item.answered else ""),
    )


def across(report: Report) -> list[Block]:
    """What was found across claims; nothing where there is nothing."""
    return [Heading("Across the talk"), Findings(report.cross)] if report.cross else []


def corrections_page(report: Report) -> list[Block]:
    """The corrections to pin under the video."""
    rows = tuple(
        (c.time or f"line {c.place}", c.what, c.said, c.right, c.affected, c.safe) for c in corrections(report)
    )
    if not rows:
        return []
    columns = (
        Column("time", align="right"),
        Column("about"),
        Column("said"),
        Column("right"),
        Column("who is affected", share=0.6),
        Column("safe?", share=0.4),
    )
    return [Heading("Corrections"), Table(columns, rows)]


def cards(facts: Facts) -> list[Block]:
    """Cue cards by chapter: what to say, what to show, what not to say."""
    found = cue_cards(facts)
    blocks: list[Block] = [Heading("Cue cards")]
    for chapter in dict.fromkeys(c.chapter for c in found):
        rows = tuple((c.what, c.say, c.show, c.dont) for c in found if c.chapter == chapter)
        columns = (Column("about"), Column("say", share=0.5), Column("show"), Column("don't say", share=0.5))
        blocks += [Heading(chapter, 3), Table(columns, rows)]
    return blocks
