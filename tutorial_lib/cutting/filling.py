"""Boards of a list filled one after another, each nearly to its end: quick where pieces are many and little is wasted.

Each board takes the longest piece that is left and then the longest that still let it be filled within an allowance.
How much may be left open, and in which order pieces are looked at, changes from try to try.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Sequence
from random import Random

from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.counting import dot
from tutorial_lib.cutting.exchange import MOST_BITS, exchanged
from tutorial_lib.cutting.lp import Pattern
from tutorial_lib.cutting.values import halves

TRIES = 200
ALLOWED = (0.0, 0.5, 1.0, 2.0, 0.25)  # times the waste of a board on average, in turn
MOST_PIECES = 1500


def filled(problem: Problem, mix: Sequence[int], seconds: float, tries: int = TRIES) -> Counter[Pattern] | None:
    """Boards of exactly this list that make all pieces; None where no try comes out, which proves nothing.

    Args:
        problem: pieces and boards.
        mix: how many of each board.
        seconds: after which no try is begun.
        tries: how many.

    >>> small = Problem(
    ...     widths=(6, 5, 4, 3), demand=(1, 2, 1, 1), capacities=(12,), lengths=(12,), prices=(1,), available=(None,)
    ... )
    >>> sorted(pattern.counts for pattern in filled(small, (2,), 1.0))
    [(0, 1, 1, 1), (1, 1, 0, 0)]
    """
    waste = dot(problem.capacities, mix) - dot(problem.widths, problem.demand)
    if waste < 0 or sum(problem.demand) > MOST_PIECES or max(problem.capacities) > MOST_BITS:
        return None
    boards = [s for s in sorted(range(len(mix)), key=lambda s: -problem.capacities[s]) for _ in range(mix[s])]
    random, ends = Random(0), time.process_time() + seconds
    for tried in range(tries):
        allowed = int(ALLOWED[tried % len(ALLOWED)] * waste / len(boards))
        order = list(range(len(problem.widths)))
        if tried >= len(ALLOWED):
            order.sort(key=lambda kind: -problem.widths[kind] * random.uniform(0.8, 1.0))
        made = _once(problem, boards, order, allowed)
        if made is not None:
            return made
        if time.process_time() > ends:
            return None
    return None


def filled_any_way(problem: Problem, mix: Sequence[int], seconds: float) -> Counter[Pattern] | None:
    """Boards filled one after another, or else by exchange; None where neither comes out in time."""
    made = filled(problem, mix, seconds)
    if made is None and sum(problem.demand) <= MOST_PIECES:
        made = exchanged(problem, mix, seconds / 2)
    return made


def _once(problem: Problem, boards: Sequence[int], order: Sequence[int], allowed: int) -> Counter[Pattern] | None:
    left = list(problem.demand)
    made: Counter[Pattern] = Counter()
    for stock in boards:
        counts = _board(problem, problem.capacities[stock], order, left, allowed)
        left = [have - n for have, n in zip(left, counts, strict=True)]
        made[Pattern(stock, counts)] += 1
    return None if any(left) else made


def _board(problem: Problem, capacity: int, order: Sequence[int], left: Sequence[int], allowed: int) -> tuple[int, ...]:
    """Pieces of one board: the longest left, then by the order, so that the rest can be filled within the allowance."""
    counts = [0] * len(left)
    head = next((kind for kind, n in enumerate(left) if n and problem.widths[kind] <= capacity), None)
    if head is None:
        return tuple(counts)
    counts[head], room = 1, capacity - problem.widths[head]
    there = [n - (kind == head) for kind, n in enumerate(left)]
    sums = _sums(problem, order, there, room)
    least = min(max(room - allowed, 0), sums[0].bit_length() - 1)  # what no choice reaches isn't asked for
    for place, kind in enumerate(order):
        width, rest = problem.widths[kind], sums[place + 1]
        for count in range(min(there[kind], room // width), -1, -1):
            if _reached(rest, max(least - count * width, 0), room - count * width):
                counts[kind] += count
                room, least = room - count * width, least - count * width
                break
    return tuple(counts)


def _sums(problem: Problem, order: Sequence[int], there: Sequence[int], room: int) -> list[int]:
    """For each place of the order the lengths, as bits, that the pieces from there on add up to."""
    mask = (1 << (room + 1)) - 1
    rows = [1]
    for kind in reversed(order):
        bits, width = rows[-1], problem.widths[kind]
        for part in halves(min(there[kind], room // width)):
            bits |= (bits << (part * width)) & mask
        rows.append(bits)
    return rows[::-1]


def _reached(bits: int, low: int, high: int) -> bool:
    """True if some sum lies between two."""
    return bool((bits >> low) & ((1 << (high - low + 1)) - 1)) if high >= low else False
