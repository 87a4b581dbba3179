"""Hole drawings hold every hole at its place; sections show reach and what is left."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.drilling.builds import drilled
from tutorial_lib.cli.shared import read_options
from tutorial_lib.drawing import holes
from tutorial_lib.drawing.scene import Circle, Mark, Rect, Running, Text
from tutorial_lib.measures import inch
from tutorial_lib.plan import Plan

ROOT = Path(__file__).parents[2]


def test_holes_are_drawn_at_their_marks() -> None:
    build, drilling = drilled()
    cleat = next(g for g in drilling.schedule if "cleat left" in g.pieces)
    scene = holes.face_drawing(build, cleat, "inside face")
    circles = [shape for shape in scene.shapes if isinstance(shape, Circle)]
    assert [c.centre for c in circles] == [(inch("3/4") + 9 * i, inch("3/4")) for i in range(9)]
    running = next(shape for shape in scene.shapes if isinstance(shape, Running))
    assert running.texts[0] == "3/4" and running.texts[-1] == "73 1/2"


@pytest.mark.parametrize(
    ("table", "texts"),
    [
        ("cleat", {"1 1/2 in", "1 1/16 in", "7/16 in left", "#9 x 2 1/2 in"}),
        ("corner", {"1 1/2 in", "2 1/2 in", "4 in"}),
        ("leg", {"1 1/2 in", "3 1/2 in", "5 1/2 in"}),
    ],
)
def test_sections_tell_reach_and_rest(table: str, texts: set[str]) -> None:
    build, drilling = drilled()
    assert texts <= set(holes.joint_section(build, drilling.of(table)[0]).texts())


def test_a_screw_that_does_not_fit_is_drawn_as_wrong() -> None:
    build, drilling = drilled({"screws.cleat.length": "3 in"})
    scene = holes.joint_section(build, drilling.of("cleat")[0])
    assert any(getattr(shape, "line", "") == "wrong" for shape in scene.shapes)


def test_clashes_are_crossed_out_and_told() -> None:
    build, fine = drilled()
    scene = holes.near_misses(build, fine)
    assert "no two fasteners meet" in scene.alt and not any(isinstance(s, Mark) for s in scene.shapes)
    build, bad = drilled({"screws.slat.end_slat_shift": "0 in"})
    scene = holes.near_misses(build, bad)
    assert "4 fasteners meet" in scene.alt and sum(isinstance(s, Mark) for s in scene.shapes) == 4


def test_words_stand_over_a_headboard_and_the_enlarged_end_leaves_it_out() -> None:
    plan = Plan(read_options(str(ROOT / "assets/builds/gallery/twin-headboard.toml")))
    for view, tall in ((holes.near_misses, True), (holes.closest_place, False)):
        shapes = view(plan.build, plan.drilling).shapes
        (words,) = (s for s in shapes if isinstance(s, Text))
        top = max(s.y + s.height for s in shapes if isinstance(s, Rect))
        assert words.at[1] == top and (top > plan.build.heights.rail_top + holes.BELOW) is tall
