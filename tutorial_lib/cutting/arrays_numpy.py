"""The number-heavy part of the planner: what fits a board, all mixes of boards. The one numpy module."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tutorial_lib.cutting.certificate import Cut, Problem
from tutorial_lib.cutting.values import halves

Ints = NDArray[np.int64]
MOST_BITS = 4_000_000  # a row of bits longer than this is slower to shift than the sums are to list


class Knapsack:
    """Best fillings of all boards at once, over the lengths that some choice of pieces really adds up to."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        top = max(problem.capacities)
        self.bounds = [min(d, top // w) for w, d in zip(problem.widths, problem.demand, strict=True)]
        self.places = reachable(problem.widths, self.bounds, top)
        self.listed: list[int] = self.places.tolist()  # one place is found more quickly in a list
        self.ends = self._at(np.array(problem.capacities, dtype=np.int64))
        self.steps = [self._steps(w, b) for w, b in zip(problem.widths, self.bounds, strict=True)]

    def _at(self, room: Ints) -> Ints:
        """Index of the longest reachable length within each room."""
        return self.places.searchsorted(room, "right") - 1

    def _steps(self, width: int, bound: int) -> list[tuple[int, int, Any]]:
        """For 1, 2, 4 ... pieces: how many, from which place on, and where one stands without them."""
        steps: list[tuple[int, int, Any]] = []
        for part in halves(bound):
            first = bisect_left(self.listed, part * width)
            steps.append((part, first, self._at(self.places[first:] - part * width)))
        return steps

    def table(self, values: Sequence[int]) -> Ints:
        """Row j: most value within each reachable length from the first j kinds of piece."""
        rows = np.zeros((len(values) + 1, len(self.places)), dtype=np.int64)
        for j, value in enumerate(values):
            row = rows[j + 1]
            row[:] = rows[j]
            for part, first, before in self.steps[j] if value > 0 else ():
                grown = row.take(before)  # a copy: the row may change under it
                grown += part * value
                np.maximum(row[first:], grown, out=row[first:])
        return rows

    def cut(self, values: Sequence[int], table: Ints | None = None) -> Cut:
        """What each board holds at most at these piece values."""
        last = (self.table(values) if table is None else table)[-1]
        worth = sum(v * d for v, d in zip(values, self.problem.demand, strict=True))
        most = last.take(self.ends).tolist()
        return Cut(tuple(values), tuple(n if end >= 0 else 0 for n, end in zip(most, self.ends, strict=True)), worth)

    def filling(self, values: Sequence[int], table: Ints, stock: int) -> tuple[int, ...]:
        """Pieces of a best filling of one board."""
        room = self.problem.capacities[stock]
        counts = [0] * len(values)
        for j in range(len(values) - 1, -1, -1):
            value, width = values[j], self.problem.widths[j]
            if value <= 0:
                continue
            best, without = table[j + 1].item(self._place(room)), table[j]
            for count in range(min(self.bounds[j], room // width) + 1):
                if without.item(self._place(room - count * width)) + count * value == best:
                    counts[j], room = count, room - count * width
                    break
        return tuple(counts)

    def _place(self, room: int) -> int:
        return bisect_right(self.listed, room) - 1

    def fillings(self, cut: Cut, stock: int, loss: int, limit: int) -> Ints | None:
        """Every filling of one board worth at least its most less ``loss``; None if there are more than ``limit``."""
        table = self.table(cut.values)
        least = cut.holds[stock] - loss
        room = np.array([self.problem.capacities[stock]], dtype=np.int64)
        value = np.zeros(1, dtype=np.int64)
        counts = np.zeros((1, len(cut.values)), dtype=np.int64)
        for j in range(len(cut.values) - 1, -1, -1):
            most = np.minimum(room // self.problem.widths[j], self.bounds[j])
            parent = np.repeat(np.arange(len(room)), most + 1)
            if len(parent) > 40 * limit:
                return None
            count = np.arange(len(parent)) - np.repeat(np.cumsum(most + 1) - most - 1, most + 1)
            room = room[parent] - count * self.problem.widths[j]
            value = value[parent] + count * cut.values[j]
            keep = value + table[j, self._at(room)] >= least
            if int(keep.sum()) > limit:
                return None
            counts = counts[parent[keep]]
            counts[:, j] = count[keep]
            room, value = room[keep], value[keep]
        return counts[counts.any(axis=1)]


def reachable(widths: Sequence[int], bounds: Sequence[int], top: int) -> Ints:
    """All lengths up to ``top`` that the pieces can add up to."""
    if top <= MOST_BITS:
        return _by_bits(widths, bounds, top)
    listed = listed_sums(widths, bounds, top, limit=2**31)
    assert listed is not None
    return listed


def listed_sums(widths: Sequence[int], bounds: Sequence[int], top: int, limit: int) -> Ints | None:
    """The same one by one; None if they are more than ``limit``, or too large to be added."""
    if top >= 2**61:
        return None
    sums = np.zeros(1, dtype=np.int64)
    for width, bound in zip(widths, bounds, strict=True):
        for part in halves(bound):
            grown = sums + part * width
            sums = np.unique(np.concatenate((sums, grown[grown <= top])))
            if len(sums) > limit:
                return None
    return sums


def _by_bits(widths: Sequence[int], bounds: Sequence[int], top: int) -> Ints:
    """By shifting a row of bits."""
    bits, mask = 1, (1 << (top + 1)) - 1
    for width, bound in zip(widths, bounds, strict=True):
        for part in halves(bound):
            bits |= (bits << (part * width)) & mask
    raw = np.frombuffer(bits.to_bytes(top // 8 + 1, "little"), dtype=np.uint8)
    return np.flatnonzero(np.unpackbits(raw, bitorder="little")).astype(np.int64)


class Mixes:
    """Shopping lists (how many of each board) in order of cost, then of length bought."""

    def __init__(self, counts: Ints, problem: Problem) -> None:
        cost = counts @ np.array(problem.prices, dtype=np.int64)
        length = counts @ np.array(problem.lengths, dtype=np.int64)
        order = np.lexsort((length, cost))
        self.counts, self.cost, self.length = counts[order], cost[order], length[order]

    def __len__(self) -> int:
        return len(self.counts)

    def first(self) -> tuple[int, int, tuple[int, ...]]:
        """The cheapest list left: its cost, its length, how many of each board."""
        return int(self.cost[0]), int(self.length[0]), tuple(int(n) for n in self.counts[0])

    def strike(self, cut: Cut) -> None:
        """Drops the lists a cut refutes."""
        self._keep(_held(self.counts, cut) >= cut.worth)

    def drop_first(self) -> None:
        """Drops the cheapest list."""
        keep = np.ones(len(self), dtype=bool)
        keep[0] = False
        self._keep(keep)

    def _keep(self, keep: NDArray[np.bool_]) -> None:
        self.counts, self.cost, self.length = self.counts[keep], self.cost[keep], self.length[keep]


def _held(counts: Ints, cut: Cut) -> Ints:
    held: Ints = counts @ np.array(cut.holds, dtype=np.int64)
    return held


def all_mixes(problem: Problem, most_cost: int, cuts: Sequence[Cut], limit: int) -> Mixes | None:
    """Every shopping list up to a cost that no cut refutes; None if they run over ``limit``."""
    order = sorted(range(len(problem.prices)), key=lambda s: -problem.prices[s])
    rows = np.zeros((1, len(order)), dtype=np.int64)
    left = np.array([most_cost], dtype=np.int64)
    pieces = sum(problem.demand)
    for place, stock in enumerate(order):
        price, shelf = problem.prices[stock], problem.available[stock]
        most = left // price if price else np.full(len(left), pieces)
        most = np.minimum(most, pieces if shelf is None else min(pieces, shelf))
        if int((most + 1).sum()) > 8 * limit:
            return None
        parent = np.repeat(np.arange(len(rows)), most + 1)
        count = np.arange(len(parent)) - np.repeat(np.cumsum(most + 1) - most - 1, most + 1)
        rows, left = rows[parent], left[parent] - count * price
        rows[:, stock] = count
        keep = _promising(rows, left, problem, order[place + 1 :], cuts)
        rows, left = rows[keep], left[keep]
        if len(rows) > limit:
            return None
    return Mixes(rows, problem)


def _promising(rows: Ints, left: Ints, problem: Problem, rest: Sequence[int], cuts: Sequence[Cut]) -> NDArray[np.bool_]:
    """Which unfinished lists could still hold all pieces, by every cut, if boards were divisible."""
    keep = np.ones(len(rows), dtype=bool)
    for cut in cuts:
        keep &= _held(rows, cut) + _best_buy(left, problem, rest, cut) >= cut.worth * (1 - 1e-9)
    return keep


def _best_buy(left: Ints, problem: Problem, rest: Sequence[int], cut: Cut) -> NDArray[np.float64]:
    """Most value the rest of the money buys, the dearest value per cent first."""
    pieces = sum(problem.demand)
    bought = np.zeros(len(left))
    money = left.astype(np.float64)
    for s in sorted(rest, key=lambda s: -cut.holds[s] / problem.prices[s] if problem.prices[s] else -np.inf):
        shelf = problem.available[s]
        if problem.prices[s] == 0:
            bought += cut.holds[s] * (pieces if shelf is None else min(shelf, pieces))
            continue
        spent = money if shelf is None else np.minimum(money, shelf * problem.prices[s])
        bought += spent * (cut.holds[s] / problem.prices[s])
        money = money - spent
    return bought
