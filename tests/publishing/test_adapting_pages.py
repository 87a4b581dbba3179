"""The page of a sheet for another size, and the family's table."""

from __future__ import annotations

from fractions import Fraction
from html import escape
from typing import Any

from tests.adapting.sized import adapted, compared, report
from tests.design.builds import demo
from tutorial_lib.adapting import adapt, comparison
from tutorial_lib.adapting.family import Member, family
from tutorial_lib.publishing.blocks import Heading, Table
from tutorial_lib.publishing.booklet import video
from tutorial_lib.publishing.booklet.leaf import Book, Leaf
from tutorial_lib.publishing.html import html
from tutorial_lib.publishing.sheet import sheet_pages
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


def test_each_change_of_a_family_has_a_row_of_its_own() -> None:
    def changes(*variants: str) -> Table:
        members = [
            Member(size="US full", variant=name, mattress=(Fraction(53), Fraction(75)), changes=("legs", "slats"))
            for name in variants
        ]
        table = pages.family_blocks(members, "in")[-1]
        assert isinstance(table, Table)
        return table

    member = Member(size="US full", variant="as it is", mattress=(Fraction(53), Fraction(75)), weight=100.0)
    tables = [pages.family_blocks([member], units)[2] for units in ("in", "mm")]
    weights = [(t.columns[-2].title, t.rows[0][-2]) for t in tables if isinstance(t, Table)]
    assert weights == [("weight (lb)", "100"), ("weight (kg)", "45")]
    assert changes("as it is").rows == (("US full", "legs"), ("", "slats"))
    assert changes("as it is", "on posts").rows[2:] == (("US full", "on posts", "legs"), ("", "", "slats"))


def test_sentences_about_what_the_bed_has_none_of_are_skipped_by_their_times() -> None:
    """A headboard alone for a bed that stands: what the video says of rails, cleats and slats is no row of a table."""
    asked = {"headboard.kind": "slats", "headboard.bed": "stands", "headboard.over": "16 in"}
    found = comparison(adapt(demo(), None, asked), report())
    book = Book(plan=found.adaptation.yours, found=found)
    (leaf,) = video.leaves(book)
    assert leaf.joined and not leaf.data["slips"]
    skipped = str(leaf.data["skip"])
    assert (
        "1:25" in skipped and "4:30" in skipped and "1:00" not in skipped
    )  # an end rail, a leg; the cost is the bed's
    outdated: Any = leaf.data["outdated"]
    assert [row["at"] for row in outdated] == ["1:00"]
    kinds = [page.kind for page in sheet_pages(book) if isinstance(page, Leaf)]
    assert kinds[1] == "store" and kinds[-1] == "video"
    (page,) = pages.compared_pages(found)
    assert "Your bed has none of these" in html(page.blocks)


def test_a_bed_without_captions_has_its_changed_figures_beside_the_creators() -> None:
    (page,) = pages.compared_pages(comparison(adapt(demo(), "queen", {})))
    (numbers,) = (b for b in page.blocks if isinstance(b, Table) and any(c.title == "creator’s" for c in b.columns))
    assert 4 <= len(numbers.rows) <= pages.MOST
    assert all(row[0].endswith("changes") for row in numbers.rows)
