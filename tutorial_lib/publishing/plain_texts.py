"""Plain texts to send and to paste: the shopping list for a message, the block for under the video."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from tutorial_lib.cutting.saw import saw_cuts
from tutorial_lib.findings import by_severity
from tutorial_lib.lists.buying import Line, shopping, units_of
from tutorial_lib.measures import money, writer
from tutorial_lib.publishing.chapters import FEWEST, Chapter, plain_list
from tutorial_lib.publishing.corrections import correction_lines
from tutorial_lib.publishing.identity import size, version
from tutorial_lib.publishing.tools import tools

if TYPE_CHECKING:
    from tutorial_lib.design.model import Part
    from tutorial_lib.narration import Report
    from tutorial_lib.plan import Plan


def shopping_text(plan: Plan) -> str:
    """The shopping list as plain text, a line to tick off each; to send to whoever goes."""
    found = shopping(plan)
    lines = [plan.options.build.title, f"Shopping list, {size(plan)}, plan {version(plan.options)}"]
    for kind, listed in groupby(found.lines, key=lambda line: line.kind):
        lines += ["", kind.capitalize(), *(f"[ ] {_bought(line, found.currency)}" for line in listed)]
    if found.priced:
        rest = f", without {_items(len(found.unpriced))} not priced" if found.unpriced else ""
        lines += ["", f"Total {money(found.total, found.currency)}{rest}"]
    return "\n".join(lines) + "\n"


def _items(count: int) -> str:
    return "1 item" if count == 1 else f"{count} items"


def _bought(line: Line, currency: str) -> str:
    cost = f", {money(line.cost, currency)}" if line.cost is not None else ""
    note = f" ({line.note})" if line.note else ""
    return f"{line.what}: {units_of(line)}{cost}{note}"


def description(
    plan: Plan, report: Report | None = None, found: Sequence[Chapter] = (), creator: Plan | None = None
) -> str:
    """The block for under the video: what it is, chapters, corrections, parts, cuts, what to buy, tools, cautions.

    Args:
        plan: the bed.
        report: the check of the talk; its corrections are told.
        found: the talk's chapters.
        creator: the talk's own bed, where ``plan`` is another's: its corrections hold for that one.
    """
    parts = [_head(plan), *_talk(report, found, creator)]
    parts += [
        _titled("Parts, actual sizes", _parts(plan)), _titled("Cuts, board by board", _cuts(plan)),
        _titled("To buy", (_bought(line, plan.options.shop.currency) for line in shopping(plan).lines)),
        _titled("Tools", tools(plan)), _titled("Before you build", _cautions(plan)),
        f"Plan {version(plan.options)}: a sheet with another mark is of another bed.\n",
    ]  # fmt: skip
    return "\n".join(part for part in parts if part)


def _titled(title: str, lines: Sequence[str] | Iterator[str]) -> str:
    listed = list(lines)
    return "\n".join([title.upper(), *listed]) + "\n" if listed else ""


def _head(plan: Plan) -> str:
    w, build = writer(plan.options.build.units), plan.build
    outside = w.size(*build.overall)
    height = w.length(build.heights.slat_top)
    return f"{plan.options.build.title}\nA slatted platform bed, {size(plan)}, {outside} outside, slats {height} up.\n"


def _talk(report: Report | None, found: Sequence[Chapter], creator: Plan | None) -> Iterator[str]:
    if len(found) >= FEWEST:
        yield f"CHAPTERS\n{plain_list(found)}"
    if report is not None and (lines := correction_lines(report)):
        whose = [f"These are of the video's own bed, {size(creator)}, not of this one."] if creator else []
        yield "\n".join(["CORRECTIONS", *whose, *lines]) + "\n"


def _parts(plan: Plan) -> Iterator[str]:
    w = writer(plan.options.build.units)
    for part in plan.build.made:
        if not part.section.steel:
            yield f"{part.count} x {part.name}, {_lumber(plan, part)}: {w.length(part.length)}"


def _lumber(plan: Plan, part: Part) -> str:
    """A section with its actual size, once: "2x6 (1 1/2 x 5 1/2 in)"."""
    w, section = writer(plan.options.build.units), part.section
    return f"{section.name} ({w.size(section.thickness, section.width)})"


def _cuts(plan: Plan) -> Iterator[str]:
    w = writer(plan.options.build.units)
    names = {part.key: part.name for part in plan.build.parts}
    for layout in plan.cutting.plan.layouts:
        groups = groupby(saw_cuts(layout.board), key=lambda cut: names[cut.piece.name])
        told = "; ".join(f"{name} at {', '.join(w.mark(cut.mark) for cut in cuts)}" for name, cuts in groups)
        boards = "1 board" if layout.count == 1 else f"{layout.count} boards"
        yield f"{layout.board.section}, {layout.board.stock}, {boards}: {told} {w.units}"


def _cautions(plan: Plan) -> Iterator[str]:
    serious = [f for f in by_severity(plan.findings) if f.severity in ("stop", "caution")]
    for finding in serious:
        yield f"{finding.severity.capitalize()}: {finding.what}"
    yield "Load figures are calculated, not tested. An adult's bed, not for infants."
