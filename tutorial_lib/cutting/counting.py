"""What boards of a list hold and make, counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from math import inf

from tutorial_lib.cutting.certificate import Cut, Problem
from tutorial_lib.cutting.lp import Pattern, Rows


def dot(left: Sequence[int], right: Sequence[int]) -> int:
    """Sum of products.

    >>> dot((2, 3), (10, 1))
    23
    """
    return sum(a * b for a, b in zip(left, right, strict=True))


def slack(cut: Cut, mix: Sequence[int]) -> int:
    """What the boards of a list hold beyond what the pieces are worth."""
    return dot(cut.holds, mix) - cut.worth


def mix_of(problem: Problem, boards: Counter[Pattern]) -> list[int]:
    """How many of each board."""
    mix = [0] * len(problem.prices)
    for pattern, count in boards.items():
        mix[pattern.stock] += count
    return mix


def made_of(problem: Problem, boards: Counter[Pattern]) -> list[int]:
    """How many pieces of each kind come out of the boards."""
    made = [0] * len(problem.widths)
    for pattern, count in boards.items():
        for kind, n in enumerate(pattern.counts):
            made[kind] += n * count
    return made


def cover_rows(problem: Problem, patterns: Sequence[Pattern], mix: Sequence[int], exact: bool) -> Rows:
    """Every piece made, no board of the list used twice."""
    rows = Rows([], [], [])
    for kind, count in enumerate(problem.demand):
        rows.low.append(float(count))
        rows.high.append(float(count) if exact else inf)
        rows.entries.append([(j, float(p.counts[kind])) for j, p in enumerate(patterns) if p.counts[kind]])
    for stock, count in enumerate(mix):
        rows.low.append(float(count) if exact else -inf)
        rows.high.append(float(count))
        rows.entries.append([(j, 1.0) for j, p in enumerate(patterns) if p.stock == stock])
    return rows


def fewer_kinds(problem: Problem) -> Problem | None:
    """The problem without the kinds that are done."""
    kinds = [i for i, d in enumerate(problem.demand) if d]
    if not kinds:
        return None
    return replace(
        problem,
        widths=tuple(problem.widths[i] for i in kinds),
        demand=tuple(problem.demand[i] for i in kinds),
    )


def widened(counts: Sequence[int], problem: Problem) -> tuple[int, ...]:
    """Counts of the kinds still wanted, back in the order of all kinds."""
    given = iter(counts)
    return tuple(next(given) if d else 0 for d in problem.demand)
