"""One model of HiGHS through highspy, on one thread. The one highspy module."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from functools import cache
from math import inf
from pathlib import Path

import highspy


class Model:
    """A linear or whole-number program that can grow and be solved again."""

    def __init__(self) -> None:
        _greeted()
        self._highs = highspy.Highs()  # type: ignore[no-untyped-call]  # highspy's own constructor has no annotations
        self.option("output_flag", False)
        self.option("threads", 1)
        self.option("random_seed", 0)

    def option(self, name: str, value: float | bool) -> None:
        """Sets one of HiGHS' own options."""
        self._highs.setOptionValue(name, value)

    def add_row(self, low: float, high: float, columns: Sequence[int] = (), entries: Sequence[float] = ()) -> None:
        """Adds a constraint over columns that stand already."""
        self._highs.addRow(low, high, len(columns), list(columns), list(entries))

    def add_column(
        self, cost: float, high: float = inf, rows: Sequence[int] = (), entries: Sequence[float] = ()
    ) -> None:
        """Adds a variable, not negative, in rows that stand already."""
        self._highs.addCol(cost, 0.0, high, len(rows), list(rows), list(entries))

    def bound_row(self, row: int, low: float, high: float) -> None:
        """Sets a constraint's limits."""
        self._highs.changeRowBounds(row, low, high)

    def bound_column(self, column: int, low: float, high: float) -> None:
        """Sets a variable's limits."""
        self._highs.changeColBounds(column, low, high)

    def whole(self, columns: int) -> None:
        """Makes the first so many variables whole numbers."""
        for column in range(columns):
            self._highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)

    def start_from(self, values: Sequence[float]) -> None:
        """A solution to begin from."""
        self._highs.setSolution(len(values), list(range(len(values))), list(values))

    def run(self) -> str:
        """Solves; "optimal", "infeasible", or another status in HiGHS' words."""
        self._highs.run()
        status = self._highs.getModelStatus()
        known = {highspy.HighsModelStatus.kOptimal: "optimal", highspy.HighsModelStatus.kInfeasible: "infeasible"}
        return known.get(status) or str(status)

    def forget(self) -> None:
        """Drops what the last run left: the next one starts cold."""
        self._highs.clearSolver()

    def columns(self) -> list[float]:
        """Values of the variables."""
        return list(self._highs.getSolution().col_value)

    def duals(self) -> list[float]:
        """Shadow prices of the constraints."""
        return list(self._highs.getSolution().row_dual)

    def bound(self) -> float:
        """What no whole-number solution undercuts."""
        return float(self._highs.getInfo().mip_dual_bound)

    def feasible(self) -> bool:
        """True if the last run left a solution that keeps all constraints."""
        return bool(self._highs.getInfo().primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible)


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
            highspy.Highs()  # type: ignore[no-untyped-call]  # as above
    finally:
        os.dup2(kept, 1)
        os.close(kept)
    return True
