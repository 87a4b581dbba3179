"""How wide words are on paper, so that drawings can make room for them without a font library.

Advance widths of Liberation Sans, thousandths of the type size, read from the font that comes with the sheet.
The metrics equal those of the usual system sans-serif, so a browser without the font keeps to them.
"""

from __future__ import annotations

from functools import lru_cache

CAP_HEIGHT = 0.69  # of the type size
_ASCII = (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
    556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
    260, 334, 584,
)
_WIDTHS = {chr(32 + i): width for i, width in enumerate(_ASCII)}
_WIDTHS |= dict.fromkeys("½¼¾⅛⅜⅝⅞", 834)
_WIDTHS |= {"·": 278, "°": 400, "′": 188, "″": 354, "’": 222, "→": 1000, "…": 1000, "—": 1000, "×": 584, "−": 584,
            "±": 549, "≤": 549, "≥": 549, "–": 556}
BOLD = 1.08  # bold figures are no wider, bold letters up to this


@lru_cache(maxsize=4096)
def text_width(text: str, size: float, bold: bool = False) -> float:
    """Width of one line of words [pt].

    >>> round(text_width("38 1/4 in", 10.0), 1)
    38.4
    """
    return sum(_WIDTHS.get(char, 600) for char in text) / 1000 * size * (BOLD if bold else 1.0)
