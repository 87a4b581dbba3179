"""Slats in two halves over the centre line: two simple beams, by hand and against each other."""

from __future__ import annotations

from typing import Any

import pytest

from tests.design.builds import changed
from tests.strength.beam import _line
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import inch
from tutorial_lib.plan import Plan, plan
from tutorial_lib.strength.grillage import Load
from tutorial_lib.strength.halves import HalvedGrillage, HalvedSlat
from tutorial_lib.strength.slat import Slat, Spread

QUEEN: dict[str, Any] = {
    "mattress__size": "queen", "mattress__width": None, "mattress__length": None,
    "centre__lines": 1, "centre__kind": "flat", "centre__lumber": "2x6",
}  # fmt: skip


def halved(**more: Any) -> Plan:
    return plan(changed(**QUEEN | more, slats__halves=True))


def test_a_half_is_a_simple_beam_of_its_own() -> None:
    slat, half = HalvedSlat(0, 60, (1, 30, 59), 1e6), Slat(0, 30, (1, 30), 1e6)
    load = Spread(10, 14)
    assert slat.pushes(load) == (*half.outer(load), 0.0)
    assert slat.sag(20, load) == half.sag(20, load)
    assert slat.sag(40, load) == 0, "the other half does not feel it"
    assert slat.follows(15.5, (0.0, 1.0, 0.0)) == pytest.approx(0.5)
    assert slat.follows(44.5, (0.0, 1.0, 0.2)) == pytest.approx(0.6)


def test_a_load_across_the_joint_is_shared_by_how_it_lies() -> None:
    slat = HalvedSlat(0, 60, (0, 30, 60), 1e6)
    left, middle, right = slat.pushes(Spread(24, 33))
    assert left + middle + right == pytest.approx(1)
    assert left == pytest.approx(6 / 9 * 3 / 30)
    assert right == pytest.approx(3 / 9 * 1.5 / 30)


def test_a_knee_bends_a_half_by_a_quarter_of_load_times_span() -> None:
    """0.4 of 200 lb on the middle of a half: P L / 4, and nothing over the line, where a whole slat is bent too."""
    made = halved()
    outcome = made.strength.outcome
    bed, checks = outcome.bed, outcome.slats
    span = bed.slat_beam.lines[1] - bed.slat_beam.lines[0]
    knee = next(use for use in checks.kneeling() if use.key == "kneeling")
    assert abs(knee.worst.live) * 200 == pytest.approx(80 * span / 4, rel=1e-6)
    assert checks._inside(3, outcome.responder.dead_load, outcome.responder.dead)[0][12] == pytest.approx(0, abs=1e-6)


def test_a_half_pressed_beside_its_outer_seat_pulls_at_the_line_and_lifts_off_nothing() -> None:
    """An inch outside of a seat 29 in from the line: 30/29 of the pound on the seat, -1/29 at the line, by levers."""
    bed = HalvedGrillage(HalvedSlat(0, 60, (1, 30, 59), 1e6), [_line(y) for y in (1.0, 30.0, 59.0)])
    state, moved = bed.settle(Load((((100.0, Spread(0, 0)),),)))
    assert state == bed.closed
    assert [push for (push,) in moved.pushes] == pytest.approx([3000 / 29, -100 / 29, 0.0])


def test_halves_are_worse_under_a_knee_than_whole_slats_and_never_rate_more() -> None:
    whole, two = (facts_of(made) for made in (plan(changed(**QUEEN)), halved()))
    assert two["rating.lying"].value <= whole["rating.lying"].value
    assert {f.rule for f in halved().findings} - {f.rule for f in plan(changed(**QUEEN)).findings} == {"kneeling"}


def test_halves_are_counted_cut_and_screwed_as_halves() -> None:
    made = halved()
    facts, build = facts_of(made), made.build
    line = next(line for line in build.lines if line.central)
    assert facts["slat.count"].value == 2 * facts["slat.row_count"].value == 30
    assert facts["slat.length"].value == inch("30 1/16")
    assert facts["slat.screws_each"].value == 2
    for left, right in build.slat_rows:
        assert left.length == right.length
        assert left.box.hi[1] < line.y < right.box.lo[1]
    places = ("slat end", "slat bearing", "end distance")
    assert not [f for f in made.findings if f.rule in places and f.parts == ("slat",)]
    assert any("Two half slats go to each mark" in text for step in made.assembly.steps for text in step.do)


def test_a_line_too_narrow_for_two_ends_is_a_stop_with_a_remedy_that_cures_it() -> None:
    made = halved(centre__kind="beam")
    found = next(f for f in made.findings if f.rule == "slat bearing")
    assert found.severity == "stop"
    assert (found.value, found.limit) == ("11/16 in", "at least 1 in")
    assert found.remedies[0].changes == (("centre.kind", "flat"),)
    assert "slat bearing" not in {f.rule for f in halved().findings}


def test_halves_without_one_line_under_the_middle_are_refused() -> None:
    from tutorial_lib.errors import DesignError

    for lines in (0, 2):
        with pytest.raises(DesignError, match="slats.halves.*centre.lines = 1"):
            plan(changed(**QUEEN | {"centre__lines": lines}, slats__halves=True)).build  # noqa: B018
