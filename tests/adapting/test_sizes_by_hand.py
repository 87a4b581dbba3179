"""Sizes by hand under one set of choices: 3/4 in clearance in all, end rails cap, 1/4 in slat play, gaps to 2 1/4.

Opening = mattress + 3/4 on the tape's grid; outside = opening + 2 x 1 1/2; side rail = opening length (ends cap it);
end rail = outside width; slat = opening - 1/2; the fewest 3 1/2 slats whose gaps are at most 2 1/4.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import changed
from tutorial_lib.measures import inch, read_length
from tutorial_lib.plan import plan

CHOICES = {
    "clearance__side": "3/8 in", "clearance__end": "3/8 in", "frame__corners": "end rails cap", "slats__play": "1/4 in",
    "centre__lines": 1, "support__end_play": None,
}  # fmt: skip
BY_HAND = [  # mattress, opening, outside, side rail, end rail, slat, slats, gap
    ("38 in", "75 in", "38 3/4", "75 3/4", "41 3/4", "78 3/4", "38 1/4", 14, 2.058),
    ("38 in", "80 in", "38 3/4", "80 3/4", "41 3/4", "83 3/4", "38 1/4", 15, 2.018),
    ("53 in", "75 in", "53 3/4", "75 3/4", "56 3/4", "78 3/4", "53 1/4", 14, 2.058),
    ("60 in", "80 in", "60 3/4", "80 3/4", "63 3/4", "83 3/4", "60 1/4", 15, 2.018),
    ("76 in", "80 in", "76 3/4", "80 3/4", "79 3/4", "83 3/4", "76 1/4", 15, 2.018),
    ("72 in", "84 in", "72 3/4", "84 3/4", "75 3/4", "87 3/4", "72 1/4", 16, 1.917),
    ("1400 mm", "2000 mm", "55 7/8", "79 1/2", "58 7/8", "82 1/2", "55 3/8", 15, 1.929),
    ("1600 mm", "2000 mm", "63 3/4", "79 1/2", "66 3/4", "82 1/2", "63 1/4", 15, 1.929),
    ("1800 mm", "2000 mm", "71 5/8", "79 1/2", "74 5/8", "82 1/2", "71 1/8", 15, 1.929),
]


@pytest.mark.parametrize(
    ("width", "length", "inside", "long", "outside", "whole", "slat", "count", "gap"), BY_HAND, ids=lambda v: str(v)
)
def test_sizes(
    width: str, length: str, inside: str, long: str, outside: str, whole: str, slat: str, count: int, gap: float
) -> None:
    build = plan(changed(mattress__width=width, mattress__length=length, **CHOICES)).build
    assert build.mattress == (read_length(width), read_length(length))
    assert build.opening == (inch(inside), inch(long))
    assert build.outside == (inch(outside), inch(whole))
    assert build.part("side_rail").length == inch(long) and build.part("end_rail").length == inch(outside)
    assert build.part("slat").length == inch(slat)
    assert build.slats.count == count
    assert abs(build.slats.gap - Fraction(str(gap))) < Fraction(1, 1000)
