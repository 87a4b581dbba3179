"""What fits a board, and all mixes of boards: in plain Python where they are few, by numpy where they are many.

Both count the same. Of most beds they are so few that numpy takes longer to load than they to be counted; on hundreds
of pieces it is five times as quick or more. A browser has none.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from math import prod
from typing import Any, Protocol

from tutorial_lib.cutting import arrays_plain
from tutorial_lib.cutting.certificate import Cut, Problem

FEW_FILLINGS = 1_000
FEW_MIXES = 300
NUMPY = sys.platform != "emscripten"


class Knapsack(Protocol):
    """Best fillings of all boards at once; a table belongs to the one that made it."""

    def table(self, values: Sequence[int]) -> Any: ...

    def cut(self, values: Sequence[int], table: Any = None) -> Cut: ...

    def filling(self, values: Sequence[int], table: Any, stock: int) -> tuple[int, ...]: ...

    def fillings(self, cut: Cut, stock: int, loss: int, limit: int) -> Any: ...


class Mixes(Protocol):
    """Shopping lists in order of cost, then of length bought."""

    def __len__(self) -> int: ...

    def first(self) -> tuple[int, int, tuple[int, ...]]: ...

    def strike(self, cut: Cut) -> None: ...

    def drop_first(self) -> None: ...


def knapsack(problem: Problem) -> Knapsack:
    """The fillings of a problem's boards."""
    top = max(problem.capacities)
    fillings = prod(min(d, top // w) + 1 for w, d in zip(problem.widths, problem.demand, strict=True))
    if fillings <= FEW_FILLINGS or not NUMPY:
        return arrays_plain.Knapsack(problem)
    from tutorial_lib.cutting import arrays_numpy

    return arrays_numpy.Knapsack(problem)


def all_mixes(problem: Problem, most_cost: int, cuts: Sequence[Cut], limit: int) -> Mixes | None:
    """Every shopping list up to a cost that no cut refutes; None if they run over ``limit``."""
    if "numpy" not in sys.modules:
        few = arrays_plain.all_mixes(problem, most_cost, cuts, min(limit, FEW_MIXES) if NUMPY else limit)
        if few is not None or limit <= FEW_MIXES or not NUMPY:
            return few
    from tutorial_lib.cutting import arrays_numpy

    return arrays_numpy.all_mixes(problem, most_cost, cuts, limit)


def few_sums(widths: Sequence[int], bounds: Sequence[int], top: int, limit: int) -> bool:
    """True if the lengths up to ``top`` that pieces can add up to aren't more than ``limit``; listed, not guessed."""
    if not NUMPY:
        return arrays_plain.listed_sums(widths, bounds, top, limit) is not None
    from tutorial_lib.cutting import arrays_numpy

    return arrays_numpy.listed_sums(widths, bounds, top, limit) is not None


__all__ = ["Knapsack", "Mixes", "all_mixes", "few_sums", "knapsack"]
