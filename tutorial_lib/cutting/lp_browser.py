"""One model of HiGHS compiled to WebAssembly, for a page in the browser: the same solver, the same operations.

The page's worker loads HiGHS before the library and leaves it as the global name ``highs``.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

import js
from pyodide.ffi import to_js

STATUS = {7: "optimal", 8: "infeasible"}  # HiGHS' model status codes
FEASIBLE = 2  # HiGHS' solution status codes
INTEGER = 1  # HiGHS' variable types


class Model:
    """A linear or whole-number program that can grow and be solved again."""

    def __init__(self) -> None:
        self._highs = js.highs.createModel()
        self.option("output_flag", False)
        self.option("random_seed", 0)

    def __del__(self) -> None:
        self._highs.dispose()

    def option(self, name: str, value: float | bool) -> None:
        """Sets one of HiGHS' own options."""
        self._highs.options.set(name, value)

    def add_row(self, low: float, high: float, columns: Sequence[int] = (), entries: Sequence[float] = ()) -> None:
        """Adds a constraint over columns that stand already."""
        self._highs.addRow(low, high, _sparse(columns, entries))

    def add_column(
        self, cost: float, high: float = inf, rows: Sequence[int] = (), entries: Sequence[float] = ()
    ) -> None:
        """Adds a variable, not negative, in rows that stand already."""
        self._highs.addCol(cost, 0.0, high, _sparse(rows, entries))

    def bound_row(self, row: int, low: float, high: float) -> None:
        """Sets a constraint's limits."""
        self._highs.changeRowBounds(row, low, high)

    def bound_column(self, column: int, low: float, high: float) -> None:
        """Sets a variable's limits."""
        self._highs.changeColBounds(column, low, high)

    def whole(self, columns: int) -> None:
        """Makes the first so many variables whole numbers."""
        for column in range(columns):
            self._highs.changeColIntegrality(column, INTEGER)

    def start_from(self, values: Sequence[float]) -> None:
        """A solution to begin from."""
        self._highs.setSolution(_sparse(range(len(values)), values))

    def run(self) -> str:
        """Solves; "optimal", "infeasible", or another status by its number."""
        self._highs.run()
        status = int(self._highs.getModelStatus())
        return STATUS.get(status, f"status {status}")

    def forget(self) -> None:
        """Drops what the last run left: the next one starts cold."""
        self._highs.clearSolver()

    def columns(self) -> list[float]:
        """Values of the variables."""
        return list(self._highs.getSolution().colValue.to_py())

    def duals(self) -> list[float]:
        """Shadow prices of the constraints."""
        return list(self._highs.getSolution().rowDual.to_py())

    def bound(self) -> float:
        """What no whole-number solution undercuts."""
        return float(self._highs.info.get("mip_dual_bound"))

    def feasible(self) -> bool:
        """True if the last run left a solution that keeps all constraints."""
        return int(self._highs.info.get("primal_solution_status")) == FEASIBLE


def _sparse(places: Sequence[int], values: Sequence[float]) -> object:
    entries = {"indices": [int(place) for place in places], "values": [float(value) for value in values]}
    return to_js(entries, dict_converter=js.Object.fromEntries)
