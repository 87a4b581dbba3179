"""Where the kerf decides, by hand: k pieces need k - 1 cuts between them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.cutting.boards import Board, Piece, PieceDemand, Stock
from tutorial_lib.cutting.cliffs import longest_for, per_board
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.measures import inch

EIGHTH = Fraction(1, 8)


@pytest.mark.parametrize(
    ("stock", "count", "longest"),
    [
        ("96", 2, "47 15/16"),
        ("120", 2, "59 15/16"),
        ("144", 2, "71 15/16"),
        ("168", 2, "83 15/16"),
        ("192", 2, "95 15/16"),
    ],
)
def test_the_cliff_of_two_from_a_board(stock, count, longest):
    """Half a board less half a kerf: two pieces and one cut fill the board to its end."""
    assert longest_for(count, inch(stock), EIGHTH, inch(0)) == inch(longest)
    assert per_board(inch(longest), inch(stock), EIGHTH, inch(0)) == count
    assert per_board(inch(longest) + Fraction(1, 64), inch(stock), EIGHTH, inch(0)) == count - 1


@pytest.mark.parametrize(("length", "boards"), [("47 15/16", 1), ("48", 2)])
def test_two_exact_halves_do_not_come_out_of_one_board(length, boards):
    plan = plan_cuts([PieceDemand("half", inch(length), 2)], [Stock("8 ft", inch(96), 1)], EIGHTH, inch(0))
    assert len(plan.boards) == boards


@pytest.mark.parametrize(("kerf", "boards"), [("0", 1), ("1/64", 2)])
def test_without_a_kerf_four_quarters_fill_a_board(kerf, boards):
    plan = plan_cuts([PieceDemand("quarter", inch(24), 4)], [Stock("8 ft", inch(96), 1)], inch(kerf), inch(0))
    assert len(plan.boards) == boards


def test_one_piece_as_long_as_the_board_needs_no_cut():
    plan = plan_cuts([PieceDemand("rail", inch(96), 1)], [Stock("8 ft", inch(96), 1)], EIGHTH, inch(0))
    assert plan.boards[0].offcut == 0


@pytest.mark.parametrize(("piece", "left"), [("95", "7/8"), ("95 7/8", "0"), ("95 15/16", "0")])
def test_a_rest_thinner_than_the_blade_is_sawdust(piece, left):
    board = Board("8 ft", inch(96), 0, pieces=(Piece("rail", inch(piece)),), kerf=EIGHTH, trim=inch(0))
    assert board.offcut == inch(left)
