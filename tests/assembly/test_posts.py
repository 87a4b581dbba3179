"""A bed on corner posts is put together standing: ends first, then the side rails, and never turned over."""

from __future__ import annotations

import pytest

from tests.assembly import doable
from tests.design.posts import bolted, hooked, on_posts
from tutorial_lib.plan import Plan


@pytest.mark.parametrize("options", [on_posts(), hooked(), bolted(), on_posts(legs__per_side=2, centre__lines=0)])
def test_ends_come_first_then_the_side_rails_and_nothing_is_turned(options) -> None:
    assembly = Plan(options).assembly
    keys = [step.key for step in assembly.steps]
    assert keys.index("end") < keys.index("corner") < keys.index("slat")
    assert assembly.turns == 0
    assert not [finding for finding in assembly.findings if finding.severity != "note"]


def test_the_steps_can_be_done_as_printed() -> None:
    assert list(doable.failures(Plan(on_posts()))) == []


def test_places_are_told_from_what_the_maker_has_before_them() -> None:
    steps = {step.key: " ".join(step.do) for step in Plan(on_posts()).assembly.steps}
    assert "their lower ends 9 in up from the post's foot, their outer edges 2 in from" in steps["post"]
    assert "at 37 1/8 in from the head end of the side rail" in steps["leg"]
    assert "at 26 1/8 in from the end rails' left ends" in steps["line"]


def test_a_headboard_is_made_up_with_the_head_end() -> None:
    assembly = Plan(on_posts(headboard__kind="boards")).assembly
    steps = {step.key: " ".join(step.do) for step in assembly.steps}
    keys = list(steps)
    assert keys.index("post") < keys.index("end") < keys.index("panel") < keys.index("corner")
    assert "its lower end 16 1/4 in up from the post's foot, flush with the post's back" in steps["post"]
    assert "lower edges at 1/8, 5 3/4, 11 3/8, 17 in above the end rail's top edge" in steps["panel"]
    assert not [finding for finding in assembly.findings if finding.severity != "note"]
