"""What is answered without a solver is what the solver answers."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, settings

from tests.cutting.test_arrays import problems
from tutorial_lib.cutting.certificate import Certificate, Problem, check
from tutorial_lib.cutting.counting import mix_of
from tutorial_lib.cutting.lp import Pattern
from tutorial_lib.cutting.planner import without_surplus
from tutorial_lib.cutting.proof import few_cuts
from tutorial_lib.cutting.search import Search
from tutorial_lib.cutting.settle import Settling

PREFER = ("layouts", "offcut")


@settings(max_examples=60, deadline=None)
@given(problems())
def test_a_quick_list_costs_and_measures_what_the_search_finds(problem: Problem) -> None:
    search = Search(problem)
    found = Search(problem).run()
    if search.too_few:
        assert found is None
    quick = search.quick()
    if quick is None:
        return
    assert found is not None
    assert mix_of(problem, quick.boards) == mix_of(problem, found.boards)
    proof = Certificate(problem, quick.bound, few_cuts(problem, quick.bound, quick.cuts, search.knapsack))
    assert check(proof).holds


@settings(max_examples=30, deadline=None)
@given(problems())
def test_the_one_best_plan_of_a_short_list_is_the_solvers(problem: Problem) -> None:
    search = Search(problem)
    found = search.quick()
    if found is None:
        return
    boards = without_surplus(found.boards, problem.demand)
    settling = Settling(search, boards, 1.0)
    only = settling.only(PREFER)
    if only is not None:
        assert only == settling.settle(boards, PREFER)


def test_among_equals_that_nothing_tells_apart_none_is_the_only_one() -> None:
    problem = Problem(
        widths=(5, 5), demand=(1, 1), capacities=(5, 5), lengths=(5, 5), prices=(1, 1), available=(None, None)
    )
    search = Search(problem)
    boards = Counter({Pattern(0, (1, 0)): 1, Pattern(1, (0, 1)): 1})
    assert search.quick() is not None
    assert Settling(search, boards, 1.0).only(PREFER) is None


def test_a_few_plans_are_told_apart_without_a_solver_unless_the_cost_is_not_sure() -> None:
    problem = Problem(widths=(40, 30), demand=(2, 1), capacities=(96,), lengths=(96,), prices=(5,), available=(None,))
    search = Search(problem)
    found = search.quick()
    assert found is not None
    settling = Settling(search, without_surplus(found.boards, problem.demand), 1.0)
    assert settling.only(PREFER) == Counter({Pattern(0, (2, 0)): 1, Pattern(0, (0, 1)): 1})
    settling.proven = False
    assert settling.only(PREFER) is None
