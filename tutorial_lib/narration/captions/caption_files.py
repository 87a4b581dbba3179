"""WebVTT and SubRip, roll-up automatic captions included, as they are found and not only as they should be."""

from __future__ import annotations

import html
import re
from dataclasses import field
from itertools import pairwise

from tutorial_lib.errors import Fault
from tutorial_lib.narration.captions.cues import Cue, Form, Role, Talk
from tutorial_lib.records import dataclass

STAMP = r"(?:(\d{1,3}):)?(\d{1,2}):(\d{1,2})[.,](\d{1,3})"
TIMING = re.compile(rf"^\s*{STAMP}\s*-->\s*{STAMP}(.*)$")
TAG = re.compile(r"<[^<>\n]{0,200}>")
WORD_TIME = re.compile(r"<\d{1,2}:\d\d(?::\d\d)?[.,]\d+>")
SOUND = re.compile(r"^\s*(?:[\[(♪*][^\])♪]*[\])♪*]|♪.*)\s*$")
SKIPPED = ("NOTE", "STYLE", "REGION")


@dataclass
class Draft:
    """A cue while its lines are being gathered."""

    line: int
    start: float | None = None
    end: float | None = None
    settings: str = ""
    lines: list[str] = field(default_factory=list)
    first_text: int = 0


def read_timed(lines: list[str], name: str, form: Form) -> Talk:
    """A talk from the lines of a WebVTT or SubRip file."""
    faults: list[Fault] = []
    header, drafts = gather(lines, name, faults)
    check_order(drafts, name, faults)
    rolls = is_roll_up(drafts)
    cues: list[Cue] = []
    shown: list[str] = []
    for number, draft in enumerate(drafts, 1):
        clean = [c for c in (clean_line(line) for line in draft.lines) if c]
        cues.append(cue_of(draft, number, clean, new_lines(shown, clean) if rolls else clean))
        shown = clean or shown
    if rolls:  # a cue that only repeats is no pause
        cues = [c if c.text else Cue(number=c.number, text="", start=c.start, end=c.end, line=c.line) for c in cues]
    return Talk(name=name, form=form, cues=tuple(cues), faults=tuple(faults), header=header)


def cue_of(draft: Draft, number: int, shown: list[str], fresh: list[str]) -> Cue:
    """A cue with the lines it shows, of which some are new."""
    text = " ".join(fresh)
    role: Role = "sound" if not text or SOUND.match(text) else "speech"
    return Cue(
        number=number,
        text=text,
        start=draft.start,
        end=draft.end,
        line=draft.first_text or draft.line,
        role=role,
        lines=tuple(shown),
        settings=draft.settings,
    )


def gather(lines: list[str], name: str, faults: list[Fault]) -> tuple[str, list[Draft]]:
    """The header, and one draft per time line, with the text lines that follow it."""
    header: list[str] = []
    drafts: list[Draft] = []
    skipping = blank = False
    for number, line in enumerate(lines, 1):
        if "-->" in line:
            drafts.append(start_cue(line, number, name, faults))
            drop_identifier(drafts)
            skipping = blank = False
        elif not line.strip():
            skipping, blank = False, True
        elif skipping:
            continue
        elif blank and line.startswith(SKIPPED):
            skipping = True
        elif drafts:
            add_text(drafts[-1], line, number, blank, next_timing(lines, number))
        else:
            header.append(line)
    return "\n".join(header), drafts


def next_timing(lines: list[str], number: int) -> bool:
    """Whether the line after this one has the cue's times, so that this one is its identifier."""
    return number < len(lines) and "-->" in lines[number]


def add_text(draft: Draft, line: str, number: int, after_blank: bool, identifier: bool) -> None:
    """A text line for the cue; text after a stray empty line is still read, an identifier isn't."""
    if identifier and (after_blank or line.strip().isdecimal()):
        return
    draft.first_text = draft.first_text or number
    draft.lines.append(line)


def drop_identifier(drafts: list[Draft]) -> None:
    """Where the empty line is missing, the number of the next cue stuck to the one before: takes it off."""
    if len(drafts) > 1 and drafts[-2].lines[1:] and drafts[-2].lines[-1].strip() == str(len(drafts)):
        drafts[-2].lines.pop()


def start_cue(line: str, number: int, name: str, faults: list[Fault]) -> Draft:
    """A draft from a time line; without times, and with a fault, when they can't be read."""
    found = TIMING.match(line)
    if not found:
        faults.append(
            Fault(
                f"{name} line {number}",
                f'the times "{line.strip()[:60]}" can\'t be read; '
                "they should look like 00:01:02.500 --> 00:01:05.000. The words were read without a time.",
            )
        )
        return Draft(number)
    start, end = seconds(found.groups()[:4]), seconds(found.groups()[4:8])
    if end < start:
        faults.append(Fault(f"{name} line {number}", "the cue ends before it starts; its start was taken."))
        end = start
    return Draft(number, start, end, found.group(9).strip())


def seconds(groups: tuple[str | None, ...]) -> float:
    """Hours, minutes, seconds and fraction of a time stamp as seconds."""
    hours, minutes, secs, part = groups
    whole = int(hours or 0) * 3600 + int(minutes or 0) * 60 + int(secs or 0)
    return whole + float(f"0.{part or 0}")


def check_order(drafts: list[Draft], name: str, faults: list[Fault]) -> None:
    """Gives a cue without a time that of the cue before it, and says where time runs backwards."""
    last = 0.0
    for draft in drafts:
        if draft.start is None:
            draft.start, draft.end = last, None
        elif draft.start < last:
            faults.append(
                Fault(f"{name} line {draft.line}", "this cue starts before the one above it; kept in file order.")
            )
        last = draft.start


def clean_line(line: str) -> str:
    """One caption line without tags, entities, speaker arrows and spare spaces."""
    text = html.unescape(TAG.sub("", line)).replace("\u00a0", " ").replace("\u200b", "").replace("\ufeff", "")
    text = re.sub(r"\{\\[^{}]{0,200}\}", "", text)  # position codes some SubRip writers leave
    return re.sub(r"\s+", " ", text).strip()


def is_roll_up(drafts: list[Draft]) -> bool:
    """Whether each caption repeats the line before it, as automatic captions do."""
    if any(WORD_TIME.search(line) for d in drafts for line in d.lines):
        return True
    shown = [d for d in drafts if any(line.strip() for line in d.lines)]
    pairs = list(pairwise(shown))
    repeats = sum(clean_line(a.lines[-1]) == clean_line(b.lines[0]) != "" for a, b in pairs)
    return repeats >= 3 and repeats >= 0.4 * len(pairs)


def new_lines(shown: list[str], lines: list[str]) -> list[str]:
    """The lines that were not on screen in the cue before."""
    for count in range(min(len(shown), len(lines)), 0, -1):
        if shown[-count:] == lines[:count]:
            return lines[count:]
    return lines
