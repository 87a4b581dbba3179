"""Linear and whole-number programs, solved by HiGHS: by highspy at a desk, by its WebAssembly twin in a browser.

The model status is read after every run: HiGHS answers some failures with an empty solution and no error.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from math import inf
from typing import TYPE_CHECKING

from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.cutting.lp_highspy import Model


def new_model() -> Model:
    """An empty program; HiGHS is loaded with the first, most beds need none."""
    if TYPE_CHECKING or sys.platform != "emscripten":
        from tutorial_lib.cutting.lp_highspy import Model
    else:
        from tutorial_lib.cutting.lp_browser import Model
    return Model()


@dataclass(frozen=True)
class Pattern:
    """One way to fill one board: how many pieces of each width."""

    stock: int
    counts: tuple[int, ...]


@dataclass(frozen=True)
class Answer:
    """Solution of the covering program and its shadow prices."""

    boards: list[float]  # how many boards of each pattern
    missing: list[float]  # pieces of each kind that no board makes
    worth: list[float]  # shadow price of each kind of piece, not negative
    rent: list[float]  # shadow price of each limited board, not negative


class SolverError(RuntimeError):
    """HiGHS came back without an answer."""


class Covering:
    """Boards cut by known patterns so that every piece is covered, growing by patterns; missing pieces cost extra."""

    def __init__(self, demand: Sequence[int], limits: Sequence[float], missing: float) -> None:
        self.kinds = len(demand)
        self.patterns: dict[Pattern, int] = {}
        self.model = new_model()
        for count in demand:
            self.model.add_row(float(count), inf)
        for limit in limits:
            self.model.add_row(-inf, float(limit))
        for kind in range(self.kinds):
            self.model.add_column(missing, inf, [kind], [1.0])

    def add(self, pattern: Pattern, cost: float) -> bool:
        """Adds a pattern; False if it was there already."""
        if pattern in self.patterns:
            return False
        rows = [i for i, n in enumerate(pattern.counts) if n]
        entries = [float(pattern.counts[i]) for i in rows]
        rows.append(self.kinds + pattern.stock)
        self.patterns[pattern] = len(self.patterns)
        self.model.add_column(cost, inf, rows, [*entries, 1.0])
        return True

    def limit(self, limits: Sequence[float]) -> None:
        """Sets how many boards of each stock may be used."""
        for stock, limit in enumerate(limits):
            self.model.bound_row(self.kinds + stock, -inf, float(limit))

    def fix(self, pattern: Pattern, low: float, high: float = inf) -> None:
        """Sets how many boards are cut by one pattern."""
        self.model.bound_column(self.kinds + self.patterns[pattern], low, high)

    def solve(self) -> Answer:
        """Least cost with divisible boards."""
        status = self.model.run()
        if status != "optimal":
            # A warm start that went wrong is cured by a cold one.
            self.model.forget()
            status = self.model.run()
        if status != "optimal":
            raise SolverError(f"linear program: {status}")
        columns, duals = self.model.columns(), self.model.duals()
        return Answer(
            columns[self.kinds :],
            columns[: self.kinds],
            [max(u, 0.0) for u in duals[: self.kinds]],
            [max(-u, 0.0) for u in duals[self.kinds :]],
        )


@dataclass(frozen=True)
class Rows:
    """Constraints low <= sum(entry * variable) <= high, one tuple of (variable, entry) pairs each."""

    low: list[float]
    high: list[float]
    entries: list[list[tuple[int, float]]]


@dataclass(frozen=True)
class Whole:
    """Answer of a whole-number program; ``values`` empty if there is none."""

    values: list[int]
    optimal: bool  # proven: best, or impossible
    bound: float


def solve_whole(
    costs: Sequence[float], highs: Sequence[float], rows: Rows, seconds: float, start: Sequence[int] = ()
) -> Whole:
    """Least cost over whole numbers from 0 to ``highs``.

    Args:
        costs: cost of each variable.
        highs: most of each variable.
        rows: constraints.
        seconds: time limit (HiGHS keeps it softly).
        start: a solution to begin from.
    """
    model = new_model()
    model.option("time_limit", seconds)
    model.option("mip_rel_gap", 0.0)
    model.option("mip_abs_gap", 0.0)
    for cost, high in zip(costs, highs, strict=True):
        model.add_column(float(cost), float(high))
    for low, high, entries in zip(rows.low, rows.high, rows.entries, strict=True):
        model.add_row(low, high, [i for i, _ in entries], [e for _, e in entries])
    model.whole(len(costs))
    if start:
        model.start_from([float(v) for v in start])
    status = model.run()
    has = status != "infeasible" and model.feasible()
    values = [round(v) for v in model.columns()] if has else []
    return Whole(values, status in ("optimal", "infeasible"), model.bound())
