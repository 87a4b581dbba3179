"""What settles by itself that a number is wrong, whatever else its value is right for."""

from __future__ import annotations

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.narration import check, read_captions

PLAN = facts(
    {
        "slat.count": fact(17, "count", "part_count", "slats", "slat", "slats"),
        "slat.length": fact(38.25, "in", "length", "1x4 slat", "slat", "slats"),
        "slat.screws_each": fact(4, "count", "screw_count", "screws in one slat", "slat", "slats"),
        "slat.screw_total": fact(68, "count", "screw_count", "slat screws in all", "slat", "slats"),
        "slat.per_board": fact(
            2, "count", "pieces_per_board", "slats out of one 8-ft 1x4", "slat", "slats", board=("1x4", 96)
        ),
        "stock.1x4x8.count": fact(9, "count", "stock_count", "8-ft 1x4", board=("1x4", 96)),
        "stock.1x4x8.length": fact(96, "in", "stock_length", "8-ft 1x4", board=("1x4", 96)),
        "leg.count": fact(9, "count", "part_count", "legs", "leg", "legs"),
        "leg.height": fact(13.75, "in", "length", "4x4 leg", "leg", "legs"),
        "side_rail.length": fact(78.75, "in", "length", "2x6 side rail", "side rail", "side rails"),
        "end_rail.length": fact(38.5, "in", "length", "2x6 end rail", "end rail", "end rails"),
    }
)


def wrong(text: str) -> dict[str, str | None]:
    """What is told as a sure conflict, with the fact it speaks of."""
    return {i.quote: i.subject for i in check(read_captions(text), PLAN).conflicts}


@pytest.mark.parametrize(
    ("said", "quote", "subject"),
    [
        ("Every slat gets four screws, and seventeen times four is 60.", "60", "slat.screw_total"),
        ("We need seventeen slats, two from each board, so eight boards.", "eight", "stock.1x4x8.count"),
        ("The slats are 38 1/4 inches long, that's 917 millimetres.", "917 millimetres", "slat.length"),
    ],
)
def test_a_wrong_sum_too_few_boards_and_a_wrong_conversion_are_sure(said: str, quote: str, subject: str) -> None:
    assert wrong(said).get(quote) == subject


@pytest.mark.parametrize(
    "said",
    [
        "Every slat gets four screws, and seventeen times four is 68.",
        "We need seventeen slats, two from each board, so nine boards.",
        "The slats are 38 1/4 inches long, that's 972 millimetres.",
        "Every slat gets four screws, so seventeen times four is 60. No, 68.",
    ],
)
def test_what_comes_out_right_or_is_corrected_is_no_conflict(said: str) -> None:
    assert not wrong(said)


def test_two_values_in_each_others_place_are_both_wrong() -> None:
    assert wrong("Cut the side rails at 38 1/2. The end rails are 78 3/4.") == {
        "38 1/2": "side_rail.length",
        "78 3/4": "end_rail.length",
    }
    assert wrong("So that's sixteen screws. You want 17 legs and nine slats.").keys() >= {"17", "nine"}


def test_the_other_half_of_an_exchange_is_asked_about() -> None:
    items = check(
        read_captions("Now two of those for underneath, two at 38 1/4, and the slats are 38 1/2."), PLAN
    ).items
    verdicts = {i.quote: (i.verdict, {c.subject for c in i.choices}) for i in items}
    assert verdicts["38 1/2"] == ("conflicts", set())
    assert verdicts["38 1/4"][0] == "unsure" and "end_rail.length" in verdicts["38 1/4"][1]


LEGS = facts(
    {
        "corner_leg.height": fact(302, "mm", "length", "45x95 corner leg", "corner leg", "outer leg"),
        "corner_leg.count": fact(6, "count", "part_count", "corner legs", "corner leg", "outer leg"),
        "line_leg.height": fact(252, "mm", "length", "45x95 centre leg", "centre leg", "inner leg"),
        "line_leg.count": fact(3, "count", "part_count", "centre legs", "centre leg", "inner leg"),
    },
    "mm",
)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Twelve boards at 252 and six at 302.", {"252": "corner_leg.height", "302": "line_leg.height"}),
        ("Twelve boards at 302 and six at 252.", {}),
        ("Ten boards at 252 and six at 302.", {}),  # no exchange explains these counts
        ("Six boards at 252 and six at 302.", {}),
    ],
)
def test_lengths_whose_counts_are_each_others_have_changed_places(said: str, expected: dict[str, str]) -> None:
    talk = f"Now the legs, each is two boards side by side. {said} That is all for the legs."
    assert {i.quote: i.subject for i in check(read_captions(talk), LEGS).conflicts} == expected


def test_two_values_exchanged_at_far_ends_of_a_talk_are_asked_about() -> None:
    between = " ".join(f"The legs are 13 3/4, that's leg number {n}." for n in range(1, 9))
    talk = (
        f"Now the side rails, cut the side rails at 38 1/2. {between} And the end rails, cut the end rails at 78 3/4."
    )
    items = {i.quote: i for i in check(read_captions(talk), PLAN).items}
    for quote, meant in (("38 1/2", "side_rail.length"), ("78 3/4", "end_rail.length")):
        assert items[quote].verdict in ("unsure", "conflicts")
        assert meant in (items[quote].subject, *(c.subject for c in items[quote].choices if c.verdict == "conflicts"))


SPINE = facts(
    {
        "frame.inside_width": fact(54.875, "in", "opening", "opening between side rails", "inside"),
        "spine.from_left": fact(27.4375, "in", "distance", "spine from the left rail, centre line", "spine", "center"),
        "end_rail.length": fact(54.875, "in", "length", "2x6 end rail", "end rail", "end"),
    }
)


def test_half_of_a_length_and_a_length_said_again_are_no_exchange() -> None:
    said = "The spine goes down the center and it's half of 54 and 7/8 which is 27 and 7/16. "
    said += "I used my phone for that, okay, so 27 and 7/16 at your end. Yep, 27 and 7/16 at mine."
    assert not check(read_captions(said), SPINE).conflicts
