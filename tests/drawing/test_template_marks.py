"""Lines of the full-size templates, by their own coordinates in inches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from tests.drilling.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.drawing import templates
from tutorial_lib.drawing.holes import face_size
from tutorial_lib.drawing.scene import Circle, Line, Rect, Text
from tutorial_lib.measures import mm
from tutorial_lib.plan import Plan


def _all(scene, kind):
    return [shape for shape in scene.shapes if isinstance(shape, kind)]


def test_the_check_bars_are_true() -> None:
    scene = templates.check_bar()
    inches, metric = _all(scene, Rect)
    assert (inches.x, inches.y, inches.width, inches.height) == (0, 0, 4, Fraction(1, 4))
    assert (metric.x, metric.width) == (0, mm(100)) and metric.y + metric.height < inches.y
    ticks = [line.points for line in _all(scene, Line)]
    assert all(a[0] == b[0] for a, b in ticks)
    assert [a[0] for a, _ in ticks] == [1, 2, 3, *(mm(10 * i) for i in range(1, 10))]
    for (x0, y0), (x1, y1) in ticks:
        bar = inches if x0 in (1, 2, 3) and (y0, y1) == (0, Fraction(1, 4)) else metric
        assert (y0, y1) == (bar.y, bar.y + bar.height) and x0 == x1
    assert [(text.at[0], text.text.split(":")[0]) for text in _all(scene, Text)] == [(4, "4 in"), (mm(100), "100 mm")]


PLAN = Plan(demo())


@pytest.mark.parametrize("end", list(templates.ends(PLAN)), ids=lambda end: f"{end.group.name} {end.face} {end.name}")
def test_a_template_s_outline_is_the_paper_and_its_crosses_are_the_holes(end) -> None:
    scene = templates.template(PLAN.build, end)
    long, high = face_size(end.group, end.face)
    outline = [line.points for line in _all(scene, Line) if line.line == "outline"]
    corners = {(0, 0), (0, high), (end.cut, 0), (end.cut, high)}
    assert len(outline) == 1 and set(outline[0]) == corners
    assert (outline[0][0] == outline[0][-1]) == (end.cut == long)  # closed only where the piece ends on the paper
    assert all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise(outline[0]))
    torn = [line.points for line in _all(scene, Line) if line.line == "hidden"]
    assert torn == ([] if end.cut == long else [((end.cut, 0), (end.cut, high))])
    circles = {(c.centre[0], c.radius * 2) for c in _all(scene, Circle)}
    assert circles == {(end.along(hole), hole.diameter) for hole in end.holes}
    assert all(c.centre[1] in {v for h in end.holes for v in (h.v, high - h.v)} for c in _all(scene, Circle))
    crossed = {tuple((a + b) / 2 for a, b in zip(*line.points, strict=True)) for line in _all(scene, Line)
               if line.line == "thin"}  # fmt: skip
    assert crossed == {c.centre for c in _all(scene, Circle)}


def test_strips_of_a_stick_follow_each_other_without_a_gap() -> None:
    group = next(g for g in PLAN.drilling.schedule if g.part in templates.STICKS)
    scenes = templates.strips(PLAN, group)
    lengths = [_all(scene, Rect)[0].width for scene in scenes]
    assert sum(lengths) == group.piece.length and max(lengths) <= templates.STRIP
    assert len(set(lengths[:-1])) == 1 and lengths[-1] <= lengths[0]
    told = [text.text for text in _all(scenes[0], Text)]
    assert any(text.startswith("the datum end") for text in told)
    assert any("the far end" in text.text for text in _all(scenes[-1], Text))


@pytest.mark.parametrize(("units", "step"), [("in", Fraction(1, 4)), ("mm", mm(5))])
def test_strips_are_joined_at_places_that_a_tape_shows(units: str, step: Fraction) -> None:
    plan = Plan(change(demo(), {"build.units": units}))
    group = next(g for g in plan.drilling.schedule if g.part in templates.STICKS)
    lengths = [_all(scene, Rect)[0].width for scene in templates.strips(plan, group)]
    assert len(lengths) > 2 and all(length % step == 0 for length in lengths[:-1])
    assert lengths[0] - step < group.piece.length / len(lengths) <= lengths[0]  # no longer than the step asks for


def test_marks_of_a_stick_stand_where_they_are_said() -> None:
    """Holes from the top edge down a third, slat edges from the lower edge up a third, on a strip 7/8 in high."""
    group = next(g for g in PLAN.drilling.schedule if g.part in templates.STICKS)
    high, start, found = Fraction(7, 8), Fraction(0), []
    for scene in templates.strips(PLAN, group):
        (strip,) = _all(scene, Rect)
        assert strip.height == high
        for line in _all(scene, Line):
            (x0, y0), (x1, y1) = line.points
            assert x0 == x1 and (y0, y1) in ((high, high * 2 / 3), (0, high / 3))
            found.append((start + x0, y0 == high))
        start += strip.width
    assert sorted(found) == sorted((at, is_hole) for at, _, is_hole in templates.stick_marks(PLAN, group))


def test_words_of_a_mark_stand_on_the_side_that_has_room() -> None:
    """To the right of it as a rule, else to the left, 8 points from a hole and 4 from a slat's edge."""
    for words, left in (("hole", False), ("hole", True), ("slat", False), ("slat", True)):
        shapes = templates._stick_mark(Fraction(3), words, words == "hole", left)
        (text,) = [shape for shape in shapes if isinstance(shape, Text)]
        away = 8 if words == "hole" else 4
        assert (text.anchor, text.shift[0]) == (("end", -away) if left else ("start", away))
        assert all((dx < 0) == left and abs(dx) == away for dx, _ in text.tries)
        level = -3 if words == "hole" else 6  # [pt] half a capital below a cross's middle; off the lower edge
        assert text.shift[1] == level


