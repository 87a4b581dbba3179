"""Facts of the assembly: what the wood does from the yard to the room."""

from __future__ import annotations

from fractions import Fraction

from tests.design.builds import demo
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import Plan


def test_the_dried_gap_is_that_of_the_room_not_of_summer() -> None:
    plan = Plan(demo())
    built, dried, summer = plan.assembly.movement.gap
    facts = facts_of(plan, ["design", "assembly"])
    assert facts["slat.gap"].value == built == Fraction(107, 52)
    assert facts["slat.gap.dried"].value == dried > built and summer != dried
