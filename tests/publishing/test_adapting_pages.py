"""The page of a sheet for another size, and the family's table."""

from __future__ import annotations

from tests.adapting.sized import adapted, compared, report
from tutorial_lib.adapting import Adaptation, comparison
from tutorial_lib.adapting.family import family
from tutorial_lib.publishing.blocks import Heading, Table
from tutorial_lib.publishing.html import html
from tutorial_lib.publishing.topics import adapting as pages
from tutorial_lib.publishing.topics import summary


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
    (page,) = pages.compared_pages(compared("UK double"))
    assert "20 mm" in html(page.blocks)


def test_page_one_says_what_the_video_has_wrong_before_anything_else() -> None:
    found = compared("full")
    (page,) = summary.pages(found.adaptation.yours, found)
    words = html(page.blocks)
    assert words.index("The video says … use …") < words.index("No longer holds for your bed") < words.index("Tools")
    assert page.title.endswith("as a full")


def test_the_creators_own_sheet_says_it_too() -> None:
    own = comparison(Adaptation(creator=compared("full").adaptation.creator, yours=compared("full").adaptation.creator),
                     report())  # fmt: skip
    words = html(summary.pages(own.adaptation.yours, own)[0].blocks)
    assert "The video says … use …" in words and "No longer holds" not in words


def test_family_page() -> None:
    blocks = pages.family_blocks(family(adapted("full").creator.options, ("US full",)), "in")
    assert isinstance(blocks[0], Heading) and any(isinstance(b, Table) for b in blocks)
