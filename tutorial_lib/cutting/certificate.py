"""Why no shopping list is cheaper: a proof that anyone can check with whole numbers and patience.

Give every piece a value. Then a board of some length can hold at most so much value, found by trying
what fits; and a shopping list whose boards together hold less than the pieces are worth can't serve
them. The certificate is a handful of such price lists: every list of boards that costs less than the
plan is refuted by at least one of them. Checking needs no solver.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Protocol

from tutorial_lib.records import dataclass


@dataclass(frozen=True, kw_only=True)
class Problem:
    """Pieces and boards of one section in whole numbers (see ``problem.task``)."""

    widths: tuple[int, ...]  # [unit] piece and its kerf
    demand: tuple[int, ...]
    capacities: tuple[int, ...]  # [unit] board less trim, plus one kerf
    lengths: tuple[int, ...]  # board lengths in proportion, for the waste
    prices: tuple[int, ...]  # [cents]
    available: tuple[int | None, ...]


@dataclass(frozen=True)
class Cut:
    """Piece values, what each board holds of them at most, and what all pieces are worth."""

    values: tuple[int, ...]
    holds: tuple[int, ...]
    worth: int

    def refutes(self, mix: Sequence[int]) -> bool:
        """True if boards in these numbers can't hold all pieces."""
        return sum(n * most for n, most in zip(mix, self.holds, strict=True)) < self.worth


@dataclass(frozen=True)
class Certificate:
    """Claim: nothing costs less than ``cost``; ``values`` are the piece values that show it."""

    problem: Problem
    cost: int  # [cents]
    values: tuple[tuple[int, ...], ...]


class Evidence(Protocol):
    """What a certificate can be made from once someone asks for it; making it takes as long as a plan."""

    @property
    def certificate(self) -> Certificate: ...


@dataclass(frozen=True)
class Verdict:
    """What a check of a certificate came to."""

    holds: bool
    mix: tuple[int, ...] = ()  # a cheaper list that nothing refutes, if there is one
    complete: bool = True  # False: given up after ``limit`` lists


def most_value(values: Sequence[int], problem: Problem) -> tuple[int, ...]:
    """Most value each board can hold, by keeping only the fillings that no shorter one beats.

    >>> problem = Problem(
    ...     widths=(4, 3), demand=(2, 3), capacities=(7, 10), lengths=(7, 10), prices=(1, 1), available=(None, None)
    ... )
    >>> most_value([5, 3], problem)
    (8, 11)
    """
    top = max(problem.capacities, default=0)
    front = [(0, 0)]
    for value, width, count in zip(values, problem.widths, problem.demand, strict=True):
        if value > 0:
            for _ in range(min(count, top // width)):
                grown = _best([*front, *((w + width, v + value) for w, v in front if w + width <= top)])
                if grown == front:
                    break
                front = grown
    return tuple(max((v for w, v in front if w <= room), default=0) for room in problem.capacities)


def _best(fillings: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Fillings that hold more than every shorter one."""
    kept: list[tuple[int, int]] = []
    for width, value in sorted(fillings, key=lambda f: (f[0], -f[1])):
        if not kept or value > kept[-1][1]:
            kept.append((width, value))
    return kept


def cut_of(values: Sequence[int], problem: Problem) -> Cut:
    """What follows from one list of piece values."""
    worth = sum(v * d for v, d in zip(values, problem.demand, strict=True))
    return Cut(tuple(values), most_value(values, problem), worth)


def check(certificate: Certificate, limit: int = 1_000_000) -> Verdict:
    """Tests the claim that no shopping list below the cost holds all pieces.

    Args:
        certificate: the claim and its piece values.
        limit: lists looked at before giving up.
    """
    problem = certificate.problem
    cuts = [cut_of(values, problem) for values in certificate.values]
    for steps, mix in enumerate(cheaper_mixes(problem, certificate.cost - 1, cuts), 1):
        if mix and not any(cut.refutes(mix) for cut in cuts):
            return Verdict(False, mix)
        if steps > limit:
            return Verdict(False, complete=False)
    return Verdict(True)


def cheaper_mixes(problem: Problem, budget: int, cuts: Sequence[Cut]) -> Iterator[tuple[int, ...]]:
    """Largest shopping lists within a budget that the first cut alone doesn't refute.

    An empty tuple stands for a whole branch refuted at once. Only the largest lists matter: taking a
    board away never helps.
    """
    if budget < 0:
        return
    order = sorted(range(len(problem.prices)), key=lambda s: (-problem.prices[s], problem.capacities[s]))
    holds, worth = (cuts[0].holds, cuts[0].worth) if cuts else ([0] * len(order), 0)
    rests = [_rest(problem, order[place:], holds) for place in range(len(order) + 1)]
    yield from _fill(_Walk(problem, order, holds, rests), [0] * len(order), 0, budget, worth)


@dataclass(frozen=True)
class _Rest:
    """What a budget may still buy once some boards are decided on."""

    free: int  # value of the boards that cost nothing
    offers: tuple[tuple[int, int, int | None], ...]  # value, price and number of each other; the best value first


@dataclass(frozen=True)
class _Walk:
    """Boards in the order they are decided on, the dearest first, and what is left to decide at each place."""

    problem: Problem
    order: Sequence[int]
    holds: Sequence[int]  # most value of each board
    rests: Sequence[_Rest]


def _rest(problem: Problem, stocks: Sequence[int], holds: Sequence[int]) -> _Rest:
    paid = [s for s in stocks if problem.prices[s]]
    paid.sort(key=lambda s: -Fraction(holds[s], problem.prices[s]))
    free = sum(_affordable(problem, s, 0) * holds[s] for s in stocks if not problem.prices[s])
    return _Rest(free, tuple((holds[s], problem.prices[s], problem.available[s]) for s in paid))


def _fill(walk: _Walk, mix: list[int], place: int, budget: int, missing: int) -> Iterator[tuple[int, ...]]:
    if _hopeless(walk.rests[place], budget, missing):
        yield ()
        return
    if place == len(mix):
        yield tuple(mix)
        return
    stock = walk.order[place]
    price, value = walk.problem.prices[stock], walk.holds[stock]
    most = _affordable(walk.problem, stock, budget)
    last = place == len(mix) - 1
    for count in range(most, most - 1 if last else -1, -1):
        mix[stock] = count
        yield from _fill(walk, mix, place + 1, budget - count * price, missing - count * value)
    mix[stock] = 0


def _hopeless(rest: _Rest, budget: int, missing: int) -> bool:
    """True if the best the budget still buys, boards divisible, holds less than is missing; in whole numbers."""
    missing -= rest.free
    if missing <= 0:
        return False
    for value, price, limit in rest.offers:
        if limit is None or limit * price >= budget:
            return budget * value < missing * price
        missing -= limit * value
        budget -= limit * price
    return missing > 0


def _affordable(problem: Problem, stock: int, budget: int) -> int:
    """Boards of one stock that a budget and the shelf allow; never more than there are pieces."""
    most = sum(problem.demand)
    if problem.prices[stock]:
        most = min(most, budget // problem.prices[stock])
    limit = problem.available[stock]
    return most if limit is None else min(most, limit)
