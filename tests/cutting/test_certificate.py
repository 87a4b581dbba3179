"""The proof: checked without a solver, told in a sentence, refused when it claims too much."""

from __future__ import annotations

import sys
from fractions import Fraction

import pytest

from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.certificate import Certificate, Problem, check, cut_of, most_value
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.cutting.proof import sentence
from tutorial_lib.measures import inch


def problem_of(widths, demand, boards, prices):
    none = (None,) * len(boards)
    return Problem(widths=widths, demand=demand, capacities=boards, lengths=boards, prices=prices, available=none)


SLATS = problem_of((307,), (14,), (959,), (830,))


def test_a_true_claim_holds():
    assert check(Certificate(SLATS, 5 * 830, ((1,),))).holds


def test_one_cent_too_much_is_refused_with_the_cheaper_list():
    verdict = check(Certificate(SLATS, 5 * 830 + 1, ((1,),)))
    assert (verdict.holds, verdict.mix) == (False, (5,))


def test_values_that_show_nothing_are_refused():
    assert not check(Certificate(SLATS, 5 * 830, ((0,),))).holds
    assert not check(Certificate(SLATS, 5 * 830, ())).holds


def test_a_check_that_runs_too_long_says_so():
    many = problem_of((7, 5), (900, 900), (40, 31), (3, 2))
    verdict = check(Certificate(many, 900, ((0, 0),)), limit=3)
    assert not verdict.holds


def test_the_last_step_allowed_is_still_taken():
    claim = Certificate(problem_of((7, 5), (9, 9), (40, 31), (3, 2)), 8, ((7, 5),))  # three lists to be looked at
    assert check(claim, limit=3).holds
    assert not check(claim, limit=2).complete


def test_what_a_board_holds_by_hand():
    # 10 units: 4 + 4 gives 10, 4 + 3 + 3 gives 11; only two pieces of 4 are wanted
    problem = problem_of((4, 3), (2, 3), (10,), (1,))
    assert most_value((5, 3), problem) == (11,)
    assert cut_of((5, 3), problem).worth == 19


def test_the_proof_needs_no_solver():
    plan = plan_cuts([PieceDemand("slat", inch("38 1/4"), 14)], [Stock("10 ft", inch(120), 830)], inch("1/8"), inch(0))
    module = sys.modules["tutorial_lib.cutting.certificate"]
    assert not {"highspy", "numpy"} & set(vars(module))
    assert check(plan.sections[0].certificate).holds


@pytest.mark.parametrize(
    ("lengths", "said"),
    [
        (
            ("38 1/4",),
            "There are 14 pieces, no 10 ft board can hold more than 3: boards for $41.49 or less can't hold them all.",
        ),
        (("38 1/4", "78"), "Valued so that all pieces together are worth"),
    ],
)
def test_the_sentence_names_the_boards(lengths, said):
    pieces = [PieceDemand(f"p{n}", inch(n), 14 // (i + 1)) for i, n in enumerate(lengths)]
    plan = plan_cuts(pieces, [Stock("10 ft", inch(120), 830)], Fraction(1, 8), Fraction(0))
    assert sentence(plan.sections[0], f"${(plan.cost - 1) / 100:.2f}").startswith(said)
