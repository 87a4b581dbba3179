"""The bed closes, touches and never overlaps, whatever was chosen."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings

from tests.design.builds import changed, changes, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.design.model import Build
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import DesignError, InputError
from tutorial_lib.measures import inch


def built(asked: dict[str, object]) -> Build:
    try:
        return design(change(demo(), asked))
    except DesignError:
        assume(False)
        raise


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(changes())
def test_every_accepted_build_is_sound(asked: dict[str, object]) -> None:
    """No two pieces overlap, every joint touches or has its play, sizes and marks close exactly."""
    build = built(asked)
    assert not [(a.label, b.label) for a, b in combinations(build.pieces.values(), 2) if a.box.overlaps(b.box)]
    for joint in build.joints:
        near, far = build.pieces[joint.near].box, build.pieces[joint.far].box
        assert near.gap(far, joint.axis) == joint.play, joint.label
    thick = build.part("side_rail").section.thickness
    assert [a + 2 * thick for a in build.opening] == list(build.outside)
    row = build.slats
    last = row.opening - (row.marks[-1] + row.width)
    assert row.marks[0] == last == row.edge
    assert {b - a for a, b in zip(row.marks, row.marks[1:], strict=False)} == {row.width + row.gap}
    assert all(piece.box.lo[2] >= 0 for piece in build.pieces.values())


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(changes())
def test_fewest_slats(asked: dict[str, object]) -> None:
    """One slat less would break the gap that was wanted."""
    build = built(asked)
    row = build.slats
    if build.options.slats.carries == "box spring":
        return
    assert row.gap <= inch("2 1/4")
    spaces = row.count if build.options.slats.edge == "equal" else row.count - 2
    edges = 2 * row.edge if build.options.slats.edge == "fixed" else 0
    assert spaces == 0 or (row.opening - edges - (row.count - 1) * row.width) / spaces > inch("2 1/4")


def test_corner_constructions_by_hand() -> None:
    """Side rails run past: 75 3/4 + 3; end rails cap: 38 1/2 + 3."""
    past, caps = design(demo()), design(changed(frame__corners="end rails cap"))
    assert (past.part("side_rail").length, past.part("end_rail").length) == (inch("78 3/4"), inch("38 1/2"))
    assert (caps.part("side_rail").length, caps.part("end_rail").length) == (inch("75 3/4"), inch("41 1/2"))
    assert past.outside == caps.outside


def test_the_leg_reaches_the_cleat() -> None:
    """17 rail top less 1 recess, 3/4 slat and 1 1/2 cleat leaves a 13 3/4 leg."""
    build = design(demo())
    assert build.heights.rail_top == 17
    assert build.part("leg").length == inch("13 3/4")


def test_any_one_height_gives_the_others() -> None:
    base = design(demo()).heights
    for key, value in (("sleeping", "16 in"), ("leg", "13 3/4 in")):
        other = design(change(demo(), {"heights.underside": None, f"heights.{key}": value})).heights
        assert other == base


def test_centre_lines_stand_at_equal_spans() -> None:
    build = design(changed(mattress__width="76 in", centre__lines=2))
    ys = [line.y for line in build.lines]
    spans = [b - a for a, b in pairwise(ys)]
    assert max(spans) - min(spans) <= Fraction(1, 8)
    assert all((y * 16).denominator == 1 for y in ys[1:-1])


def test_a_leg_in_the_end_rail_is_refused() -> None:
    with pytest.raises(DesignError, match="end rail head and leg L1"):
        design(changed(legs__setback="1 in"))


def test_no_legs_is_refused() -> None:
    omitted = [f"{side}{i}" for side in "LR" for i in (1, 2, 3)]
    with pytest.raises(DesignError, match="no legs are left"):
        design(changed(legs__omit=omitted))


def test_a_recess_on_runners_is_refused() -> None:
    with pytest.raises(DesignError, match="rail less slat, 4 3/4 in"):
        design(changed(support__kind="runners", support__lumber="2x6", support__end_play=None, screws__leg=None))


def test_unknown_wood_and_lumber_are_named_at_once() -> None:
    with pytest.raises(InputError) as caught:
        design(changed(frame__rail="2x66", wood__species="Sprooce"))
    assert "2x66" in str(caught.value)
    assert "Sprooce" in str(caught.value)


def test_metric_openings_are_whole_millimetres() -> None:
    build = design(changed(build__units="mm", mattress__width="900 mm", mattress__length="2000 mm"))
    assert all((size * Fraction(127, 5)).denominator == 1 for size in build.opening)
    assert any(f.rule == "grid" for f in build.findings)
