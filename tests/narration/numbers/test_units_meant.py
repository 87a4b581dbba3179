"""The unit of a number said without one."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.narration.plans import fact, facts, told
from tutorial_lib.narration import check, read_captions

INCHES = facts(
    {
        "post.height": fact(42, "in", "height", "tall post", "tall post", "tall posts"),
        "mattress.width": fact(54, "in", "mattress_size", "mattress width", "mattress"),
        "mattress.length": fact(75, "in", "mattress_size", "mattress length", "mattress"),
    },
)
MILLIMETRES = facts(
    {
        "rail.length": fact(2070, "mm", "length", "long plank", "long plank", "long planks"),
        "rail.depth": fact(180, "mm", "section", "plank depth", "plank", "planks"),
        "post.height": fact(912, "mm", "height", "post", "post", "posts"),
    },
    "mm",
)


def verdicts(text: str, plan: dict[str, object]) -> list[tuple[str, str | None, str]]:
    """Quote, subject and verdict of every number."""
    return [(i.quote, i.subject, i.verdict) for i in check(read_captions(text), plan).items]


def test_a_length_given_again_in_millimetres() -> None:
    got = verdicts("The tall posts are 42 inches, 1067, and the mattress is 54 by 75 (that's 1372 by 1905).", INCHES)
    assert [s for _, s, _ in got] == [
        "post.height",
        "post.height",
        "mattress.width",
        "mattress.length",
        "mattress.width",
        "mattress.length",
    ]
    assert {v for _, _, v in got} <= {"agrees", "rounded"}


def test_a_wrong_conversion_is_a_slip_of_the_same_length() -> None:
    items = check(read_captions("The tall posts are 42 inches, 1167."), INCHES).items
    assert (items[1].quote, *told(items[1])) == ("1167", "post.height", "wrong")


def test_a_speaker_of_centimetres_leaves_the_unit_out() -> None:
    said = "The long planks are 207 centimetres. The mattress is 200 centimetres. A plank is 18 high."
    last = check(read_captions(said), MILLIMETRES).items[-1]
    assert (last.quote, last.value, last.unit) == ("18", (Fraction(180),), "mm")
    assert (last.subject, last.verdict) == ("rail.depth", "agrees")  # the part is named, and a board on edge is so high


@pytest.mark.parametrize("said", ["cut the posts at 9 12", "cut the posts at nine twelve", "the posts are 912"])
def test_millimetres_in_two_groups(said: str) -> None:
    items = check(read_captions(said), MILLIMETRES).items
    assert [(i.value, i.verdict) for i in items] == [((Fraction(912),), "agrees")]


def test_a_price_beside_a_length_is_no_conversion() -> None:
    assert verdicts("That was 38 pounds, 965 mil of it.", MILLIMETRES)[0][1] is None


COPPER = facts(
    {
        f"part{n}.length": fact(length, "mm", "length", f"part {n}", f"part {n}", f"part {n}")
        for n, length in enumerate((1192, 1994, 1214, 2006, 2062, 1241))
    },
    "mm",
)


def test_centimetres_left_out_all_through_a_talk_are_told_by_the_plan() -> None:
    said = "It's 119.2 by 199.4, so a hole of 121.4 by 200.6. Cut this one at 206.2, and that at 206.2. At 8.25 each."
    values = [(float(i.value[0]), i.unit) for i in check(read_captions(said), COPPER).items if i.value[0] > 1]
    assert values == [*((v, "mm") for v in (1192, 1994, 1214, 2006, 2062, 2062)), (8.25, "mm")]


def test_eighths_in_a_metric_talk_are_inches() -> None:
    (item,) = check(read_captions("The bolts come from America, three eighths."), MILLIMETRES).items
    assert float(item.value[0]) == pytest.approx(9.525)


def test_an_eight_foot_post_is_no_eight_posts() -> None:
    """Also where the creator calls the legs feet."""
    plan = facts({"leg.count": fact(8, "count", "part_count", "legs", "foot", "feet", "foot post")})
    (item,) = check(read_captions("I cut them out of an 8-foot post."), plan).items
    assert (item.value, item.unit) == ((Fraction(96),), "in")
