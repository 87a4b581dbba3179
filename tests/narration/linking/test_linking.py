"""Claims are linked by what they speak of, also where the value points elsewhere."""

from __future__ import annotations

from typing import Any

import pytest

from tests.narration.plans import fact, facts, told
from tutorial_lib.narration import check, read_captions

PLAN = facts(
    {
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
)


def linked(text: str) -> dict[str, tuple[str | None, str]]:
    """What is told by quote."""
    return {i.quote: told(i) for i in check(read_captions(text), PLAN).items}


@pytest.mark.parametrize(
    ("said", "quote", "expected"),
    [
        ("Lay out the slats. You need sixteen slats.", "sixteen", ("slat.count", "wrong")),
        (
            "Every slat gets six screws, and seventeen times six is ninety.",
            "ninety",
            ("slat.screw_total", "wrong"),
        ),
        ("Use 1 1/2 inch screws for the cleats.", "1 1/2 inch", ("cleat.screw_length", "wrong")),
        (
            "Three coats of varnish, and you wait ten hours between coats.",
            "ten hours",
            ("finish.recoat", "wrong"),
        ),
        ("Then the dividers, cut them at 52 1/2.", "52 1/2", ("divider.length", "right")),
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


@pytest.mark.parametrize(
    "said",
    [
        "Six screws to a slat, two at each end and two in the middle.",  # a share of a count
        "The slats are down. The angle brackets take five screws per bracket.",  # a thing the plan lacks
        "A king would want twenty slats, and the slats of my last bed were 30 wide.",  # other beds
        "The cleats are 81 long from the side rails to the wall, about 900 pages.",  # absurd pairs
    ],
)
def test_no_sure_alarm(said: str) -> None:
    assert check(read_captions(said), PLAN).conflicts == ()


def test_a_named_part_beats_a_value() -> None:
    """Two lengths exchanged, each said beside the other part's name: wrong twice, though each is some fact's."""
    plan = facts(
        {
            "side_rail.length": fact(78.75, "in", "length", "2x6 side rail", "side rail", "side rails"),
            "end_rail.length": fact(38.5, "in", "length", "2x6 end rail", "end rail", "end rails"),
            "slat.count": fact(14, "count", "part_count", "slats", "slat"),
        }
    )
    wrong = "Cut the side rails at 38 1/2. The end rails are 78 3/4."
    assert [(i.subject, i.verdict) for i in check(read_captions(wrong), plan).items] == [
        ("side_rail.length", "conflicts"),
        ("end_rail.length", "conflicts"),
    ]
    right = "Cut the side rails at 78 3/4. The end rails are 38 1/2."
    assert [told(i) for i in check(read_captions(right), plan).items] == [
        ("side_rail.length", "right"),
        ("end_rail.length", "right"),
    ]


def test_absurd_pairs_are_not_offered() -> None:
    """A ratio over two that is no factor of a unit is no slip: nothing is compared with a thickness or a bit."""
    plan = facts(
        {
            "slat.thickness": fact(0.75, "in", "section", "actual 1x4 thickness", "slat"),
            "slat.screw_length": fact(1.5, "in", "screw_length", "slat screw", "slat"),
            "slat.pilot": fact(0.125, "in", "diameter", "pilot bit for the slat screw", "slat"),
        }
    )
    for item in check(read_captions("The slats, 80 inches of them. Slat screws, 5 inches."), plan).items:
        assert item.verdict in ("not_in_plan", "not_a_claim")


def test_links_do_not_hang_on_other_talks() -> None:
    """The same words give the same links, whatever was checked before."""
    first = linked("You need seventeen slats.")
    check(read_captions("Side rails, 81. Cleats, 2 1/4 down."), PLAN)
    assert linked("You need seventeen slats.") == first


def test_prices_beside_lengths() -> None:
    got: dict[str, Any] = linked("That was 38 pounds, 965 mil of it, and $90, 3 feet.")
    assert len(got) >= 4


def test_a_length_in_feet_names_no_foot_board() -> None:
    plan = facts(
        {
            "foot_board.length": fact(38.75, "in", "length", "2x6 foot board", "foot board"),
            "slat.length": fact(38.5, "in", "length", "1x4 slat", "slat", "slats"),
        }
    )
    said = "Then the slats. Two out of every 8 foot board, they are 38 and a half."
    (length,) = [i for i in check(read_captions(said), plan).items if i.quote == "38 and a half"]
    assert told(length) == ("slat.length", "right")
    (feet,) = [i for i in check(read_captions(said), plan).items if i.quote == "8 foot"]
    assert feet.value == (96,)


def test_pieces_are_no_gaps() -> None:
    """The plan has as many gaps as pieces are said, but a gap is no piece."""
    got = linked("Slats at 20 inches? No. For the slats I cut and cut, sixteen pieces.")
    assert got["sixteen"][0] != "slat.gap_count"
    assert linked("There are sixteen gaps between the slats.")["sixteen"] == ("slat.gap_count", "right")


def test_a_heading_names_what_is_counted_after_it() -> None:
    assert linked("Slats. Sixteen of them out of the one by four.")["Sixteen"] == ("slat.count", "wrong")
    assert linked("Slats. Seventeen of them out of the one by four.")["Seventeen"] == ("slat.count", "right")


EACH = facts(
    {
        "corner.screws_each": fact(3, "count", "screw_count", "screws in one corner", "corner screw", "corner"),
        "corner_leg.screws_each": fact(4, "count", "screw_count", "screws in one corner leg", "corner leg", "leg"),
        "corner_leg.height": fact(11.25, "in", "height", "2x4 corner leg", "corner leg", "leg"),
    }
)


@pytest.mark.parametrize(
    ("said", "verdict"),
    [
        ("The legs are eleven and a quarter. Now four screws in each corner.", "unsure"),
        ("The legs are eleven and a quarter. Now four screws in each corner leg.", "agrees"),
        ("The legs are eleven and a quarter. Now three screws in each corner.", "agrees"),
    ],
)
def test_so_many_in_each_are_of_the_part_named(said: str, verdict: str) -> None:
    assert check(read_captions(said), EACH).items[-1].verdict == verdict


@pytest.mark.parametrize(
    "said", ["My helper is quick and he's sixty-one and deaf.", "She slept on it until she was ninety-one."]
)
def test_an_age_is_no_claim(said: str) -> None:
    assert [i.verdict for i in check(read_captions(said), PLAN).items] == ["not_a_claim"]


def test_what_is_no_age_stays_a_claim() -> None:
    assert linked("The side rail, he's eighty-one inches long.")["eighty-one inches"][0] == "side_rail.length"
