"""The page of a sheet for another size, and the family's table."""

from __future__ import annotations

from html import escape

from tests.adapting.sized import adapted, compared
from tutorial_lib.adapting.family import family
from tutorial_lib.publishing.blocks import Heading, Table
from tutorial_lib.publishing.html import html
from tutorial_lib.publishing.topics import adapting as pages


def test_marks_are_words_with_a_sign() -> None:
    text = html(pages.blocks(compared("full")))
    marks = ("→\N{NO-BREAK SPACE}changes", "+\N{NO-BREAK SPACE}new")
    for words in (*marks, "No longer holds for your bed", "What it comes to"):
        assert words in text


def test_every_fact_on_asking() -> None:
    def rows(every: bool) -> int:
        return max(len(b.rows) for b in pages.numbers(compared("full"), every) if isinstance(b, Table))

    assert rows(True) == len(compared("full").rows) > rows(False)


def test_the_sheets_page_has_its_reasons() -> None:
    found = compared("UK double")
    assert "20 mm" in html(pages.reasoned_page(found).blocks)
    (page,) = pages.compared_pages(found)
    spoken = [row.what for row in found.rows if row.said and row.status == "changes" and found.shows(row)]
    assert spoken and all(escape(what) in html(page.blocks) for what in spoken)


def test_family_page() -> None:
    blocks = pages.family_blocks(family(adapted("full").creator.options, ("US full",)), "in")
    assert isinstance(blocks[0], Heading) and any(isinstance(b, Table) for b in blocks)
