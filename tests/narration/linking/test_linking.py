"""Claims are linked by what they speak of, also where the value points elsewhere."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.narration.verdicts.test_verdicts import fact
from tutorial_lib.narration import check, read_captions
from tutorial_lib.narration.linking.chain import Candidate, untangled
from tutorial_lib.narration.linking.subjects import subject

MM = Fraction(5, 127)  # [in]
PLAN = {
    "name": "t",
    "title": "t",
    "units": "in",
    "quantities": {
        "slat.count": fact(17, "count", "part_count", "slats", "slat", "slats"),
        "slat.gap_count": fact(16, "count", "gap_count", "gaps between the slats", "slat", "slats"),
        "slat.screws_each": fact(6, "count", "screw_count", "screws in one slat", "slat", "slats"),
        "slat.screw_total": fact(102, "count", "screw_count", "slat screws in all", "slat", "slats"),
        "cleat.drop": fact(2.25, "in", "distance", "top of cleat below top of rail", "cleat", "cleats"),
        "cleat.screw_inset": fact(1.5, "in", "distance", "first cleat screw in from the end", "cleat", "cleats"),
        "cleat.screw_length": fact(2.5, "in", "screw_length", "cleat to rail", "cleat", "cleats"),
        "side_rail.length": fact(81, "in", "length", "2x6 side rail", "side rail", "side rails"),
        "divider.length": fact(52.5, "in", "length", "2x6 divider", "shelf divider", "shelf dividers"),
        "finish.coats": fact(3, "count", "coats", "coats of varnish"),
        "finish.recoat": fact(6, "h", "time", "hours between coats"),
    },
}


def linked(text: str) -> dict[str, tuple[str | None, str]]:
    """Subject and verdict by quote."""
    return {i.quote: (i.subject, i.verdict) for i in check(read_captions(text), PLAN).items}


@pytest.mark.parametrize(
    ("said", "quote", "expected"),
    [
        ("Lay out the slats. You need sixteen slats.", "sixteen", ("slat.count", "conflicts")),
        (
            "Every slat gets six screws, and seventeen times six is ninety.",
            "ninety",
            ("slat.screw_total", "conflicts"),
        ),
        ("Cleats next. The top of the cleat is 1 1/2 down from the top.", "1 1/2", ("cleat.drop", "conflicts")),
        ("Use 1 1/2 inch screws for the cleats.", "1 1/2 inch", ("cleat.screw_length", "conflicts")),
        (
            "Three coats of varnish, and you wait sixteen hours between coats.",
            "sixteen hours",
            ("finish.recoat", "conflicts"),
        ),
        ("Then the dividers, cut them at 52 1/2.", "52 1/2", ("divider.length", "agrees")),
    ],
)
def test_the_words_tell_the_subject(said: str, quote: str, expected: tuple[str, str]) -> None:
    assert linked(said)[quote] == expected


@pytest.mark.parametrize(
    "said",
    [
        "Three coats and you wait six hours between coats.",
        "You'll have sixteen gaps and no gap is too wide. Seventeen slats.",
        "The side rails are 81, so I'd check that against the wall, 90 of it.",
    ],
)
def test_a_wait_a_no_and_a_check_take_nothing_back(said: str) -> None:
    reasons = [i.why for i in check(read_captions(said), PLAN).items]
    assert not [why for why in reasons if "taken back" in why]


def test_a_share_of_a_count_is_no_claim() -> None:
    said = "Six screws to a slat, two at each end and two in the middle."
    assert [v for q, (_, v) in linked(said).items() if q == "two"] == ["not_a_claim"]


def test_screws_of_a_thing_the_plan_lacks_raise_no_alarm() -> None:
    got = linked("The slats are down. The angle brackets take five screws per bracket.")
    assert got["five"][1] != "conflicts"


def test_links_do_not_hang_on_other_talks() -> None:
    """The same words give the same links, whatever was checked before."""
    first = linked("You need seventeen slats.")
    check(read_captions("Side rails, 81. Cleats, 2 1/4 down."), PLAN)
    assert linked("You need seventeen slats.") == first


def test_prices_beside_lengths() -> None:
    got: dict[str, Any] = linked("That was 38 pounds, 965 mil of it, and $90, 3 feet.")
    assert len(got) >= 4


def test_two_stock_lengths_each_right_for_the_other_change_places() -> None:
    short, long = (
        subject(f"stock.{name}", fact(value, "mm", "stock_length", f"{name} of 22x95"))
        for name, value in (("3 m", 3000), ("3.6 m", 3600))
    )
    assert short and long
    first, second = (Fraction(3000) * MM, "in"), (Fraction(3600) * MM, "in")
    picked = untangled([Candidate(long, first, 0.0), Candidate(short, second, 0.0)])
    assert [(p.subject, p.equal) for p in picked] == [(short, True), (long, True)]
    kept = [Candidate(short, first, 0.0, (), True), Candidate(short, second, 0.0)]
    assert untangled(kept) == kept
