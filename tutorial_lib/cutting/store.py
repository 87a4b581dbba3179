"""Store cuts: the few rough cuts to ask the store for, so that boards fit the car and exact cuts stay at home."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.cutting.boards import Board
from tutorial_lib.measures import write_length

STORE_KERF = Fraction(1, 4)  # [in] allowed for a panel or radial-arm saw at the store; our choice


@dataclass(frozen=True)
class StoreCut:
    """One rough cut, asked for at the store."""

    board: Board
    index: int  # of the board in the plan, from 0
    at: Fraction  # [in] from the end that is squared at home
    tolerance: Fraction  # [in] either way, and everything still comes out
    pieces_before: int  # pieces that come from the first part
    carry: Fraction  # [in] longest part afterwards

    def ask(self, units: str = "in") -> str:
        """What to say at the counter."""
        section = f"{self.board.section} " if self.board.section else ""
        return (
            f"{section}{self.board.stock}: one cut about {write_length(self.at, units, 4)} from one end, "
            f"give or take {write_length(self.tolerance, units)}"
        )


def store_cuts(
    boards: Sequence[Board], cuts: int, tolerance: Fraction, carry: Fraction | None = None
) -> list[StoreCut]:
    """Which first cuts to ask for.

    A board is cut between two pieces, in the middle of its spare length, where there is room for the
    store's blade, for squaring the new end at home and for twice the tolerance.

    Args:
        boards: the boards of a plan.
        cuts: how many cuts are free.
        tolerance: how far off the store may be, either way [in].
        carry: longest part that fits the car [in]; boards within it are left alone.
    """
    found: list[StoreCut] = []
    order = sorted(range(len(boards)), key=lambda i: -boards[i].length)
    for i in order:
        if len(found) == cuts:
            break
        if carry is not None and boards[i].length <= carry:
            continue
        cut = best_cut(boards[i], i, tolerance)
        if cut is not None and (carry is None or cut.carry <= carry):
            found.append(cut)
    return found


def best_cut(board: Board, index: int, tolerance: Fraction) -> StoreCut | None:
    """The rough cut that leaves the shortest longest part, or None if no place has room for the tolerance."""
    options: list[StoreCut] = []
    for k in range(1, len(board.pieces) + 1):
        before, after = _need(board, 0, k), _need(board, k, len(board.pieces))
        spare = board.length - STORE_KERF - before - after
        if spare < 2 * tolerance:
            continue
        least, most = before + tolerance, board.length - STORE_KERF - after - tolerance
        at = min(max(_near(board.length / 2), least), most)
        at = _quarter(at, least, most)
        options.append(StoreCut(board, index, at, tolerance, k, max(at, board.length - at - STORE_KERF) + tolerance))
    return min(options, key=lambda c: c.carry, default=None)


def _need(board: Board, first: int, last: int) -> Fraction:
    """Length that some of the pieces take, their own trim included [in]."""
    pieces = board.pieces[first:last]
    if not pieces:
        return Fraction(0)
    return board.trim + sum((p.length for p in pieces), Fraction(0)) + (len(pieces) - 1) * board.kerf


def _near(x: Fraction) -> Fraction:
    return Fraction(round(x * 4), 4)


def _quarter(x: Fraction, least: Fraction, most: Fraction) -> Fraction:
    """The place on a quarter inch if one lies in the range."""
    for near in (_near(x), _near(x) - Fraction(1, 4), _near(x) + Fraction(1, 4)):
        if least <= near <= most:
            return near
    return x
