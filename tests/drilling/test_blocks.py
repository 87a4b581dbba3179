"""Screws of corner blocks pass each other in the block and in the post."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest

from tests.design.posts import bolted, hooked, on_posts
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drilling import drill
from tutorial_lib.drilling.blocks import rungs
from tutorial_lib.drilling.clashes import distance, limit
from tutorial_lib.drilling.job import shanks
from tutorial_lib.errors import DesignError, InputError


@pytest.mark.parametrize("rail", ["2x8", "2x10"])
def test_no_two_screws_of_a_post_and_its_blocks_come_near_each_other(rail: str) -> None:
    drilled = drill(design(on_posts(frame__rail=rail)))
    mine = [s for job in drilled.jobs if job.table in ("block", "post") for s in shanks(job) if s.head[0] < 20]
    assert len(mine) >= 16
    for a, b in combinations(mine, 2):
        assert distance(a, b) >= limit(a.diameter, b.diameter) - 1e-9
    assert not any(job.moved for job in drilled.jobs if job.table in ("block", "post"))


def test_a_higher_block_takes_more_screws() -> None:
    low, high = (design(on_posts(frame__rail=rail)).part("corner_block").pieces[0] for rail in ("2x8", "2x10"))
    step = on_posts().build.units and design(on_posts()).grid
    assert (len(rungs(low, step)), len(rungs(high, step))) == (6, 10)


def test_hooks_are_bought_and_not_bored_for() -> None:
    drilled = drill(design(hooked()))
    assert not [job for job in drilled.jobs if job.table in ("block", "post")]
    assert [(item.name, item.count) for item in drilled.hardware if item.where == "rail to post"] == [
        ("bed-rail hook with its plate", 8)
    ]


def test_bed_bolts_cross_in_the_post_and_their_nuts_lie_clear_of_the_cleats() -> None:
    build = design(bolted())
    drilled = drill(build)
    jobs = [job for job in drilled.jobs if job.table == "bed_bolt"]
    assert [len(job.spots) for job in jobs] == [2] * 8
    lines = [s for job in jobs for s in shanks(job)]
    for a, b in combinations(lines, 2):
        assert distance(a, b) >= limit(a.diameter, b.diameter) - 1e-9
    cleat = build.part("cleat").pieces[0].box
    rails = [group for group in drilled.schedule if group.part == "side_rail"]
    nuts = [hole for group in rails for hole in group.holes if hole.purpose == "barrel nut"]
    assert nuts
    for hole in nuts:
        half = hole.diameter / 2
        assert hole.at[2] + half <= cleat.lo[2] or hole.at[2] - half >= cleat.hi[2]
        assert hole.u in (Fraction(5, 2), build.part("side_rail").length - Fraction(5, 2))
        assert hole.face == "inside face"


def test_a_bed_bolt_goes_on_past_its_nut_and_its_hole_past_the_bolt() -> None:
    drilled = drill(design(bolted()))
    job = next(job for job in drilled.jobs if job.table == "bed_bolt")
    into = job.fastener.length - Fraction(7, 2)
    assert into >= Fraction(5, 2) + Fraction(5, 16)
    holes = [h for group in drilled.schedule for h in group.holes if h.table == "bed_bolt" and h.end_face]
    assert {h.depth for h in holes} == {into + Fraction(1, 2)}
    assert [(i.name, i.count) for i in drilled.hardware if "hex" in i.where] == [
        ("barrel nut, 3/8-16 UNC", 16), ("flat washer, 3/8 in", 16),
    ]  # fmt: skip


def test_rails_with_no_room_beside_the_cleat_are_refused() -> None:
    with pytest.raises(DesignError, match="barrel nuts"):
        drill(design(bolted(frame__rail="2x6", support__lumber="2x3")))


def test_a_bolt_that_no_barrel_nut_is_listed_for_is_refused_by_name() -> None:
    with pytest.raises(InputError, match=r"screws\.bed_bolt\.diameter"):
        drill(design(bolted(screws__bed_bolt__diameter="7/16 in")))
