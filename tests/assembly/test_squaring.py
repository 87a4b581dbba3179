"""Diagonals and what their difference means."""

from __future__ import annotations

from fractions import Fraction
from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.assembly.squaring import Squaring, difference, lean


@given(st.floats(30, 80), st.floats(70, 90), st.floats(-3, 3))
def test_lean_and_difference_undo_each_other(width, length, ahead):
    assert lean(width, length, difference(width, length, ahead)) == pytest.approx(ahead, abs=1e-9)


@given(st.floats(30, 80), st.floats(70, 90), st.floats(-2, 2))
def test_difference_by_corner_coordinates(width, length, degrees):
    across = (width * sin(radians(degrees)), width * cos(radians(degrees)))
    one, other = hypot(length + across[0], across[1]), hypot(length - across[0], across[1])
    assert difference(width, length, across[0]) == pytest.approx(one - other, abs=1e-9)


def test_an_end_shifted_sideways_by_an_eighth():
    # the end of a 56 3/4 x 78 3/4 frame pushed 1/8 to the side: the diagonals differ by about 2 e W / D = 0.146
    assert difference(78.75, 56.75, 0.125) == pytest.approx(2 * 0.125 * 56.75 / 97.0676, abs=1e-3)


def test_both_diagonals_of_a_frame():
    frame = Squaring(width=Fraction(36), length=Fraction(77), inside_width=Fraction(33), inside_length=Fraction(56))
    assert (frame.outside_diagonal, frame.inside_diagonal, frame.tolerance) == (85, 65, Fraction(1, 8))
    assert frame.lean(0.125) == pytest.approx(0.125 * (4 * (36**2 + 77**2) - 0.125**2) ** 0.5 / (4 * 77))
