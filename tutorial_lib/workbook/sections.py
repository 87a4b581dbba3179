"""How a panel's blocks are laid out: drawings as views to choose from, findings as lines, the rest underneath."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property
from html import escape

from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.figures import write_value
from tutorial_lib.findings import Finding, by_severity
from tutorial_lib.measures import Units
from tutorial_lib.publishing.blocks import Block, Findings, Heading, pictures
from tutorial_lib.records import dataclass

Stated = dict[str, Fact]  # by key
SHOWN = 4  # findings shown before the rest is folded
SIGNS = {
    "stop": '<span class="tw-stop">STOP</span>',
    "caution": '<span class="tw-warn" role="img" aria-label="caution"></span>',
    "note": '<span class="tw-note" role="img" aria-label="note">i</span>',
}


@dataclass(frozen=True)
class Section:
    """Blocks under one heading."""

    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Later:
    """A view whose drawing is made when it is looked at: not while a control moves that another view shows."""

    title: str
    make: Callable[[], Sequence[Block]]

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """What it shows, without the heading that its tab says."""
        return tuple(b for b in self.make() if not (isinstance(b, Heading) and b.text == self.title))


Shown = Block | Later


def flat(shown: Sequence[Shown]) -> list[Block]:
    """All blocks, those made later too."""
    out: list[Block] = []
    for block in shown:
        out += [Heading(block.title), *block.blocks] if isinstance(block, Later) else [block]
    return out


@dataclass(frozen=True)
class Arranged:
    """A panel's blocks sorted by where they stand."""

    views: tuple[Section | Later, ...]  # beside the controls, one at a time
    rest: tuple[Section, ...]  # under both
    findings: tuple[Finding, ...]
    none: str  # what to say where there is no finding


@dataclass(frozen=True)
class Result:
    """One figure of the line under the drawing: a fact's key and the words around its value."""

    key: str
    words: str = "{}"  # "{} slats", "gap {}"


def arrange(shown: Sequence[Shown]) -> Arranged:
    """Sections with a drawing are views; without any drawing all is one view; findings leave the flow."""
    found = [block for block in shown if isinstance(block, Findings)]
    later = [block for block in shown if isinstance(block, Later)]
    cut = _cut([block for block in shown if not isinstance(block, Findings | Later)])
    views: list[Section | Later] = [*later, *(section for section in cut if pictures(section.blocks))]
    rest = [section for section in cut if not pictures(section.blocks)]
    if not views:
        views, rest = [_joined(cut)] if cut else [], []
    findings = by_severity([finding for block in found for finding in block.findings])
    none = next((block.none for block in found if block.none), "")
    return Arranged(tuple(views), tuple(rest), tuple(findings), none)


def _cut(blocks: Sequence[Block]) -> list[Section]:
    """The blocks cut at every heading; a heading with nothing under it goes."""
    out: list[Section] = []
    for block in blocks:
        if isinstance(block, Heading) or not out:
            title = block.text if isinstance(block, Heading) else ""
            out.append(Section(title, () if isinstance(block, Heading) else (block,)))
        else:
            out[-1] = Section(out[-1].title, (*out[-1].blocks, block))
    return [section for section in out if section.blocks]


def _joined(sections: Sequence[Section]) -> Section:
    blocks: list[Block] = []
    for section in sections:
        blocks += [Heading(section.title), *section.blocks] if section.title else section.blocks
    return Section("", tuple(blocks))


def result_line(
    results: Sequence[Result], facts: Stated, before: Stated, units: Units, findings: Sequence[Finding]
) -> str:
    """The line under the drawing as HTML: "15 slats was 14", what changed underlined, cautions counted in words."""
    items = [_item(result, facts, before, units) for result in results if result.key in facts]
    items += [f'<span class="tw-item">{SIGNS[weight]}{escape(words)}</span>' for weight, words in _counted(findings)]
    return "".join(items)


def _item(result: Result, facts: Stated, before: Stated, units: Units) -> str:
    fact, old = facts[result.key], before.get(result.key)
    value = escape(typographic(write_value(fact, units)))
    was = ""
    if old is not None and old.value != fact.value:
        value = f'<span class="tw-changed">{value}</span>'
        was = f'<span class="tw-was">was {escape(typographic(write_value(old, units)))}</span>'
    front, _, behind = result.words.partition("{}")
    return f'<span class="tw-item">{escape(front)}{value}{escape(behind)}{was}</span>'


def _counted(findings: Sequence[Finding]) -> list[tuple[str, str]]:
    out = []
    for severity, one, many in (("stop", "stop", "stops"), ("caution", "caution", "cautions")):
        count = sum(finding.severity == severity for finding in findings)
        if count:
            out.append((severity, f"{count} {one if count == 1 else many}"))
    return out


def finding_line(finding: Finding) -> str:
    """One finding as a line of HTML; its limit, whose it is and what to do open under it."""
    more = " ".join(filter(None, (_limit(finding), finding.remedy)))
    said = f"{SIGNS[finding.severity]}{escape(finding.what)}"
    return f"<details><summary>{said}</summary>{escape(more)}</details>" if more else said


def _limit(finding: Finding) -> str:
    if not finding.limit:
        return ""
    whose = f", {finding.whose}" if finding.whose else ""
    return f"Limit {finding.limit}{whose}."
