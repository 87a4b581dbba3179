"""The seams of the package: no circles, no long rows of values by position, nothing that nobody calls."""

from __future__ import annotations

import re
from pathlib import Path

from tests import seams


def test_no_module_is_imported_by_what_it_imports() -> None:
    assert seams.circles() == []


def test_long_records_are_filled_by_name() -> None:
    wide = seams.wide_records()
    assert not wide, f"more than five fields: make them kw_only (or KW_ONLY after the fifth): {wide}"


def test_everything_has_a_caller(root: Path) -> None:
    places = ((root / "notebooks").glob("*.ipynb"), (root / "tutorial_lib" / "site" / "static").glob("*.js"))
    shown = "".join(path.read_text(encoding="utf-8") for found in places for path in sorted(found))
    idle = [name for name in seams.unused() if name.rpartition(".")[2] not in shown]
    assert not idle, f"nothing calls it: take it out, or use it: {idle}"


# What reads what others wrote: the person's files, words and clicks, tables, captions, other libraries' messages.
READERS = re.compile(
    r"^(bootstrap|errors|files|remembered)\.py|^(tables|measures|narration|cli)/|^design/(build_file|faults|toml_faults|values)\."
    r"|^facts/facts_file\.|^lists/written\.|^cutting/(parts_list|money)\.|^adapting/(own_boards|viewer|tracks|metric)\."
    r"|^workbook/(current|values|frames|sections)\.|^drawing/(mpl|lettering|svg)\.|^finishing/coats\."
    r"|^publishing/(corrections|same_words|chapters|labels|vector|kit/|booklet/video|plates/kinds)|^adapting/comparison\."
    r"|^site/(folder|form|parts)\."
)


def test_no_text_of_ours_is_cut_apart(root: Path) -> None:
    """Numbers and names are carried in fields; a dotted key of the build file or of a fact may be taken apart."""
    found = [f"{name}:{line} {call}" for name, line, call in seams.cuts() if not READERS.match(name)]
    assert not found, f"carry a field instead: {found}"


def test_the_searches_find() -> None:
    assert seams.cut_in("label.rsplit(' ', 1); key.split('.'); re.search('x', what); 'a b'.split()") == [
        (1, "label.rsplit(' ', 1)"), (1, "re.search('x', what)"),
    ]  # fmt: skip
    assert "tutorial_lib.design.options" in seams.imports("tutorial_lib.design.build_file")
    assert "tutorial_lib.design.model" not in seams.imports("tutorial_lib.facts.legs")  # for types alone
