"""The check report and all sizes as lists."""

from __future__ import annotations

from fractions import Fraction

from tests.design.builds import demo
from tutorial_lib.adapting.family import family
from tutorial_lib.facts import facts_of
from tutorial_lib.lists.sizes import all_sizes
from tutorial_lib.lists.talk import check_report
from tutorial_lib.narration import check, read_captions
from tutorial_lib.plan import Plan


def test_a_check_has_one_row_a_number(root):
    talk = read_captions((root / "assets/captions/spare-room-twin.vtt").read_bytes(), "t.vtt")
    report = check(talk, facts_of(Plan(demo())))
    table = check_report(report)
    assert len(table.rows) == len(report.items)
    conflicts = [row for row in table.rows if row[7] == "conflicts"]
    assert conflicts and all(row[6] not in (None, 0) for row in conflicts)


def test_a_family_has_one_row_a_size():
    table = all_sizes(family(demo(), ["US twin", "US full"]), "in", "usd")
    assert [row[0] for row in table.rows] == ["US twin", "US full"]
    assert table.rows[1][2] == Fraction(53) and str(table.rows[1][2]) == "53"
    slat = table.heads.index("slat, length (in)")
    assert (table.rows[1][slat - 1], str(table.rows[1][slat])) == (14, "53 1/4")
    assert isinstance(table.rows[1][table.heads.index("lumber (USD)")], Fraction)
