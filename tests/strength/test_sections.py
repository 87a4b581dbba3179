"""Design values and factors are the tables' own; what the tables don't know is refused with the way out."""

from __future__ import annotations

import pytest

from tutorial_lib.errors import InputError
from tutorial_lib.strength.members import allowed_bending, bearing_factor
from tutorial_lib.strength.sections import Size, design_row, flat_factor, graded, size_factor

FLAT_2X4, EDGE_2X6, BOARD = Size(1.5, 3.5, True), Size(1.5, 5.5, False), Size(0.75, 3.5, True)


def test_stud_is_not_no_2():
    stud, two = (design_row("Spruce-Pine-Fir", g, 4) for g in ("Stud", "No.2"))
    assert (stud.Fb, two.Fb) == (675, 875)
    assert allowed_bending(stud, FLAT_2X4, 1.0)[0] == pytest.approx(675 * 1.1 * 1.1)
    assert allowed_bending(two, FLAT_2X4, 1.0)[0] == pytest.approx(1443.75)


def test_southern_pine_has_its_size_inside():
    narrow, wide = (design_row("Southern Pine", "No.2", w) for w in (4, 6))
    assert (narrow.Fb, wide.Fb) == (1100, 1000)
    assert size_factor(narrow, FLAT_2X4, "Fb") == 1.0


def test_boards_take_the_size_factor_but_not_the_flat_one():
    kind = design_row("SPF", "#2", 4)
    allowed, factors, working = allowed_bending(kind, BOARD, 1.6)
    assert allowed == pytest.approx(875 * 1.5 * 1.6)
    assert factors.flat == 1.0
    assert "outside the table's scope" in working.source


def test_every_factor_is_named():
    text = allowed_bending(design_row("Hem-Fir", "No.2", 6), EDGE_2X6, 1.15)[2].words
    assert all(name in text for name in ("CD 1.15", "CM 1", "Ct 1", "CL 1", "CF 1.3", "Cfu 1", "Ci 1", "Cr 1"))


def test_a_wood_known_by_its_weight_alone_has_no_values():
    assert not graded("white oak")
    with pytest.raises(InputError, match="no published strength"):
        design_row("white oak", "No.2", 4)


def test_a_measured_board_keeps_its_nominal_width():
    assert [Size(1.5, width, True).nominal for width in (3.4375, 5.5, 3.74)] == [4, 6, 5]
    assert flat_factor(Size(1.4375, 3.4375, True)) == 1.1


def test_bearing_near_an_end_gets_no_help():
    assert bearing_factor(3.5, 0.5) == 1.0
    assert bearing_factor(3.5, 6) == pytest.approx(3.875 / 3.5)
