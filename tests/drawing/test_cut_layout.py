"""Cut layouts as data: what is where, which words."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.cutting.boards import Board, Layout, Piece
from tutorial_lib.cutting.marking import Row, compare
from tutorial_lib.drawing.cut_layout import cut_layout, marking_plot
from tutorial_lib.drawing.scene import Rect, Running
from tutorial_lib.measures import inch

SLATS = Layout(
    Board(
        "10 ft", inch(120), 830,
        pieces=(Piece("slat", inch("38 1/4")),) * 2, kerf=Fraction(1, 8), trim=Fraction(1, 4), section="1x4",
    ),
    4,
)


def test_the_tape_runs_from_the_squared_end():
    (tape,) = [s for s in cut_layout(SLATS, 1, inch(120)).shapes if isinstance(s, Running)]
    assert tape.start == (Fraction(1, 4), 0)
    assert tape.marks == (inch("38 1/4"), inch("76 5/8"))
    assert tape.texts == ("38 1/4", "76 5/8")


def test_cuts_are_numbered_in_order_and_the_rest_is_told():
    texts = cut_layout(SLATS, 3, inch(120)).texts()
    assert texts[0] == "3.  1x4 10 ft: 4 boards, all cut alike"
    assert [t for t in texts if t.isdigit()] == ["1", "2"]
    assert "left over 43" in texts


def test_one_wood_tint_only():
    fills = {s.fill for s in cut_layout(SLATS, 1, inch(120)).shapes if isinstance(s, Rect)}
    assert fills == {"wood", "ink", "paper"}


def test_all_boards_of_a_plan_share_a_scale():
    assert cut_layout(SLATS, 1, inch(240)).scale == cut_layout(SLATS, 1, inch(120)).scale / 2


def test_the_alt_text_reads_the_board_out():
    alt = cut_layout(SLATS, 1, inch(120)).alt
    assert (
        alt
        == "Board 1, 1x4 10 ft, cut 4 times: slat 38 1/4 in at 38 1/4 in, slat 38 1/4 in at 76 5/8 in; 43 in left over."
    )


def test_the_marking_plot_names_every_method_and_its_odds():
    row = Row(75.75, 3.5, 14, 2.25)
    methods = compare(row, trials=1000)
    texts = marking_plot(methods, row).texts()
    assert all(m.name in texts for m in methods)
    assert {"as planned", "gap limit", "beds over it"} <= set(texts)
