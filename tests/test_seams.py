"""The seams of the package: no circles, no long rows of values by position, nothing that nobody calls."""

from __future__ import annotations

from pathlib import Path

from tests import seams


def test_no_module_is_imported_by_what_it_imports() -> None:
    assert seams.circles() == []


def test_long_records_are_filled_by_name() -> None:
    wide = seams.wide_records()
    assert not wide, f"more than five fields: make them kw_only (or KW_ONLY after the fifth): {wide}"


def test_everything_has_a_caller(root: Path) -> None:
    shown = "".join(path.read_text(encoding="utf-8") for path in sorted((root / "notebooks").glob("*.ipynb")))
    idle = [name for name in seams.unused() if name.rpartition(".")[2] not in shown]
    assert not idle, f"nothing calls it: take it out, or use it: {idle}"


def test_the_searches_find() -> None:
    assert "tutorial_lib.design.options" in seams.imports("tutorial_lib.design.build_file")
    assert "tutorial_lib.design.model" not in seams.imports("tutorial_lib.facts.legs")  # for types alone
