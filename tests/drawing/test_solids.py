"""Boxes from the back to the front: what is nearer to the eye is drawn later."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from tutorial_lib.drawing.solids import COS, SIN, Solid, back_to_front, before, faces, in_sight, overlap, project, seen

EYE = (1.0, -1.0, 1.0)  # direction to the eye; along it two places fall on the same point of the drawing


def box(lo, hi, label=""):
    return Solid(tuple(map(float, lo)), tuple(map(float, hi)), label)


def test_places_along_the_line_of_sight_fall_together():
    here = (3.0, 4.0, 5.0)
    there = tuple(a + 7 * d for a, d in zip(here, EYE, strict=True))
    assert all(abs(a - b) < 1e-12 for a, b in zip(project(here), project(there), strict=True))


def test_a_box_shows_three_faces():
    assert len(list(faces(box((0, 0, 0), (1, 2, 3))))) == 3


def test_what_is_seen_of_a_box_is_told_as_a_share_of_its_outline():
    cube = box((0, 0, 0), (1, 1, 1))
    assert seen(cube, [cube, box((50, 50, 0), (51, 51, 1))]) == 1  # nowhere near it
    assert seen(cube, [cube, box((-1, 2, -1), (0, 3, 1))]) == 1  # behind it
    assert seen(cube, [cube, box((0, 0, 1), (1, 1, 2))]) == 2 / 3  # one on it hides its top, and no other face
    assert seen(cube, [cube, box((2, -2, 2), (3, -1, 3))]) == 0  # just before it, along the line of sight
    flat = box((0, 0, 0), (4, 4, 1))  # top 16, two faces of 4: a lid hides 16 of 24
    assert seen(flat, [flat, box((0, 0, 1), (4, 4, 1.5))]) == 8 / 24


def test_a_place_in_sight_is_the_wanted_one_or_amid_what_is_seen_of_the_clearest_face():
    flat = box((0, 0, 0), (9, 9, 1))
    top = (4.5, 4.5, 1.0)
    assert in_sight(flat, [flat], top) == top
    lid = box((0, 0, 1), (9, 6, 2))  # six of its top's nine rows lie under it, and what is just behind it
    x, y, z = in_sight(flat, [flat, lid], top) or top
    assert (x, z) == (4.5, 1)
    assert 7 < y < 9  # the lid hides an inch of what is behind it
    assert in_sight(flat, [flat, box((1, -10, 0), (30, -1, 30))], top) is None


def test_touching_boxes_have_an_order():
    low, high = box((0, 0, 0), (10, 10, 2), "low"), box((2, 2, 2), (8, 8, 4), "high")
    assert [s.label for s in back_to_front([high, low])] == ["low", "high"]


def test_boxes_that_don_t_meet_on_the_drawing_keep_their_order():
    a, b = box((0, 0, 0), (1, 1, 1), "a"), box((50, 50, 0), (51, 51, 1), "b")
    assert not overlap(a, b)
    assert [s.label for s in back_to_front([b, a])] == ["b", "a"]


def test_a_ring_of_three_is_cut():
    # three beams, each passing before the next
    ring = [box((1, -2, 0), (2, 0, 1), "a"), box((0, -2, 0), (1, -1, 2), "b"), box((0, -1, 1), (2, 0, 2), "c")]
    assert before(ring[0], ring[1])
    assert before(ring[1], ring[2])
    assert before(ring[2], ring[0])
    order = back_to_front(ring)
    assert len(order) > 3
    assert {s.label for s in order} == {"a", "b", "c"}
    assert not any(_nearer(a, b) for a, b in combinations(order, 2))
    inked = sum(len(edges) for s in order for _, edges, _ in faces(s))
    assert inked < 4 * sum(1 for s in order for _ in faces(s)), "edges of a cut are not inked"


coordinate = st.integers(0, 8)


@st.composite
def apart(draw):
    """Boxes on a grid that don't share space."""
    boxes: list[Solid] = []
    for i in range(draw(st.integers(2, 7))):
        lo = tuple(draw(coordinate) for _ in range(3))
        size = tuple(draw(st.integers(1, 5)) for _ in range(3))
        new = box(lo, tuple(a + b for a, b in zip(lo, size, strict=True)), str(i))
        if not any(_share(new, other) for other in boxes):
            boxes.append(new)
    return boxes


def _share(a, b):
    return all(a.lo[i] < b.hi[i] and b.lo[i] < a.hi[i] for i in range(3))


@settings(max_examples=20)
@given(apart())
def test_every_line_of_sight_meets_what_was_drawn_last(boxes):
    order = back_to_front(boxes)
    for first, later in combinations(order, 2):
        if overlap(first, later):
            assert not _nearer(first, later), (first, later)


def _nearer(a, b):
    """True if on some line of sight through both, ``a`` is nearer to the eye: tried on a fine grid of the drawing."""
    for i in range(-40, 61):
        for j in range(-40, 61):
            x, y = i * 0.31 + 0.113, j * 0.29 + 0.071
            hits = [_along(solid, x, y) for solid in (a, b)]
            if all(hits) and hits[0][0] > hits[1][1] - 1e-9:
                return True
    return False


def _along(solid, sx, sy):
    """Nearest and farthest place of a solid along the line of sight through a point of the drawing."""
    u = sx / COS  # x + y
    lo, hi = -1e9, 1e9
    # a place with z = t: y - x = (sy - t) / SIN
    for axis in range(3):
        slope, base = ((0.5 / SIN, (u - sy / SIN) / 2), (-0.5 / SIN, (u + sy / SIN) / 2), (1.0, 0.0))[axis]
        ends = sorted(((solid.lo[axis] - base) / slope, (solid.hi[axis] - base) / slope))
        lo, hi = max(lo, ends[0]), min(hi, ends[1])
    return (lo, hi) if lo < hi - 1e-9 else None


@given(apart())
def test_cutting_loses_nothing(boxes):
    volume = sum(_volume(s) for s in boxes)
    assert abs(sum(_volume(s) for s in back_to_front(boxes)) - volume) < 1e-9


def _volume(s):
    return (s.hi[0] - s.lo[0]) * (s.hi[1] - s.lo[1]) * (s.hi[2] - s.lo[2])


def test_before_is_told_by_the_parting_plane():
    near, far = box((5, 0, 0), (6, 1, 1)), box((0, 0, 0), (5, 1, 1))
    assert before(near, far)
    assert not before(far, near)
