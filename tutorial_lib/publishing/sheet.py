"""The companion sheet: a booklet for the store, the saw, the bench and the room, one PDF, Letter or A4."""

from __future__ import annotations

from collections.abc import Sequence

from tutorial_lib.adapting import Comparison
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Page
from tutorial_lib.publishing.booklet import cover, deck, finish, holes, joints, parts, saw, steps, store, video
from tutorial_lib.publishing.booklet import workings as appendix
from tutorial_lib.publishing.booklet.leaf import Book, Leaf
from tutorial_lib.publishing.identity import outside, size, version
from tutorial_lib.publishing.topics import adapting
from tutorial_lib.publishing.typeset import Paper, line_width, source


def sheet_source(plan: Plan, paper: Paper = "letter", found: Comparison | None = None, *, both: bool = False,
                 large: bool = False, workings: bool = False) -> str:  # fmt: skip
    """The sheet as typst source.

    Args:
        plan: the bed.
        paper: "letter" or "a4".
        found: the creator's bed beside this one, and what the video says; adds what differs.
        both: lengths in the other system too.
        large: for the wall, on paper twice the size.
        workings: with an appendix of proofs, workings, simulations and sources.
    """
    book = book_on(paper, plan, found, both=both)
    pages = [*sheet_pages(book), *(appendix.pages(book) if workings else ())]
    return booklet_source(plan, pages, paper, large=large, both=both)


def book_on(paper: Paper, plan: Plan, found: Comparison | None = None, *, both: bool = False) -> Book:
    """What the pages are made from, as wide as a paper's lines."""
    found = found.in_both() if found and both else found
    return Book(plan=plan, found=found, both=both, width=line_width(paper) - 0.5)


def booklet_source(plan: Plan, pages: Sequence[Page | Leaf], paper: Paper, *, large: bool = False,
                   both: bool = False) -> str:  # fmt: skip
    """Pages made for a paper as typst source, on that paper or for the wall."""
    return source(
        pages, title=plan.options.build.title, version=version(plan.options), size=size(plan, both),
        outside=outside(plan, both), paper=paper, large=large,
    )  # fmt: skip


KINDS = (cover, video, store, saw, parts, deck, joints, holes, steps, finish)  # pages in the order of the job


def sheet_pages(book: Book) -> list[Page | Leaf]:
    """The pages of the booklet."""
    kinds = [kind for kind in KINDS if kind is not deck or not book.plan.build.bed_stands]
    if video.brief(book):
        kinds = [*(kind for kind in kinds if kind is not video), video]
    pages: list[Page | Leaf] = [leaf for kind in kinds for leaf in kind.leaves(book)]
    if book.found is not None and not book.found.adaptation.same:
        pages += adapting.compared_pages(book.found)
    return pages
