"""Pieces wanted, boards to be had, and how the pieces lie on the boards.

All lengths are exact inches, all prices whole cents (or pence, or whatever is smallest).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import KW_ONLY
from fractions import Fraction
from functools import cached_property
from typing import Literal

from tutorial_lib.cutting.certificate import Certificate, Evidence
from tutorial_lib.records import dataclass

TieBreak = Literal["layouts", "offcut"]


@dataclass(frozen=True)
class PieceDemand:
    """Pieces of one name and length that the build needs."""

    name: str
    length: Fraction  # [in]
    count: int
    section: str = ""  # "2x6"; only boards of the same section serve it
    together: str = ""  # pieces with the same word come from one board (matching grain, say)


@dataclass(frozen=True)
class Stock:
    """Boards that can be had: at the yard, or an offcut on the shelf (price 0, one available)."""

    name: str
    length: Fraction  # [in] as sold; of a board at hand its real length
    price: int  # [cents] each
    available: int | None = None  # None: as many as are wanted
    _: KW_ONLY
    section: str = ""
    own: bool = False  # at hand already: neither bought nor carried home


@dataclass(frozen=True)
class Piece:
    """One piece as it is sawn."""

    name: str
    length: Fraction  # [in]
    together: str = ""


@dataclass(frozen=True)
class Board:
    """One board with the pieces that come out of it, in the order they are cut."""

    stock: str
    length: Fraction  # [in] as measured where that is known, else as sold
    price: int  # [cents]
    _: KW_ONLY
    pieces: tuple[Piece, ...]
    kerf: Fraction  # [in]
    trim: Fraction  # [in] lost at the ends, squaring cut included
    section: str = ""
    own: bool = False  # at hand already

    @property
    def used(self) -> Fraction:
        """Length the pieces take, the cuts between them and the trim included [in]."""
        return self.trim + sum((p.length for p in self.pieces), Fraction(0)) + max(len(self.pieces) - 1, 0) * self.kerf

    @property
    def left(self) -> Fraction:
        """Length beyond the last piece, before it is sawn off [in]; negative if the board is over-filled."""
        return self.length - self.used

    @property
    def offcut(self) -> Fraction:
        """What is left to keep [in]: a rest thinner than the blade is only sawdust.

        >>> leg = Piece("leg", Fraction(95))
        >>> Board("8 ft", Fraction(96), 0, pieces=(leg,), kerf=Fraction(1, 8), trim=Fraction(1, 4)).offcut
        Fraction(5, 8)
        """
        if not self.pieces:
            return self.length - self.trim
        return max(self.left - self.kerf, Fraction(0))

    @property
    def counts(self) -> tuple[tuple[str, int], ...]:
        """Pieces by name, in cutting order."""
        return tuple(Counter(p.name for p in self.pieces).items())


@dataclass(frozen=True)
class Layout:
    """One way to cut a board, and how many boards are cut so."""

    board: Board
    count: int


@dataclass(frozen=True, kw_only=True)
class SectionPlan:
    """The boards of one section, and what is proven about them."""

    section: str
    boards: tuple[Board, ...]
    bound: int  # [cents] no shopping list can be cheaper
    evidence: Evidence
    searched: int = 0  # cheaper lists that only a search could rule out, not shadow prices
    settled: bool = True  # the tie-breaks are proven best as well
    supplies: tuple[str, ...] = ()  # names of the boards the certificate speaks of, in its order

    @cached_property
    def certificate(self) -> Certificate:
        """Why nothing costs less than the bound; worked out when first asked for."""
        return self.evidence.certificate

    @property
    def cost(self) -> int:
        """What the boards cost [cents]."""
        return sum(board.price for board in self.boards)

    @property
    def proven(self) -> bool:
        """True if no cheaper shopping list exists."""
        return self.bound == self.cost

    @cached_property
    def layouts(self) -> tuple[Layout, ...]:
        """Boards cut alike, grouped; in the order they are cut."""
        return tuple(Layout(board, n) for board, n in Counter(self.boards).items())


@dataclass(frozen=True)
class CutPlan:
    """A whole shopping list and how every board on it is cut."""

    sections: tuple[SectionPlan, ...]
    kerf: Fraction  # [in]
    trim: Fraction  # [in]
    prefer: tuple[TieBreak, ...] = ()

    @property
    def boards(self) -> tuple[Board, ...]:
        """Every board of every section."""
        return tuple(board for section in self.sections for board in section.boards)

    @property
    def layouts(self) -> tuple[Layout, ...]:
        """Boards cut alike, grouped."""
        return tuple(layout for section in self.sections for layout in section.layouts)

    @property
    def cost(self) -> int:
        """What all boards cost [cents]."""
        return sum(section.cost for section in self.sections)

    @property
    def bound(self) -> int:
        """No shopping list can cost less than this [cents]."""
        return sum(section.bound for section in self.sections)

    @property
    def proven(self) -> bool:
        """True if no cheaper shopping list exists."""
        return all(section.proven for section in self.sections)

    @property
    def gap(self) -> float:
        """How far the cost may be above the least possible, as a share of the cost."""
        return (self.cost - self.bound) / self.cost if self.cost else 0.0

    @property
    def yield_share(self) -> Fraction:
        """Length that ends up in the build, of the length bought."""
        bought = bought_length(self.boards)
        return piece_length(self.boards) / bought if bought else Fraction(0)

    def used(self) -> dict[str, int]:
        """How many boards of each name are taken."""
        return dict(Counter(board.stock for board in self.boards))

    def section(self, name: str) -> SectionPlan:
        """The part of the plan for one section."""
        return next(part for part in self.sections if part.section == name)


def piece_length(boards: Iterable[Board]) -> Fraction:
    """Length of all pieces together [in]."""
    return sum((piece.length for board in boards for piece in board.pieces), Fraction(0))


def bought_length(boards: Iterable[Board]) -> Fraction:
    """Length of all boards together [in]."""
    return sum((board.length for board in boards), Fraction(0))
