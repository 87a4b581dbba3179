"""Leaning on a headboard: the post over its corner and what the corner holds, by hand; it never rates the bed."""

from __future__ import annotations

from functools import cache

import pytest

from tests.design.posts import hooked, on_posts
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import Plan
from tutorial_lib.remedies import told
from tutorial_lib.strength.headboard import leaning


@cache
def headed():
    return Plan(on_posts(headboard__kind="boards")).strength


def test_the_post_bends_over_its_corner():
    # half of 220 lb at 38 3/4 in, the side rail's middle at 12 5/8 in; 4x4 No.2: 875 x 1.5 x 1.15, S 3.5^3 / 6
    found = leaning(headed().outcome)
    moment = 110 * (38.75 - 12.625)
    assert found.bent.moment == pytest.approx(moment)
    assert found.used == pytest.approx(moment / (875 * 1.5 * 1.15 * 3.5**3 / 6), rel=1e-3)


def test_what_the_corner_holds_is_its_couple_and_the_foots_friction():
    outcome = headed().outcome
    found = leaning(outcome)
    couple = next(c.value for c in outcome.racking.couples("along") if c.leg == "L1")
    foot = min(load.whole.dead for load in outcome.leg_loads() if load.leg.label == "L1")
    assert found.held * (38.75 - 12.625) == pytest.approx(couple + 0.3 * foot * 12.625)


def test_one_caution_sends_its_head_to_the_wall_and_the_rating_stays():
    bare, made = Plan(on_posts()).strength, headed()
    assert (made.lying.pounds, made.sitting.pounds) == (bare.lying.pounds, bare.sitting.pounds)
    said = [finding for finding in made.findings if finding.rule == "headboard"]
    assert [finding.severity for finding in said] == ["caution"]
    assert "against a wall" in said[0].what


def test_on_hooks_no_figure_is_given_for_it():
    found = leaning(Plan(change(hooked(), {"headboard.kind": "boards"})).strength.outcome)
    assert found.held == 0


def test_its_middle_bends_boards_that_share_the_push():
    # 110 lb over the boards above the mattress, 1x6 on the flat between the battens' middles; 875 x 1.3 x 1.15 psi
    build = headed().build
    mattress = build.heights.sleeping
    boards = [p.box for p in build.pieces.values() if p.use == "headboard" and p.box.hi[2] > mattress]
    battens = [p.box for p in build.pieces.values() if p.use == "batten"]
    span = float(battens[1].centre[1] - battens[0].centre[1])
    allowed = 875 * 1.3 * 1.15 * 5.5 * 0.75**2 / 6
    assert len(boards) >= 2
    assert leaning(headed().outcome).panel == pytest.approx(110 / len(boards) * span / 4 / allowed, rel=2e-3)


def test_upright_slats_hand_the_push_to_two_rails_and_wider_rails_are_told_once_tried():
    made = Plan(on_posts(headboard__kind="slats"))
    found = leaning(made.strength.outcome)
    battens = [p.box for p in made.build.pieces.values() if p.use == "batten"]
    span = float(battens[1].centre[1] - battens[0].centre[1])
    allowed = 875 * 1.3 * 1.15 * 5.5 * 0.75**2 / 6
    assert found.panel == pytest.approx(110 / 2 * span / 4 / allowed, rel=2e-3)
    assert found.panel > 1
    said = next(finding for finding in made.findings if finding.rule == "headboard panel")
    assert "Make the headboard's rails of 1x8" in told(made, said).remedy
