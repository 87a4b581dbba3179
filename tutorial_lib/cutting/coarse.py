"""Problems too fine or too varied for the exact search: two coarser ones, one that costs no less, one no more.

Widths rounded up and boards down give a list that can be cut as it is; widths down and boards up give a bound that no
list can undercut. What lies between them is the honest gap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil

from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.counting import dot
from tutorial_lib.records import dataclass

MOST_KINDS = 150  # different widths that the exact search takes in seconds on any grid
MOST_SPREAD = 600_000  # of more widths: their number by the steps in the longest board
GROUPS = 40  # widths of a grouped problem
MOST_CELLS = 2_500_000  # of the table of best fillings: kinds x lengths that pieces can add up to
COARSE = 12_000  # steps in the longest board of a coarse grid
LEAST_STEPS = 2_400  # of wide pieces; on a coarser grid widths are better grouped
WIDE = 4  # pieces of a board at most on average, boards all of one length: then there is little to try


@dataclass(frozen=True)
class Coarse:
    """A problem and its coarser neighbours."""

    above: Problem  # pieces no shorter, boards no longer: what can be cut of it can be cut
    below: Problem  # pieces no longer, boards no shorter: no list is cheaper than its cheapest
    groups: tuple[tuple[int, ...], ...]  # for each width of the coarser problems the kinds it stands for, longest first


def coarser(problem: Problem) -> Coarse | None:
    """The coarser problems, or None where the exact search can take the problem itself."""
    top, kinds = max(problem.capacities, default=0), len(problem.widths)
    many = kinds > MOST_KINDS and kinds * top > MOST_SPREAD
    if not many and fits(problem, top):
        return None
    groups: tuple[tuple[int, ...], ...] = tuple((kind,) for kind in range(kinds))
    steps = COARSE
    if many:
        steps = min(COARSE, MOST_SPREAD // kinds)
        if steps < LEAST_STEPS or not _wide(problem):
            groups, steps = _quantiles(problem), COARSE
    step = max(1, -(-top // steps))
    demand = tuple(sum(problem.demand[kind] for kind in group) for group in groups)
    both = replace(problem, demand=demand, lengths=_short(problem.lengths))
    return Coarse(_above(both, groups, step), _below(both, groups, step), groups)


def _wide(problem: Problem) -> bool:
    """True where a few pieces fill each board and all boards are of one length."""
    used = dot(problem.widths, problem.demand)
    return len(problem.capacities) == 1 and used * WIDE >= problem.capacities[0] * sum(problem.demand)


def _above(problem: Problem, groups: Sequence[Sequence[int]], step: int) -> Problem:
    """Pieces as long as the longest of their group, rounded up; boards rounded down."""
    tall = [max(problem.widths[kind] for kind in group) for group in groups]
    capacities = tuple(room // step for room in problem.capacities)
    return replace(problem, widths=tuple(-(-width // step) for width in tall), capacities=capacities)


def _below(problem: Problem, groups: Sequence[Sequence[int]], step: int) -> Problem:
    """Pieces as short as the shortest of their group, rounded down; boards rounded up."""
    low = [min(problem.widths[kind] for kind in group) for group in groups]
    capacities = tuple(-(-room // step) for room in problem.capacities)
    return replace(problem, widths=tuple(max(width // step, 1) for width in low), capacities=capacities)


def _short(lengths: Sequence[int]) -> tuple[int, ...]:
    """Board lengths in proportion, as numbers that can be added; only ties between equally cheap lists hang on them."""
    step = -(-max(lengths, default=1) // COARSE)
    return tuple(-(-length // step) for length in lengths)


def fits(problem: Problem, top: int) -> bool:
    """True if the lengths that pieces can add up to are few enough to be listed; counted, not guessed."""
    from tutorial_lib.cutting.arrays import few_sums

    cells = MOST_CELLS // (len(problem.widths) + 1)
    if top < cells:
        return True
    bounds = [min(demand, top // width) for width, demand in zip(problem.widths, problem.demand, strict=True)]
    return few_sums(problem.widths, bounds, top, cells)


def _quantiles(problem: Problem) -> tuple[tuple[int, ...], ...]:
    """Kinds in groups of about as many pieces each, widest first."""
    each = -(-sum(problem.demand) // GROUPS)
    groups: list[list[int]] = [[]]
    room = each
    for kind in sorted(range(len(problem.widths)), key=lambda k: -problem.widths[k]):
        if room <= 0:
            groups.append([])
            room = each
        groups[-1].append(kind)
        room -= problem.demand[kind]
    return tuple(map(tuple, groups))


def by_length(problem: Problem) -> int:
    """What the boards cost at least if nothing were wasted [cents]."""
    need, cost = dot(problem.widths, problem.demand), Fraction(0)
    stocks = [s for s, room in enumerate(problem.capacities) if room > 0]
    for stock in sorted(stocks, key=lambda s: Fraction(problem.prices[s], problem.capacities[s])):
        limit, room = problem.available[stock], problem.capacities[stock]
        boards = Fraction(need, room) if limit is None else min(Fraction(need, room), Fraction(limit))
        cost += boards * problem.prices[stock]
        need -= int(boards * room)
        if need <= 0:
            break
    return ceil(cost)


Filled = tuple[int, list[int]]  # a board: its stock, and the kinds of its pieces


def dealt(patterns: Sequence[tuple[int, Sequence[int], int]], coarse: Coarse, demand: Sequence[int]) -> list[Filled]:
    """Boards of the problem itself from the patterns of the one above it: each place takes its group's next piece.

    Args:
        patterns: stock, pieces of each group, boards cut so.
        coarse: the groups.
        demand: pieces of each kind.
    """
    queues = [[kind for kind in group for _ in range(demand[kind])] for group in coarse.groups]
    boards: list[Filled] = []
    for stock, counts, times in patterns:
        for _ in range(times):
            pieces = [queues[group].pop() for group, n in enumerate(counts) for _ in range(min(n, len(queues[group])))]
            if pieces:
                boards.append((stock, pieces))
    return boards
