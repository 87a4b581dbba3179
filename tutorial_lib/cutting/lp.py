"""Linear and whole-number programs, solved by HiGHS on one thread. The one highspy module.

The model status is read after every run: HiGHS answers some failures with an empty solution and no error.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import inf
from pathlib import Path

import highspy

OPTIMAL = highspy.HighsModelStatus.kOptimal
INFEASIBLE = highspy.HighsModelStatus.kInfeasible


@dataclass(frozen=True)
class Pattern:
    """One way to fill one board: how many pieces of each width."""

    stock: int
    counts: tuple[int, ...]


@dataclass(frozen=True)
class Answer:
    """Solution of the covering program and its shadow prices."""

    value: float
    boards: list[float]  # how many boards of each pattern
    worth: list[float]  # shadow price of each kind of piece, not negative
    rent: list[float]  # shadow price of each limited board, not negative


class SolverError(RuntimeError):
    """HiGHS came back without an answer."""


@cache
def _greeted() -> bool:
    """Lets HiGHS print its greeting to nowhere: it comes with the first solver, before any option can stop it."""
    sys.stdout.flush()
    try:
        kept = os.dup(1)
    except OSError:  # no standard output to keep clean
        return False
    try:
        with Path(os.devnull).open("wb") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            highspy.Highs()  # type: ignore[no-untyped-call]  # highspy's own constructor has no annotations
    finally:
        os.dup2(kept, 1)
        os.close(kept)
    return True


def _solver() -> highspy.Highs:
    _greeted()
    solver = highspy.Highs()  # type: ignore[no-untyped-call]  # as above
    for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 0)):
        solver.setOptionValue(option, value)
    return solver


class Covering:
    """Boards cut by known patterns so that every piece is covered, growing by patterns; missing pieces cost extra."""

    def __init__(self, demand: Sequence[int], limits: Sequence[float], missing: float) -> None:
        self.kinds = len(demand)
        self.patterns: dict[Pattern, int] = {}
        self.solver = _solver()
        for count in demand:
            self.solver.addRow(float(count), inf, 0, [], [])
        for limit in limits:
            self.solver.addRow(-inf, float(limit), 0, [], [])
        for kind in range(self.kinds):
            self.solver.addCol(missing, 0.0, inf, 1, [kind], [1.0])

    def add(self, pattern: Pattern, cost: float) -> bool:
        """Adds a pattern; False if it was there already."""
        if pattern in self.patterns:
            return False
        rows = [i for i, n in enumerate(pattern.counts) if n]
        entries = [float(pattern.counts[i]) for i in rows]
        rows.append(self.kinds + pattern.stock)
        self.patterns[pattern] = len(self.patterns)
        self.solver.addCol(cost, 0.0, inf, len(rows), rows, [*entries, 1.0])
        return True

    def limit(self, limits: Sequence[float]) -> None:
        """Sets how many boards of each stock may be used."""
        for stock, limit in enumerate(limits):
            self.solver.changeRowBounds(self.kinds + stock, -inf, float(limit))

    def fix(self, pattern: Pattern, low: float, high: float = inf) -> None:
        """Sets how many boards are cut by one pattern."""
        self.solver.changeColBounds(self.kinds + self.patterns[pattern], low, high)

    def solve(self) -> Answer:
        """Least cost with divisible boards."""
        self.solver.run()
        if self.solver.getModelStatus() != OPTIMAL:
            # A warm start that went wrong is cured by a cold one.
            self.solver.clearSolver()
            self.solver.run()
        if self.solver.getModelStatus() != OPTIMAL:
            raise SolverError(f"linear program: {self.solver.getModelStatus()}")
        found = self.solver.getSolution()
        duals = list(found.row_dual)
        return Answer(
            self.solver.getInfo().objective_function_value,
            list(found.col_value)[self.kinds :],
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
    solver = _solver()
    solver.setOptionValue("time_limit", seconds)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.0)
    for cost, high in zip(costs, highs, strict=True):
        solver.addCol(float(cost), 0.0, float(high), 0, [], [])
    for low, high, entries in zip(rows.low, rows.high, rows.entries, strict=True):
        solver.addRow(low, high, len(entries), [i for i, _ in entries], [e for _, e in entries])
    columns = list(range(len(costs)))
    for column in columns:
        solver.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    if start:
        solver.setSolution(len(columns), columns, [float(v) for v in start])
    solver.run()
    status = solver.getModelStatus()
    info = solver.getInfo()
    has = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    values = [round(v) for v in solver.getSolution().col_value] if has and status != INFEASIBLE else []
    return Whole(values, status in (OPTIMAL, INFEASIBLE), info.mip_dual_bound)
