"""Maximum likelihood with a pull toward a prior: one of several options, or yes and no."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy import sparse
from scipy.optimize import minimize

Array = np.ndarray


def least(loss: Callable[[Array], tuple[float, Array]], start: Array, rounds: int = 150) -> Array:
    """The place where a loss with its slope is least."""
    return minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": rounds}).x


@dataclass(frozen=True)
class Races:
    """Numbers, each with options that compete: the rows where one starts, the right row, whose a row is."""

    starts: Array
    right: Array
    own: Array
    counts: Array  # how much each number counts in the fit

    def loss(self, score: Array) -> tuple[float, Array]:
        """The loss of the scores, and its slope by row."""
        top = np.maximum.reduceat(score, self.starts)
        chance = np.exp(score - top[self.own])
        sums = np.add.reduceat(chance, self.starts)
        log = score[self.right] - top - np.log(sums)
        slope = chance / sums[self.own] * self.counts[self.own]
        slope[self.right] -= self.counts
        return float(-(self.counts * log).sum()), slope


def races(sizes: Sequence[int], right: Sequence[int], counts: Sequence[float]) -> Races:
    """Numbers by how many options each has and which is right."""
    starts = np.concatenate([[0], np.cumsum(sizes)[:-1]]).astype(int)
    own = np.repeat(np.arange(len(sizes)), sizes)
    return Races(starts, starts + np.array(right), own, np.array(counts))


class Columns:
    """Names as columns of a sparse matrix."""

    def __init__(self, names: Sequence[str]) -> None:
        self.names = list(names)
        self.place = {name: i for i, name in enumerate(self.names)}

    def matrix(self, rows: Sequence[dict[str, float]]) -> sparse.csr_matrix:
        """Rows of named values; a name without a column is left out."""
        cells = [(r, self.place[n], v) for r, row in enumerate(rows) for n, v in row.items() if n in self.place]
        at, column, value = zip(*cells, strict=True) if cells else ((), (), ())
        return sparse.csr_matrix((value, (at, column)), shape=(len(rows), len(self.names)))


def choose(rows: Sequence[dict[str, float]], race: Races, prior: dict[str, float], pull: float) -> dict[str, float]:
    """Weights that make the right options likeliest."""
    columns = Columns(sorted({n for row in rows for n in row}))
    x, start = columns.matrix(rows), np.array([prior.get(n, 0.0) for n in columns.names])

    def loss(z: Array) -> tuple[float, Array]:
        value, slope = race.loss(x @ z)
        return value + 0.5 * pull * ((z - start) ** 2).sum(), x.T @ slope + pull * (z - start)

    return dict(zip(columns.names, least(loss, start), strict=True))


def tell(rows: Sequence[dict[str, float]], yes: Array, pull: float) -> dict[str, float]:
    """Weights of a yes-or-no question, each pulled toward nothing by its own spread; "bias" is free."""
    columns = Columns(sorted({n for row in rows for n in row}))
    dense = columns.matrix(rows).toarray()
    spread = dense.std(axis=0)
    scale = np.where(spread > 0, spread, 1.0)
    x = dense / scale
    pulls = np.array([0.0 if n == "bias" else pull for n in columns.names])

    def loss(z: Array) -> tuple[float, Array]:
        score = x @ z
        value = (np.logaddexp(0, score) - yes * score).sum() + 0.5 * (pulls * z**2).sum()
        return float(value), x.T @ (1 / (1 + np.exp(-score)) - yes) + pulls * z

    found = least(loss, np.zeros(len(columns.names)), 500)
    return dict(zip(columns.names, found / scale, strict=True))


def isotonic(chances: Sequence[float], right: Sequence[bool], least_in_a_step: int = 60) -> list[tuple[float, float]]:
    """A rising curve from a chance to the share that was right: pooled steps, as knots at their middles."""
    steps: list[list[float]] = []  # share right, count, sum of chances
    for chance, yes in sorted(zip(chances, right, strict=True)):
        steps.append([float(yes), 1.0, chance])
        while len(steps) > 1 and (steps[-2][0] >= steps[-1][0] or steps[-2][1] < least_in_a_step):
            share, count, total = steps.pop()
            before = steps[-1]
            before[0] = (before[0] * before[1] + share * count) / (before[1] + count)
            before[1] += count
            before[2] += total
    return [(round(total / count, 4), round(share, 4)) for share, count, total in steps]
