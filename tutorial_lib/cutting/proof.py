"""Keeps the few piece values a proof needs, as small numbers, and tells the proof in a sentence."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tutorial_lib.cutting.arrays import knapsack
from tutorial_lib.cutting.certificate import Certificate, Cut, Problem, cheaper_mixes, cut_of
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.cutting.arrays import Knapsack
    from tutorial_lib.cutting.boards import SectionPlan


@dataclass(frozen=True)
class Cuts:
    """All that refuted lists of boards; the few that a proof needs are picked out when someone asks."""

    problem: Problem
    cost: int  # [cents]
    cuts: tuple[Cut, ...]

    @property
    def certificate(self) -> Certificate:
        """That nothing costs less."""
        values = few_cuts(self.problem, self.cost, self.cuts, knapsack(self.problem))
        return Certificate(self.problem, self.cost, values)


@dataclass(frozen=True)
class Length:
    """The pieces' own length, where that alone says how much boards cost at least."""

    problem: Problem
    cost: int  # [cents]

    @property
    def certificate(self) -> Certificate:
        """That nothing costs less."""
        return Certificate(self.problem, self.cost, (self.problem.widths,))


SCALES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 20, 50, 100, 1000, 10_000, 1_000_000)
MOST_STEPS = 3_000
MOST_TOLD = 9_999  # larger sums say nothing to a viewer


def _refuted(mix: Sequence[int], cuts: Sequence[Cut]) -> bool:
    """Whether a cut says that a list of boards can't hold the pieces."""
    return any(c.refutes(mix) for c in cuts)


def few_cuts(problem: Problem, cost: int, cuts: Sequence[Cut], knapsack: Knapsack) -> tuple[tuple[int, ...], ...]:
    """The strongest cut, then one for each cheaper list it leaves; numbers as small as still do."""
    if not cuts:
        return ()
    first = max(cuts, key=lambda c: lowest_cost(problem, c))
    simple = _simplest(problem, cost, first, knapsack)
    if simple is not None:
        return (simple.values,)
    chosen = [first]
    for steps, mix in enumerate(cheaper_mixes(problem, cost - 1, [first])):
        if steps > MOST_STEPS:
            break
        if mix and not _refuted(mix, chosen):
            chosen += [c for c in reversed(cuts) if c.refutes(mix)][:1]
    return tuple(c.values for c in chosen)


def _simplest(problem: Problem, cost: int, cut: Cut, knapsack: Knapsack) -> Cut | None:
    """The smallest whole values in about the same proportion that alone refute every cheaper list."""
    top = max(cut.values)
    if top == 0:
        return cut
    smaller = []
    for scale in SCALES:
        smaller.append(knapsack.cut([round(v * scale / top) for v in cut.values]))
        if lowest_cost(problem, smaller[-1]) > cost - 1:
            return smaller[-1]
    return next((small for small in smaller if _alone(problem, cost, small)), None)


def _alone(problem: Problem, cost: int, cut: Cut) -> bool:
    for steps, mix in enumerate(cheaper_mixes(problem, cost - 1, [cut])):
        if steps > 60 or (mix and not cut.refutes(mix)):
            return False
    return True


def lowest_cost(problem: Problem, cut: Cut) -> float:
    """Least money for boards that hold the pieces' worth, boards divisible [cents]."""
    need, spent = float(cut.worth), 0.0
    by_value = sorted(range(len(problem.prices)), key=lambda s: problem.prices[s] / (cut.holds[s] or 1e-9))
    for s in by_value:
        if need <= 1e-9 or not cut.holds[s]:
            break
        limit = problem.available[s]
        boards = need / cut.holds[s] if limit is None else min(float(limit), need / cut.holds[s])
        spent += boards * problem.prices[s]
        need -= boards * cut.holds[s]
    return spent - 1e-7


def sentence(part: SectionPlan, money: str = "") -> str:
    """The proof in words a viewer follows.

    Args:
        part: one section of a plan.
        money: the next cheaper cost as it is written, for example "$41.99".
    """
    if not part.proven:
        return "Not proven cheapest: a cheaper list may exist, but none below the stated bound."
    if part.cost == 0:
        return "It costs nothing: no list can be cheaper."
    if len(part.certificate.values) == 1 and not part.searched:
        return _one_price(part, money)
    ways = f"{len(part.certificate.values)} ways to value the pieces"
    if part.searched:
        return f"Every cheaper list was tried: {ways} rule out most, a full search the last {part.searched}."
    return f"Every cheaper list fails: with {ways}, each is shown to hold less than the pieces are worth."


def _one_price(part: SectionPlan, money: str) -> str:
    """Piece values, what each board holds of them, and that no cheaper list holds enough."""
    cut = cut_of(part.certificate.values[0], part.certificate.problem)
    budget = f"{money} or less" if money else "less money"
    if cut.worth > MOST_TOLD:
        return f"There are piece values at which boards for {budget} can't hold what the pieces are worth together."
    boards = dict(zip(part.supplies, cut.holds, strict=True))
    holds = " and ".join(f"no {name} board can hold more than {most}" for name, most in boards.items())
    if {v for v in cut.values if v} == {1} and all(cut.values):
        if cut.worth == 1:
            return f"There is one piece, and boards for {budget} can't hold it."
        return f"There are {cut.worth} pieces, {holds}: boards for {budget} can't hold them all."
    return f"Valued so that all pieces together are worth {cut.worth}, {holds}: boards for {budget} can't hold that."
