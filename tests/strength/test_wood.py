"""Design values and factors are the tables' own; what the tables don't know is refused with the way out."""

from __future__ import annotations

import pytest

from tutorial_lib.errors import InputError
from tutorial_lib.strength.members import allowed_bending, bearing_factor
from tutorial_lib.strength.wood import Size, flat_factor, nominal, size_factor, wood

FLAT_2X4, EDGE_2X6, BOARD = Size(1.5, 3.5, True), Size(1.5, 5.5, False), Size(0.75, 3.5, True)


def test_stud_is_not_no_2():
    stud, two = (wood("Spruce-Pine-Fir", g, 3.5) for g in ("Stud", "No.2"))
    assert (stud.bending, two.bending) == (675, 875)
    assert allowed_bending(stud, FLAT_2X4, 1.0)[0] == pytest.approx(675 * 1.1 * 1.1)
    assert allowed_bending(two, FLAT_2X4, 1.0)[0] == pytest.approx(1443.75)


def test_southern_pine_has_its_size_inside():
    narrow, wide = (wood("Southern Pine", "No.2", w) for w in (3.5, 5.5))
    assert (narrow.bending, wide.bending) == (1100, 1000)
    assert size_factor(narrow, FLAT_2X4, "Fb") == 1.0


def test_boards_take_the_size_factor_but_not_the_flat_one():
    kind = wood("SPF", "#2", 3.5, 0.75)
    allowed, factors, working = allowed_bending(kind, BOARD, 1.6)
    assert allowed == pytest.approx(875 * 1.5 * 1.6)
    assert factors.flat == 1.0
    assert "outside the table's scope" in working.source


def test_every_factor_is_named():
    text = str(allowed_bending(wood("Hem-Fir", "No.2", 5.5), EDGE_2X6, 1.15)[2])
    assert all(name in text for name in ("CD 1.15", "CM 1", "Ct 1", "CL 1", "CF 1.3", "Cfu 1", "Ci 1", "Cr 1"))


@pytest.mark.parametrize(
    ("species", "grade", "match"),
    [
        ("Spruce-Pine-Fur", "No.2", 'Did you mean "Spruce-Pine-Fir"'),
        ("Balsa", "No.2", "Known: Spruce-Pine-Fir"),
        ("Hem-Fir", "Premium", "grade of Hem-Fir"),
    ],
)
def test_unknown_wood_is_refused(species, grade, match):
    with pytest.raises(InputError, match=match):
        wood(species, grade, 3.5)


def test_a_measured_board_keeps_its_nominal_width():
    assert (nominal(3.4375), nominal(5.5), nominal(3.74)) == (4, 6, 5)
    assert flat_factor(Size(1.4375, 3.4375, True)) == 1.1


def test_bearing_near_an_end_gets_no_help():
    assert bearing_factor(3.5, 0.5) == 1.0
    assert bearing_factor(3.5, 6) == pytest.approx(3.875 / 3.5)
