"""Our planner against general solvers on the bed-like cases, and its growth with the number of pieces. Run by hand:

    python tests/benchmark/bench_cutting.py [cases [seconds]]     # against general solvers
    python tests/benchmark/bench_cutting.py growth

All methods run one after the other in one process, the same cases, one thread each (CP-SAT gets two workers), the
time limit kept by the solver. Each method is warmed up on a case of its own first.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from fractions import Fraction
from math import inf
from pathlib import Path
from random import Random
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.cutting.cases import CASES, lists  # noqa: E402  # the path is set just above
from tutorial_lib.cutting.boards import PieceDemand, Stock  # noqa: E402
from tutorial_lib.cutting.planner import faults, plan_cuts  # noqa: E402

Answer = tuple[float, bool]  # cost, proven


def ours(case: dict[str, Any], _: float) -> Answer:
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


def p95(times: list[float]) -> float:
    return sorted(times)[min(int(0.95 * len(times)), len(times) - 1)]


def against(count: int, seconds: float) -> None:
    beds = [c for c in CASES if c["cls"] == "own_bed"]
    warm, cases = beds[-1], beds[:count]
    print(f"{len(cases)} bed-like cases, limit {seconds:g} s")
    print(f"{'method':24} {'median ms':>10} {'p95 ms':>10} {'proven':>8} {'optimum':>8}")
    for name, method in METHODS.items():
        try:
            method(warm, seconds)
        except Exception as error:  # a solver this machine lacks
            print(f"{name:24} not run: {error}")
            continue
        times, proven, right = [], 0, 0
        for case in cases:
            start = time.perf_counter()
            cost, sure = method(case, seconds)
            times.append((time.perf_counter() - start) * 1000)
            right += cost == case["optimum"]
            proven += sure and cost == case["optimum"]
        row = f"{name:24} {statistics.median(times):10.1f} {p95(times):10.1f}"
        print(f"{row} {proven:5}/{len(cases)} {right:5}/{len(cases)}", flush=True)


def growth() -> None:
    print(f"{'pieces':>8} {'lengths':>8} {'median ms':>10} {'proven':>8} {'worst gap':>10}")
    for kinds in (5, 10, 20):
        for pieces in (30, 100, 300, 1000, 10_000):
            times, proven, gaps = [], 0, [0.0]
            for seed in range(5):
                demand, stocks = random_case(Random(seed), kinds, pieces)
                start = time.perf_counter()
                plan = plan_cuts(demand, stocks, Fraction(1, 8), Fraction(0), prefer=())
                times.append((time.perf_counter() - start) * 1000)
                assert not faults(plan, demand, stocks)
                proven += plan.proven
                gaps.append(plan.gap)
            row = f"{pieces:8} {kinds:8} {statistics.median(times):10.1f}"
            print(f"{row} {proven:6}/5 {max(gaps):10.4%}", flush=True)


def random_case(random: Random, kinds: int, pieces: int) -> tuple[list[PieceDemand], list[Stock]]:
    lengths = random.sample(range(80, 1400), kinds)
    counts = [max(pieces // kinds, 1)] * kinds
    demand = [PieceDemand(f"p{n}", Fraction(n, 16), c) for n, c in zip(lengths, counts, strict=True)]
    stocks = [Stock(f"{feet} ft", Fraction(12 * feet), round(feet * random.uniform(75, 95))) for feet in (8, 12, 16)]
    return demand, stocks


if __name__ == "__main__":
    if sys.argv[1:2] == ["growth"]:
        growth()
    else:
        numbers = [float(a) for a in sys.argv[1:]]
        against(int(numbers[0]) if numbers else 20, numbers[1] if len(numbers) > 1 else 10.0)
