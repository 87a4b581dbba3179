"""Where eyes stand, and what lies between them and a spot."""

from __future__ import annotations

from itertools import chain

import pytest

from tests.design.builds import demo
from tutorial_lib.design.platform_bed import design
from tutorial_lib.finishing.sight import Watcher, blocked, eyes, facing, seen

BED = design(demo())
WIDTH, LENGTH = (float(side) for side in BED.outside)


def test_eyes_stand_all_round_near_and_far():
    watcher = Watcher(eye=60, near=10, far=50)
    rows = eyes(BED, watcher)
    assert all(len({x for x, _, _ in row}) == 1 or len({y for _, y, _ in row}) == 1 for row in rows)
    found = {eye for row in rows for eye in row}
    assert len(found) == 2 * (14 + 6) and {z for _, _, z in found} == {60}
    for off in (10, 50):
        along = {-off, 0, LENGTH / 4, LENGTH / 2, LENGTH * 3 / 4, LENGTH, LENGTH + off}
        across = {0, WIDTH / 2, WIDTH}
        expected = {(x, y, 60) for x in along for y in (-off, WIDTH + off)}
        expected |= {(x, y, 60) for y in across for x in (-off, LENGTH + off)}
        assert expected <= found


def test_nobody_stands_in_the_bed():
    for x, y, _ in chain.from_iterable(eyes(BED, Watcher())):
        assert not (0 <= x <= LENGTH and 0 <= y <= WIDTH)


CUBE = ((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))


@pytest.mark.parametrize(
    ("start", "end", "stopped"),
    [
        ((-1, 0.5, 0.5), (2, 0.5, 0.5), True),  # right through
        ((-1, 0.5, 0.5), (-0.1, 0.5, 0.5), False),  # ends before it
        ((1.1, 0.5, 0.5), (2, 0.5, 0.5), False),  # begins behind it
        ((-1, 1.0, 0.5), (2, 1.0, 0.5), False),  # along a face
        ((-1, 1.5, 0.5), (2, 1.5, 0.5), False),  # beside it
        ((-1, -1, -1), (2, 2, 2), True),  # corner to corner
        ((-1, 0.5, 0.5), (0.5, 0.5, 0.5), True),  # ends inside
        ((0.5, 0.5, 0.5), (0.5, 0.5, 3), True),  # begins inside
        ((0, 0.5, 3), (0, 0.5, -3), False),  # down a face
        ((-1, 0, 0.5), (0, 1, 0.5), False),  # past an edge
    ],
)
def test_a_cube_in_the_way(start, end, stopped):
    assert blocked(start, end, [CUBE]) == stopped
    assert blocked(end, start, [CUBE]) == stopped


def test_nothing_in_the_way():
    assert not blocked((0, 0, 0), (1, 1, 1), [])


ROW = [(float(x), 0.0, 10.0) for x in (-4, -2, 0, 2, 4)]  # eyes ten inches above a spot
LID = ((-5.0, -1.0, 4.0), (5.0, 1.0, 5.0))
LEFT, RIGHT = ((-5.0, -1.0, 4.0), (-0.5, 1.0, 5.0)), ((0.5, -1.0, 4.0), (5.0, 1.0, 5.0))


@pytest.mark.parametrize(
    ("solids", "shows"),
    [
        ([], True),
        ([LID], False),  # one lid over all
        ([LEFT, RIGHT], True),  # both ends hidden, by two: the middle sees between them
        ([LEFT], True),  # hidden from one end
        ([RIGHT], True),  # and from the other
        ([LEFT, RIGHT, LID], False),
    ],
)
def test_a_row_of_eyes_is_passed_over_only_where_one_solid_hides_both_its_ends(solids, shows):
    assert seen((0.0, 0.0, 0.0), 2, 1, [list(ROW)], list(solids)) == shows
    assert seen((0.0, 0.0, 0.0), 2, 1, [list(reversed(ROW))], list(solids)) == shows


def test_eyes_in_a_plane_or_behind_it_face_nothing():
    rows = [[(0.0, 0.0, 1.0), (5.0, 0.0, 2.0)], [(0.0, 0.0, 3.0), (0.0, 0.0, 2.0)], [(0.0, 0.0, 2.0)]]
    assert facing(rows, 2, 1, 2.0) == [[(0.0, 0.0, 3.0)]]
    assert facing(rows, 2, -1, 2.0) == [[(0.0, 0.0, 1.0)]]
