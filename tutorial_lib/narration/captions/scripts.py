"""Transcripts with [m:ss] marks, and draft scripts in Markdown: headings, stage directions, tables, narration."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tutorial_lib.narration.captions.cues import Cell, Cue, Form, Role, Talk

MARK = re.compile(r"[\[(](?:(\d{1,2}):)?(\d{1,3}):(\d\d)(?:[.,]\d+)?[\])]")
DIVIDER = re.compile(r"^\s*\|?\s*:?-{2,}:?\s*(\|\s*:?-{2,}:?\s*)*\|?\s*$")
DIRECTION = re.compile(r"^\s*[*_]{0,2}[\[(].*[\])][*_]{0,2}\s*$")
ON_SCREEN = re.compile(
    r"\b(?:card|on[- ]screen|caption|overlay|lower third|graphic)\b[^:.]*:", re.I
)  # words to be read
BRACKETS = re.compile(r"\[[^\]]*\]")
HEADING = re.compile(r"^\s{0,3}#{1,6}\s+")


def read_marks(lines: list[str], name: str, form: Form) -> Talk:
    """A talk from text in which [m:ss] or (m:ss) marks stand where they were said; cues count the marks."""
    cues: list[Cue] = []
    number, start = 0, None
    for at, line in enumerate(lines, 1):
        place = 0
        for found in MARK.finditer(line):
            cues += spoken(line[place : found.start()], number, start, at)
            number, start, place = number + 1, mark_seconds(found), found.end()
        cues += spoken(line[place:], number, start, at)
    return Talk(name=name, form=form, cues=tuple(cues))


def spoken(text: str, number: int, start: float | None, line: int) -> list[Cue]:
    """A cue for what stands after a mark (none when empty); text before the first mark counts as a heading."""
    text = text.strip()
    if not text:
        return []
    role: Role = "heading" if number == 0 or HEADING.match(text) else "sound" if DIRECTION.match(text) else "speech"
    return [Cue(number=max(number, 1), text=text, start=start or 0.0, end=None, line=line, role=role)]


def mark_seconds(found: re.Match[str]) -> float:
    """The time of a mark in seconds."""
    hours, minutes, secs = (int(g or 0) for g in found.groups())
    return float(hours * 3600 + minutes * 60 + secs)


def read_script(lines: list[str], name: str, form: Form) -> Talk:
    """A talk from a Markdown or plain script; its items are placed by line."""
    cues: list[Cue] = []
    tables = 0
    at = 0
    while at < len(lines):
        if is_table(lines, at):
            tables += 1
            stop = table_end(lines, at)
            cues += [
                Cue(number=len(cues) + n, text=c.text, line=c.line, role=c.role, cell=c.cell)
                for n, c in enumerate(table_cells(lines, at, stop, tables), 1)
            ]
            at = stop
            continue
        text = lines[at]
        if text.strip() and not re.fullmatch(r"\s*[-*_=]{3,}\s*", text):
            cues.append(Cue(number=len(cues) + 1, text=text.strip(), line=at + 1, role=line_role(text)))
        at += 1
    return Talk(name=name, form=form, cues=tuple(cues))


def line_role(text: str) -> Role:
    """Whether a script line is a heading, a stage direction or narration."""
    if HEADING.match(text):
        return "heading"
    aside = DIRECTION.match(text) and not MARK.match(text.strip()) and not ON_SCREEN.search(text)
    return "direction" if aside else "speech"


def is_table(lines: list[str], at: int) -> bool:
    """Whether a pipe table starts here: a row of cells over a divider."""
    return "|" in lines[at] and at + 1 < len(lines) and "|" in lines[at + 1] and bool(DIVIDER.match(lines[at + 1]))


def table_end(lines: list[str], at: int) -> int:
    """The first line after a table."""
    stop = at + 2
    while stop < len(lines) and "|" in lines[stop] and lines[stop].strip():
        stop += 1
    return stop


def table_cells(lines: list[str], at: int, stop: int, table: int) -> Iterator[Cue]:
    """Every filled cell of a table, row by row, each with its heading and its row's first cell."""
    heads = split_row(lines[at])
    yield from (Cue(number=0, text=text, line=at + 1, role="heading") for text in heads if text)
    for row, line in enumerate(lines[at + 2 : stop], 1):
        texts = split_row(line)
        for column, text in enumerate(texts):
            if text:
                header = heads[column] if column < len(heads) else ""
                yield Cue(
                    number=0,
                    text=text,
                    line=at + 2 + row,
                    role="cell",
                    cell=Cell(
                        table=table, row=row, column=column, header=header, label=texts[0], others=" ".join(texts[1:])
                    ),
                )


def split_row(line: str) -> list[str]:
    """The cells of a table row."""
    return [cell.strip() for cell in re.split(r"(?<!\\)\|", line.strip().removeprefix("|").removesuffix("|"))]
