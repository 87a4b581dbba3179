"""Where things stand in the booklet: what belongs together on one page, letters in order, lettering of one size."""

from __future__ import annotations

import io
import re
from collections import Counter

from pypdf import PdfReader

from tests.publishing import pages
from tests.publishing.test_booklet import shown, texts
from tests.publishing.test_templates import plan
from tutorial_lib.design.build_file import read_build
from tutorial_lib.lists.names import letters
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.booklet.leaf import Leaf
from tutorial_lib.publishing.sheet import book_on, sheet_pages
from tutorial_lib.publishing.typeset import compile_pdf, source

LATER = ("parts", "deck", "joints", "holes")
PARTS = 3  # headings of pages before it: the cover, the store, the saw


def page_of(name: str, sentence: str) -> int:
    """The number of the page that a sentence stands on, from 1."""
    return next(number for number, text in enumerate(texts(name), 1) if sentence in text)


def listed(text: str) -> dict[str, list[int]]:
    """The pages of each letter's holes, as the list of parts names them."""
    rows = re.findall(r"\b([A-Z]) [a-z][a-z ]+ \d+ \d+x\d+ .*? ((?:\d+(?:, )?)+|–)(?= [A-Z] [a-z]| Zero)", text)
    return {letter: [int(page) for page in pages.split(", ") if page != "–"] for letter, pages in rows}


def test_the_list_of_parts_names_the_page_of_every_parts_holes(name: str = "demo") -> None:
    told = listed(texts(name)[page_of(name, "as I measured it") - 1])
    build = plan(name).build
    assert sorted(told) == sorted(letters(build).values())
    for key, letter in letters(build).items():
        assert told[letter]
        for page in told[letter]:
            assert re.search(rf"\b{letter} {build.part(key).name.capitalize()}\b", texts(name)[page - 1])


def test_holes_stand_in_the_order_of_their_letters_where_that_takes_no_page_more() -> None:
    found = [page for _, pages in sorted(listed(texts("demo")[page_of("demo", "as I measured it") - 1]).items())
             for page in pages]  # fmt: skip
    assert found == sorted(found) and len(set(found)) == 2


def test_the_list_of_parts_stands_under_its_picture() -> None:
    seen = shown("king")
    page = [mark["page"] for mark in seen.marks if mark["kind"] == "heading" and mark["level"] == 1][PARTS]
    cells = Counter((mark["table"], mark["row"]) for mark in seen.marks
                    if mark["kind"] == "row" and mark["page"] == page and mark["row"] > 0)  # fmt: skip
    assert len(plan("king").build.made) in Counter(table for table, _ in cells).values()


def test_the_words_of_all_steps_pictures_have_one_size() -> None:
    seen = shown("king")
    heads = [(mark["page"], mark["y"]) for mark in seen.marks if mark["kind"] == "heading" and mark["level"] == 1]
    first, last = heads[-2], heads[-1]
    assert last[0] - first[0] >= 2
    sizes = [mark["type"] for mark in seen.marks
             if mark["kind"] == "drawing" and mark["type"] and first < (mark["page"], mark["y"]) < last]  # fmt: skip
    assert len(sizes) > 5 and max(sizes) - min(sizes) < 0.1


def test_a_first_piece_that_fits_only_overleaf_leaves_no_heading_alone() -> None:
    """Below the joints of this bed there is room for the heading of the holes and a small piece, not for the first."""
    made = Plan(read_build((pages.GALLERY / "full-oak-strapped.toml").read_text(encoding="utf-8")))
    kept = [leaf for leaf in sheet_pages(book_on("letter", made)) if isinstance(leaf, Leaf) and leaf.kind in LATER]
    found = PdfReader(io.BytesIO(compile_pdf(source(kept, title="t", version="1")))).pages
    head = next(text for text in (page.extract_text() for page in found) if "Each table is one setting" in text)
    assert head.count("Marks run from") >= 1
