"""The flat transcript cut into words, each with its place, its cue and the pause before it."""

from __future__ import annotations

import re
from dataclasses import replace
from enum import IntEnum

from tutorial_lib.narration.captions.cues import Cue, Talk
from tutorial_lib.records import dataclass


class Gap(IntEnum):
    """What stands before a word."""

    NONE = 0
    SPACE = 1
    BREAK = 2  # line or cue break
    COMMA = 3
    STOP = 4  # colon, semicolon, dash
    SENTENCE = 5
    BLOCK = 6  # pause, heading, table cell


@dataclass(frozen=True, kw_only=True, slots=True)
class Word:
    """One word, figure or mark of the transcript."""

    text: str
    low: str
    start: int
    end: int
    gap: Gap
    hyphen: bool  # tied to the word before it by a hyphen
    cue: Cue


NOTE_SIGNS = "²³¹⁰⁴-⁹₀-₉①-⓿❶-➓㉑-㉟㊱-㊿"  # footnote signs and circled digits: letters to Python, numbers to nobody
LETTER = rf"(?:(?![{NOTE_SIGNS}])[^\W\d_])"
ATOM = re.compile(
    r"\d+(?:/\d+)?[x×]\d+(?:[x×]\d+)*(?=s?\b)"  # 2x4
    r"|\d{1,2}:\d\d(?::\d\d)?"  # 7:30
    r"|\d{1,3}(?:,\d{3})+(?:\.\d+)?"
    r"|\d+\s?[/⁄∕]\s?\d+"
    r"|\d+\.\d+|\.\d+|\d+"
    r"|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"
    rf"|{LETTER}+(?:['’]{LETTER}+)*"
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
        out.append(
            Word(
                text=raw,
                low=raw.lower().replace("’", "'"),
                start=found.start(),
                end=found.end(),
                gap=gap,
                hyphen=hyphen,
                cue=here,
            )
        )
        end, cue = found.end(), here
    return tuple(w for at in range(len(out)) for w in parted(out, at))


STOCK_FEET = frozenset(map(str, (6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22, 24)))
RUN_TOGETHER = re.compile(r"(\d{1,2}?)(10|12|14|16|6|8)")


def parted(words: list[Word], at: int) -> tuple[Word, ...]:
    """A count and a stock length that captions ran together ("58 foot 2x4s"), as two words; else the word itself."""
    word = words[at]
    found = RUN_TOGETHER.fullmatch(word.text) if word.text[0].isdecimal() else None
    if found is None or word.text in STOCK_FEET or not stock_follows(words, at + 1):
        return (word,)
    cut = word.start + len(found[1])
    return (
        replace(word, text=found[1], low=found[1], end=cut),
        replace(word, text=found[2], low=found[2], start=cut, gap=Gap.SPACE, hyphen=False),
    )


def stock_follows(words: list[Word], at: int) -> bool:
    """Whether "foot" and a timber size stand here."""
    if at + 1 >= len(words) or words[at].low not in ("foot", "feet", "ft", "footer"):
        return False
    size = words[at + 1].low.replace("×", "x")
    return bool(re.fullmatch(r"\d+x\d+", size)) or [w.low for w in words[at + 2 : at + 3]] == ["by"]


def gap_of(between: str, new_cue: bool) -> Gap:
    """The strongest pause in the characters between two words."""
    if between == " ":  # mostly
        return Gap.BREAK if new_cue else Gap.SPACE
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
