"""Which facts a number may be a slip about."""

from __future__ import annotations

from tests.narration.plans import fact, facts
from tutorial_lib.narration import read_captions
from tutorial_lib.narration.linking.hearing import hear
from tutorial_lib.narration.linking.subjects import subjects_of
from tutorial_lib.narration.verdicts.checking import overview
from tutorial_lib.narration.verdicts.suspicion import Overview

PLAN = facts(
    {
        "frame.width": fact(62, "in", "length", "outside width", "frame", "bed"),
        "frame.length": fact(82, "in", "length", "outside length", "frame", "bed"),
    }
)


def seen(text: str) -> Overview:
    """A talk with what its numbers may be about."""
    subjects = subjects_of(PLAN)
    return overview(hear(read_captions(text), subjects, "in", frozenset()), subjects, "in")


def suspected(text: str) -> list[set[str]]:
    """The facts each number may be a slip about."""
    found = seen(text)
    return [{w.key for w, _ in found.suspects(at)} for at in range(len(found.rows))]


def test_the_second_of_a_pair_is_no_slip_about_what_the_first_was_right_for() -> None:
    assert suspected("Outside the frame is sixty-two by eighty-two.")[1] == set()


def test_a_pair_the_other_way_round_or_wrong_stays_suspect() -> None:
    exchanged = suspected("Outside the frame is eighty-two wide by sixty-two long.")
    assert "frame.width" in exchanged[0] and "frame.length" in exchanged[1]
    assert "frame.length" in suspected("Outside the frame is sixty-two by eighty.")[1]


def test_two_numbers_that_are_no_pair_stay_suspect() -> None:
    assert "frame.width" in suspected("Outside the frame is sixty-two wide. The width of the frame is eighty-two.")[1]
