"""One section's cutting problem in whole numbers.

A piece takes its length plus one kerf; a board offers its length less the trim plus one kerf, so that
k pieces need k - 1 cuts between them. Everything is divided by the common divisor of the pieces'
widths, the boards rounded down: nothing is lost by it, as every sum of widths is a multiple of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import gcd, lcm

from tutorial_lib.cutting.boards import Piece, PieceDemand, Stock
from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.records import dataclass

Block = tuple[Piece, ...]  # one piece, or several that must come from one board, side by side


@dataclass(frozen=True)
class Supply:
    """Boards of one real length and price."""

    stock: str
    length: Fraction  # [in]
    price: int  # [cents]
    available: int | None
    own: bool = False


@dataclass(frozen=True)
class Task:
    """A problem in whole numbers, and the real blocks and boards its numbers stand for."""

    problem: Problem
    blocks: tuple[tuple[Block, ...], ...]  # for each width, the blocks of that width
    supplies: tuple[Supply, ...]


def supplies_of(stocks: Sequence[Stock]) -> tuple[Supply, ...]:
    """The boards there are any of."""
    there = (stock for stock in stocks if stock.available != 0)
    return tuple(Supply(stock.name, stock.length, stock.price, stock.available, stock.own) for stock in there)


def blocks_of(pieces: Sequence[PieceDemand]) -> list[Block]:
    """Single pieces, and one block for each word in ``together``."""
    singles: list[Block] = []
    groups: dict[str, list[Piece]] = {}
    for demand in pieces:
        piece = Piece(demand.name, demand.length, demand.together)
        if demand.together:
            groups.setdefault(demand.together, []).extend([piece] * demand.count)
        else:
            singles += [(piece,)] * demand.count
    return singles + [tuple(sorted(group, key=lambda p: -p.length)) for group in groups.values()]


def width(block: Block, kerf: Fraction) -> Fraction:
    """Board length a block takes, one kerf for each piece [in].

    >>> pair = (PieceDemand("rail", Fraction(38), 1), PieceDemand("rail", Fraction(40), 1))
    >>> width(pair, Fraction(1, 8))
    Fraction(313, 4)
    """
    return sum((piece.length for piece in block), Fraction(0)) + len(block) * kerf


def task(pieces: Sequence[PieceDemand], stocks: Sequence[Stock], kerf: Fraction, trim: Fraction) -> Task:
    """One section in whole numbers, the widest piece first."""
    by_width: dict[Fraction, list[Block]] = {}
    for block in blocks_of(pieces):
        by_width.setdefault(width(block, kerf), []).append(block)
    widths = sorted(by_width, reverse=True)
    supplies = supplies_of(stocks)
    room = [s.length - trim + kerf for s in supplies]
    whole, capacities = in_units(widths, room)
    problem = Problem(
        widths=whole,
        demand=tuple(len(by_width[w]) for w in widths),
        capacities=capacities,
        lengths=in_units([s.length for s in supplies], [])[0],
        prices=tuple(s.price for s in supplies),
        available=tuple(s.available for s in supplies),
    )
    return Task(problem, tuple(tuple(by_width[w]) for w in widths), supplies)


def in_units(widths: Sequence[Fraction], room: Sequence[Fraction]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Widths as whole multiples of their common divisor, and how many of it each room holds.

    >>> in_units([Fraction(3, 2), Fraction(9, 4)], [Fraction(10)])
    ((2, 3), (13,))
    """
    scale = lcm(*(w.denominator for w in widths))
    unit = Fraction(gcd(*(int(w * scale) for w in widths)), scale)
    return tuple(int(w / unit) for w in widths), tuple(max(r // unit, 0) for r in room)
