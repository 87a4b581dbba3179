"""At the saw: marks, batches, store cuts, cliffs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tutorial_lib.cutting.boards import Board, Piece, PieceDemand, Stock
from tutorial_lib.cutting.cliffs import cliffs
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.cutting.saw import (
    Untouched,
    batches,
    marks_note,
    off_its_length,
    saw_cuts,
    second_tries,
    small_piece_finding,
)
from tutorial_lib.cutting.store import at_home, best_cut, store_cuts
from tutorial_lib.measures import inch, mm, write_length, writer

EIGHTH, QUARTER = Fraction(1, 8), Fraction(1, 4)


def board(*pieces, length=120):
    cut = tuple(Piece("slat", inch(p)) for p in pieces)
    return Board("10 ft", inch(length), 830, pieces=cut, kerf=EIGHTH, trim=QUARTER)


def test_running_marks_carry_every_kerf():
    assert [c.mark for c in saw_cuts(board("38 1/4", "38 1/4", "38 1/4"))] == [
        inch("38 1/4"),
        inch("76 5/8"),
        inch(115),
    ]


def test_the_last_piece_at_the_boards_end_needs_no_cut():
    assert [c.needed for c in saw_cuts(board("59 13/16", "59 13/16"))] == [True, False]


def test_every_leftover_that_is_long_enough_is_named_and_no_other():
    # 8 ft less 1/4 trim: a rail of 60 in leaves 96 - 1/4 - 60 - 1/8 = 35 5/8
    wanted = (("rail", "60", 2), ("leg", "35 5/8", 1), ("block", "14", 3))
    pieces = [PieceDemand(name, inch(length), count) for name, length, count in wanted]
    plan = plan_cuts(pieces, [Stock("8 ft", inch(96), 400)], EIGHTH, QUARTER)
    tries = {t.name: t.leftovers for t in second_tries(plan)}
    left = {n: layout.board.offcut for n, layout in enumerate(plan.layouts, 1)}
    for piece in pieces:
        assert tries[piece.name] == tuple((n, rest) for n, rest in left.items() if rest >= piece.length)
    assert tries["rail"] == () and tries["block"] != ()


def test_a_leftover_a_hair_too_short_is_not_named():
    def tries(length):
        plan = plan_cuts([PieceDemand("slat", inch(length), 1)], [Stock("s", inch(80), 1)], EIGHTH, QUARTER)
        return [t.leftovers for t in second_tries(plan)]

    # 80 - 1/4 trim - slat - 1/8 kerf >= slat up to 39 13/16
    assert tries("39 13/16") == [((1, inch("39 13/16")),)]
    assert tries("39 53/64") == [()]


def test_one_stop_block_setting_for_each_length_longest_first():
    pieces = [PieceDemand("leg", inch("9 1/2"), 4), PieceDemand("slat", inch(38), 5)]
    plan = plan_cuts(pieces, [Stock("10 ft", inch(120), 1)], EIGHTH, QUARTER)
    assert [(b.length, b.count, b.small) for b in batches(plan)] == [(inch(38), 5, False), (inch("9 1/2"), 4, True)]
    finding = small_piece_finding(plan, "in", {"leg": "corner leg"})
    assert finding is not None
    assert (finding.severity, finding.parts) == ("caution", ("leg",))
    assert finding.what == "Corner leg: 9 1/2 in is too short to hold by hand."


def metric_plan(length: str, kerf: Fraction, count: int = 2):
    return plan_cuts([PieceDemand("leg", mm(length), count)], [Stock("s", mm(2400), 1)], kerf, Fraction(0))


def test_what_marks_and_lengths_on_a_metric_tape_lack_of_each_other_is_told():
    plan = metric_plan("370.6", EIGHTH)  # marks 371 and 744.375, told 744: 744 - 371 - 3.175 = 369.825, and 371 is told
    assert off_its_length(plan, writer("mm")) == mm("1.175")
    told = marks_note(plan, writer("mm"))
    assert "to the nearest 1 mm" in told and "up to 1.2 mm off" in told


def test_what_a_tape_does_not_show_is_not_told():
    # 371.4: marks 371 and 745.975, told 746: 746 - 371 - 3.175 = 371.825, and 371 is told; less than a mark
    assert off_its_length(metric_plan("371.4", EIGHTH), writer("mm")) == mm("0.825")
    assert marks_note(metric_plan("371.4", EIGHTH), writer("mm")) == ""
    # a piece told just a mark off is: 3.5 mm of kerf, marks 370.6 and 744.7, told 371 and 745: 370.5, half off
    assert off_its_length(metric_plan("370.6", mm("3.5")), writer("mm")) == mm("0.5")
    assert off_its_length(metric_plan("370", mm(3)), writer("mm")) == 0
    assert off_its_length(metric_plan("370.6", EIGHTH, count=1), writer("mm")) == 0  # alike to no other


def test_a_store_cut_leaves_room_for_both_sides_whatever_the_store_does():
    cut = best_cut(board("38 1/4", "38 1/4"), 0, inch(1))
    assert cut is not None
    for slip in (-1, 0, 1):
        first, second = cut.at[0] + slip, 120 - cut.at[0] - slip - Fraction(1, 4)
        counts = (cut.pieces_before[0], 2 - cut.pieces_before[0])
        need = [QUARTER + n * inch("38 1/4") + max(n - 1, 0) * EIGHTH for n in counts]
        assert first >= need[0]
        assert second >= (need[1] if cut.pieces_before[0] < 2 else 0)


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
    one = [PieceDemand("slat", inch(72), 1)]
    assert cliffs(plan_cuts(one, stocks, EIGHTH, inch(0)), one, stocks, "slat", least=inch(71)) == [], "saves nothing"


def test_a_small_car_takes_two_cuts_in_one_board_and_what_fits_is_left_alone():
    rails = [board("30", "30", "30"), board("30", length=48)]
    assert store_cuts(rails, 1, QUARTER, carry=inch(48)) == []  # one cut leaves more than 48 in
    (cut,) = store_cuts(rails, 2, QUARTER, carry=inch(48))
    assert (cut.index, len(cut.at)) == (0, 2)
    assert cut.carry <= 48
    low = high = Fraction(0)
    for at, pieces in zip(cut.at, (1, 1), strict=True):
        low = at - QUARTER - high  # cut early, and the one before it late
        assert low >= QUARTER + pieces * 30
        high = at + QUARTER + Fraction(1, 4)
    assert 120 - high >= QUARTER + 30


def test_boards_at_hand_are_not_sawn_at_the_store():
    home = replace(board("38 1/4", "38 1/4"), own=True)
    assert store_cuts([home, board("38 1/4", "38 1/4")], 2, QUARTER, carry=inch(100))[0].index == 1


def test_what_the_store_has_cut_is_marked_part_by_part_at_home():
    plan = plan_cuts([PieceDemand("slat", inch("38 1/4"), 3)], [Stock("10 ft", inch(120), 830)], EIGHTH, QUARTER)
    (cut,) = store_cuts(plan.boards, 1, QUARTER)
    home = at_home(plan, [cut], "in")
    assert [len(b.pieces) for b in home.boards] == [cut.pieces_before[0], 3 - cut.pieces_before[0]]
    for part in home.boards:
        assert part.stock == f"10 ft cut at {write_length(cut.at[0])}"
        assert saw_cuts(part)[0].mark == inch("38 1/4")  # from an end of its own
        assert part.left >= 0  # also where the store was off by the tolerance
    assert sum(part.length for part in home.boards) == 120 - Fraction(1, 4) - 2 * QUARTER
    assert at_home(plan, [], "in") == plan


def test_parts_cut_alike_are_one_layout_as_long_as_the_shortest():
    plan = plan_cuts([PieceDemand("slat", inch("53 5/8"), 4)], [Stock("10 ft", inch(120), 830)], EIGHTH, QUARTER)
    home = at_home(plan, store_cuts(plan.boards, 2, QUARTER, carry=inch(72)), "in")
    (layout,) = home.layouts
    assert (layout.count, layout.board.length) == (4, inch("59 1/2"))


def test_a_piece_gone_wrong_is_cut_from_a_board_nothing_is_cut_from():
    plan = plan_cuts([PieceDemand("leg", inch(50), 1)], [Stock("own 5 ft", inch(60), 0, 3, own=True)], EIGHTH, QUARTER)
    there = Untouched("", "own 5 ft", inch(60), 2)
    short = Untouched("", "own 50 in", inch(50), 2)  # a board of 50 in with its trim gives no 50 in
    assert [t.untouched for t in second_tries(plan, (there, short))] == [(there,)]
    assert str(there) == "2 x own 5 ft"
