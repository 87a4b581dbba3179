"""Step drawings as data: what is new is filled, screws have axes, labels keep clear of each other and of the wood."""

from __future__ import annotations

from functools import cache

import pytest

from tests.builds import raw_on_posts
from tests.design.builds import changed, demo
from tests.drawing.crowded import overlapping_words, struck_through
from tests.publishing.demo import metric
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.design.zero import reach
from tutorial_lib.drawing.apart import Outline
from tutorial_lib.drawing.facemap import bed_map, part_map
from tutorial_lib.drawing.ink import Words
from tutorial_lib.drawing.isometric import Frame, _groups, _piece_labels, pulls, step_drawing
from tutorial_lib.drawing.layout import extent, lay
from tutorial_lib.drawing.scene import PAPER, STYLE, Line, Polygon
from tutorial_lib.drawing.solids import Solid, back_to_front, faces, project
from tutorial_lib.drawing.timeline import timeline_chart
from tutorial_lib.plan import Plan

BEDS = {
    "demo": {},
    "king with a centre beam": {"mattress__width": "76 in", "mattress__length": "80 in", "centre__lines": 1},
    "runners and doubled legs": {
        "support__kind": "runners", "support__lumber": "2x6", "support__recess": None, "support__end_play": None,
        "screws": None, "legs__kind": "doubled", "legs__lumber": "2x4", "mattress__width": "53 in", "centre__lines": 1,
        "centre__kind": "flat", "centre__lumber": "2x6",
    },
    "tubes in millimetres": {"legs__kind": "tube", "screws": None, "build__units": "mm"},
}  # fmt: skip


@cache
def plan(name):
    return Plan(changed(**BEDS[name]) if BEDS[name] else demo())


def drawings():
    return list(_drawings())


def _drawings():
    for name in BEDS:
        for step in plan(name).assembly.steps:
            scene = step_drawing(plan(name).build, step)
            if scene is not None:
                yield pytest.param(scene, step, id=f"{name}: {step.title}")


@pytest.mark.parametrize(("scene", "step"), drawings())
def test_words_never_lie_on_words_or_on_the_drawing(scene, step):
    assert overlapping_words(scene) == []
    assert struck_through(scene) == []
    inks, _ = lay(scene)
    shapes = [shape for shape in scene.shapes if isinstance(shape, Polygon)]
    for words in (ink for ink in inks if isinstance(ink, Words)):
        x0, y0, x1, y1 = words.frame
        for polygon in shapes:
            points = [(float(x) * scene.scale, float(y) * scene.scale) for x, y in polygon.points]
            for k in range(9):
                at = (x0 + (x1 - x0) * k / 8, (y0 + y1) / 2)
                assert not _inside(at, points), f"{words.text} lies on the drawing"


def _inside(at, points):
    """True if a place lies in a convex shape."""
    turns = [
        (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])
        for a, b in zip(points, points[1:] + points[:1], strict=True)
    ]
    return all(t > 0 for t in turns) or all(t < 0 for t in turns)


@pytest.mark.parametrize(("scene", "step"), drawings())
def test_new_pieces_are_filled_and_screws_have_axes(scene, step):
    if step.operation is None or step.key == "turn":
        return
    wood = ("wood", "wood side", "wood front", "end", "metal")
    filled = sum(isinstance(s, Polygon) and s.fill in wood for s in scene.shapes)
    assert filled == 3 * len(step.new or step.made)
    axes = sum(isinstance(s, Line) and s.line == "centre" for s in scene.shapes)
    assert axes == sum(len(f.driven) for f in step.operation.fastenings)


def test_screws_are_told_with_their_counts():
    cleats = next(s for s in plan("demo").assembly.steps if s.key == "cleat")
    texts = step_drawing(plan("demo").build, cleats).texts()
    assert texts == ["2 side rails", "2 cleats", "18 × #9 x 2 1/2 in wood screw, 9 per joint"]


@pytest.mark.parametrize("seed", [30015, 30021])
def test_no_line_runs_through_words_on_tall_posts(seed: int) -> None:
    """Small drawings with long words: labels stand beside them, or their lines go round."""
    made = Plan(from_raw(raw_on_posts(seed)))
    high = 104.0
    for step in made.assembly.steps:
        scene = step_drawing(made.build, step, 254.0, PAPER, high)
        if scene is not None:
            x0, y0, x1, y1 = extent(scene)
            assert struck_through(scene) == overlapping_words(scene) == []
            assert y1 - y0 < high + 1 and x1 - x0 < 254 + 1


