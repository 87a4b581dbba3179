"""Rails on corner posts: the blocks' screws by hand, the bed upright, hooks that nobody has published a value for."""

from __future__ import annotations

from functools import cache
from math import inf, sqrt
from types import SimpleNamespace

import pytest

from tests.design.posts import bolted, hooked, on_posts
from tutorial_lib.design.platform_bed import design
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan
from tutorial_lib.strength.posts import at_fitting, corners, leaning

CORNER = "screws from the head left side block into the head left post"


@cache
def _queen():
    return Plan(on_posts()).strength


@cache
def _hooked():
    return Plan(hooked()).strength


@cache
def _bolted():
    return Plan(bolted()).strength


def _screw_across(lm, ls):
    """Mode IV of a #10 screw in SPF, the least of six here: D .19, root .152, Fyb 80 000, Fe 3350, KD 2.2."""
    modes = (0.152**2 * sqrt(3350 * 80000 / 3), 0.152 * lm * 3350, 0.152 * ls * 3350)
    return min(modes) / 2.2


def test_a_blocks_screws_in_the_post_are_pulled_as_it_leans():
    # three screws 1 1/4, 2 1/4, 3 1/4 in above the block's lower edge, the rail's 1 1/2 in from the post's face
    slope = 3 * 1.5 * 3.25 / (1.25**2 + 2.25**2 + 3.25**2)
    across, pull = _screw_across(1.31, 2.5), 2850 * 0.42**2 * 0.19 * 1.5
    cos2, sin2 = 1 / (1 + slope**2), slope**2 / (1 + slope**2)
    one = pull * across / (pull * cos2 + across * sin2) * sqrt(cos2)
    uses = [use for use in _queen().outcome.uses if use.label == CORNER and use.kind == "sitting"]
    hard = next(use for use in uses if use.duration == 1.6)
    assert hard.limit.value == pytest.approx(3 * one * 1.6, rel=1e-3)


def test_the_posts_hold_the_bed_upright_by_the_weaker_of_both_rows():
    # rail: Z' x 1.6 x 2 in between two screws; post: pull x 1.6 x the arms to the nearer end of the block
    turn, out = _screw_across(1.06, 1.5) * 1.6 * 2, 2850 * 0.42**2 * 0.19 * 1.5 * 1.6 * (0.75 + 1.75 + 2.75)
    couples = {c.leg: c.value for c in _queen().outcome.racking.couples("across") if c.leg in ("L1", "R3")}
    assert turn < out
    assert couples == {label: pytest.approx(turn, rel=1e-3) for label in ("L1", "R3")}


def test_no_weight_gets_lost_on_its_way_to_the_floor():
    outcome = _queen().outcome
    for response in outcome.responses:
        live = sum(load.whole.live for load in outcome.lines.leg_loads(response))
        assert live == pytest.approx(outcome.build.options.load.people, abs=1e-4)


def test_a_post_must_stay_and_says_why():
    posts = [entry for entry in _queen().legs if entry.leg.post]
    assert [entry.word for entry in posts] == ["must stay"] * 4
    assert "two rails end in the air" in posts[0].words(writer("in"))


@pytest.mark.parametrize("strong", [_hooked, _bolted])
def test_fittings_have_no_rating_and_one_caution_says_so(strong):
    strong = strong()
    assert (strong.lying.pounds, strong.sitting.pounds, strong.lying.why) == (0, 0, "no value")
    found = [f for f in strong.findings if f.severity != "note"]
    assert [f.rule for f in found] == ["no published value"]
    assert not [use for use in strong.outcome.uses if use.what == "racking"]


def test_a_screw_taken_from_a_block_never_raises_the_rating():
    more = Plan(on_posts(screws__post__count=1)).strength
    assert more.sitting.pounds < _queen().sitting.pounds


def test_a_narrow_slat_that_lies_on_blocks_alone_has_its_way_to_the_floor():
    strong = Plan(on_posts(slats__lumber="1x3", slats__gap="2 in")).strength
    first = strong.build.part("slat").pieces[0].label
    below = {joint.far for joint in strong.build.joints_of("slat") if joint.near == first}
    assert below == {"side block L1", "side block R1"}
    assert not strong.outcome.gaps
    for response in strong.outcome.responses:
        live = sum(load.whole.live for load in strong.outcome.lines.leg_loads(response))
        assert live == pytest.approx(2, abs=1e-4)


def test_a_hook_holds_its_rail_an_inch_from_the_end_at_its_post():
    build = design(hooked())
    held = {leg: at_fitting(build, corner) for (leg, way), corner in corners(build).items() if way == "along"}
    rail = build.part("side_rail").pieces[0].box
    head, foot = float(rail.lo[0]) + 1, float(rail.hi[0]) - 1
    assert held == {"L1": head, "R1": head, "L3": foot, "R3": foot}


@pytest.mark.parametrize(("heights", "pull"), [((1.0, 3.0), 2 * 0.75 * 3 / 10), ((4.0,), 0.75 / 4), ((0.0,), inf)])
def test_a_block_s_screws_are_pulled_as_it_leans_about_its_lower_edge(heights: tuple[float, ...], pull: float) -> None:
    """R e z / sum z^2 beside R / n, the load 3/4 in before the post; screws in the edge itself hold nothing."""
    screws = SimpleNamespace(driven=[SimpleNamespace(head=(0.0, 0.0, 10.0 + z)) for z in heights])
    assert leaning(screws, 0.75, 10.0) == pytest.approx(pull)  # type: ignore[arg-type]


def test_without_a_corner_post_nobody_lies_or_sits_on_the_bed() -> None:
    posts = [entry for entry in Plan(on_posts()).strength.legs if entry.leg.post]
    assert len(posts) == 4
    for entry in posts:
        assert (entry.word, entry.why) == ("must stay", "two rails end in the air")
        assert (entry.lying.kind, entry.lying.pounds, entry.sitting.kind, entry.sitting.pounds) == (
            "lying", 0, "sitting", 0,
        )  # fmt: skip
