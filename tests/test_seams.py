"""The seams of the package: no circles, no long rows of values by position, nothing that nobody calls."""

from __future__ import annotations

from pathlib import Path

from tests import seams

# Lists that shrink and never grow; empty, they go.
BY_POSITION = frozenset(
    """
    adapting.changed.Change narration.linking.claims.Claim narration.linking.sorting.Told
    publishing.corrections.Correction publishing.cue_cards.CueCard strength.screws.Dowel workbook.controls.Control
    """.split()
)
UNUSED = frozenset(
    """
    drawing.layout.overlapping_words drawing.views.missing_leg measures.writer.price_per_length
    publishing.pages.design.scenes publishing.pages.said.correction_pages publishing.sheet.sheet_pdf
    publishing.templates.templates_pdf publishing.typeset.compile_png strength.screws.head_pull
    strength.screws.nail_withdrawal workbook.listing.Listing
    """.split()
)


def test_no_module_is_imported_by_what_it_imports() -> None:
    assert seams.circles() == []


def test_long_records_are_filled_by_name() -> None:
    new = sorted(set(seams.wide_records()) - BY_POSITION)
    assert not new, f"more than five fields: make them kw_only (or KW_ONLY after the fifth): {new}"


def test_everything_has_a_caller(root: Path) -> None:
    shown = "".join(path.read_text(encoding="utf-8") for path in sorted((root / "notebooks").glob("*.ipynb")))
    new = [name for name in seams.unused() if name not in UNUSED and name.rpartition(".")[2] not in shown]
    assert not new, f"nothing calls it: take it out, or use it: {new}"


def test_the_searches_find() -> None:
    assert "tutorial_lib.design.options" in seams.imports("tutorial_lib.design.build_file")
    assert "tutorial_lib.design.model" not in seams.imports("tutorial_lib.facts.legs")  # for types alone
