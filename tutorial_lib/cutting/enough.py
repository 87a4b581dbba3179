"""Do these pieces come out of these boards? A yes or no, kerf included, for claims made in passing."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.errors import InputError


def comes_out(pieces: Iterable[tuple[Fraction, int]], boards: Iterable[tuple[Fraction, int]], kerf: Fraction) -> bool:
    """True if all pieces can be sawn from the boards, no end trimmed.

    Args:
        pieces: length [in] and count.
        boards: length [in] and how many there are.
        kerf: width of the saw cut [in].

    >>> comes_out([(Fraction(153, 4), 14)], [(Fraction(120), 4)], Fraction(1, 8))
    False
    """
    wanted = [PieceDemand(f"piece {i}", length, count) for i, (length, count) in enumerate(pieces, 1)]
    stocks = [Stock(f"board {i}", length, 100, count) for i, (length, count) in enumerate(boards, 1)]
    try:
        plan_cuts(wanted, stocks, kerf, Fraction(0), prefer=())
    except InputError:
        return False
    return True
