"""A runner that carries people by itself: which slats press on a leg, and by which arm."""

from __future__ import annotations

import pytest

from tests.drilling.builds import RUNNERS, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import Plan
from tutorial_lib.strength.joint_checks import RunnerAlone
from tutorial_lib.strength.response import Responder


@pytest.fixture(scope="module")
def outcome():
    plan = Plan(change(demo(), RUNNERS | {"support.lumber": "2x6", "legs.place": None, "legs.side_setback": "2 in"}))
    assert plan.strength.outcome is not None and plan.strength.outcome.bed.alone is not None
    return plan.strength.outcome


@pytest.fixture(scope="module")
def alone(outcome):
    return RunnerAlone(Responder(outcome.bed, outcome.bed.alone), outcome.lines)


def test_slats_within_a_leg_and_half_their_width_press_on_it(outcome, alone):
    build = outcome.build
    width = float(build.part("slat").section.width)
    counts = []
    for line, support in zip(outcome.bed.alone.lines, outcome.bed.lines, strict=True):
        for label in support.legs:
            leg = outcome.bed.legs[label]
            reach = (float(leg.size[0]) + width) / 2
            counted = sum(seat.share for seat in line.seats if abs(seat.x - float(leg.x)) <= reach)
            assert alone._on_leg(line, leg, [1.0] * len(outcome.bed.places)) == pytest.approx(counted)
            counts.append(counted)
    assert counts and max(counts) < 3  # a leg is narrower than the pitch of two slats


def test_the_arm_ends_at_a_third_of_the_bearing(outcome, alone):
    """From the leg's inner edge to a third of the slat's seat beyond its play; alike on both sides."""
    arms = {}
    for leg in outcome.bed.legs.values():
        if leg.line not in ("left", "right"):
            continue
        line = next(line for line in outcome.bed.lines if line.name == leg.line)
        near, far = (float(v) for v in line.seat)
        middle, half = float(leg.y), float(leg.size[1]) / 2
        play = float(outcome.build.options.slats.play)
        if leg.line == "left":
            by_hand = near + play + (far - near - play) / 3 - (middle + half)
        else:
            by_hand = (middle - half) - (far - play - (far - near - play) / 3)
        assert alone.beyond(leg) == pytest.approx(by_hand)
        arms[leg.line] = by_hand
    assert arms["left"] == pytest.approx(arms["right"])