def test_diagonals_are_measured_over_the_rails_not_over_the_posts() -> None:
    made = Plan(from_raw(raw_on_posts(30021)))
    square = next(s for s in made.assembly.steps if s.key == "square")
    scene = step_drawing(made.build, square)
    ends = {point for line in scene.shapes if isinstance(line, Line) and line.line == "centre" for point in line.points}
    top = float(made.build.heights.rail_top)
    (start, long), (near, wide) = (tuple(map(float, span)) for span in reach(made.build))
    assert ends == {project((x, y, top)) for x in (start, long) for y in (near, wide)}


def test_retightening_has_no_drawing():
    last = plan("demo").assembly.steps[-1]
    assert step_drawing(plan("demo").build, last) is None


def test_every_drawing_says_what_it_shows():
    for step in plan("demo").assembly.steps[:-1]:
        assert f"Step {step.number}" in step_drawing(plan("demo").build, step).alt


def test_face_maps_name_every_face():
    for found in plan("demo").finishing.maps:
        scene = part_map(found)
        assert overlapping_words(scene) == []
        assert len(scene.texts()) == 6
        assert found.sentence in scene.alt


def test_the_bed_map_fills_what_shows():
    scene = bed_map(plan("demo").build, plan("demo").finishing)
    assert any(isinstance(s, Polygon) and s.fill == "wood" for s in scene.shapes)
    assert "square feet" in scene.alt


@pytest.mark.parametrize("coats", [0, 1, 2, 5])
def test_the_timeline_has_a_row_for_each_task(coats):
    tasks = Plan(changed(finish__coats=coats)).finishing.tasks
    scene = timeline_chart(tasks)
    assert overlapping_words(scene) == []
    assert [t for t in scene.texts() if t in {task.name for task in tasks}] == [task.name for task in tasks]


def test_a_timeline_with_many_grits_is_no_wider() -> None:
    tasks = Plan(changed(finish__grits=(60, 80, 100, 120, 150))).finishing.tasks
    for style in (STYLE, PAPER):
        x0, _, x1, _ = extent(timeline_chart(tasks, 500.0, style))
        assert x1 - x0 < 510


def test_what_was_fixed_on_the_bench_goes_where_its_carrier_goes() -> None:
    """The metric demo's legs are screwed to the cleats first, these to the side rails, and those to the end rails."""
    found = {s.key: pulls(metric().build, s.operation) for s in metric().assembly.steps if s.operation}
    assert found["cleat"]["leg L2"] == found["cleat"]["cleat left"] == (0.0, 9.0, 0.0)
    corner = found["corner"]
    assert corner["leg R3"] == corner["cleat right"] == corner["side rail right"] == (0.0, 9.0, 0.0)
    assert "end rail head" not in corner


@pytest.mark.parametrize("of", ["demo", "runners and doubled legs", "tubes in millimetres", "posts"])
def test_a_leader_ends_on_a_piece_of_its_own_that_is_seen(of):
    """Whatever is drawn last at a leader's end is one of the pieces that its words name."""
    made = Plan(from_raw(raw_on_posts(910002))) if of == "posts" else plan(of)
    for step in (one for one in made.assembly.steps if one.operation is not None):
        frame, shifts = Frame(made.build, step.way == "upside down"), pulls(made.build, step.operation)
        new = list(step.new or step.made)
        solids = [frame.solid(label) for label in step.present if step.new]
        solids += [frame.solid(label, shifts.get(label, (0.0, 0.0, 0.0)), True) for label in new]
        groups = _groups(frame, new, solids, step.operation.key == "ply")
        labels, dashed = _piece_labels(groups, solids)
        assert len({label.text for label in labels}) == len(labels)
        drawn = [(s.label, Outline(outline)) for s in back_to_front(solids) for outline, _, _ in faces(s)]
        for label in labels:
            own = {solid.label for solid in groups[label.text]}
            tops = [next((name for name, face in reversed(drawn) if face.holds(at)), "") for at in label.spots]
            assert dashed or set(tops) <= own, (step.title, label.text, tops)


def test_a_piece_that_nothing_shows_of_is_dashed():
    inside, about = Solid((1, 1, 1), (2, 2, 2), "inside", True), Solid((3, -9, 0), (12, 0, 12), "about")
    (label,), dashed = _piece_labels({"1 cleat": [inside]}, [inside, about])
    assert len(dashed) == 12
    assert {line.line for line in dashed} == {"hidden"}
    assert label.spots == (project((1.5, 1, 1.5)),)


def test_cleats_on_their_rails_leave_the_rails_to_be_seen():
    """White about a cleat would cover the rail behind it: only the end rails, which stand free, have it."""
    corners = next(step for step in plan("demo").assembly.steps if step.key == "corner")
    scene = step_drawing(plan("demo").build, corners)
    assert sum(isinstance(shape, Polygon) and shape.line == "clear" for shape in scene.shapes) == 2 * 3
