"""The appendix: how the figures came about, proofs, simulations, sources, and what was noted besides cautions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tutorial_lib.publishing.blocks import Block, Caution, Findings, Heading, Note, Page, Picture
from tutorial_lib.publishing.booklet.leaf import Book
from tutorial_lib.publishing.topics import adapting, assembly, cutting, drilling, finishing, strength
from tutorial_lib.strength import words

PILOTS = Note(
    "Two pilot rules differ. Across the screw the standard asks for 7/8 of the root in softwood (NDS 12.1.5.3); in a "
    "straight pull the handbook says about 70 % (Wood Handbook ch. 8) where the standard asks for none. Try the bit in "
    "an offcut."
)


def pages(book: Book) -> Iterator[Page]:
    """All workings, topic after topic."""
    first, *more = _topics(book)
    yield first
    yield from (replace(page, joined=True) for page in more)


def _topics(book: Book) -> Iterator[Page]:
    plan, strong = book.plan, book.plan.strength
    yield Page("Workings: the lumber", tuple(cutting.proofs(plan)))
    yield Page("Workings: marking the slats", tuple(cutting.marking(plan)))
    misses: list[Block] = [Heading("Where fasteners come near each other"), *drilling.side_views(plan)]
    yield Page("Workings: screws and bits", (PILOTS, drilling.why(plan), *misses))
    yield Page("Workings: what it carries", tuple(_strength(book)))
    first: list[Block] = [Caution(words.CAUTION), strength.load_cases(strong)]
    if strong.uses:
        rows = [use for _, use in strength.governing_rows(strong)]
        first += [strength.kinds_of_load(strong), strength.table(strong), *strength.workings(strong, rows)]
    yield Page("Workings: the load figures", tuple(first))
    shown = (*finishing.what_shows(plan), *finishing.each_part(plan))
    yield Page("Workings: finish", (*shown, *finishing.sanding(plan), *finishing.coats(plan)))
    yield Page("Workings: assembly", (assembly.weights_table(plan), *assembly.squaring(plan), *assembly.after(plan)))
    if book.found is not None and not book.found.adaptation.same:
        yield adapting.reasoned_page(book.found)
    noted = tuple(finding for finding in plan.findings if finding.severity == "note")
    if noted:
        yield Page("Noted", (Findings(noted),))


def _strength(book: Book) -> Iterator[Block]:
    plan, strong = book.plan, book.plan.strength
    yield from strength.rating(strong)
    yield from strength.helped(plan)
    if strong.uses:
        yield Picture(strength.chart(strong))
    yield from strength.legs(plan)
    yield from strength.spans(strong)
