"""Where eyes stand, and what lies between them and a spot."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.design.platform_bed import design
from tutorial_lib.finishing.sight import Watcher, blocked, eyes

BED = design(demo())
WIDTH, LENGTH = (float(side) for side in BED.outside)


def test_eyes_stand_all_round_near_and_far():
    watcher = Watcher(eye=60, near=10, far=50)
    found = set(eyes(BED, watcher))
    assert len(found) == 2 * (14 + 6) and {z for _, _, z in found} == {60}
    for off in (10, 50):
        along = {-off, 0, LENGTH / 4, LENGTH / 2, LENGTH * 3 / 4, LENGTH, LENGTH + off}
        across = {0, WIDTH / 2, WIDTH}
        expected = {(x, y, 60) for x in along for y in (-off, WIDTH + off)}
        expected |= {(x, y, 60) for y in across for x in (-off, LENGTH + off)}
        assert expected <= found


def test_nobody_stands_in_the_bed():
    for x, y, _ in eyes(BED, Watcher()):
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
