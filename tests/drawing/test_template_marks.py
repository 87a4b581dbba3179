"""Lines of the full-size templates, by their own coordinates in inches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from tests.drilling.builds import demo
from tutorial_lib.drawing import templates
from tutorial_lib.drawing.holes import face_size
from tutorial_lib.drawing.scene import Circle, Line
from tutorial_lib.plan import Plan


def _all(scene, kind):
    return [shape for shape in scene.shapes if isinstance(shape, kind)]


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


@pytest.mark.parametrize(("away", "together"), [(Fraction(3), True), (Fraction(49, 16), False)])
def test_holes_of_a_joint_up_to_three_inches_apart_stay_on_one_paper(away: Fraction, together: bool) -> None:
    first, second = (replace(PLAN.drilling.schedule[0].holes[0], u=u, table="cleat") for u in (Fraction(1), 1 + away))
    assert templates._together([first], second, {first: first.u, second: second.u}) == together
    other = replace(second, table="corner")
    assert not templates._together([first], other, {first: first.u, other: first.u})


def test_a_paper_ends_past_its_last_hole_and_halfway_to_a_near_one() -> None:
    """3/4 in past the hole as a rule; where the next is nearer than that, in the middle between the two."""
    near, far = Fraction(5, 2), Fraction(9)
    for rest, cut in (([], 3), ([far], 3), ([Fraction(25, 8), far], 3), ([near, far], (Fraction(9, 4) + near) / 2)):
        assert templates._cut_past(Fraction(9, 4), rest) == cut


def test_one_paper_serves_two_ends_of_a_piece_with_one_like_hole_each() -> None:
    group = next(g for g in PLAN.drilling.schedule if any(hole.end_face for hole in g.holes))
    faces = [face for face in group.faces if group.on(face)[0].end_face]
    single = replace(group, holes=tuple(group.on(face)[0] for face in faces))
    assert len(faces) == 2 and templates.other_ends(single, faces[0]) == (faces[1],)
    assert templates.other_ends(single, faces[1]) == ()
