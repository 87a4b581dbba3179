"""Symmetric equations with few neighbours, factored once and solved for many right-hand sides."""

from __future__ import annotations

from collections.abc import Sequence
from operator import mul

TINY = 1e-9  # a pivot this much smaller than its diagonal means that nothing holds that movement


class Loose(ValueError):  # noqa: N818  a state of the bed as much as an error
    """One movement is held by nothing; ``row`` is its number."""

    def __init__(self, row: int) -> None:
        super().__init__(f"nothing holds movement {row}")
        self.row = row


class Factored:
    """L D Lᵀ of a symmetric positive matrix whose rows begin at their first entry (a skyline).

    >>> whole = Factored([[4.0], [1.0, 3.0], [1.0, 2.0]])
    >>> [round(x, 6) for x in whole.solve([1.0, 2.0, 3.0])]
    [0.222222, 0.111111, 1.444444]
    """

    def __init__(self, rows: Sequence[Sequence[float]]) -> None:
        """Rows of the lower triangle, each from its first entry up to the diagonal.

        Raises:
            Loose: the matrix is singular.
        """
        self._first = [i + 1 - len(row) for i, row in enumerate(rows)]
        self._lower: list[list[float]] = []
        self._pivots: list[float] = []
        for i, row in enumerate(rows):
            self._add(i, list(row[:-1]), row[-1])

    def _add(self, i: int, scaled: list[float], diagonal: float) -> None:
        start, lower = self._first[i], self._lower
        for k in range(len(scaled)):
            j = start + k
            lo = max(start, self._first[j])
            if lo < j:
                scaled[k] -= sum(map(mul, scaled[lo - start : k], lower[j][lo - self._first[j] :]))
        row = [s / p for s, p in zip(scaled, self._pivots[start:], strict=False)]
        pivot = diagonal - sum(map(mul, scaled, row))
        if pivot <= TINY * abs(diagonal):
            raise Loose(i)
        lower.append(row)
        self._pivots.append(pivot)

    def solve(self, right: Sequence[float]) -> list[float]:
        """The unknowns for one right-hand side."""
        x, first = list(right), self._first
        begin = next((i for i, value in enumerate(x) if value), len(x))
        for i in range(begin, len(x)):
            row = self._lower[i]
            if row:
                x[i] -= sum(map(mul, row, x[first[i] : i]))
        for i in range(begin, len(x)):
            x[i] /= self._pivots[i]
        for i in range(len(x) - 1, 0, -1):
            value, row = x[i], self._lower[i]
            if value and row:
                start = first[i]
                x[start:i] = [a - b * value for a, b in zip(x[start:i], row, strict=True)]
        return x
