"""What a number is that is no claim about the bed."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import check, read_captions
from tutorial_lib.plan import Plan

FACTS = facts_of(Plan(demo()))


@pytest.mark.parametrize(
    ("said", "verdict"),
    [
        ("the first time i cut these legs at ten and a half", "not_a_claim"),
        ("the first time you cut these legs set the stop at thirteen and three quarters", "agrees"),
        ("this time i cut these legs at ten and a half", "conflicts"),
    ],
)
def test_what_was_tried_before_is_not_this_build(said: str, verdict: str) -> None:
    item = next(item for item in check(read_captions(said), FACTS).items if item.value and item.value[0] > 5)
    assert item.verdict == verdict
    assert verdict != "not_a_claim" or item.why == "an earlier try, not this build"
