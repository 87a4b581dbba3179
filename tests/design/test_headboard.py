"""A headboard between the head posts: its height over the mattress, its boards and gaps, what it keeps clear of."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.design.posts import bolted, box_spring, on_posts
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import DesignError
from tutorial_lib.plan import plan
from tutorial_lib.remedies import told as told_of


def _headed(**keys: str | None) -> Options:
    return on_posts(**{"headboard__kind": "boards", **keys})


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


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 3), st.integers(4, 40), st.sampled_from(["1x3", "1x4"]), st.booleans())
def test_upright_slats_are_as_few_as_keep_the_gap(wide: int, gap: int, slat: str, between: bool) -> None:
    keys = {"headboard.kind": "slats", "headboard.slats": slat, "headboard.gap": f"{gap / 8} in",
            "mattress.size": ("twin", "full", "queen", "king")[wide], "centre.lines": 1}  # fmt: skip
    build = design(change(on_posts() if between else box_spring(), keys))
    rails = [p.box for p in build.pieces.values() if p.use == "headboard"]
    slats = sorted((p.box for p in build.pieces.values() if p.use == "headboard_slat"), key=lambda box: box.lo[1])
    edges = [rails[0].lo[1], *(y for box in slats for y in (box.lo[1], box.hi[1])), rails[0].hi[1]]
    gaps = [b - a for a, b in zip(edges[::2], edges[1::2], strict=True)]
    inner = set(gaps if between else gaps[1:-1])
    assert len(inner) == 1 and (between or gaps[0] == gaps[-1] == 0)
    assert 0 < inner.pop() <= Fraction(gap, 8)
    fewer, ends = len(slats) - 1, 1 if between else -1
    assert (edges[-1] - edges[0] - fewer * slats[0].size[1]) / (fewer + ends) > Fraction(gap, 8)
    assert {(box.lo[2], box.hi[2]) for box in slats} == {(min(r.lo[2] for r in rails), max(r.hi[2] for r in rails))}
    assert {box.lo[0] for box in slats} == {rails[0].hi[0]}


@pytest.mark.parametrize(("gap", "found"), [("2 3/8 in", 0), ("3 in", 1)])
def test_a_gap_wider_than_a_cribs_is_warned_of_and_the_cure_tried(gap: str, found: int) -> None:
    made = plan(change(box_spring(), {"headboard.kind": "slats", "headboard.gap": gap}))
    told = [told_of(made, f) for f in made.build.findings if f.rule == "headboard gap"]
    assert len(told) == found
    assert all("2 3/8 in" in f.remedy for f in told)


def test_head_and_foot_posts_of_unlike_length_have_names_of_their_own() -> None:
    names = {part.several for part in design(_headed()).parts if part.use == "post"}
    assert names == {"head posts", "foot posts"}
    assert {part.several for part in design(on_posts()).parts if part.use == "post"} == {"corner posts"}


REFUSED = {
    "headboard": {"headboard__over": "10 in"},
    "mattress.thickness": {"headboard__kind": "boards", "mattress__thickness": None},
    "headboard.over": {"headboard__kind": "boards", "headboard__over": "60 in"},
    "screws.panel_slat": {"headboard__kind": "boards", "screws__panel_slat__gauge": "#8"},
    "headboard.battens": {"headboard__kind": "boards", "headboard__lumber": "2x6", "headboard__battens": "2x2"},
    "screws.panel": {"screws__panel__gauge": "#8"},
}


def test_slats_too_short_to_be_seen_are_refused() -> None:
    with pytest.raises(DesignError, match="two rails"):
        design(_headed(headboard__kind="slats", headboard__over="4 in", headboard__lumber="1x10"))


@pytest.mark.parametrize("where", REFUSED)
def test_what_cannot_be_is_refused_by_its_name(where: str) -> None:
    with pytest.raises(DesignError) as caught:
        design(on_posts(**REFUSED[where]))
    assert where in [fault.where for fault in caught.value.faults]
