"""Growth rings: on the board's end, always the same, further apart by one step."""

from __future__ import annotations

from math import hypot

import pytest

from tutorial_lib.drawing.wood import rings


@pytest.mark.parametrize(("wide", "high", "step"), [(5.5, 1.5, 0.25), (3.5, 3.5, 0.6), (1.5, 5.5, 0.8)])
def test_rings_lie_on_the_end_about_a_heart_below_it(wide: float, high: float, step: float) -> None:
    drawn = list(rings(wide, high, "a", step))
    assert len(drawn) >= 3 and drawn == list(rings(wide, high, "a", step)) != list(rings(wide, high, "b", step))
    assert all(0 < u < wide and 0 < v < high for run in drawn for u, v in run)
    (a, b), (c, d) = drawn[-1][0], drawn[-1][-1]
    heart = ((c * c - a * a + (d + 0.4 * high) ** 2 - (b + 0.4 * high) ** 2) / (2 * (c - a)), -0.4 * high)
    turns = [hypot(u - heart[0], v - heart[1]) / step for u, v in drawn[-1]]
    assert all(turn == pytest.approx(round(turn), abs=1e-6) for turn in turns)
