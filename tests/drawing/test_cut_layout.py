"""A board's cuts in words; the plot of marking methods."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.cutting.boards import Board, Layout, Piece
from tutorial_lib.cutting.marking import Row, compare
from tutorial_lib.drawing.cut_layout import alt, marking_plot
from tutorial_lib.measures import inch

SLATS = Layout(
    Board(
        "10 ft",
        inch(120),
        830,
        pieces=(Piece("slat", inch("38 1/4")),) * 2,
        kerf=Fraction(1, 8),
        trim=Fraction(1, 4),
        section="1x4",
    ),
    4,
)


def test_the_alt_text_reads_the_board_out():
    told = alt(SLATS, 1, str, "in")
    assert (
        told
        == "Board 1, 1x4 10 ft, cut 4 times: slat 38 1/4 in at 38 1/4 in, slat 38 1/4 in at 76 5/8 in; 43 in left over."
    )


def test_the_marking_plot_names_every_method_and_its_odds():
    row = Row(75.75, 3.5, 14, 2.25)
    methods = compare(row, trials=1000)
    texts = marking_plot(methods, row).texts()
    assert all(m.name in texts for m in methods)
    assert {"as planned", "gap limit", "beds over it"} <= set(texts)
