"""Facts of strength: ratings in whole steps, each with its working."""

from __future__ import annotations

from tests.design.builds import changed, demo
from tests.strength.test_rating import use
from tutorial_lib.facts import facts_of
from tutorial_lib.facts.strength import _use
from tutorial_lib.facts.teller import Teller
from tutorial_lib.plan import Plan


def test_the_demo_is_rated_for_its_two_people():
    found = facts_of(Plan(demo()), ["strength"])
    assert found["rating.lying"].unit == "lb"
    assert found["rating.lying"].value in (170, 220)  # by its bolts' places
    assert found["rating.sitting"].value in (120, 140)
    assert found["rating.people"].value == 2
    assert found["strength.kneeling"].value > 1  # said apart, in no rating


def test_every_fact_has_its_working_and_says_it_is_calculated():
    found = facts_of(Plan(demo()), ["strength"])
    assert all(fact.working for fact in found.values())
    assert "calculated, not tested" in found["rating.lying"].what


def test_a_bed_that_tips_has_no_rating():
    found = facts_of(Plan(changed(legs__omit=["L1", "L2"])), ["strength"])
    assert "rating.lying" not in found and "rating.sitting" not in found


def test_what_holds_nothing_at_all_is_told_in_words():
    told = [_use(Teller(demo()), "strength.slat", use(allowed, (1.0, 0.1)), "slat").value for allowed in (100.0, 0.0)]
    assert told == [0.21, "beyond any limit"]


def test_a_leg_s_load_is_told_as_resting() -> None:
    """Screws are checked with somebody sitting down hard; a leg's load has no such factor in it."""
    found = facts_of(Plan(demo()), ["strength"])
    assert found["leg.L1.load"].what.startswith("greatest resting load on the head left leg")
