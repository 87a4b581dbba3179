"""The stock-mix search: which boards to buy, proven; then which pieces on which board.

Shadow prices come from linear programs whose patterns are made on demand. Each set of them refutes
shopping lists for good (``certificate``). The lists that stay are tried in order of cost, then of
length: the first whose pieces can be laid out is the answer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace
from functools import cached_property
from math import ceil, floor, inf, isfinite

from tutorial_lib.cutting.arrays import Mixes, all_mixes, knapsack
from tutorial_lib.cutting.budget import Budget
from tutorial_lib.cutting.certificate import Cut, Problem
from tutorial_lib.cutting.counting import cover_rows, dot, fewer_kinds, made_of, mix_of, slack, widened
from tutorial_lib.cutting.filling import filled_any_way
from tutorial_lib.cutting.greedy import fill_up, greedy
from tutorial_lib.cutting.lp import Answer, Covering, Pattern, Rows, solve_whole
from tutorial_lib.cutting.proof import lowest_cost
from tutorial_lib.cutting.values import whole
from tutorial_lib.records import dataclass

MOST_MIXES = 60_000
FEW_MIXES = 100  # more aren't looked through for a quick answer
MOST_PATTERNS = 20_000
EASE = 1e-6
# Other dives, one turn aside first, then two.
ASIDE = [{step: n} for n in (1, 2) for step in range(6)]
TURNS = [*ASIDE, *({step: 1, later: 1} for later in range(1, 8) for step in range(later))]


@dataclass
class Found:
    """What the search came to: boards by pattern, the bound, and the cuts that prove it."""

    boards: Counter[Pattern]
    bound: int  # [cents]
    cuts: list[Cut]
    searched: int = 0  # cheaper lists that no shadow prices refute, only a search


@dataclass
class Search:
    """One section's search, with what it has learnt so far."""

    problem: Problem
    seconds: float = 6.0  # for all its steps
    cuts: list[Cut] = field(default_factory=list)
    searched: int = 0
    unsure: bool = False  # time ran out before a list was found, or shown to be impossible

    def __post_init__(self) -> None:
        self.budget = Budget(self.seconds)
        self.knapsack = knapsack(self.problem)
        self.limits = [inf if a is None else float(a) for a in self.problem.available]
        longest = max(self.problem.lengths)
        # A trace of the length in the price leans equal costs towards less waste; cuts stay exact.
        self.costs = [p + 1e-4 * n / longest for p, n in zip(self.problem.prices, self.problem.lengths, strict=True)]

    @cached_property
    def by_length(self) -> Cut:
        """What boards hold of the pieces' length: all there is to say where nothing is wasted."""
        return self.knapsack.cut(self.problem.widths)

    @property
    def too_few(self) -> bool:
        """True where all the boards there are can't hold the pieces' length; False says nothing yet."""
        there = [n for n in self.problem.available if n is not None]
        return len(there) == len(self.problem.available) and self.by_length.refutes(there)

    def quick(self) -> Found | None:
        """The boards a greedy list takes, where the pieces' length alone rules out all that cost less or are shorter.

        None where it doesn't: that says nothing yet.
        """
        start, cut = greedy(self.problem, []), self.by_length
        if start is None:
            return None
        cost, length = self._cost(start), self._length(start)
        mixes = all_mixes(self.problem, cost, [cut], FEW_MIXES)
        if mixes is None:
            return None
        mixes.strike(cut)
        self.cuts = [cut]
        return Found(start, cost, self.cuts) if mixes.first()[:2] >= (cost, length) else None

    def run(self) -> Found | None:
        """The cheapest boards; None if the boards to be had can't hold the pieces."""
        start = greedy(self.problem, [])
        self.cuts = [self.by_length]
        if (priced := self._price(start)) is None:
            return None
        covering, answer = priced
        best = self._better(start, greedy(self.problem, self.cuts[-1].values), self._rounded(covering, answer))
        top = self._cost(best) if best else sum(p * (a or 0) for p, a in self._shelf())
        mixes = all_mixes(self.problem, top, self.cuts[-4:], MOST_MIXES)
        if mixes is None:
            return self._large(covering, answer, best)
        for cut in self.cuts:
            mixes.strike(cut)
        return self._first(mixes, best, covering.patterns)

    def _shelf(self) -> list[tuple[int, int | None]]:
        return list(zip(self.problem.prices, self.problem.available, strict=True))

    # --- shadow prices ---------------------------------------------------------------------------

    def _price(self, start: Counter[Pattern] | None) -> tuple[Covering, Answer] | None:
        """Least cost with divisible boards; None if even that leaves pieces missing."""
        missing = 10.0 * (1 + max(self.costs)) * max(1, *self.problem.demand)
        covering = Covering(self.problem.demand, self.limits, missing)
        for pattern in start or ():
            covering.add(pattern, self.costs[pattern.stock])
        for kind in range(covering.kinds):
            self._single(covering, kind)
        while True:
            answer = covering.solve()
            if (self.budget.late and not self._short(answer)) or not self._grow(covering, answer, self.costs):
                break
        return None if self._short(answer) else (covering, answer)

    def _single(self, covering: Covering, kind: int) -> None:
        """A first pattern for a kind: alone on the board that costs least for it."""
        width = self.problem.widths[kind]
        fits = [s for s, room in enumerate(self.problem.capacities) if room >= width]
        if fits:

            def dear(s: int) -> float:
                return self.costs[s] / (self.problem.capacities[s] // width)

            stock = min(fits, key=dear)
            count = min(self.problem.capacities[stock] // width, self.problem.demand[kind])
            counts = tuple(count if i == kind else 0 for i in range(covering.kinds))
            covering.add(Pattern(stock, counts), self.costs[stock])

    def _grow(self, covering: Covering, answer: Answer, costs: Sequence[float]) -> bool:
        """Adds each board's best pattern at these shadow prices, and keeps the cut they give."""
        values = whole(answer.worth)
        top = max(answer.worth, default=0.0)
        if top <= 0:
            return False
        table = self.knapsack.table(values)
        cut = self.knapsack.cut(values, table)
        self.cuts.append(cut)
        grown = False
        for stock, most in enumerate(cut.holds):
            gain = most * top / max(values) - costs[stock] - answer.rent[stock]
            if gain > EASE * max(1.0, costs[stock]) * 1e-1 and self.limits[stock] > 0:
                counts = fill_up(self.problem, stock, self.knapsack.filling(values, table, stock))
                grown |= covering.add(Pattern(stock, counts), costs[stock])
        return grown

    @staticmethod
    def _short(answer: Answer) -> bool:
        """True if pieces are still missing."""
        return any(count > 1e-6 for count in answer.missing)

    # --- candidates ------------------------------------------------------------------------------

    def _cost(self, boards: Counter[Pattern]) -> int:
        return sum(n * self.problem.prices[p.stock] for p, n in boards.items())

    def _length(self, boards: Counter[Pattern]) -> int:
        return sum(n * self.problem.lengths[p.stock] for p, n in boards.items())

    def _better(self, *plans: Counter[Pattern] | None) -> Counter[Pattern] | None:
        known = [p for p in plans if p is not None]
        return min(known, key=lambda b: (self._cost(b), self._length(b))) if known else None

    def _rounded(self, covering: Covering, answer: Answer, less: int = 0) -> Counter[Pattern] | None:
        """Whole boards of the divisible answer, the rest filled greedily."""
        kept = self._kept(covering, answer, less)
        rest = self._without(kept)
        filled = greedy(rest, self.cuts[-1].values)
        return None if filled is None else kept + filled

    def _kept(self, covering: Covering, answer: Answer, less: int) -> Counter[Pattern]:
        kept: Counter[Pattern] = Counter()
        for pattern, boards in zip(covering.patterns, answer.boards, strict=True):
            count = floor(boards + EASE) - less
            if count > 0:
                kept[pattern] = count
        return kept

    def _without(self, boards: Counter[Pattern]) -> Problem:
        """The problem that is left once some boards are cut."""
        used = mix_of(self.problem, boards)
        made = made_of(self.problem, boards)
        shelf = tuple(None if a is None else a - n for a, n in zip(self.problem.available, used, strict=True))
        demand = tuple(max(d - m, 0) for d, m in zip(self.problem.demand, made, strict=True))
        return replace(self.problem, demand=demand, available=shelf)

    # --- the lists in order ----------------------------------------------------------------------

    def _first(self, mixes: Mixes, best: Counter[Pattern] | None, known: Iterable[Pattern]) -> Found | None:
        """Tries the lists in order until one can be laid out; begins with the patterns that pricing left."""
        layer = Covering(self.problem.demand, self.limits, 1.0)
        for pattern in known:
            layer.add(pattern, 0.0)
        open_cost: int | None = None  # cheapest list that could be neither laid out nor ruled out
        while len(mixes):
            cost, length, mix = mixes.first()
            if best and (cost, length) >= (self._cost(best), self._length(best)):
                break
            if self.budget.late:
                open_cost = cost if open_cost is None else open_cost
                break
            cuts = len(self.cuts)
            boards, sure = self._lay_out(layer, mix)
            if boards is not None:
                best = self._better(best, boards)
                break
            if len(self.cuts) > cuts and self.cuts[-1].refutes(mix):
                mixes.strike(self.cuts[-1])
                continue
            mixes.drop_first()
            self.searched += 1
            if not sure and open_cost is None:
                open_cost = cost
        if best is None:
            self.unsure = open_cost is not None
            return None
        bound = min(self._cost(best), self._cost(best) if open_cost is None else open_cost)
        return Found(best, bound, self.cuts, self.searched)

    def _lay_out(self, layer: Covering, mix: Sequence[int]) -> tuple[Counter[Pattern] | None, bool]:
        """Boards for exactly this list, or (None, whether that is sure)."""
        layer.limit(mix)
        free = [0.0] * len(mix)
        while True:
            answer = layer.solve()
            grown = self._grow(layer, answer, free)
            if self.cuts and self.cuts[-1].refutes(mix):
                return None, True
            if not grown or self.budget.late:
                break
        dived = None if self._short(answer) else self._dive(layer, mix, answer)
        return (dived, True) if dived is not None else self._searched(layer, mix)

    def _searched(self, layer: Covering, mix: Sequence[int]) -> tuple[Counter[Pattern] | None, bool]:
        """The same where divisible boards don't do but no cut shows it, or where a dive sticks."""
        boards, sure = self._exact(mix)
        if boards is None and not sure:
            boards = self._dive_elsewhere(layer, mix) or filled_any_way(self.problem, mix, self.budget.share(0.4))
        return boards, sure or boards is not None

    def _dive_elsewhere(self, layer: Covering, mix: Sequence[int]) -> Counter[Pattern] | None:
        """Dives that pass over the fullest pattern at a step or two, while time lasts."""
        budget = Budget(self.budget.share(0.5))
        for turns in TURNS:
            answer = self._regrow(layer)
            boards = None if self._short(answer) else self._dive(layer, mix, answer, turns)
            if boards is not None or budget.late:
                return boards
        return None

    def _dive(
        self, layer: Covering, mix: Sequence[int], answer: Answer, turns: Mapping[int, int] | None = None
    ) -> Counter[Pattern] | None:
        """Rounds the fullest pattern up again and again, taking one step back where that fails.

        ``turns``: at which step how many patterns fuller than the one that is taken are passed over.
        """
        touched: list[Pattern] = []
        try:
            for step in range(60 + sum(mix)):  # a step may fix a single board
                if self.budget.late:
                    return None
                split = [(b % 1, p, b) for p, b in zip(layer.patterns, answer.boards, strict=True) if _split(b)]
                if not split:
                    return self._trimmed(layer, answer)
                done = self._finish(layer, answer, mix)
                if done is not None:
                    return done
                split.sort(key=lambda s: -s[0])
                _, pattern, boards = split[min((turns or {}).get(step, 0), len(split) - 1)]
                touched.append(pattern)
                layer.fix(pattern, ceil(boards))
                answer = self._regrow(layer)
                if self._short(answer):
                    layer.fix(pattern, 0, floor(boards))
                    answer = self._regrow(layer)
                    if self._short(answer):
                        return None
            return None
        finally:
            for pattern in touched:
                layer.fix(pattern, 0)

    def _regrow(self, layer: Covering) -> Answer:
        """Solves again, with new patterns as they help."""
        free = [0.0] * len(self.limits)
        while True:
            answer = layer.solve()
            if not self._short(answer):
                return answer
            known = len(self.cuts)
            grown = self._grow(layer, answer, free)
            del self.cuts[known:]  # prices under fixed patterns are true as well, but seldom strong
            if not grown:
                return answer

    def _finish(self, layer: Covering, answer: Answer, mix: Sequence[int]) -> Counter[Pattern] | None:
        """Whole boards kept, the rest filled greedily on what the list still has."""
        kept = self._kept(layer, answer, 0)
        used = mix_of(self.problem, kept)
        rest = self._without(kept)
        left = tuple(n - u for n, u in zip(mix, used, strict=True))
        small = replace(rest, prices=tuple(0 for _ in rest.prices), available=left)
        filled = greedy(small, self.cuts[-1].values) or greedy(small, [])
        return None if filled is None else kept + filled

    def _trimmed(self, layer: Covering, answer: Answer) -> Counter[Pattern]:
        return Counter({p: round(b) for p, b in zip(layer.patterns, answer.boards, strict=True) if b > 0.5})

    def _exact(self, mix: Sequence[int]) -> tuple[Counter[Pattern] | None, bool]:
        """All patterns the list leaves room for, and a whole-number program over them."""
        patterns = self.patterns_within(mix, MOST_PATTERNS, full=True)
        if patterns is None:
            return None, False
        rows = cover_rows(self.problem, patterns, mix, exact=False)
        answer = solve_whole(
            [0.0] * len(patterns), [float(mix[p.stock]) for p in patterns], rows, self.budget.share(0.5)
        )
        if not answer.values:
            return None, answer.optimal
        return Counter({p: n for p, n in zip(patterns, answer.values, strict=True) if n}), True

    def patterns_within(self, mix: Sequence[int], limit: int, full: bool) -> list[Pattern] | None:
        """Every pattern that can be part of this list; None if there are more than ``limit``.

        At any piece values the boards' losses add up to what the list holds more than the pieces are
        worth: a board that loses more by itself is out.
        """
        spare = sorted(((slack(cut, mix), i) for i, cut in enumerate(self.cuts)), key=lambda s: s[0] / self._big(s[1]))
        tight = [(room, self.cuts[i]) for room, i in spare[:6]]
        found: list[Pattern] = []
        for stock, count in enumerate(mix):
            if count == 0:
                continue
            room, cut = tight[0]
            rows = self.knapsack.fillings(cut, stock, room, limit)
            if rows is None:
                return None
            for counts in (tuple(int(n) for n in row) for row in rows):
                if full and fill_up(self.problem, stock, counts) != counts:
                    continue
                if all(cut.holds[stock] - dot(cut.values, counts) <= room for room, cut in tight[1:]):
                    found.append(Pattern(stock, counts))
        return found if len(found) <= limit else None

    def _big(self, index: int) -> int:
        return max(self.cuts[index].worth, 1)

    # --- thousands of pieces ---------------------------------------------------------------------

    def _large(self, covering: Covering, answer: Answer, best: Counter[Pattern] | None) -> Found | None:
        """Most boards as the divisible answer has them, the rest exactly; the bound from a program over lists."""
        for less in (1, 2):
            kept = self._kept(covering, answer, less)
            rest = self._without(kept)
            small = fewer_kinds(rest)
            if small is None or sum(small.demand) >= sum(self.problem.demand) or self.budget.late:
                continue
            inner = Search(small, self.budget.share(0.4)).run()
            if inner is not None:
                more = Counter({Pattern(p.stock, widened(p.counts, rest)): n for p, n in inner.boards.items()})
                best = self._better(best, kept + more)
        if best is None:
            return None
        return Found(best, min(self._bound(), self._cost(best)), self.cuts, 0)

    def _bound(self) -> int:
        """Least cost of any list that no cut refutes."""
        problem = self.problem
        cuts = self.cuts[-12:]
        rows = Rows([], [], [])
        for cut in cuts:
            scale = float(max(cut.worth, 1)) / 1e4
            rows.low.append(cut.worth / scale * (1 - 1e-9))
            rows.high.append(inf)
            rows.entries.append([(s, k / scale) for s, k in enumerate(cut.holds)])
        most = float(sum(problem.demand))
        highs = [min(limit, most) for limit in self.limits]
        answer = solve_whole([float(p) for p in problem.prices], highs, rows, min(self.budget.share(), 2.0))
        if not isfinite(answer.bound):  # it came to nothing in its time: each cut by itself
            return max(ceil(lowest_cost(problem, cut)) for cut in cuts)
        return max(ceil(answer.bound - 1e-4), 0)


def _split(boards: float) -> bool:
    return abs(boards - round(boards)) > EASE
