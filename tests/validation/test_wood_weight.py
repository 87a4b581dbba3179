"""NDS Supplement 3.1.3 (from memory): weight of dimension lumber at 12 % moisture.

An 8 ft 2x4 of spruce-pine-fir holds 0.2917 cubic feet and weighs 8.2 lb (computed by the same formula by hand).
And diagonals by whole-number right triangles.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.assembly.squaring import diagonal
from tutorial_lib.design.model import Box, Piece, Section
from tutorial_lib.design.weights import weight


def test_an_eight_foot_two_by_four():
    box = Box((Fraction(0),) * 3, (Fraction(96), Fraction(3, 2), Fraction(7, 2)))
    board = Piece(label="stud", part="stud", box=box, axis=0)
    section = Section(
        name="2x4", thickness=Fraction(3, 2), width=Fraction(7, 2), species="Spruce-Pine-Fir", grade="No.2"
    )  # fmt: skip
    assert weight(board, section, 12) == pytest.approx(8.19, abs=0.01)


@pytest.mark.parametrize(("w", "l", "d"), [(3, 4, 5), (36, 77, 85), (39, 80, 89), (48, 55, 73)])
def test_right_triangles(w, l, d):  # noqa: E741 (width, length, diagonal)
    assert diagonal(Fraction(w), Fraction(l)) == d
