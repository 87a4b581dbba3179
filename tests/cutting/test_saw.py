"""At the saw: marks, batches, store cuts, cliffs."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.cutting.boards import Board, Piece, PieceDemand, Stock
from tutorial_lib.cutting.cliffs import cliffs
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.cutting.saw import batches, if_one_goes_wrong, saw_cuts, small_piece_finding
from tutorial_lib.cutting.store import best_cut, store_cuts
from tutorial_lib.measures import inch

EIGHTH, QUARTER = Fraction(1, 8), Fraction(1, 4)


def board(*pieces, length=120):
    return Board("10 ft", inch(length), 830, tuple(Piece("slat", inch(p)) for p in pieces), EIGHTH, QUARTER)


def test_running_marks_carry_every_kerf():
    assert [c.mark for c in saw_cuts(board("38 1/4", "38 1/4", "38 1/4"))] == [
        inch("38 1/4"),
        inch("76 5/8"),
        inch(115),
    ]


def test_the_last_piece_at_the_boards_end_needs_no_cut():
    assert [c.needed for c in saw_cuts(board("59 13/16", "59 13/16"))] == [True, False]


def test_what_is_left_if_one_goes_wrong():
    assert "can be cut again from the 43 1/4 in" in if_one_goes_wrong(board("38 1/4", "38 1/4", length="120 1/4"))
    assert "nothing is left" in if_one_goes_wrong(board("38 1/4", "38 1/4", "38 1/4"))


def test_one_stop_block_setting_for_each_length_longest_first():
    pieces = [PieceDemand("leg", inch("9 1/2"), 4), PieceDemand("slat", inch(38), 5)]
    plan = plan_cuts(pieces, [Stock("10 ft", inch(120), 1)], EIGHTH, QUARTER)
    assert [(b.length, b.count, b.small) for b in batches(plan)] == [(inch(38), 5, False), (inch("9 1/2"), 4, True)]
    finding = small_piece_finding(plan)
    assert finding is not None
    assert (finding.severity, finding.parts) == ("caution", ("leg",))


def test_a_store_cut_leaves_room_for_both_sides_whatever_the_store_does():
    cut = best_cut(board("38 1/4", "38 1/4"), 0, inch(1))
    assert cut is not None
    for slip in (-1, 0, 1):
        first, second = cut.at + slip, 120 - cut.at - slip - Fraction(1, 4)
        need = [
            QUARTER + n * inch("38 1/4") + max(n - 1, 0) * EIGHTH for n in (cut.pieces_before, 2 - cut.pieces_before)
        ]
        assert first >= need[0]
        assert second >= (need[1] if cut.pieces_before < 2 else 0)


def test_no_store_cut_where_the_board_is_full():
    assert best_cut(board("59 13/16", "59 13/16"), 0, QUARTER) is None


def test_store_cuts_stop_at_the_free_ones_and_leave_short_boards_alone():
    boards = [board("38 1/4", "38 1/4")] * 3
    assert len(store_cuts(boards, 2, QUARTER)) == 2
    assert store_cuts(boards, 2, QUARTER, carry=inch(120)) == []


def test_a_slat_a_little_too_long_for_two_is_found_and_priced():
    stocks = [Stock("12 ft", inch(144), 900)]
    pieces = [PieceDemand("slat", inch(72), 14)]
    plan = plan_cuts(pieces, stocks, EIGHTH, inch(0))
    (cliff,) = cliffs(plan, pieces, stocks, "slat", least=inch(71))
    assert (cliff.shorter, cliff.boards_saved, cliff.cost_saved) == (inch("71 15/16"), 7, 6300)
    assert cliffs(plan, pieces, stocks, "slat", least=inch("71 31/32")) == []
