"""Which sections are sold where, and in which lengths."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Literal, cast

from tutorial_lib.measures import factor
from tutorial_lib.records import dataclass
from tutorial_lib.tables.lumber import DressedSize, dressed
from tutorial_lib.tables.rows import rows, unknown

Region = Literal["US", "EU", "UK", "AU"]


@dataclass(frozen=True)
class SoldBoard:
    """One section as one region's shops keep it."""

    region: Region
    section: str
    lengths: tuple[Fraction, ...]  # [in] shortest first
    source: str
    status: str

    @property
    def size(self) -> DressedSize:
        """Its dressed size."""
        return dressed(self.section)


@cache
def sold_boards(region: Region | None = None) -> tuple[SoldBoard, ...]:
    """Every board of a region, or of all."""
    return tuple(_board(row) for row in rows("sold_boards.csv") if region in (None, row["region"]))


def _board(row: dict[str, str]) -> SoldBoard:
    inches = factor(row["unit"], "in")
    lengths = tuple(Fraction(n) * inches for n in row["lengths"].split())
    return SoldBoard(cast(Region, row["region"]), row["section"], lengths, row["source"], row["status"])


def board_lengths(region: Region, section: str) -> tuple[Fraction, ...]:
    """Lengths a section is sold in [in]; those most of the region's boards have where it isn't listed.

    >>> [int(length / 12) for length in board_lengths("US", "2x4")]
    [8, 10, 12, 14, 16]
    """
    listed = [board for board in sold_boards(region) if board.section == section]
    if not listed and not sold_boards(region):
        raise unknown("region", region, {board.region for board in sold_boards()})
    return (listed or sold_boards(region))[0].lengths


def section_in(region: Region, like: DressedSize) -> str:
    """The section of a region that takes another's place: of the same nominal size, else nearest in size.

    >>> section_in("EU", dressed("2x6")), section_in("UK", dressed("4x4")), section_in("AU", dressed("1x4"))
    ('45x145', '94x94', '19x90')
    """
    sizes = [board.size for board in sold_boards(region)]
    named = (like.nominal_thickness, like.nominal_width)
    same = [size for size in sizes if (size.nominal_thickness, size.nominal_width) == named]

    def away(size: DressedSize) -> Fraction:
        return abs(size.thickness - like.thickness) + abs(size.width - like.width)

    return min(same or sizes, key=away).name
