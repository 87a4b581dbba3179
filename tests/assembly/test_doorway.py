"""Doors and corners."""

from __future__ import annotations

from fractions import Fraction
from math import cos, pi, sin

import pytest

from tutorial_lib.assembly.doorway import longest_round, passes

F = Fraction


def test_a_frame_goes_through_on_its_side():
    assert passes((F(79), F(42), F(17)), F(30), F(80)) == (2, 1)  # 17 across, 42 upright


def test_room_for_fingers_is_kept():
    assert passes((F(79), F(42), F(17)), F(18), F(80)) is not None
    assert passes((F(79), F(42), F(17)), F(35, 2), F(79)) is None


def test_a_thin_pole_round_a_corner():
    assert longest_round(36, 48, 0) == pytest.approx((36 ** (2 / 3) + 48 ** (2 / 3)) ** 1.5, rel=1e-5)


def test_a_thick_thing_by_brute_force():
    best = min(
        (36 * cos(t) + 36 * sin(t) - 6) / (sin(t) * cos(t)) for t in (k / 10000 * pi / 2 for k in range(1, 10000))
    )
    assert longest_round(36, 36, 6) == pytest.approx(best, rel=1e-6)
    assert longest_round(36, 36, 36) == 0
