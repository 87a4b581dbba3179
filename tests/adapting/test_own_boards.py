"""Boards at hand: read as people say them, used first, never bought."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import demo
from tutorial_lib.adapting import adapt
from tutorial_lib.adapting.own_boards import OwnBoards, read_own_boards, with_own_boards
from tutorial_lib.errors import InputError


@pytest.mark.parametrize(
    ("text", "boards"),
    [
        ("10 of 2x4, 92 1/2in, actual 1 1/2 x 3 7/16",
         [OwnBoards(10, "2x4", Fraction(185, 2), Fraction(3, 2), Fraction(55, 16))]),
        ("2x4, 8 ft", [OwnBoards(1, "2x4", Fraction(96))]),
        ("2 x 4, 96", [OwnBoards(1, "2x4", Fraction(96))]),
        ("3 2x4, 8'; 1 of 1 x 4, 10 ft", [OwnBoards(3, "2x4", Fraction(96)), OwnBoards(1, "1x4", Fraction(120))]),
        ("4 x 45x95, 2.4 m", [OwnBoards(4, "45x95", Fraction(12000, 127))]),
    ],
)  # fmt: skip
def test_boards_as_people_say_them(text, boards):
    assert list(read_own_boards([text])) == boards


@pytest.mark.parametrize(
    ("text", "said"),
    [("2x4", "how many, the lumber and the length"), ("10 of 2y4, 8 ft", "2x4"), ("0 of 2x4, 8 ft", "1 to 1000"),
     ("2x4, 8 ft, 3 1/2", "thickness x width"), ("2x4, -1 in", "negative"), ("2x4, 0 in", "more than 0")],
)  # fmt: skip
def test_what_cant_be_read_says_what_to_write(text, said):
    with pytest.raises(InputError, match="--have") as caught:
        read_own_boards([text])
    assert said in str(caught.value)


def test_all_faults_come_together():
    with pytest.raises(InputError) as caught:
        read_own_boards(["2x4; 1x4"])
    assert len(caught.value.faults) == 2


def test_the_shelf_and_the_shop_may_have_the_same_length():
    options = with_own_boards(demo(), read_own_boards(["2 of 2x6, 8 ft"]))
    assert [(row.length, row.at_hand) for row in options.lumber["2x6"].stock] == [(96, False), (96, True)]


def test_ten_boards_from_the_shed_are_used_and_not_bought():
    made = adapt(demo(), "king", None, read_own_boards(["10 of 2x4, 92 1/2in, actual 1 1/2 x 3 7/16"]))
    cutting = made.yours.cutting
    used = sum(boards.count for boards in cutting.own_boards)
    assert used and all(boards.section == "2x4" for boards in cutting.own_boards)
    assert not any(purchase.length == Fraction(185, 2) for purchase in cutting.shopping)
    bare = adapt(demo(), "king")
    assert made.yours.build.outside == bare.yours.build.outside


def test_a_section_all_of_it_at_hand_is_planned_as_it_was_measured():
    made = adapt(demo(), None, None, read_own_boards(["5 of 1x4, 10 ft, actual 3/4 x 3 7/16"])).yours
    assert made.build.part("slat").section.width == Fraction(55, 16)
    some = adapt(demo(), None, None, read_own_boards(["3 of 1x4, 10 ft, actual 3/4 x 3 7/16"])).yours
    assert some.build.part("slat").section.width == Fraction(7, 2)
    assert [f.rule for f in some.cutting.findings if f.rule == "own boards"] == ["own boards"]
