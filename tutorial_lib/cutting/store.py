"""Store cuts: the few rough cuts to ask the store for, so that boards fit the car and exact cuts stay at home."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise
from math import ceil, floor

from tutorial_lib.cutting.boards import Board, CutPlan
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

STORE_KERF = Fraction(1, 4)  # [in] allowed for a panel or radial-arm saw at the store; our choice
MOST_CUTS = 3  # in one board


@dataclass(frozen=True, kw_only=True)
class StoreCut:
    """The rough cuts of one board, asked for at the store."""

    board: Board
    index: int  # of the board in the plan, from 0
    at: tuple[Fraction, ...]  # [in] from the end that is squared at home
    tolerance: Fraction  # [in] either way, and everything still comes out
    pieces_before: tuple[int, ...]  # pieces that come from what lies before each cut
    carry: Fraction  # [in] longest part afterwards

    def ask(self, units: str = "in") -> str:
        """What to say at the counter."""
        section = f"{self.board.section} " if self.board.section else ""
        places = self._places(units)
        cuts = "one cut" if len(self.at) == 1 else f"{len(self.at)} cuts"
        return (
            f"{section}{self.board.stock}: {cuts} about {places} from one end, "
            f"give or take {writer(units).length(self.tolerance)}"
        )

    def _places(self, units: str) -> str:
        return " and ".join(writer(units).length(x, 4) for x in self.at)

    def parts(self, units: str = "in") -> tuple[Board, ...]:
        """What the store hands over, each as short as it may leave it; a part may hold no piece."""
        slack = [self.tolerance] + [2 * self.tolerance] * (len(self.at) - 1) + [self.tolerance]
        ends = (0, *self.pieces_before, len(self.board.pieces))
        return tuple(
            replace(
                self.board,
                stock=f"{self.board.stock} cut at {self._places(units)}",
                length=length - room,
                price=0,
                pieces=self.board.pieces[first:last],
            )
            for length, room, (first, last) in zip(
                _parts(self.at, self.board.length), slack, pairwise(ends), strict=True
            )
        )


def store_cuts(
    boards: Sequence[Board], cuts: int, tolerance: Fraction, carry: Fraction | None = None
) -> list[StoreCut]:
    """Which rough cuts to ask for; boards at hand are at home already.

    A board is cut between two pieces, in the middle of its spare length, where there is room for the
    store's blade, for squaring the new end at home and for twice the tolerance.

    Args:
        boards: the boards of a plan.
        cuts: how many cuts are free.
        tolerance: how far off the store may be, either way [in].
        carry: longest part that fits the car [in]; only boards that don't fit it are cut.
    """
    found: list[StoreCut] = []
    left = cuts
    bought = (i for i, board in enumerate(boards) if not board.own)
    for i in sorted(bought, key=lambda i: -boards[i].length):
        if carry is not None and boards[i].length <= carry:
            continue
        cut = best_cut(boards[i], i, tolerance, carry, min(left, MOST_CUTS))
        if cut is not None:
            found.append(cut)
            left -= len(cut.at)
    return found


def at_home(plan: CutPlan, cuts: Sequence[StoreCut], units: str) -> CutPlan:
    """The plan as it is sawn at home: what the store has cut lies there in parts, each with its own end to mark from.

    For what happens at the saw only: parts have no price, and those without a piece are left out.
    """
    cut_at = {cut.index: cut for cut in cuts}
    numbers = iter(range(len(plan.boards)))
    sections = []
    for section in plan.sections:
        whole = [(board, cut_at.get(next(numbers))) for board in section.boards]
        boards = [part for board, cut in whole for part in (cut.parts(units) if cut else (board,)) if part.pieces]
        sections.append(replace(section, boards=tuple(_alike(boards))))
    return replace(plan, sections=tuple(sections))


def _alike(boards: Sequence[Board]) -> Iterator[Board]:
    """Parts that go by one name and hold the same pieces count as long as the shortest of them."""
    for board in boards:
        same = (other.length for other in boards if (other.stock, other.pieces) == (board.stock, board.pieces))
        yield replace(board, length=min(same))


def best_cut(
    board: Board, index: int, tolerance: Fraction, carry: Fraction | None = None, most: int = 1
) -> StoreCut | None:
    """The fewest rough cuts that bring every part within the car, the longest part as short as can be.

    None if no place has room for the tolerance, or ``most`` cuts don't do.
    """
    for cuts in range(1, most + 1):
        best = min(_cut_in(board, index, tolerance, cuts), key=lambda c: c.carry, default=None)
        if best is not None and (carry is None or best.carry <= carry):
            return best
    return None


def _cut_in(board: Board, index: int, tolerance: Fraction, cuts: int) -> Iterator[StoreCut]:
    """Every way to cut a board between its pieces; marks are all taken from the squared end."""
    last = len(board.pieces)
    for between in combinations(range(1, last + 1), cuts):
        ends = (0, *between, last)
        needs = [_need(board, a, b) for a, b in pairwise(ends)]
        # a part between two rough cuts may lose the tolerance at both of its ends
        slack = [tolerance] + [2 * tolerance] * (cuts - 1) + [tolerance]
        least = [need + room for need, room in zip(needs, slack, strict=True)]
        spare = board.length - cuts * STORE_KERF - sum(least)
        if spare >= 0:
            at = _on_quarters(_marks(_evened(least, spare)), least, board.length)
            carry = max(_parts(at, board.length)) + tolerance
            yield StoreCut(board=board, index=index, at=at, tolerance=tolerance, pieces_before=between, carry=carry)


def _evened(parts: Sequence[Fraction], spare: Fraction) -> list[Fraction]:
    """The spare length given to the shortest parts, so that the longest is as short as can be.

    >>> [int(part) for part in _evened([Fraction(10), Fraction(40), Fraction(20)], Fraction(20))]
    [25, 40, 25]
    """
    for count in range(len(parts), 0, -1):
        shortest = sorted(parts)[:count]
        level = (sum(shortest, Fraction(0)) + spare) / count
        if level >= shortest[-1]:
            return [max(part, level) for part in parts]
    return list(parts)


def _marks(parts: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """Where the blade's near side goes, from the squared end."""
    return tuple(sum(parts[:k], Fraction(0)) + (k - 1) * STORE_KERF for k in range(1, len(parts)))


def _parts(at: Sequence[Fraction], length: Fraction) -> list[Fraction]:
    """Lengths of the parts between the marks."""
    starts = [Fraction(0), *(mark + STORE_KERF for mark in at)]
    return [end - start for start, end in zip(starts, (*at, length), strict=True)]


def _on_quarters(at: tuple[Fraction, ...], least: Sequence[Fraction], length: Fraction) -> tuple[Fraction, ...]:
    """The marks on quarter inches where every part stays long enough, else as they are."""
    for turn in (round, floor, ceil):
        near = tuple(Fraction(turn(mark * 4), 4) for mark in at)
        if all(part >= need for part, need in zip(_parts(near, length), least, strict=True)):
            return near
    return at


def _need(board: Board, first: int, last: int) -> Fraction:
    """Length that some of the pieces take, their own trim included [in]."""
    pieces = board.pieces[first:last]
    if not pieces:
        return Fraction(0)
    return board.trim + sum((p.length for p in pieces), Fraction(0)) + (len(pieces) - 1) * board.kerf
