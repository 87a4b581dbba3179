"""A small vocabulary of what a page is made of; the same blocks serve the sheet, the notebook and the page.

>>> slats = Table((Column("part"), Column("length", "in", "right")), (("slat", "38 1/4"),))
>>> from tutorial_lib.publishing.html import html
>>> "length (in)" in html([Heading("Parts"), slats])
True
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from tutorial_lib.drawing.scene import Scene
from tutorial_lib.facts.fact import Fact
from tutorial_lib.findings import Finding
from tutorial_lib.measures import Units
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Heading:
    """A heading; level 1 opens a page."""

    text: str
    level: Literal[1, 2, 3] = 2


@dataclass(frozen=True)
class Text:
    """A paragraph."""

    text: str
    strong: bool = False
    small: bool = False


@dataclass(frozen=True)
class Items:
    """A list, one sentence each; numbered where the order counts, with boxes where it is ticked off."""

    items: tuple[str, ...]
    mark: Literal["dot", "number", "box"] = "dot"


@dataclass(frozen=True)
class Figures:
    """Facts as lines: what it is, its value; those changed are set off by a mark and by weight."""

    facts: tuple[Fact, ...]
    units: Units = "in"
    changed: frozenset[str] = frozenset()
    working: bool = False  # show each fact's working behind it


@dataclass(frozen=True)
class Column:
    """One column: its heading, the unit of its figures, and how they line up."""

    head: str
    unit: str = ""
    align: Literal["left", "right", "centre"] = "left"
    share: float = 0.0  # of the width left over; 0 is as wide as its content

    @property
    def title(self) -> str:
        """Heading with its unit."""
        return f"{self.head} ({self.unit})" if self.unit else self.head


@dataclass(frozen=True)
class Table:
    """Rows under headings. ``strong`` names the rows set off; ``caption`` says what the table is."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str = ""
    strong: frozenset[int] = frozenset()

    def __post_init__(self) -> None:
        if any(len(row) != len(self.columns) for row in self.rows):
            raise ValueError(f"every row needs {len(self.columns)} cells")


@dataclass(frozen=True)
class Picture:
    """A drawing, as wide as it was laid out (or a share of the width); its alt text is the scene's."""

    scene: Scene
    width: float | None = None  # share of the line, 0 to 1; None is the drawing's own size
    caption: str = ""


@dataclass(frozen=True)
class Caution:
    """Where work can hurt someone or spoil a board."""

    text: str


@dataclass(frozen=True)
class Note:
    """A remark worth a line of its own."""

    text: str


@dataclass(frozen=True)
class Findings:
    """What the rules found; nothing when there is nothing, or ``none`` if that should be said."""

    findings: tuple[Finding, ...]
    none: str = ""


@dataclass(frozen=True)
class Working:
    """How a number was found: formula, values put in, result, source."""

    name: str
    formula: str
    values: str
    result: str
    source: str = ""


@dataclass(frozen=True)
class PageBreak:
    """A new page on paper; a rule on screen."""


@dataclass(frozen=True)
class Columns:
    """Blocks side by side."""

    columns: tuple[tuple[Block, ...], ...]
    shares: tuple[float, ...] = ()


Block = Heading | Text | Items | Figures | Table | Picture | Caution | Note | Findings | Working | PageBreak | Columns


@dataclass(frozen=True)
class Page:
    """One topic of the sheet; it starts on a new page, or goes on below, and may run over several."""

    title: str
    blocks: tuple[Block, ...]
    close: bool = False  # its tables close up where that keeps it on one page
    joined: bool = False  # goes on below the page before


def pictures(blocks: Sequence[Block]) -> list[Picture]:
    """All pictures of some blocks, those inside columns too."""
    out: list[Picture] = []
    for block in blocks:
        if isinstance(block, Picture):
            out.append(block)
        elif isinstance(block, Columns):
            out += [picture for column in block.columns for picture in pictures(column)]
    return out
