"""A quick plan to start from: the board that is filled cheapest, again and again, then each on a cheaper board."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.lp import Pattern


def fill_up(problem: Problem, stock: int, counts: Sequence[int]) -> tuple[int, ...]:
    """Adds pieces, longest first, until none fits."""
    room = problem.capacities[stock] - sum(n * w for n, w in zip(counts, problem.widths, strict=True))
    full = list(counts)
    for kind, (width, demand) in enumerate(zip(problem.widths, problem.demand, strict=True)):
        more = min(room // width, demand - full[kind])
        if more > 0:
            full[kind] += more
            room -= more * width
    return tuple(full)


def greedy(problem: Problem, values: Sequence[int]) -> Counter[Pattern] | None:
    """A feasible plan, or None if the limited boards ran out on the way.

    Args:
        problem: pieces and boards.
        values: piece values that say which filling is good; empty: by length.
    """
    worth = tuple(values) or problem.widths
    if not any(worth):
        worth = problem.widths
    left = list(problem.demand)
    shelf = [None if a is None else a for a in problem.available]
    boards: Counter[Pattern] = Counter()
    while any(left):
        choice = _cheapest(problem, worth, left, shelf)
        if choice is None:
            return None
        repeat = min(n // c for n, c in zip(left, choice.counts, strict=True) if c)
        limit = shelf[choice.stock]
        if limit is not None:
            repeat = min(repeat, limit)
            shelf[choice.stock] = limit - repeat
        boards[choice] += repeat
        left = [n - repeat * c for n, c in zip(left, choice.counts, strict=True)]
    return _downsized(problem, boards, shelf)


def _cheapest(
    problem: Problem, worth: Sequence[int], left: Sequence[int], shelf: Sequence[int | None]
) -> Pattern | None:
    """The filling that gives most value for its price; the first kind still wanted is on it."""
    best: tuple[float, Pattern] | None = None
    head = next(i for i, n in enumerate(left) if n)
    for stock, room in enumerate(problem.capacities):
        if shelf[stock] == 0 or room < problem.widths[head]:
            continue
        counts = _fill(problem, head, room, left)
        value = sum(n * v for n, v in zip(counts, worth, strict=True)) or 1
        score = (problem.prices[stock] + 1e-4 * problem.lengths[stock]) / value
        if best is None or score < best[0]:
            best = score, Pattern(stock, counts)
    return best[1] if best else None


def _fill(problem: Problem, head: int, room: int, left: Sequence[int]) -> tuple[int, ...]:
    """Longest first, as many as fit."""
    counts = [0] * len(left)
    for kind in range(head, len(left)):
        width = problem.widths[kind]
        counts[kind] = min(left[kind], room // width)
        room -= counts[kind] * width
    return tuple(counts)


def _downsized(problem: Problem, boards: Counter[Pattern], shelf: list[int | None]) -> Counter[Pattern]:
    """Each board replaced by the cheapest, then shortest, that holds its pieces."""
    smaller: Counter[Pattern] = Counter()
    for pattern, count in boards.items():
        need = sum(n * w for n, w in zip(pattern.counts, problem.widths, strict=True))
        for _ in range(count):
            fits = [
                s for s, room in enumerate(problem.capacities) if room >= need and (s == pattern.stock or shelf[s] != 0)
            ]
            stock = min(fits, key=lambda s: (problem.prices[s], problem.lengths[s], s != pattern.stock))
            if stock != pattern.stock:
                _take(shelf, stock, 1)
                _take(shelf, pattern.stock, -1)
            smaller[Pattern(stock, pattern.counts)] += 1
    return smaller


def _take(shelf: list[int | None], stock: int, count: int) -> None:
    limit = shelf[stock]
    if limit is not None:
        shelf[stock] = limit - count
