"""Corner posts that the rails die into: lengths, what makes room for them, what is refused, the mattress's corner."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.design.posts import hooked, on_posts
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.post_rules import needed_radius
from tutorial_lib.errors import DesignError, InputError


@settings(max_examples=12, deadline=None)
@given(st.integers(0, 32), st.sampled_from(["4x4", "6x6"]))
def test_rails_end_at_the_posts_by_the_trades_formula(reveal: int, lumber: str) -> None:
    r = Fraction(reveal, 16)
    build = design(hooked(posts__lumber=lumber, posts__reveal=f"{reveal / 16} in", centre__lines=0))
    p, t = build.section_of("post L1").width, Fraction(3, 2)
    width, length = build.opening
    assert build.part("side_rail").length == length + 2 * t - 2 * (p - r)
    assert build.part("end_rail").length == width + 2 * t - 2 * (p - r)
    assert build.overall == (build.outside[0] + 2 * r, build.outside[1] + 2 * r)
    inside = p - r - t
    assert build.between_corners == (width - 2 * inside, length - 2 * inside)


def test_slats_and_cleats_make_room_for_posts_and_blocks() -> None:
    build = design(on_posts())
    assert build.slats.edge == Fraction(3, 2)  # the post stands 1 1/2 in into the opening
    first = build.part("cleat").pieces[0].box
    assert first.lo[0] == 3 + Fraction(5, 2)  # past the post and the block beside it
    assert build.part("corner_block").count == 8
    assert {leg.label for leg in build.legs if leg.post} == {"L1", "L3", "R1", "R3"}


def test_a_reveal_left_open_leaves_blocks_their_room_and_hooks_a_flush_corner() -> None:
    blocks, hooks = design(on_posts()), design(hooked())
    assert blocks.legs[0].near_edge == Fraction(-1, 2)
    assert hooks.legs[0].near_edge == -2
    assert hooks.slats.edge == 0


def test_equal_end_gaps_stay_where_the_posts_leave_them_room() -> None:
    wide = design(on_posts(slats__edge="equal", slats__gap="2 in"))
    assert wide.slats.edge == wide.slats.gap
    narrow = design(on_posts(slats__edge="equal", slats__gap="1 in"))
    assert narrow.slats.edge == Fraction(3, 2) > narrow.slats.gap


REFUSED = {
    "support.kind": {"support__kind": "runners", "support__lumber": "2x6"},
    "centre.ends": {"centre__ends": "hanger"},
    "screws.corner": {"screws__corner__count": 3},
    "legs.setback": {"legs__setback": "4 in"},
    "legs.per_side": {"legs__per_side": 1},
    "legs.kind": {"legs__kind": "corner L", "legs__lumber": "2x4"},
    "legs.omit": {"legs__omit": ["R3"]},
    "heights.leg": {"heights__leg": "9 in", "heights__underside": None},
    "posts.lumber": {"posts__lumber": "2x4"},
    "posts.reveal": {"posts__reveal": "1 in"},
    "posts.joint": {"frame__rail": "2x6"},
    "posts.blocks": {"posts__blocks": "1x4", "posts__reveal": "0 in"},
    "posts": {"frame__corners": "end rails cap"},
}


@pytest.mark.parametrize("where", REFUSED)
def test_what_posts_have_no_use_for_is_refused_by_its_name(where: str) -> None:
    with pytest.raises((DesignError, InputError)) as caught:
        design(on_posts(**REFUSED[where]))
    assert where in [fault.where for fault in caught.value.faults]


def test_block_screws_without_blocks_are_refused() -> None:
    with pytest.raises(DesignError, match="screws.block"):
        design(hooked(screws__block__gauge="#10"))


def test_a_mattress_whose_corner_is_rounder_than_the_posts_reach_is_fine() -> None:
    # 1 1/2 in into the opening less 3/8 in of room: 1 1/8; 2 x 1 1/8 + sqrt 2 x 1 1/8 = 3.841, up to 3 7/8
    for radius, severity in (("3 7/8 in", None), ("3 13/16 in", "stop"), (None, "caution")):
        found = [f for f in design(on_posts(mattress__corner_radius=radius)).findings if f.rule == "mattress corner"]
        assert [f.severity for f in found] == ([severity] if severity else [])
        assert all(f.limit == "at least 3 7/8 in" for f in found)


@given(st.floats(0.05, 4), st.floats(0.05, 4))
def test_the_needed_radius_touches_the_post_and_no_smaller_one_does(a: float, b: float) -> None:
    radius = float(needed_radius((Fraction(a), Fraction(b))))
    assert (radius - a) ** 2 + (radius - b) ** 2 >= radius**2 - 1e-6
    less = radius - 1 / 16 - 1e-6
    assert (less - a) ** 2 + (less - b) ** 2 < less**2 or less < max(a, b)


@pytest.mark.parametrize(("made", "reveal", "offered"), [(hooked, "0 in", True), (on_posts, "1/2 in", False)])
def test_a_stated_reveal_is_left_open_only_where_hooks_leave_it_free(made, reveal, offered) -> None:
    build = design(made(posts__reveal=reveal, mattress__corner_radius="2 in"))
    (found,) = [finding for finding in build.findings if finding.rule == "mattress corner"]
    assert any("posts.reveal" in dict(remedy.changes) for remedy in found.remedies) == offered
