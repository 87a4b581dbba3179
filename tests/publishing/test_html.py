"""Blocks as HTML: words escaped, changes and severities told by word and sign, the same text each time."""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree

import pytest

from tutorial_lib.drawing.scene import Rect, Scene
from tutorial_lib.facts.fact import Fact
from tutorial_lib.findings import Finding
from tutorial_lib.publishing import blocks as b
from tutorial_lib.publishing.html import html

SLAT = Fact(
    key="slat.length", value=Fraction(153, 4), unit="in", kind="length", what="1x4 slat", working="38 1/2 − 1/4"
)
STOP = Finding(
    rule="slat gap", severity="stop", what="The gap is 3 in.", value="3 in", limit="2 3/4 in",
    whose="the maker's terms", remedy="Use 15 slats.",
)  # fmt: skip
NOTE = Finding(rule="order", severity="note", what="Buy one more.")
EVERY: list[b.Block] = [
    b.Heading('1/2" <wide>', 1),
    b.Text("a & b", strong=True),
    b.Items(("one", "two"), "number"),
    b.Items(("tick",), "box"),
    b.Figures((SLAT,), "in", frozenset({"slat.length"}), working=True),
    b.Table((b.Column("part"), b.Column("length", "in", "right")), (("slat", "38 1/4"),), "Cut list", frozenset({0})),
    b.Picture(Scene((Rect(0, 0, 4, 2),), 10, "a board"), 0.5, "A board."),
    b.Caution("Sharp."),
    b.Note("Mind."),
    b.Findings((NOTE, STOP)),
    b.Findings((), "Nothing."),
    b.Working("fb", "M / S", "10 / 2", "5 psi", "NDS 3.3"),
    b.PageBreak(),
    b.Columns(((b.Text("left"),), (b.Text("right"),)), (2, 1)),
]


def test_it_is_well_formed_for_every_block() -> None:
    root = ElementTree.fromstring(html(EVERY))
    text = "".join(root.itertext())
    for word in ('1/2" <wide>', "a & b", "38 1/4 in", "length (in)", "Nothing.", "left", "Source: NDS 3.3"):
        assert word in text


def test_stops_come_first_and_say_so() -> None:
    text = html([b.Findings((NOTE, STOP))])
    assert text.index("<b>Stop</b>") < text.index("<b>Note</b>")
    assert "limit 2 3/4 in, the maker&#x27;s terms" in text


def test_a_changed_fact_has_a_sign_beside_its_colour() -> None:
    assert "▸ 38 1/4 in" in html([b.Figures((SLAT,), "in", frozenset({"slat.length"}))])
    assert "▸" not in html([b.Figures((SLAT,))])


def test_nothing_is_fetched() -> None:
    text = html(EVERY)
    assert "<script" not in text
    assert "url(" not in text
    assert "href" not in text


def test_a_row_with_a_cell_too_few_is_refused() -> None:
    with pytest.raises(ValueError, match="needs 2 cells"):
        b.Table((b.Column("a"), b.Column("b")), (("x",),))


def test_pictures_are_found_inside_columns() -> None:
    picture = b.Picture(Scene((), 1, "none"))
    assert b.pictures([b.Columns(((picture,), (b.Text("x"),))), picture]) == [picture, picture]