@pytest.mark.parametrize(("away", "together"), [(Fraction(3), True), (Fraction(49, 16), False)])
def test_holes_of_a_joint_up_to_three_inches_apart_stay_on_one_paper(away: Fraction, together: bool) -> None:
    first, second = (replace(PLAN.drilling.schedule[0].holes[0], u=u, table="cleat") for u in (Fraction(1), 1 + away))
    assert templates._together([first], second, {first: first.u, second: second.u}) == together
    other = replace(second, table="corner")
    assert not templates._together([first], other, {first: first.u, other: first.u})


def test_a_short_strip_has_its_words_at_its_start() -> None:
    """Under 3 in the strip's two ends are told in one line, from its left edge on."""
    for long, words in ((Fraction(23, 8), 1), (Fraction(3), 2)):
        scene = templates._strip(PLAN.build, [], (Fraction(8), 8 + long), 1, 3)
        texts = [text for text in _all(scene, Text) if text.shift == (0, 5)]
        assert [text.at[0] for text in texts] == [0, long][:words]


def test_a_mark_on_a_join_is_on_the_next_strip_and_one_on_the_far_end_on_the_last() -> None:
    marks = [(Fraction(at), "cleat hole", True) for at in (0, 8, 16)]
    for i, seen in enumerate((1, 2)):
        scene = templates._strip(PLAN.build, marks, (Fraction(8 * i), Fraction(8 * i + 8)), i, 2)
        assert len(_all(scene, templates.Mark)) == seen


def test_a_paper_ends_past_its_last_hole_and_halfway_to_a_near_one() -> None:
    """3/4 in past the hole as a rule; where the next is nearer than that, in the middle between the two."""
    near, far = Fraction(5, 2), Fraction(9)
    for rest, cut in (([], 3), ([far], 3), ([Fraction(25, 8), far], 3), ([near, far], (Fraction(9, 4) + near) / 2)):
        assert templates._cut_past(Fraction(9, 4), rest) == cut


def test_a_cleat_s_stick_has_the_slat_that_starts_where_the_cleat_starts() -> None:
    plan = Plan(change(demo(), {"legs.place": "under the rail", "support.end_play": "0 in", "screws": None}))
    group = next(g for g in plan.drilling.schedule if g.part == "cleat")
    edges = {what: at for at, what, is_hole in templates.stick_marks(plan, group) if not is_hole}
    assert edges["slat 1"] == plan.build.slats.start - group.piece.box.lo[0] == 0


def test_one_paper_serves_two_ends_of_a_piece_with_one_like_hole_each() -> None:
    group = next(g for g in PLAN.drilling.schedule if any(hole.end_face for hole in g.holes))
    faces = [face for face in group.faces if group.on(face)[0].end_face]
    single = replace(group, holes=tuple(group.on(face)[0] for face in faces))
    assert len(faces) == 2 and templates.other_ends(single, faces[0]) == (faces[1],)
    assert templates.other_ends(single, faces[1]) == ()
