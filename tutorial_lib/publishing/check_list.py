"""The check of a talk as a list to work through: what to correct, what to look at, and the text to pin."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from tutorial_lib.facts import Fact
from tutorial_lib.findings import Finding
from tutorial_lib.measures import Units
from tutorial_lib.narration import Choice, Item, Report
from tutorial_lib.narration.verdicts.answers import choice_if
from tutorial_lib.narration.verdicts.items import RIGHT
from tutorial_lib.narration.verdicts.writing import written_whole
from tutorial_lib.publishing.corrections import correction_lines

WIDTH = 100  # [characters]
IN = " " * 10
ELSE = ("not_in_plan", "not_a_claim")
NOTHING_FOUND = "No number was found in it; spoken numbers are read in English only."


def headline(report: Report) -> str:
    """The first line: "3 to correct, 4 to look at, 61 right".

    What says nothing of this bed isn't counted in it.
    """
    right = len(report.with_verdict(*RIGHT))
    return f"{len(report.conflicts)} to correct, {len(report.doubtful)} to look at, {right} right"


def check_list(report: Report, everything: bool = False) -> str:
    """The list, for people; ``everything`` unfolds what is right and what says nothing of this bed."""
    lines = [headline(report)]
    if not report.items:
        return "\n".join([*lines, NOTHING_FOUND, ""])
    lines += titled("To correct", [x for i in report.conflicts for x in to_correct(i, report.units)])
    lines += titled("To look at", [x for i in report.doubtful for x in to_look_at(i, report.units)])
    lines += titled("Across the talk", [wrapped(across(f), "  ", "    ") for f in report.cross])
    lines += titled("To pin under the video", pinned(report))
    lines += list(folded(report, everything))
    lines += [wrapped(f"note: {note}", "", "      ") for note in report.notes]
    return "\n".join([*lines, ""])


def titled(title: str, lines: Sequence[str]) -> list[str]:
    """A part of the list under its title; nothing when there is nothing."""
    return ["", title, *lines] if lines else []


def across(finding: Finding) -> str:
    """What doesn't go together in the talk, and what is right."""
    return f"{finding.what} {finding.remedy}"


def to_correct(item: Item, units: str) -> Iterator[str]:
    """A slip: when, the words with the number marked, what the plan says."""
    yield sentence(item)
    said = written_whole(item.value, item.unit, units)
    yield f"{IN}{item.what}: the plan has {written_whole(item.plan_value, item.unit, units)}, said {said}"


def to_look_at(item: Item, units: str) -> Iterator[str]:
    """A doubtful number: when, the words, and what each meaning would make of it."""
    yield sentence(item)
    for choice in item.choices:
        yield f"{IN}{meaning(choice, units)}"


def meaning(choice: Choice, units: str) -> str:
    """What a number means if it speaks of a fact: "4x4 leg: right", "1x4 slat: wrong, the plan has 38 1/4 in"."""
    plan = written_whole(choice.plan_value, choice.unit, units)
    return f"{choice.what}: wrong, the plan has {plan}" if choice.verdict == "conflicts" else f"{choice.what}: right"


def if_it_speaks_of(item: Item, fact: Fact, units: Units) -> str:
    """What a number means if it speaks of a fact the check did not think of."""
    choice = choice_if(item, fact, units)
    return meaning(choice, units) if choice else f"{fact.what}: not a number"


def sentence(item: Item) -> str:
    """The time and the sentence with the number in [brackets]."""
    return wrapped(f"“{item.before}[{item.quote}]{item.after}”", f"{item.where:>8}  ", IN)


def wrapped(text: str, first: str, rest: str) -> str:
    """A text in lines."""
    return textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)


def pinned(report: Report) -> list[str]:
    """The lines to pin, set in as the rest of the list; none when there is nothing to correct."""
    return [f"  {line}" for line in correction_lines(report)]


def folded(report: Report, everything: bool) -> Iterator[str]:
    """What is right and what says nothing of this bed: how many, or one by one."""
    right, other = report.with_verdict(*RIGHT), report.with_verdict(*ELSE)
    yield ""
    if not everything:
        fits = len(report.with_verdict("fits"))
        of_these = f", {fits} of them by their value alone" if fits else ""
        yield f"Right: {len(right)}{of_these}. Nothing of this bed: {len(other)}. `--all` lists them."
        yield "The check can miss a slip: read through it once yourself."
        return
    for title, found in (("Right", right), ("Nothing of this bed", other)):
        if found:
            yield title
            yield from (x for item in found for x in (sentence(item), wrapped(item.why, IN, IN)))
