"""Keeps blocks together that belong together: their height on paper is reckoned, and a page found or begun for them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tutorial_lib.drawing.layout import extent
from tutorial_lib.publishing.blocks import Block, Columns, Heading, PageBreak, Picture, Table, Text

PAGE = 680.0  # [pt] of height between the margins of the smaller paper
WIDE = 525.0  # [pt] between them across
LINE = 13.0  # [pt]
ROW = 15.5  # [pt] of a table
LETTERS = 90  # on one line
GAP = 7.0  # [pt] between two pictures


def packed(units: Iterable[Sequence[Block]], used: float = 0.0) -> list[Block]:
    """Units one below another, each whole on its page, as many to a page as there is room for.

    Args:
        units: blocks that belong together.
        used: height already taken on the first page [pt].
    """
    out: list[Block] = []
    for unit in units:
        high = height(unit)
        if out and used + high > PAGE:
            out.append(PageBreak())
            used = 0.0
        out += unit
        used += high
    return out


def gathered(units: Iterable[Sequence[Block]], used: float = 0.0) -> list[Block]:
    """Units each on the first page that has room for it, though others stand on a later one; else as :func:`packed`."""
    sheets: list[tuple[float, list[Block]]] = [(used, [])]
    for unit in units:
        high = height(unit)
        fits = (n for n, (taken, on) in enumerate(sheets) if taken + high <= PAGE or not taken)
        at = next(fits, len(sheets))
        taken, on = sheets[at] if at < len(sheets) else (0.0, [])
        sheets[at : at + 1] = [(taken + high, [*on, *unit])]
    pages = [on for _, on in sheets]
    return [*pages[0], *(block for on in pages[1:] for block in (PageBreak(), *on))]


def height(blocks: Sequence[Block], wide: float = WIDE) -> float:
    """What some blocks take on paper, from above [pt]."""
    return sum(_height(block, wide) for block in blocks)


def _height(block: Block, wide: float) -> float:
    if isinstance(block, Picture):
        x0, y0, x1, y1 = extent(block.scene)
        margin = 2 * block.scene.margin
        shrunk = min(1.0, wide / (x1 - x0 + margin))
        words = LINE * (1 + int(len(block.caption) * WIDE / wide / LETTERS)) if block.caption else 0.0
        return (y1 - y0 + margin) * shrunk + words + GAP
    if isinstance(block, Table):
        return ROW * (len(block.rows) + 1) + (2.2 * LINE if block.caption else LINE)
    if isinstance(block, Text):
        return LINE * (1 + int(len(block.text) * WIDE / wide / LETTERS)) + 7.0
    if isinstance(block, Columns):
        each = wide / max(1, len(block.columns))
        return max((height(column, each) for column in block.columns), default=0.0)
    return 2.4 * LINE if isinstance(block, Heading) else LINE
