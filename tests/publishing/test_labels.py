"""Labels on sheets of a stated size, and cue cards in big type."""

from __future__ import annotations

import io
from fractions import Fraction

import pytest
from pypdf import PdfReader

from tests.publishing import demo
from tutorial_lib.errors import InputError
from tutorial_lib.measures import mm
from tutorial_lib.publishing.cue_cards import CHAPTERS, cue_cards
from tutorial_lib.publishing.cue_pages import cue_pages_source
from tutorial_lib.publishing.labels import USUAL, labels_source, read_label_sheet, read_label_sheets
from tutorial_lib.publishing.typeset import compile_pdf


def pages(source: str) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(compile_pdf(source))).pages]


def test_a_sheet_holds_so_many_or_as_many_as_fit() -> None:
    stated = read_label_sheet("letter", "2 5/8 x 1 in", "1/8 x 0 in", "3 x 10")
    assert stated == USUAL["letter"] and (stated.columns, stated.rows) == (3, 10)
    assert stated.place(0) == (Fraction(3, 16), Fraction(1, 2))  # 8 1/2 - 3 x 2 5/8 - 2 x 1/8 = 3/8 in: half each side
    assert stated.place(4) == (Fraction(3, 16) + Fraction(11, 4), Fraction(3, 2))
    assert stated.place(30) == stated.place(0)  # the next sheet
    fit = read_label_sheet("a4", "100x50 mm")
    assert (fit.width, fit.columns, fit.rows) == (mm(100), 2, 5)


@pytest.mark.parametrize(
    ("size", "gap", "grid", "told"),
    [
        ("2 5/8", None, None, '"2 5/8" is no size; write width x height'),
        ("1/4 x 1/4 in", None, None, "has no room for a name; the least is 1 1/4 x 5/8 in"),
        ("20 x 5 in", None, None, "is larger than a sheet of letter paper"),
        ("4 x 2 in", None, "3 x 5", "3 x 5 of them don't fit letter paper; at most 2 x 5 do"),
        ("4 x 2 in", None, "many", 'write columns x rows, such as "3 x 10"'),
        (None, "1/8 x 0 in", None, "go with --label"),
    ],
)
def test_a_size_that_cant_be_is_told(size: str | None, gap: str | None, grid: str | None, told: str) -> None:
    with pytest.raises(InputError, match=told):
        read_label_sheet("letter", size, gap, grid)


def test_a_stated_size_takes_the_papers_it_fits() -> None:
    assert read_label_sheets(None, None, None) == USUAL
    assert list(read_label_sheets("8 1/2 x 5 1/2 in", None, None)) == ["letter"]  # A4 is narrower
    with pytest.raises(InputError, match=r"(?s)larger than a sheet of letter paper.*of a4 paper"):
        read_label_sheets("20 x 5 in", None, None)


def test_every_piece_has_one_label() -> None:
    build = demo.demo().build
    (only,) = pages(labels_source(demo.demo(), USUAL["letter"]))
    assert all(only.count(f"{label}\n") == 1 for label in build.pieces)
    assert "78 3⁄4" in only.replace("\u202f", " ") and "tape from the head end" in only
    small = read_label_sheet("letter", "4 x 2 in")
    assert len(pages(labels_source(demo.demo(), small))) == 3  # 26 pieces, ten a sheet


def test_every_cue_card_stands_in_big_type() -> None:
    cards = cue_cards(demo.facts(), ["slat.length", "slat.count", "cleat.screw_length"])
    told = pages(cue_pages_source(cards, "A “bed” #1", "0a1b2c3d"))
    assert len(told) == 2  # two chapters, each on its own paper
    assert "“thirty-eight and a quarter inches”" in told[0] and "38 1⁄4" in told[0].replace("\u202f", " ")
    assert "A “bed” #1, plan 0a1b2c3d" in told[1]


def test_a_page_of_cue_cards_that_goes_on_says_which_chapter() -> None:
    told = pages(cue_pages_source(cue_cards(demo.facts()), "Bed", "0a1b2c3d"))
    assert told[0].lstrip().startswith("Shopping\n") and "continued" not in told[0]
    cutting = [page for page in told if "Cutting" in page]
    assert len(cutting) > 2 and cutting[0].lstrip().startswith("Cutting\n")
    assert all("Cutting, continued" in page for page in cutting[1:])
    assert all(any(title in page for title, _ in CHAPTERS) for page in told)


def test_a_sheet_of_labels_tells_the_size_of_one() -> None:
    assert [USUAL[paper].size for paper in ("letter", "a4")] == ["2 5/8 x 1 in", "70 x 37 mm"]
