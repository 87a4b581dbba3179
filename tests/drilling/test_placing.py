"""Where the screws of a row go before they are moved out of each other's way."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.drilling.placing import Wish, free_places

LOW, HIGH = Fraction(0), Fraction(13)


def test_a_row_that_legs_stand_beside_all_along_is_screwed_all_the_same() -> None:
    beside = ((Fraction(-1), Fraction(8)), (Fraction(7), Fraction(14)))
    assert free_places(LOW, HIGH, Wish(taken=beside)) == free_places(LOW, HIGH, Wish()) == [2, Fraction(13, 2), 11]


def test_where_a_stretch_is_free_the_row_keeps_to_it() -> None:
    assert free_places(LOW, HIGH, Wish(taken=((Fraction(-1), Fraction(8)),))) == [Fraction(19, 2)]


def test_places_are_on_the_tape_s_marks_counted_from_the_nearer_end() -> None:
    high, grid = Fraction(42) + Fraction(1, 48), Fraction(1, 16)
    wish = Wish(end_distance=Fraction(2), greatest=Fraction(7), taken=((Fraction(18), Fraction(24)),))
    places = free_places(LOW, high, wish, grid)
    near, far = ([x for x in places if (x < high / 2) == first] for first in (True, False))
    assert len(near) >= 3 and len(far) >= 3
    assert all(x % grid == 0 for x in near) and all((high - x) % grid == 0 for x in far)
