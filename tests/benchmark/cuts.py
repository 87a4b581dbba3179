"""Our planner beside general solvers on the bed-like cases, and its growth with the number of pieces.

All methods run one after the other in one process, the same cases, one thread each (CP-SAT gets two workers), the
time limit kept by the solver. Each method is warmed up on a case of its own first.
"""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterator
from fractions import Fraction
from math import inf
from random import Random
from typing import Any

from tests.benchmark.measuring import Row, exponent, processor, timed, written
from tests.cutting.cases import CASES, lists
from tutorial_lib.cutting import planner
from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.planner import faults, plan_cuts

BEDS, SECONDS, SEEDS = 20, 1.0, 3
Answer = tuple[float, bool]  # cost, proven


def ours(case: dict[str, Any], _: float) -> Answer:
    planner.forget()
    pieces, stocks, kerf, trim = lists(case)
    plan = plan_cuts(pieces, stocks, kerf, trim, prefer=())
    assert not faults(plan, pieces, stocks)
    return plan.cost, plan.proven


def boards_of(case: dict[str, Any]) -> tuple[list[int], list[tuple[int, int]]]:
    """Pieces one by one, and enough boards of every stock."""
    items = [n for n, count in case["items"] for _ in range(count)]
    kerf, trim = case["kerf"], case["trim"]
    boards = []
    for length, price, shelf in case["stocks"]:
        room = length - trim + kerf
        most, left = 1, room
        for n in sorted(items, reverse=True):  # first fit says how many boards of this kind could ever be used
            if n + kerf > room:
                continue
            if n + kerf > left:
                most, left = most + 1, room
            left -= n + kerf
        boards += [(room, price)] * (most if shelf is None else min(shelf, most))
    return items, boards


