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


@pytest.mark.parametrize(
    ("width", "height", "way"),
    [
        (18, 43, (2, 1)),
        (F(179, 10), 43, None),
        (18, F(429, 10), None),
        (18, 80, (2, 1)),
        (43, 18, (1, 2)),
        (90, 90, (2, 1)),
    ],
)
def test_half_an_inch_is_kept_on_each_side(width, height, way):
    """17 x 42 x 79: the narrowest side across first, then the lowest upright."""
    assert passes((F(79), F(42), F(17)), F(width), F(height)) == way


@pytest.mark.parametrize(("thickness", "goes"), [(35.9, True), (36, False), (37, False)])
def test_what_is_as_thick_as_the_passage_never_turns(thickness, goes):
    assert (longest_round(48, 36, thickness) > 0) == goes


@pytest.mark.parametrize("scale", [0.001, 0.5, 3])
def test_everything_twice_as_large_goes_round_twice_as_long(scale):
    assert longest_round(36 * scale, 48 * scale, 6 * scale) == pytest.approx(scale * longest_round(36, 48, 6))


@pytest.mark.parametrize("thickness", [0, 6])
def test_it_is_no_matter_from_which_passage_one_comes(thickness):
    """Out of a hall of 20 ft into one of 30 in the thing stands steep where it sticks, at 63 degrees and more."""
    out, back = longest_round(30, 240, thickness), longest_round(240, 30, thickness)
    assert out == pytest.approx(back)
    assert thickness or out == pytest.approx((30 ** (2 / 3) + 240 ** (2 / 3)) ** 1.5, rel=1e-5)
