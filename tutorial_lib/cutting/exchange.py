"""Boards of a list filled by exchange: what lies beside is put in, two boards' pieces are dealt anew, again and again.

A board is filled as far as any choice of the pieces at hand fills it. That gathers the waste in few boards, until one
has room for a piece that lay beside. It finds what boards filled one after another miss, and proves nothing by itself.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Sequence
from random import Random

from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.counting import dot
from tutorial_lib.cutting.lp import Pattern

MOST_BITS = 400_000  # of a board's length: longer rows of bits take too long
FEW = 4  # pieces from beside that are tried at once
WORSE = 0.02  # share of the exchanges taken though they fill no better


class Exchange:
    """Boards being filled, and the pieces that lie beside."""

    def __init__(self, problem: Problem, boards: Sequence[int]) -> None:
        self.widths, self.random = problem.widths, Random(0)
        self.stocks = list(boards)
        self.rooms = [problem.capacities[stock] for stock in boards]
        self.on: list[list[int]] = [[] for _ in boards]
        self.beside = [kind for kind, n in enumerate(problem.demand) for _ in range(n)]
        for board, room in enumerate(self.rooms):  # longest first, on the first board that has room
            self._take(board, room)

    def _take(self, board: int, room: int) -> None:
        left = []
        for kind in sorted(self.beside, key=lambda kind: -self.widths[kind]):
            if self.widths[kind] <= room:
                self.on[board].append(kind)
                room -= self.widths[kind]
            else:
                left.append(kind)
        self.beside = left

    def step(self) -> None:
        """Two boards and a few pieces from beside, dealt anew."""
        first, second = self.random.sample(range(len(self.on)), 2)
        self.random.shuffle(self.beside)
        tried, kept = self.beside[:FEW], self.beside[FEW:]
        pool = [*self.on[first], *self.on[second], *tried]
        self.random.shuffle(pool)
        one, rest = self._fullest(pool, self.rooms[first])
        two, rest = self._fullest(rest, self.rooms[second])
        if self._better(one, two, first, second) or self.random.random() < WORSE:
            self.on[first], self.on[second], self.beside = one, two, [*kept, *rest]

    def _better(self, one: list[int], two: list[int], first: int, second: int) -> bool:
        """True where more is on both boards, or as much, and no more evenly than before."""
        now, before = ((self._long(a), self._long(b)) for a, b in ((one, two), (self.on[first], self.on[second])))
        return (sum(now), max(now)) >= (sum(before), max(before))

    def _long(self, pieces: Sequence[int]) -> int:
        return sum(self.widths[kind] for kind in pieces)

    def _fullest(self, pool: list[int], room: int) -> tuple[list[int], list[int]]:
        """The pieces that fill a board furthest, and the others."""
        rows, mask = [1], (1 << (room + 1)) - 1
        for kind in pool:
            rows.append(rows[-1] | (rows[-1] << self.widths[kind]) & mask)
        at, inside, outside = rows[-1].bit_length() - 1, [], []
        for kind, before in zip(reversed(pool), reversed(rows[:-1]), strict=True):
            if (before >> at) & 1:
                outside.append(kind)
            else:
                inside.append(kind)
                at -= self.widths[kind]
        return inside, outside


def exchanged(problem: Problem, mix: Sequence[int], seconds: float) -> Counter[Pattern] | None:
    """Boards of exactly this list that make all pieces; None where none were found in time, which proves nothing.

    Args:
        problem: pieces and boards.
        mix: how many of each board.
        seconds: after which it is given up.

    >>> small = Problem(
    ...     widths=(6, 5, 4, 3), demand=(1, 2, 1, 1), capacities=(12,), lengths=(12,), prices=(1,), available=(None,)
    ... )
    >>> sorted(pattern.counts for pattern in exchanged(small, (2,), 1.0))
    [(0, 1, 1, 1), (1, 1, 0, 0)]
    """
    boards = [stock for stock, count in enumerate(mix) for _ in range(count)]
    spare = dot(problem.capacities, mix) - dot(problem.widths, problem.demand)
    if len(boards) < 2 or spare < 0 or max(problem.capacities) > MOST_BITS:
        return None
    exchange, ends = Exchange(problem, boards), time.process_time() + seconds
    while exchange.beside and time.process_time() < ends:
        exchange.step()
    if exchange.beside:
        return None
    made: Counter[Pattern] = Counter()
    for stock, pieces in zip(boards, exchange.on, strict=True):
        counts = Counter(pieces)
        made[Pattern(stock, tuple(counts[kind] for kind in range(len(problem.widths))))] += 1
    return made
