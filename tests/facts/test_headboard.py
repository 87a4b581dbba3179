"""The facts of a headboard equal what was worked out by hand."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from tests.design.builds import demo
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import plan

GALLERY = Path(__file__).parents[2] / "assets" / "builds" / "gallery"


def test_a_headboard_of_four_boards_by_hand() -> None:
    made = plan(change(demo(), {"headboard.kind": "boards", "mattress.thickness": "10 in"}))
    facts = facts_of(made, ["design"])
    rail, top = 17, 40  # rail top above the floor; 26 in to the mattress's top and 14 in over it
    assert (facts["headboard.height"].value, facts["headboard.over"].value) == (top, 14)
    gap = (top - rail - 4 * Fraction(11, 2)) / 4
    assert facts["headboard.gap"].value == gap == Fraction(1, 4)
    assert facts["headboard.marks"].value == tuple(gap + i * (gap + Fraction(11, 2)) for i in range(4))


def test_a_price_of_the_uprights_bolts_leaves_them_bolts_and_screws_have_their_facts_too() -> None:
    king = read_build((GALLERY / "king-two-lines.toml").read_text(encoding="utf-8"))
    priced = change(king, {"screws.upright.price": "5.00"})
    assert priced.screws.upright.kind == king.screws.upright.kind == "carriage bolt"
    screwed = facts_of(plan(change(king, {"screws.upright.kind": "wood screw"})), ["drilling"])
    assert screwed["upright.screw_length"].what == "headboard upright screw"


def test_a_headboard_of_eight_slats_between_posts_by_hand() -> None:
    twin = read_build((GALLERY / "twin-headboard.toml").read_text(encoding="utf-8"))
    facts = facts_of(plan(twin), ["design"])
    room, wide = Fraction(147, 4), Fraction(5, 2)  # 36 3/4 in between the posts
    gap = (room - 8 * wide) / 9
    assert facts["headboard_slat.gap"].value == gap
    assert facts["headboard_slat.gap"].working == "(36 3/4 in − 8 × 2 1/2 in) / 9 = 1 7/8 in"
    assert facts["headboard_slat.marks"].value == tuple(gap + i * (gap + wide) for i in range(8))
