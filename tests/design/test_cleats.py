"""Cleats and the legs between them: what is left of a side once the legs inside the corner have taken their room."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.design.builds import changed
from tutorial_lib.design.legs import as_cut
from tutorial_lib.design.platform_bed import SHORTEST_CLEAT, design
from tutorial_lib.measures import writer

GRID = Fraction(1, 16)  # [in] the finest mark of an inch tape


def spans(build, part: str, side: str) -> list[tuple[Fraction, Fraction]]:
    """Along the bed, in order, the pieces of one side."""
    middle = build.outside[0] / 2
    found = [piece.box for piece in build.pieces.values() if piece.part.split("_")[0] == part]
    mine = [box for box in found if (box.centre[1] < middle) == (side == "left")]
    return sorted((box.lo[0], box.hi[0]) for box in mine)


@pytest.mark.parametrize("setback", ["3 in", "9/2 in", "6 in", "12 in"])
@pytest.mark.parametrize("legs", [2, 3, 4])
@pytest.mark.parametrize("side", ["left", "right"])
def test_cleats_fill_what_legs_inside_the_corner_leave(setback, legs, side):
    build = design(changed(legs__place="inside", legs__per_side=legs, legs__setback=setback))
    whole = design(changed(legs__per_side=legs))  # legs under the cleats: one cleat from end to end
    ((start, end),) = spans(whole, "cleat", side)
    edges = [start, *(x for span in spans(build, "leg", side) for x in span), end]
    free = [(a, b) for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a >= SHORTEST_CLEAT]
    for (low, high), (a, b) in zip(spans(build, "cleat", side), free, strict=True):
        assert high - low == (b - a) // GRID * GRID  # no longer than the tape can mark
        meets = [a > start, b < end]  # what is left over lies at the legs, as much at each
        assert [low - a, b - high] == [(b - a) % GRID / max(1, sum(meets)) * at for at in meets]


@given(st.fractions(0, 90, max_denominator=96), st.fractions(3, 30, max_denominator=96), st.sampled_from(["in", "mm"]))
@settings(max_examples=50)
def test_a_cleat_cut_and_laid_to_its_marks_keeps_off_the_leg_at_its_own(low, long, units):
    w = writer(units)
    a, b = as_cut(low, low + long, (Fraction(-1), Fraction(200)), units)
    assert low <= a < b <= low + long
    assert w.marked(a) + w.marked(b - a) <= w.marked(low + long)
    assert w.marked(low) <= w.marked(a)
    assert as_cut(low, low + long, (low, low + long), units) == (low, low + long)  # no leg: as it is


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_cleat_lies_against_its_own_rail(side):
    build = design(changed())
    rail = build.pieces[f"side rail {side}"].box
    (cleat,) = [p.box for p in build.pieces.values() if p.label == f"cleat {side}"]
    assert cleat.hi[1] == rail.lo[1] if side == "right" else cleat.lo[1] == rail.hi[1]
    joint = next(j for j in build.joints if j.kind == "cleat" and j.near == f"cleat {side}")
    assert (joint.far, joint.axis, joint.sign) == (f"side rail {side}", 1, -1 if side == "left" else 1)


@pytest.mark.parametrize("corners", ["side rails run past", "end rails cap"])
def test_corner_screws_go_through_the_rail_that_runs_past(corners):
    build = design(changed(frame__corners=corners))
    found = {(j.near, j.far): (j.axis, j.sign) for j in build.joints if j.kind == "corner"}
    past = corners == "side rails run past"
    expected = {}
    for side, across in (("left", 1), ("right", -1)):
        for end, along in (("head", 1), ("foot", -1)):
            near, far = (f"side rail {side}", f"end rail {end}") if past else (f"end rail {end}", f"side rail {side}")
            expected[near, far] = (1, across) if past else (0, along)
    assert found == expected
