"""Small random cases against OR-tools CP-SAT, a general solver used in tests alone: the same optimum always."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.errors import InputError

cp_model = pytest.importorskip("ortools.sat.python.cp_model")


def general(pieces, stocks, kerf, trim):
    """Least (cost, then length) by assigning pieces to boards; None if impossible."""
    model = cp_model.CpModel()
    items = [length for length, count in pieces for _ in range(count)]
    boards = [s for s in stocks for _ in range(min(s[2] if s[2] is not None else len(items), len(items)))]
    used = [model.new_bool_var("") for _ in boards]
    put = [[model.new_bool_var("") for _ in boards] for _ in items]
    for row in put:
        model.add_exactly_one(row)
    for j, (length, _, _) in enumerate(boards):
        model.add(sum((items[i] + kerf) * put[i][j] for i in range(len(items))) <= (length - trim + kerf) * used[j])
    for j in range(1, len(boards)):
        if boards[j] == boards[j - 1]:
            model.add(used[j] <= used[j - 1])
    big = sum(b[0] for b in boards) + 1
    model.minimize(sum(u * (b[1] * big + b[0]) for u, b in zip(used, boards, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_time_in_seconds = 20
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL
    return divmod(round(solver.objective_value), big)


@pytest.mark.parametrize("seed", range(40))
def test_same_cost_and_same_length_as_a_general_solver(seed):
    random = Random(seed)
    pieces = [(random.randint(20, 100), random.randint(1, 3)) for _ in range(random.randint(1, 4))]
    stocks = [
        (random.randint(90, 240), random.randint(1, 60), random.choice([None, None, 1, 2]))
        for _ in range(random.randint(1, 3))
    ]
    kerf, trim = random.choice([0, 1, 2]), random.choice([0, 2])
    ours_pieces = [PieceDemand(f"p{i}", Fraction(n), c) for i, (n, c) in enumerate(pieces)]
    ours_stocks = [Stock(f"s{i}", Fraction(n), p, a) for i, (n, p, a) in enumerate(stocks)]
    expected = general(pieces, stocks, kerf, trim)
    if expected is None:
        with pytest.raises(InputError):
            plan_cuts(ours_pieces, ours_stocks, Fraction(kerf), Fraction(trim))
        return
    plan = plan_cuts(ours_pieces, ours_stocks, Fraction(kerf), Fraction(trim))
    assert (plan.cost, sum(b.length for b in plan.boards)) == expected
    assert plan.proven