def cp_sat(case: dict[str, Any], seconds: float) -> Answer:
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    rooms = [(length - case["trim"] + case["kerf"], price, shelf) for length, price, shelf in case["stocks"]]
    _, boards = boards_of(case)
    used = [model.new_bool_var("") for _ in boards]
    put = [
        [model.new_int_var(0, min(count, room // (n + case["kerf"])), "") for room, _ in boards]
        for n, count in case["items"]
    ]
    for (_, count), row in zip(case["items"], put, strict=True):
        model.add(sum(row) >= count)
    for j, (room, _) in enumerate(boards):
        model.add(sum((n + case["kerf"]) * put[i][j] for i, (n, _) in enumerate(case["items"])) <= room * used[j])
        if j and boards[j] == boards[j - 1]:
            model.add(used[j] <= used[j - 1])
    model.minimize(sum(price * u for u, (_, price) in zip(used, boards, strict=True)))
    assert rooms
    solver = cp_model.CpSolver()
    solver.parameters.num_workers, solver.parameters.max_time_in_seconds = 2, seconds
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return (solver.objective_value if found else inf), status == cp_model.OPTIMAL


def linear(name: str) -> Callable[[dict[str, Any], float], Answer]:
    """Pieces assigned to boards as a mixed-integer program for a solver of OR-tools."""

    def run(case: dict[str, Any], seconds: float) -> Answer:
        from ortools.linear_solver import pywraplp

        solver = pywraplp.Solver.CreateSolver(name)
        solver.SetTimeLimit(int(seconds * 1000))
        _, boards = boards_of(case)
        used = [solver.BoolVar("") for _ in boards]
        put = [[solver.IntVar(0, count, "") for _ in boards] for _, count in case["items"]]
        for (_, count), row in zip(case["items"], put, strict=True):
            solver.Add(sum(row) >= count)
        for j, (room, _) in enumerate(boards):
            solver.Add(sum((n + case["kerf"]) * put[i][j] for i, (n, _) in enumerate(case["items"])) <= room * used[j])
            if j and boards[j] == boards[j - 1]:
                solver.Add(used[j] <= used[j - 1])
        solver.Minimize(sum(price * u for u, (_, price) in zip(used, boards, strict=True)))
        status = solver.Solve()
        found = status in (solver.OPTIMAL, solver.FEASIBLE)
        return (round(solver.Objective().Value()) if found else inf), status == solver.OPTIMAL

    return run


def all_patterns(case: dict[str, Any], seconds: float) -> Answer:
    """Every full pattern listed, then HiGHS chooses among them."""
    from tutorial_lib.cutting.lp import Rows, solve_whole

    columns: list[tuple[int, tuple[int, ...]]] = []
    widths = [(n + case["kerf"], count) for n, count in sorted(case["items"], reverse=True)]
    for s, (length, _, _) in enumerate(case["stocks"]):
        columns += [(s, p) for p in full_patterns(widths, length - case["trim"] + case["kerf"])]
    rows = Rows([], [], [])
    for i, (_, count) in enumerate(widths):
        rows.low.append(count)
        rows.high.append(inf)
        rows.entries.append([(j, p[i]) for j, (_, p) in enumerate(columns) if p[i]])
    for s, (_, _, shelf) in enumerate(case["stocks"]):
        rows.low.append(-inf)
        rows.high.append(inf if shelf is None else shelf)
        rows.entries.append([(j, 1.0) for j, (t, _) in enumerate(columns) if t == s])
    prices = [case["stocks"][s][1] for s, _ in columns]
    most = float(sum(count for _, count in widths))
    answer = solve_whole(prices, [most] * len(columns), rows, seconds)
    cost = sum(p * v for p, v in zip(prices, answer.values, strict=True)) if answer.values else inf
    return cost, answer.optimal


def full_patterns(widths: list[tuple[int, int]], room: int) -> list[tuple[int, ...]]:
    """Fillings that no further piece fits."""
    if not widths:
        return [()]
    (width, count), rest = widths[0], widths[1:]
    found = []
    least = min(w for w, _ in widths)
    for n in range(min(count, room // width), -1, -1):
        for tail in full_patterns(rest, room - n * width):
            left = room - n * width - sum(k * w for k, (w, _) in zip(tail, rest, strict=True))
            if n == min(count, room // width) or left < width or least > left:
                found.append((n, *tail))
    return found


METHODS: dict[str, Callable[[dict[str, Any], float], Answer]] = {
    "ours": ours,
    "all patterns + HiGHS": all_patterns,
    "assignment + SCIP": linear("SCIP"),
    "assignment + HiGHS": linear("HIGHS"),
    "assignment + CP-SAT": cp_sat,
}


def rows() -> Iterator[Row]:
    """The 20 bed-like cases by every method, then growth with the number of pieces."""
    beds = [c for c in CASES if c["cls"] == "own_bed"]
    warm, cases = beds[-1], beds[:BEDS]
    first: float | None = None
    for name, method in METHODS.items():
        try:
            method(warm, SECONDS)
        except ImportError:
            yield Row(what=f"{BEDS} bed-like lists, {name}", runs=0, median="not installed here")
            continue
        times, proven = [], 0
        for case in cases:
            took, (cost, sure) = processor(method, case, SECONDS)
            times.append(took)
            proven += sure and cost == case["optimum"]
        median = statistics.median(times)
        first = first or median
        limit = "" if name == "ours" else f", {SECONDS:g} s at most"
        told = f"{proven} proven; {median / first:.3g} times ours"
        yield timed(f"{BEDS} bed-like lists, {name}{limit}", times, told)
    yield from growth()


def growth() -> Iterator[Row]:
    """Pieces of few lengths, from 30 to 10,000."""
    for kinds in (5, 20):
        sizes, medians, proven, gap = (30, 100, 300, 1000, 3000, 10_000), [], 0, 0.0
        for pieces in sizes:
            times = []
            for seed in range(SEEDS):
                planner.forget()
                demand, stocks = random_case(Random(seed), kinds, pieces)
                took, plan = processor(planned, demand, stocks)
                times.append(took)
                assert not faults(plan, demand, stocks)
                proven, gap = proven + plan.proven, max(gap, plan.gap)
            medians.append(statistics.median(times))
        told = f"{proven} of {SEEDS * len(sizes)} proven, widest gap {gap:.2%}; grows with pieces^"
        yield Row(
            what=f"cut plan of {sizes[0]} to {sizes[-1]:,} pieces of {kinds} lengths",
            runs=SEEDS * len(sizes),
            median=f"{written(medians[0])} to {written(medians[-1])}",
            beside=f"{told}{exponent(sizes, medians):.2f}",
        )


def planned(demand: list[PieceDemand], stocks: list[Stock]) -> Any:
    """A plan without tie-breaks."""
    return plan_cuts(demand, stocks, Fraction(1, 8), Fraction(0), prefer=())


def random_case(random: Random, kinds: int, pieces: int) -> tuple[list[PieceDemand], list[Stock]]:
    """Pieces of so many lengths in equal numbers, three lengths of boards."""
    lengths = random.sample(range(80, 1400), kinds)
    counts = [max(pieces // kinds, 1)] * kinds
    demand = [PieceDemand(f"p{n}", Fraction(n, 16), c) for n, c in zip(lengths, counts, strict=True)]
    stocks = [Stock(f"{feet} ft", Fraction(12 * feet), round(feet * random.uniform(75, 95))) for feet in (8, 12, 16)]
    return demand, stocks
