"""Tie-breaks: among plans of the same boards, few layouts or one long offcut, in the order the user likes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice
from math import inf

from tutorial_lib.cutting.boards import TieBreak
from tutorial_lib.cutting.counting import cover_rows, dot, mix_of
from tutorial_lib.cutting.lp import Pattern, Rows, solve_whole
from tutorial_lib.cutting.search import Search

MOST_COLUMNS = 700  # more than that and the whole-number program may overrun its time
FEW_COLUMNS, FEW_PLANS = 24, 400  # patterns and plans that are quicker listed than handed to a solver


class Settling:
    """One section's boards, fixed; what may still change is which pieces come from which."""

    def __init__(self, search: Search, boards: Counter[Pattern], seconds: float) -> None:
        self.search, self.seconds = search, seconds
        self.problem = search.problem
        self.mix = mix_of(self.problem, boards)
        found = search.patterns_within(self.mix, MOST_COLUMNS, full=False)
        self.proven = found is not None
        self.patterns = found if found is not None else list(boards)

    def settle(self, boards: Counter[Pattern], prefer: Sequence[TieBreak]) -> Counter[Pattern]:
        """The best of equals; sets ``proven`` to False if time or room ran out."""
        if not self.proven:
            return boards
        rules: list[tuple[list[tuple[int, float]], float]] = []
        for wish in prefer:
            costs = self._costs(wish)
            start = self._start(boards)
            answer = solve_whole(costs, self._highs(), self._rows(rules), self.seconds, start)
            self.proven &= answer.optimal
            if not answer.values:
                return boards
            boards = self._boards(answer.values)
            reached = sum(c * v for c, v in zip(costs, answer.values, strict=True))
            rules.append(([(j, c) for j, c in enumerate(costs) if c], reached + 0.5 * self._step()))
        return boards

    def only(self, prefer: Sequence[TieBreak]) -> Counter[Pattern] | None:
        """The best of equals where all plans are few enough to be listed and one of them alone is best; else None."""
        if not self.proven or len(self.patterns) > FEW_COLUMNS:
            return None
        plans = list(islice(self._plans(0, list(self.mix), list(self.problem.demand)), FEW_PLANS + 1))
        if not plans or len(plans) > FEW_PLANS:
            return None
        ranks = [tuple(self._rank(wish, plan) for wish in prefer) for plan in plans]
        best = min(ranks)
        return plans[ranks.index(best)] if ranks.count(best) == 1 else None

    def _plans(self, place: int, mix: list[int], missing: list[int]) -> Iterator[Counter[Pattern]]:
        """Every way to make what is missing out of exactly these boards by the patterns from a place on."""
        if place == len(self.patterns):
            if not any(mix) and not any(missing):
                yield Counter()
            return
        pattern = self.patterns[place]
        most = min([mix[pattern.stock], *(m // c for m, c in zip(missing, pattern.counts, strict=True) if c)])
        for boards in range(most, -1, -1):
            left = [m - boards * c for m, c in zip(missing, pattern.counts, strict=True)]
            rest = [n - boards * (stock == pattern.stock) for stock, n in enumerate(mix)]
            for plan in self._plans(place + 1, rest, left):
                yield plan + Counter({pattern: boards})

    def _rank(self, wish: TieBreak, plan: Counter[Pattern]) -> int:
        """What a wish would have small."""
        return len(plan) if wish == "layouts" else -max(self._rest(pattern) for pattern in plan)

    # Columns: boards by pattern, then "is this pattern used", then "is the long offcut on this pattern".

    def _step(self) -> float:
        return 1e-3

    def _rest(self, pattern: Pattern) -> int:
        """What a board leaves, in units of the problem."""
        return max(self.problem.capacities[pattern.stock] - dot(pattern.counts, self.problem.widths), 0)

    def _costs(self, wish: TieBreak) -> list[float]:
        n = len(self.patterns)
        if wish == "layouts":
            return [0.0] * n + [1.0] * n + [0.0] * n
        longest = max((self._rest(p) for p in self.patterns), default=0) or 1
        return [0.0] * (2 * n) + [-1000.0 * self._rest(p) / longest for p in self.patterns]

    def _highs(self) -> list[float]:
        return [float(self._most(p)) for p in self.patterns] + [1.0] * (2 * len(self.patterns))

    def _most(self, pattern: Pattern) -> int:
        pieces = (d // c for d, c in zip(self.problem.demand, pattern.counts, strict=True) if c)
        return min(self.mix[pattern.stock], *pieces)

    def _rows(self, rules: Sequence[tuple[list[tuple[int, float]], float]]) -> Rows:
        n = len(self.patterns)
        rows = cover_rows(self.problem, self.patterns, self.mix, exact=True)
        for j, pattern in enumerate(self.patterns):
            self._row(rows, [(j, 1.0), (n + j, -float(self._most(pattern)))], -inf, 0.0)
            self._row(rows, [(j, 1.0), (2 * n + j, -1.0)], 0.0, inf)
        self._row(rows, [(2 * n + j, 1.0) for j in range(n)], 0.0, 1.0)
        for entries, most in rules:
            self._row(rows, entries, -inf, most)
        return rows

    @staticmethod
    def _row(rows: Rows, entries: list[tuple[int, float]], low: float, high: float) -> None:
        rows.entries.append(entries)
        rows.low.append(low)
        rows.high.append(high)

    def _start(self, boards: Counter[Pattern]) -> list[int]:
        """The plan so far as a starting point, if all its patterns are known."""
        if any(p not in self.patterns for p in boards):
            return []
        used = [int(boards[p] > 0) for p in self.patterns]
        longest = max(boards, key=self._rest)
        return [boards[p] for p in self.patterns] + used + [int(p == longest) for p in self.patterns]

    def _boards(self, values: Sequence[int]) -> Counter[Pattern]:
        return Counter({p: n for p, n in zip(self.patterns, values, strict=False) if n})
