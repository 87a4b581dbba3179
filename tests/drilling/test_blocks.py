"""Screws of corner blocks pass each other in the block and in the post."""

from __future__ import annotations

from itertools import combinations

import pytest

from tests.design.posts import hooked, on_posts
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drilling import drill
from tutorial_lib.drilling.blocks import rungs
from tutorial_lib.drilling.clashes import distance, limit
from tutorial_lib.drilling.job import shanks


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
