"""How wide words are on paper, and which letters can be printed, so that no font library is needed for it.

Advance widths of Liberation Sans, thousandths of the type size, read from the font that comes with the sheet; so are
the characters it has. The metrics equal those of the usual system sans-serif, so a browser without the font keeps to
them. Paper is set in Saltmarsh Sans, whose widths are read from a file beside it (Source Sans 3, cut down and renamed;
digits either side of U+2044 become a fraction by themselves).
"""

from __future__ import annotations

import json
import re
import unicodedata
from functools import cache, lru_cache
from importlib.resources import files
from typing import Literal

CAP_HEIGHT = 0.69  # of the type size
_ASCII = (
    278,
    278,
    355,
    556,
    556,
    889,
    667,
    191,
    333,
    333,
    389,
    584,
    278,
    333,
    278,
    278,
    556,
    556,
    556,
    556,
    556,
    556,
    556,
    556,
    556,
    556,
    278,
    278,
    584,
    584,
    584,
    556,
    1015,
    667,
    667,
    722,
    722,
    667,
    611,
    778,
    722,
    278,
    500,
    667,
    556,
    833,
    722,
    778,
    667,
    778,
    722,
    667,
    611,
    722,
    667,
    944,
    667,
    667,
    611,
    278,
    278,
    278,
    469,
    556,
    333,
    556,
    556,
    500,
    556,
    556,
    278,
    556,
    556,
    222,
    222,
    500,
    222,
    833,
    556,
    556,
    556,
    556,
    333,
    500,
    278,
    556,
    500,
    722,
    500,
    500,
    500,
    334,
    260,
    334,
    584,
)
_WIDTHS = {chr(32 + i): width for i, width in enumerate(_ASCII)}
_WIDTHS |= dict.fromkeys("½¼¾⅛⅜⅝⅞", 834)
_WIDTHS |= {
    "·": 278,
    "°": 400,
    "′": 188,
    "″": 354,
    "’": 222,
    "→": 1000,
    "…": 1000,
    "—": 1000,
    "×": 584,
    "−": 584,
    "±": 549,
    "≤": 549,
    "≥": 549,
    "–": 556,
}
BOLD = 1.08  # bold figures are no wider, bold letters up to this


Face = Literal["screen", "paper"]
SMALL = 0.77  # width of a fraction's figures to that of others, in the paper's face


@lru_cache(maxsize=4096)
def text_width(text: str, size: float, bold: bool = False, face: Face = "screen") -> float:
    """Width of one line of words [pt], on paper with its fractions set.

    >>> round(text_width("38 1/4 in", 10.0), 1), round(text_width("38 1/4 in", 10.0, face="paper"), 1)
    (38.4, 29.3)
    """
    if face == "paper":
        return _paper_width(typographic(text), bold) / 1000 * size
    return sum(_WIDTHS.get(char, 600) for char in text) / 1000 * size * (BOLD if bold else 1.0)


def _paper_width(text: str, bold: bool) -> float:
    table = _paper_widths()["Semibold" if bold else "Regular"]
    small = {i for found in _FRACTION.finditer(text) for i in range(*found.span()) if text[i].isdigit()}
    return sum(table.get(char, 600) * (SMALL if i in small else 1) for i, char in enumerate(text))


@cache
def _paper_widths() -> dict[str, dict[str, int]]:
    text = (files("tutorial_lib.drawing") / "fonts" / "SaltmarshSans-widths.json").read_text(encoding="utf-8")
    found: dict[str, dict[str, int]] = json.loads(text)
    return found


SLASH, THIN, HARD = "\N{FRACTION SLASH}", "\N{NARROW NO-BREAK SPACE}", "\N{NO-BREAK SPACE}"
TIMES = "\N{MULTIPLICATION SIGN}"
_FRACTION = re.compile(rf"\d+{SLASH}\d+")
_MIXED = re.compile(r"(?<![\d/.])(\d+) (\d+)/(\d+)(?![\d/])")
_PLAIN = re.compile(rf"(?<![\d/.{THIN}])(\d+)/(\d+)(?![\d/])")
_BY = re.compile(r"(?<=\d)x(?=\d)|(?:(?<=\d )|(?<=in )|(?<=mm ))x(?= [\d#])")
_APART = re.compile(rf"(?<=\d) {TIMES} (?=[\d#])")
_UNIT = re.compile(r"(?<=\d) (in|ft|mm|m|lb|kg|h|min|sq|fl|psi|N|%|days?|grit|µm|°[CF])\b|(?<=\d) %")


@lru_cache(maxsize=8192)
def typographic(text: str) -> str:
    """Plain words as they are set: fractions that hold together, times signs, units that don't break off their number.

    >>> typographic("2x6, 78 3/4 in").encode("ascii", "backslashreplace").decode()
    '2\\\\xd76, 78\\\\u202f3\\\\u20444\\\\xa0in'
    """
    text = _MIXED.sub(rf"\1{THIN}\2{SLASH}\3", text)
    text = _PLAIN.sub(rf"\1{SLASH}\2", text)
    text = _APART.sub(f"{HARD}{TIMES}{HARD}", _BY.sub(TIMES, text))
    return _UNIT.sub(lambda found: HARD + found[0][1:], text)


BOX = "□"  # stands for a letter that the font has not
_UNSEEN = dict.fromkeys(range(0xFE00, 0xFE10))  # they choose the look of the letter before


@cache
def characters() -> frozenset[str]:
    """All characters that can be printed."""
    text = (files("tutorial_lib.drawing") / "fonts" / "characters.txt").read_text(encoding="utf-8")
    ranges = [[int(end, 16) for end in word.split("-")] for word in text.split()]
    return frozenset(chr(i) for ends in ranges for i in range(ends[0], ends[-1] + 1))


def absent(text: str) -> list[str]:
    """The letters of a text that can't be printed, in their order, each once; line ends are no letters.

    >>> absent("A ☆ bed")
    ['☆']
    """
    unknown = (char for char in dict.fromkeys(text) if char not in characters() and char not in "\r\n\t")
    return [char for char in unknown if ord(char) not in _UNSEEN]


def boxed(text: str) -> str:
    """The text with a box for each letter that can't be printed.

    >>> boxed("A ☆ bed")
    'A □ bed'
    """
    changed = {**_UNSEEN, **{ord(char): BOX for char in absent(text)}}
    return text.translate(changed) if any(ord(char) in changed for char in set(text)) else text


def letter_name(char: str) -> str:
    """A letter as one can name it: itself, its name in Unicode.

    >>> letter_name("☆")
    '☆ (white star)'
    """
    return f"{char} ({unicodedata.name(char, f'U+{ord(char):04X}').lower()})"
