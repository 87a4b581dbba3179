"""README.md is what the checks say now, and no number is counted twice."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from tests.validation.printed import all_printed
from tests.validation.readme import readme


def test_the_readme_is_current():
    """Else write it anew: python -m tests.validation.readme"""
    assert (Path(__file__).parent / "README.md").read_text(encoding="utf-8") == readme()


def test_no_number_counts_twice():
    twice = [what for what, count in Counter((c.source.title, str(c)) for c in all_printed()).items() if count > 1]
    assert twice == []


def test_enough_numbers_from_enough_works():
    printed = all_printed()
    seen = [cell for cell in printed if cell.source.state == "seen"]
    assert len(seen) >= 200 and len(printed) >= 300
    assert len({cell.source.title for cell in printed}) >= 12
