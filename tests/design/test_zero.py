"""From where legs are marked: corner posts have their places by the joint, the others by the tape."""

from __future__ import annotations

from fractions import Fraction

from tests.design.builds import demo
from tests.design.posts import on_posts
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.zero import leg_mark, leg_zero, marked


def test_side_legs_are_marked_from_the_head_and_one_side_s_alone_where_it_is_asked_for() -> None:
    build = design(demo())
    assert [leg.label for leg in marked(build, "left")] == ["L1", "L2", "L3"]
    assert sorted(leg.label for leg in marked(build)) == ["L1", "L2", "L3", "R1", "R2", "R3"]
    assert [leg.x for leg in marked(build)] == sorted(leg.x for leg in marked(build))


def test_posts_are_not_marked_and_what_stands_between_is_from_the_rail_s_end() -> None:
    build = design(on_posts())
    sides = marked(build)
    assert sides and not any(leg.post or leg.line == "centre" for leg in sides)
    zero = build.part("side_rail").pieces[0].box.lo[0]
    assert leg_zero(build) == zero > Fraction(0)
    assert [leg_mark(build, leg) for leg in sides] == [leg.near_edge - zero for leg in sides]
    middle = [leg for leg in build.legs if not leg.post and leg not in sides]
    assert [leg_mark(build, leg) for leg in middle] == [leg.near_edge for leg in middle]
