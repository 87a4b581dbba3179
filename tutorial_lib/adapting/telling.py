"""A comparison as plain text for the terminal: short, in words, what must be known first."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from tutorial_lib.adapting.comparison import NONE

if TYPE_CHECKING:
    from tutorial_lib.adapting.comparison import Comparison, Row, Slip
    from tutorial_lib.adapting.novelties import Item

# Facts a builder needs at the bench; the others are in the JSON, the sheet and the notebook.
BENCH = ("length", "height", "part_count", "stock_count", "gap", "screw_length", "bolt_length", "screw_count",
         "section", "cost", "load")  # fmt: skip
SHOWN = 12  # facts that stay, named one by one


def text(found: Comparison) -> str:
    """The whole comparison in words."""
    parts = [
        _head(found),
        _slips(found),
        _outdated(found),
        _choices(found),
        _list("New, not in the video:", found.new),
        _changed(found),
        _list("Not in yours:", found.gone),
        _stays(found),
        _sums(found),
        _findings(found),
    ]
    return "\n\n".join("\n".join(lines) for lines in (list(part) for part in parts) if lines)


def _head(found: Comparison) -> Iterator[str]:
    a = found.adaptation
    yield from a.notes
    if a.same:
        yield "Nothing changes: it is the creator's own bed."
    elif a.troubles:
        yield f"Your bed: {a.yours.options.build.title}."
        yield "STOP: this style of bed can't carry it as it stands. " + "; ".join(a.troubles[:3]) + "."
        yield a.would
    else:
        yield f"Your bed: {a.yours.options.build.title}."


def _choices(found: Comparison) -> Iterator[str]:
    if found.adaptation.changes:
        yield "Changed in the build file:"
    rounded = [step for step in found.adaptation.changes if step.rounded]
    kept = (step for step in found.adaptation.changes if step not in rounded)
    for why, steps in groupby(kept, key=lambda step: step.full):
        yield from (f"  {step.key}: {step.before} → {step.after}" for step in steps)
        yield f"      {why}"
    if rounded:
        yield f"  {len(rounded)} lengths go to whole millimetres, each by less than 1 mm"


def _list(title: str, items: tuple[Item, ...]) -> Iterator[str]:
    if items:
        yield title
    for why, alike in groupby(items, key=lambda item: item.why):
        yield from (f"  {item.what}" for item in alike)
        yield f"      {why}"


def _changed(found: Comparison) -> Iterator[str]:
    rows = [row for row in found.of("changes") if _at_the_bench(row) and found.shows(row)]
    if not rows or found.adaptation.yours.build.bed_stands:
        return  # the bed keeps its own figures
    yield "Other numbers (video → yours):"
    for row in rows:
        assert row.before and row.after
        times = ", ".join(said.time for said in row.said if said.time)
        said = f"  [{times}]" if times else ""
        yield f"  {row.what}: {found.write(row.before)} → {found.write(row.after, True)}{said}"


def _at_the_bench(row: Row) -> bool:
    fact = row.after or row.before
    return fact is not None and fact.kind in BENCH and not isinstance(fact.value, tuple)


def _stays(found: Comparison) -> Iterator[str]:
    rows = [row for row in found.of("stays") if _at_the_bench(row) and row.after and not _slipped(row)]
    if rows and not found.adaptation.same:
        named = ", ".join(f"{row.what} {found.write(row.after, True)}" for row in rows[:SHOWN])
        more = len(found.of("stays")) - min(SHOWN, len(rows))
        yield f"Stays as in the video: {named}" + (f" and {more} more." if more else ".")


def _slipped(row: Row) -> bool:
    return any(said.wrong for said in row.said)


def _slips(found: Comparison) -> Iterator[str]:
    """What the creator said wrong, and what to use."""
    if found.slips:
        yield "The video has it wrong:"
    for slip in found.slips:
        place = f"{slip.said.time} " if slip.said.time else ""
        yield f'  {place}the video says "{slip.said.quote}", {slip.row.what}: {_use(found, slip)}'


def _use(found: Comparison, slip: Slip) -> str:
    use, plan = found.use(slip), found.write(slip.row.before)
    told = use if use == NONE else f"use {use}"
    if found.adaptation.same:
        return told
    return f"{told}, as in the creator's plan" if use == plan else f"{told} (the creator's plan: {plan})"


def _outdated(found: Comparison) -> Iterator[str]:
    if found.outdated:
        yield "No longer holds for your bed:"
    for outdated in found.outdated:
        yield f'  {outdated.said.time or ""} "{outdated.marked}" – yours: {found.instead(outdated)}'


def _sums(found: Comparison) -> Iterator[str]:
    for what, before, after in () if found.adaptation.yours.build.bed_stands else found.sums:
        yield f"{what}: {before} → {after}" if before != after else f"{what}: {after}, as in the video"


def _findings(found: Comparison) -> Iterator[str]:
    for finding in found.adaptation.findings:
        if finding.severity != "note":
            yield str(finding)
