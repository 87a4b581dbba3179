"""Zero points: what is measured from one never stands on its sign."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from tests.drilling.builds import OPEN, demo
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drawing.ink import Stroke, Words, crosses
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.scene import PAPER, Dimension
from tutorial_lib.drawing.zeros import zero_points, zeros


def test_a_mark_at_the_zero_itself_stands_clear_of_its_sign() -> None:
    build = design(demo())
    first, *others = zeros(build, Fraction(3, 4))
    scene = zero_points(build, [replace(first, first=Fraction(0)), *others], 300, 205, PAPER)
    told = next(w for w in lay(scene)[0] if isinstance(w, Words) and w.text.startswith("0, "))
    assert told.frame[0] >= 6  # [pt] the sign's radius, its middle at the bed's end
    lines = [ink.points for ink in lay(scene)[0] if isinstance(ink, Stroke) and ink.fill == "none"]
    upright = [line for line in lines if len(line) == 2 and line[0][0] == line[1][0]]
    assert upright and not any(crosses((line[0], line[1]), told.frame) for line in upright)


def test_a_first_mark_far_off_leaves_the_corner_as_large() -> None:
    build = design(demo())
    points = zeros(build, Fraction(3, 4))
    far = [replace(points[0], first=Fraction(60)), *points[1:]]
    assert zero_points(build, far, 300, 205, PAPER).scale > 0.85 * zero_points(build, points, 300, 205, PAPER).scale


def test_zeros_are_measured_from_the_first_wherever_it_lies() -> None:
    build = design(demo())
    points = zeros(build, Fraction(3, 4))
    moved = [replace(points[0], x=Fraction(3)), *points[1:]]
    told = [shape.text for shape in zero_points(build, moved, 300, 205, PAPER).shapes if isinstance(shape, Dimension)]
    assert told == ["1 1/2", "3/8"]  # the head rail's face at 1 1/2, the cleat's end at 2 5/8


def test_a_centre_line_near_the_side_leaves_the_corner_as_large() -> None:
    lines = {"mattress.size": "king", "mattress.width": None, "mattress.length": None, "centre.lines": 2}
    king = design(change(demo(), OPEN | lines))
    points = zeros(king, Fraction(3, 4))
    assert zero_points(king, points, 300, 205, PAPER).scale > 12  # [pt per in]


def test_cleats_in_several_pieces_a_side_are_told_by_the_first() -> None:
    gallery = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
    boxes = design(read_build((gallery / "uk-king-over-boxes.toml").read_text(encoding="utf-8")))
    assert zeros(boxes, Fraction(3, 4))[-1].name == "the first cleat's end"
    assert zeros(design(demo()), Fraction(3, 4))[-1].name == "the cleat's end"
