"""The flat transcript cut into words, each with its place, its cue and the pause before it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import IntEnum

from tutorial_lib.narration.captions.cues import Cue, Talk


class Gap(IntEnum):
    """What stands before a word."""

    NONE = 0
    SPACE = 1
    BREAK = 2  # line or cue break
    COMMA = 3
    STOP = 4  # colon, semicolon, dash
    SENTENCE = 5
    BLOCK = 6  # pause, heading, table cell


@dataclass(frozen=True)
class Word:
    """One word, figure or mark of the transcript."""

    text: str
    low: str
    start: int
    end: int
    gap: Gap
    hyphen: bool  # tied to the word before it by a hyphen
    cue: Cue


ATOM = re.compile(
    r"\d+(?:/\d+)?[x×]\d+(?:[x×]\d+)*(?=s?\b)"  # 2x4
    r"|\d{1,2}:\d\d(?::\d\d)?"  # 7:30
    r"|\d{1,3}(?:,\d{3})+(?:\.\d+)?"
    r"|\d+\s?[/⁄∕]\s?\d+"
    r"|\d+\.\d+|\.\d+|\d+"
    r"|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"
    r"|[^\W\d_]+(?:['’][^\W\d_]+)*"
    r"|(?<![\w.,)-])[-−](?=\d)"  # a minus before a figure
    r"|[\"″”“]|''|['′’]|[$£€%°#±]"
)


def words_of(talk: Talk) -> tuple[Word, ...]:
    """All words of a talk, in order."""
    out: list[Word] = []
    text, end, cue = talk.text, 0, None
    for found in ATOM.finditer(text):
        between = text[end : found.start()]
        here = talk.cue_at(found.start())
        gap = gap_of(between, cue is not None and here is not cue)
        raw = found.group()
        hyphen = between in ("-", "\u2010", "\u2011") and bool(out)
        out.append(Word(raw, raw.lower().replace("’", "'"), found.start(), found.end(), gap, hyphen, here))
        end, cue = found.end(), here
    return tuple(out)


def gap_of(between: str, new_cue: bool) -> Gap:
    """The strongest pause in the characters between two words."""
    if "\n\n" in between or "|" in between:
        return Gap.BLOCK
    if re.search(r"[.!?…](?:[\s\"”')*_]|$)|>>", between):
        return Gap.SENTENCE
    if re.search(r"[;:—–()\[\]]|\s-+\s", between):
        return Gap.STOP
    if "," in between:
        return Gap.COMMA
    if new_cue or "\n" in between:
        return Gap.BREAK
    return Gap.SPACE if between else Gap.NONE
