"""Writes README.md: every source, how many of its numbers our calculation meets, and how well.

python -m tests.validation.readme
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable
from pathlib import Path

from tests.validation.printed import Printed, Source, all_printed

HERE = Path(__file__).parent
REFERENCE = HERE.parent / "data" / "reference"
OTHERS = {"screw_lateral_check.csv", "screw_withdrawal_check.csv", "worked_examples.csv"}
WORDS = {"seen": "seen", "from memory": "from memory", "pinned": "pinned in a public test"}


def readme() -> str:
    """The whole text."""
    printed = all_printed()
    seen = [cell for cell in printed if cell.source.state == "seen"]
    titles, known = ({cell.source.title for cell in cells} for cells in (printed, seen))
    rows = [_row(source, cells) for source, cells in _by_source(printed)]
    return "\n".join(
        [
            "# Printed numbers that our calculation meets",
            "",
            f"{len(printed)} numbers of {len(titles)} works: {len(seen)} were seen in print or in a transcription "
            f"({len(known)} works), {len(printed) - len(seen)} are remembered or pinned by a public test.",
            "A number counts once, and only where our calculation makes it. Tables that are merely typed are compared "
            f"cell by cell in `tests/tables`: {_typed()} numbers, not counted here.",
            "",
            "| source | edition | where | numbers | worst deviation | seen? | its rounding, our tolerance |",
            "|---|---|---|---|---|---|---|",
            *rows,
            "",
            "No printed number was found for the combined load of NDS Eq. 12.4-1; it is tested by its limits and its "
            "symmetry (`tests/strength`).",
            "Structures as a whole are held against a general structural library and by hand in `test_grillage.py` and "
            "`test_strength_by_hand.py`; open areas against a mesh library in `test_mesh_areas.py`.",
            "",
            "Written by `python -m tests.validation.readme`; a test says when it is out of date.",
            "",
        ]
    )


def _by_source(printed: Iterable[Printed]) -> list[tuple[Source, list[Printed]]]:
    found: dict[Source, list[Printed]] = {}
    for cell in printed:
        found.setdefault(cell.source, []).append(cell)
    return sorted(found.items(), key=lambda pair: (pair[0].title, pair[0].state != "seen", pair[0].place))


def _row(source: Source, cells: list[Printed]) -> str:
    worst = max(cell.deviation for cell in cells)
    told = "none" if worst < 5e-6 else f"{max(worst, 1e-4):.2%}"
    return (
        f"| {source.title} | {source.edition} | {source.place} | {len(cells)} | {told} | {WORDS[source.state]} "
        f"| {source.rounding} |"
    )


def _typed() -> int:
    """Cells with a figure in the tables that ship, source and notes left out."""
    count = 0
    for path in sorted(REFERENCE.glob("*.csv")):
        if path.name not in OTHERS:
            with path.open(encoding="utf-8", newline="") as file:
                for row in csv.DictReader(file):
                    count += sum(_figure(head, cell) for head, cell in row.items())
    return count


def _figure(head: str, cell: str) -> bool:
    told = head.startswith(("source", "status", "note", "condition", "size", "variant"))
    return not told and bool(re.fullmatch(r"P?-?\d*[.]?\d+([-/]\d+)*(-\d+/\d+)?", cell or ""))


if __name__ == "__main__":
    (HERE / "README.md").write_text(readme(), encoding="utf-8")
