"""A headboard between the head posts: its height over the mattress, its boards and gaps, what it keeps clear of."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.design.posts import bolted, on_posts
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import DesignError


def _headed(**keys: str | None) -> Options:
    return on_posts(headboard__kind="boards", **keys)


@settings(max_examples=10, deadline=None)
@given(st.integers(16, 160), st.integers(0, 16), st.sampled_from(["1x4", "1x6", "2x6"]))
def test_boards_and_gaps_reach_from_the_rail_to_the_stated_height(over: int, gap: int, lumber: str) -> None:
    build = design(_headed(headboard__over=f"{over / 4} in", headboard__gap=f"{gap / 8} in", headboard__lumber=lumber,
                           headboard__battens="1x2", posts__reveal="1/2 in"))  # fmt: skip
    boards = sorted((p.box for p in build.pieces.values() if p.use == "headboard"), key=lambda box: box.lo[2])
    assert build.heights.sleeping is not None
    assert boards[-1].hi[2] == build.heights.sleeping + Fraction(over, 4)
    below = [build.heights.rail_top, *(box.hi[2] for box in boards)]
    gaps = {box.lo[2] - high for box, high in zip(boards, below, strict=False)}
    assert len(gaps) == 1
    room = boards[-1].hi[2] - build.heights.rail_top
    assert gaps.pop() <= Fraction(gap, 8) or (len(boards) + 1) * boards[0].size[2] > room
    posts = {leg.label: build.pieces[leg.pieces[0]].box.hi[2] for leg in build.legs if leg.post}
    assert posts["L1"] == posts["R1"] == boards[-1].hi[2] + Fraction(3, 4)
    assert posts["L3"] == build.heights.rail_top + Fraction(3, 4)


def test_it_stays_out_of_the_mattress_and_behind_the_posts_faces() -> None:
    for build in (design(_headed()), design(change(bolted(), {"headboard.kind": "boards"}))):
        boards = [p.box for p in build.pieces.values() if p.use == "headboard"]
        assert max(box.hi[0] for box in boards) <= Fraction(3, 2) + Fraction(3, 8)  # rail and room beside the mattress
        backs = [p.box.lo[0] for p in build.pieces.values() if p.use == "batten"]
        assert backs == [build.legs[0].near_edge] * 2


REFUSED = {
    "headboard": {"headboard__over": "10 in"},
    "mattress.thickness": {"headboard__kind": "boards", "mattress__thickness": None},
    "headboard.over": {"headboard__kind": "boards", "headboard__over": "60 in"},
    "headboard.battens": {"headboard__kind": "boards", "headboard__lumber": "2x6", "headboard__battens": "2x2"},
    "screws.panel": {"screws__panel__gauge": "#8"},
}


@pytest.mark.parametrize("where", REFUSED)
def test_what_cannot_be_is_refused_by_its_name(where: str) -> None:
    with pytest.raises(DesignError) as caught:
        design(on_posts(**REFUSED[where]))
    assert where in [fault.where for fault in caught.value.faults]
