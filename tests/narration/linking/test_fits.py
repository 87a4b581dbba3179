"""What a value may be said of by itself."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.narration.linking import fits
from tutorial_lib.narration.linking.fits import Fits
from tutorial_lib.narration.linking.subjects import subjects_of

PLAN = facts(
    {
        "slat.length": fact(38.5, "in", "length", "slats", "slat", "slats"),
        "slat.count": fact(17, "count", "part_count", "slats", "slat", "slats"),
    }
)
SUBJECTS = subjects_of(PLAN)


@pytest.mark.parametrize(
    ("said", "equal", "slips"),
    [
        (Fraction(77, 2), True, False),
        (Fraction(77, 2) + Fraction(1, 64), True, False),  # what a tape shows
        (Fraction(77, 2) + Fraction(1, 32), False, True),
        (Fraction(77), False, True),  # twice
        (Fraction(78), False, False),
    ],
)
def test_a_length_is_the_facts_own_or_a_slip_about_it_up_to_twice(said: Fraction, equal: bool, slips: bool) -> None:
    found, right = Fits(SUBJECTS).of(((said, "in"),))
    assert [(fit.subject.key, fit.equal, fit.slips) for fit in found] == [("slat.length", equal, slips)]
    assert right.kinds == ({"length"} if equal else set())
    assert right.parts == ({s.group for s in SUBJECTS} if equal else set())


def test_five_times_a_facts_value_is_not_about_it() -> None:
    known = Fits(SUBJECTS)
    assert known.of(((Fraction(192), "in"),))[0] and not known.of(((Fraction(193), "in"),))[0]


def test_the_facts_come_in_the_order_of_the_readings() -> None:
    both = ((Fraction(18), "count"), (Fraction(30), "in"))
    assert [fit.subject.key for fit in Fits(SUBJECTS).of(both)[0]] == ["slat.count", "slat.length"]
    assert [fit.subject.key for fit in Fits(SUBJECTS).of(both[::-1])[0]] == ["slat.length", "slat.count"]


def test_no_more_values_are_remembered_than_a_talk_has(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fits, "REMEMBERED", 3)
    known = Fits(SUBJECTS)
    for value in range(20):
        known.of(((Fraction(value), "count"),))
        assert len(known.known) <= 3
    assert known.of(((Fraction(17), "count"),))[1].kinds == {"part_count"}
