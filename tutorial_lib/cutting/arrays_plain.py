"""The same as :mod:`arrays_numpy` in plain Python: quicker for most beds, and all there is in a browser."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from math import inf, prod

from tutorial_lib.cutting.certificate import Cut, Problem
from tutorial_lib.cutting.values import halves

Table = list[list[int]]


class Knapsack:
    """Best fillings of all boards at once, over the lengths that some choice of pieces really adds up to."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        top = max(problem.capacities)
        self.bounds = [min(d, top // w) for w, d in zip(problem.widths, problem.demand, strict=True)]
        self.places = reachable(problem.widths, self.bounds, top)
        self.ends = [self._place(room) for room in problem.capacities]
        self.steps = [self._steps(w, b) for w, b in zip(problem.widths, self.bounds, strict=True)]

    def _place(self, room: int) -> int:
        """Index of the longest reachable length within a room."""
        return bisect_right(self.places, room) - 1

    def _steps(self, width: int, bound: int) -> list[tuple[int, int, list[int]]]:
        """For 1, 2, 4 ... pieces: how many, from which place on, and where one stands without them."""
        steps = []
        for part in halves(bound):
            first = bisect_left(self.places, part * width)
            steps.append((part, first, [self._place(place - part * width) for place in self.places[first:]]))
        return steps

    def table(self, values: Sequence[int]) -> Table:
        """Row j: most value within each reachable length from the first j kinds of piece."""
        rows = [[0] * len(self.places)]
        for value, steps in zip(values, self.steps, strict=True):
            row = rows[-1]
            if value > 0:
                for part, first, before in steps:
                    gain = part * value
                    row = row[:first] + [
                        old if old >= (new := row[place] + gain) else new
                        for old, place in zip(row[first:], before, strict=True)
                    ]
            rows.append(row)
        return rows

    def cut(self, values: Sequence[int], table: Table | None = None) -> Cut:
        """What each board holds at most at these piece values."""
        last = (self.table(values) if table is None else table)[-1]
        worth = sum(v * d for v, d in zip(values, self.problem.demand, strict=True))
        return Cut(tuple(values), tuple(last[end] if end >= 0 else 0 for end in self.ends), worth)

    def filling(self, values: Sequence[int], table: Table, stock: int) -> tuple[int, ...]:
        """Pieces of a best filling of one board."""
        room = self.problem.capacities[stock]
        counts = [0] * len(values)
        for j in range(len(values) - 1, -1, -1):
            value, width = values[j], self.problem.widths[j]
            if value <= 0:
                continue
            best = table[j + 1][self._place(room)]
            for count in range(min(self.bounds[j], room // width) + 1):
                if table[j][self._place(room - count * width)] + count * value == best:
                    counts[j], room = count, room - count * width
                    break
        return tuple(counts)

    def fillings(self, cut: Cut, stock: int, loss: int, limit: int) -> list[tuple[int, ...]] | None:
        """Every filling of one board worth at least its most less ``loss``; None if there are more than ``limit``."""
        table = self.table(cut.values)
        least = cut.holds[stock] - loss
        found: list[tuple[int, int, tuple[int, ...]]] = [(self.problem.capacities[stock], 0, ())]
        for j in range(len(cut.values) - 1, -1, -1):
            width, value, row = self.problem.widths[j], cut.values[j], table[j]
            most = [min(room // width, self.bounds[j]) for room, _, _ in found]
            if sum(most) + len(most) > 40 * limit:
                return None
            grown: list[tuple[int, int, tuple[int, ...]]] = []
            for (room, worth, counts), top in zip(found, most, strict=True):
                for count in range(top + 1):
                    left, now = room - count * width, worth + count * value
                    if now + row[self._place(left)] >= least:
                        grown.append((left, now, (count, *counts)))
            if len(grown) > limit:
                return None
            found = grown
        return [counts for _, _, counts in found if any(counts)]


def reachable(widths: Sequence[int], bounds: Sequence[int], top: int) -> list[int]:
    """All lengths up to ``top`` that the pieces can add up to, choice by choice or by shifting a row of bits."""
    if prod(bound + 1 for bound in bounds) < top:
        sums = listed_sums(widths, bounds, top, top)
        assert sums is not None
        return sums
    bits, mask = 1, (1 << (top + 1)) - 1
    for width, bound in zip(widths, bounds, strict=True):
        for part in halves(bound):
            bits |= (bits << (part * width)) & mask
    return [place for place, bit in enumerate(reversed(f"{bits:b}")) if bit == "1"]


def listed_sums(widths: Sequence[int], bounds: Sequence[int], top: int, limit: int) -> list[int] | None:
    """The same one by one; None if they are more than ``limit``."""
    sums = {0}
    for width, bound in zip(widths, bounds, strict=True):
        for part in halves(bound):
            sums |= {total for before in sums if (total := before + part * width) <= top}
            if len(sums) > limit:
                return None
    return sorted(sums)


Mix = tuple[int, int, tuple[int, ...]]  # cost, length, how many of each board


class Mixes:
    """Shopping lists (how many of each board) in order of cost, then of length bought."""

    def __init__(self, counts: Sequence[tuple[int, ...]], problem: Problem) -> None:
        rows = [(_dot(row, problem.prices), _dot(row, problem.lengths), row) for row in counts]
        self.rows: list[Mix] = sorted(rows, key=lambda row: row[:2])

    def __len__(self) -> int:
        return len(self.rows)

    def first(self) -> Mix:
        """The cheapest list left: its cost, its length, how many of each board."""
        return self.rows[0]

    def strike(self, cut: Cut) -> None:
        """Drops the lists a cut refutes."""
        self.rows = [row for row in self.rows if not cut.refutes(row[2])]

    def drop_first(self) -> None:
        """Drops the cheapest list."""
        del self.rows[0]


def all_mixes(problem: Problem, most_cost: int, cuts: Sequence[Cut], limit: int) -> Mixes | None:
    """Every shopping list up to a cost that no cut refutes; None if they run over ``limit``."""
    order = sorted(range(len(problem.prices)), key=lambda s: -problem.prices[s])
    rows = [((0,) * len(order), most_cost)]
    pieces = sum(problem.demand)
    for place, stock in enumerate(order):
        price, shelf = problem.prices[stock], problem.available[stock]
        top = pieces if shelf is None else min(pieces, shelf)
        most = [min(left // price, top) if price else top for _, left in rows]
        if sum(most) + len(most) > 8 * limit:
            return None
        rest = [_worth_buying(problem, order[place + 1 :], cut) for cut in cuts]
        grown = []
        for (row, left), bound in zip(rows, most, strict=True):
            for count in range(bound + 1):
                bought = (*row[:stock], count, *row[stock + 1 :])
                money = left - count * price
                if all(
                    _dot(bought, cut.holds) + buy(money) >= cut.worth * (1 - 1e-9)
                    for cut, buy in zip(cuts, rest, strict=True)
                ):
                    grown.append((bought, money))
        rows = grown
        if len(rows) > limit:
            return None
    return Mixes([row for row, _ in rows], problem)


def _worth_buying(problem: Problem, rest: Sequence[int], cut: Cut) -> Callable[[int], float]:
    """Most value that money buys of the rest, if boards were divisible: the dearest value per cent first."""
    pieces = sum(problem.demand)
    free, offers = 0.0, []
    for s in sorted(rest, key=lambda s: -cut.holds[s] / problem.prices[s] if problem.prices[s] else -inf):
        shelf, price = problem.available[s], problem.prices[s]
        if price == 0:
            free += cut.holds[s] * (pieces if shelf is None else min(shelf, pieces))
        else:
            offers.append((inf if shelf is None else float(shelf * price), cut.holds[s] / price))

    def bought(money: float) -> float:
        value = free
        for most, worth in offers:
            spent = min(money, most)
            value += spent * worth
            money -= spent
        return value

    return bought


def _dot(left: Sequence[int], right: Sequence[int]) -> int:
    return sum(a * b for a, b in zip(left, right, strict=True))
