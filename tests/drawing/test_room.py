"""The bed in the room: what goes under it, drawn as high as it may be."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.model import Build
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drawing.room import LEAST_BOX, bed_in_room, box_height, cartons, piece_solid
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.drawing.solids import Solid
from tutorial_lib.measures import mm

METRIC = Path(__file__).parents[2] / "assets" / "builds" / "guest-bed-90.toml"


def boxes(build: Build) -> list[Solid]:
    return cartons(build, [piece_solid(build, label) for label in build.pieces])


def test_a_box_has_half_an_inch_of_air_and_a_round_height() -> None:
    assert box_height(design(demo())) == 11  # under 11 1/2 in
    assert box_height(design(read_build(METRIC.read_text(encoding="utf-8")))) == mm(250)  # under 270 mm
    odd = design(change(demo(), {"heights.underside": "11 7/8 in"}))
    assert box_height(odd) == 11


def test_boxes_stand_between_the_legs_and_touch_nothing() -> None:
    build = design(demo())
    found = boxes(build)
    assert len(found) == 2
    for box in found:
        assert box.hi[2] == 11.0
        for label in build.pieces:
            solid = piece_solid(build, label)
            assert any(box.lo[i] >= solid.hi[i] or solid.lo[i] >= box.hi[i] for i in range(3)), label


def test_a_low_bed_has_none() -> None:
    low = design(change(demo(), {"heights.underside": "5 1/4 in"}))
    assert box_height(low) < LEAST_BOX and boxes(low) == []
    assert "Boxes" not in bed_in_room(low, 500, 390, PAPER).alt


@pytest.mark.parametrize(("underside", "told"), [("11 1/2 in", "11 in high"), ("9 3/4 in", "9 in high")])
def test_their_height_stands_on_them_and_in_the_alt_text(underside: str, told: str) -> None:
    scene = bed_in_room(design(change(demo(), {"heights.underside": underside})), 500, 390, PAPER)
    assert scene.texts().count(told) == 2 and f"Boxes {told}" in scene.alt


def test_boxes_the_build_names_are_drawn_as_they_stand() -> None:
    named = change(demo(), {"storage.width": "14 in", "storage.depth": "16 in", "storage.height": "9 in",
                            "storage.count": 3, "storage.sides": "left"})  # fmt: skip
    found = boxes(design(named))
    sizes = [(round(box.hi[0] - box.lo[0], 6), box.hi[1] - box.lo[1], box.hi[2]) for box in found]
    assert sizes == [(14.0, 16.0, 9.0)] * 3
    assert "Boxes 9 in high" in bed_in_room(design(named), 500, 390, PAPER).alt


def test_one_bay_has_one_box() -> None:
    build = design(change(demo(), {"legs.per_side": 2}))
    (box,) = boxes(build)
    assert Fraction(box.lo[0] + box.hi[0]).limit_denominator(1000) == build.outside[1]
