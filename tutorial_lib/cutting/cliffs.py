"""Yield cliffs: where a piece a little shorter lets each board give one more (rule R20)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import floor

from tutorial_lib.cutting.boards import CutPlan, PieceDemand, Stock
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.errors import InputError
from tutorial_lib.records import dataclass

WITHIN = Fraction(3, 8)  # [in] a cliff further off is no small change; our choice


@dataclass(frozen=True, kw_only=True)
class Cliff:
    """A shorter length of one piece, and what it saves."""

    piece: str
    length: Fraction  # [in] now
    shorter: Fraction  # [in] proposed
    stock: str  # the board that then gives one more
    per_board: int  # pieces from one such board at the shorter length
    boards_saved: int
    cost_saved: int  # [cents]

    @property
    def by(self) -> Fraction:
        """How much shorter [in]."""
        return self.length - self.shorter


def longest_for(count: int, stock: Fraction, kerf: Fraction, trim: Fraction) -> Fraction:
    """Longest length of which a board gives ``count`` [in].

    L = (stock - trim + kerf) / count - kerf.

    >>> longest_for(2, Fraction(144), Fraction(1, 8), Fraction(0))
    Fraction(1151, 16)
    """
    return (stock - trim + kerf) / count - kerf


def per_board(length: Fraction, stock: Fraction, kerf: Fraction, trim: Fraction) -> int:
    """How many pieces of one length a board gives.

    >>> per_board(Fraction(153, 4), Fraction(120), Fraction(1, 8), Fraction(1, 4))
    3
    """
    return max(floor((stock - trim + kerf) / (length + kerf)), 0)


def cliffs(
    plan: CutPlan,
    pieces: Sequence[PieceDemand],
    stocks: Sequence[Stock],
    name: str,
    least: Fraction,
    grid: Fraction = Fraction(1, 16),
    within: Fraction = WITHIN,
) -> list[Cliff]:
    """Shorter lengths of one piece that need fewer boards, the smallest change first.

    Args:
        plan: the plan as it is.
        pieces: what it was made for.
        stocks: what it was made from.
        name: the piece that may be shortened.
        least: shortest it may be, for its bearing [in].
        grid: lengths are multiples of this [in].
        within: largest change looked at [in].
    """
    now = next(p for p in pieces if p.name == name)
    found: list[Cliff] = []
    for shorter, stock, count in candidates(now, stocks, plan.kerf, plan.trim, max(least, now.length - within), grid):
        changed = [replace(p, length=shorter) if p.name == name else p for p in pieces]
        try:
            other = plan_cuts(changed, stocks, plan.kerf, plan.trim, prefer=())
        except InputError:
            continue
        saved = len(plan.boards) - len(other.boards)
        if not _better(plan, other):
            continue
        if all((c.boards_saved, c.cost_saved) < (saved, plan.cost - other.cost) for c in found):
            found.append(
                Cliff(
                    piece=name,
                    length=now.length,
                    shorter=shorter,
                    stock=stock.name,
                    per_board=count,
                    boards_saved=saved,
                    cost_saved=plan.cost - other.cost,
                )
            )
    return found


def _better(plan: CutPlan, other: CutPlan) -> bool:
    """True if the other list costs less, or as much with fewer boards."""
    return other.cost < plan.cost or (other.cost == plan.cost and len(other.boards) < len(plan.boards))


def candidates(
    piece: PieceDemand, stocks: Sequence[Stock], kerf: Fraction, trim: Fraction, least: Fraction, grid: Fraction
) -> list[tuple[Fraction, Stock, int]]:
    """Lengths at which some board of the section gives one more, the smallest change first."""
    found: dict[Fraction, tuple[Stock, int]] = {}
    for stock in stocks:
        if stock.section != piece.section:
            continue
        count = per_board(piece.length, stock.length, kerf, trim) + 1
        shorter = floor(longest_for(count, stock.length, kerf, trim) / grid) * grid
        if least <= shorter < piece.length:
            found.setdefault(shorter, (stock, count))
    return [(shorter, *found[shorter]) for shorter in sorted(found, reverse=True)]
