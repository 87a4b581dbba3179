"""The design's views as data, for the demo bed and for beds of every kind."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.drawing.crowded import overlapping_words
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.options import Options
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drawing import views
from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.scene import Dimension, Rect, Running, Scene, Text

KING = {"mattress.size": "king", "mattress.width": None, "mattress.length": None}
RUNNERS = {"support.kind": "runners", "support.lumber": "2x4", "support.recess": None, "support.end_play": None,
           "screws.leg": None}  # fmt: skip
KINDS = {
    "as built": {},
    "king": KING | {"centre.lines": 2},
    "runners": RUNNERS | {"centre.lines": 1, "centre.kind": "flat"},
    "metric": {"build.units": "mm"},
    "few legs": {"legs.per_side": 2},
    "capped": {"frame.corners": "end rails cap"},
    "narrow slats": {"slats.lumber": "1x2", "slats.gap": "1 in"},
    "low": {"heights.underside": "3 in"},
}
VIEWS = (views.slat_plan, views.leg_map, views.side_elevation, views.end_elevation, views.section)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.__name__)
def test_words_never_lie_on_words_and_it_fits_a_page(demo: Options, kind: str, view: object) -> None:
    scene: Scene = view(design(change(demo, KINDS[kind])))  # type: ignore[operator]
    assert overlapping_words(scene) == []
    x0, y0, x1, y1 = extent(scene)
    assert x1 - x0 <= 525
    assert y1 - y0 <= 345
    assert len(scene.alt) > 30


def test_the_slat_plan_marks_every_slat_from_one_end(demo: Options) -> None:
    build = design(demo)
    (run,) = (s for s in views.slat_plan(build).shapes if isinstance(s, Running))
    assert run.marks == build.slats.marks
    assert run.start[0] == build.slats.start
    assert run.texts[:3] == ("0", "5 9/16", "11 1/8")


def test_new_slats_are_set_off(demo: Options) -> None:
    before, after = design(demo), design(change(demo, {"slats.gap": "1 1/2 in"}))
    new = [s for s in views.slat_plan(after, before).shapes if isinstance(s, Rect) and s.fill == "new"]
    assert 0 < len(new) < after.slats.count  # the first slat, at the head, stays where it was


def test_the_leg_map_names_every_leg(demo: Options) -> None:
    build = design(change(demo, KINDS["king"]))
    told = {s.text for s in views.leg_map(build).shapes if isinstance(s, Text)}
    assert {leg.label for leg in build.legs} <= told


def test_boxes_beside_a_single_leg_are_left_out(demo: Options) -> None:
    build = design(change(demo, {"legs.per_side": 1, "storage.width": "20 in"}))
    assert "20 in" not in views.leg_map(build).texts()


def test_elevations_give_the_heights(demo: Options) -> None:
    texts = views.side_elevation(design(demo)).texts()
    assert {"rail 17 in", "slats 16 in", "mattress 24 in", "11 1/2 in"} <= set(texts)


def test_no_mattress_is_drawn_when_its_thickness_is_open(demo: Options) -> None:
    texts = views.end_elevation(design(change(demo, {"mattress.thickness": None}))).texts()
    assert not any("mattress" in text for text in texts)


def test_the_section_cuts_rail_cleat_and_slat(demo: Options) -> None:
    scene = views.section(design(demo))
    cut = [s for s in scene.shapes if isinstance(s, Rect) and s.fill == "end grain"]
    assert len(cut) == 2  # rail and cleat; the slat shows its long grain
    sizes = {s.text for s in scene.shapes if isinstance(s, Dimension)}
    assert {"5 1/2 in", "3/4 in", "1 3/4 in", "recess 1 in", "1/8 in play"} <= sizes


def test_a_metric_bed_is_drawn_in_millimetres(demo: Options) -> None:
    texts = views.slat_plan(design(change(demo, KINDS["metric"]))).texts()
    assert any(text.endswith(" mm") for text in texts)
    assert not any(text.endswith(" in") for text in texts)


def test_the_section_cuts_the_cleat_and_no_leg() -> None:
    """Half slats, cleats between the legs: the first slat's other half lies over a leg, as the first does."""
    gallery = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
    build = design(read_build((gallery / "uk-king-over-boxes.toml").read_text(encoding="utf-8")))
    shapes = views.section(build).shapes
    (named,) = (shape for shape in shapes if isinstance(shape, Text) and shape.text == "cleat")
    cut = [shape for shape in shapes if isinstance(shape, Rect) and shape.line != "hidden"]
    under = [r for r in cut if r.x < named.at[0] < r.x + r.width and r.y < named.at[1] < r.y + r.height]
    assert [(r.width, r.height) for r in under] == [build.part("cleat").pieces[0].box.size[1:]]
    assert len(cut) == 3  # rail, cleat, slat
