"""AWC Structural Wood Design Solved Example Problems (2015/2018 NDS): E1.2a, E1.7, E2.1a and E2.3.

E1.2a was read; the figures of E1.7 and E2 are pinned from a public test of the examples. E2.4 is disputed and not used.
"""

from __future__ import annotations

import pytest

from tutorial_lib.strength.members import allowed_bending, beam_stability, column_stability
from tutorial_lib.strength.screws import lag_withdrawal, nail_withdrawal
from tutorial_lib.strength.wood import Size, wood


def test_e1_2a_beam_that_may_roll_over():
    kind = wood("Douglas Fir-Larch", "Select Structural", 15.25)
    size, length = Size(3.5, 15.25, False), 1.37 * 240 + 3 * 15.25
    assert length == pytest.approx(375, abs=0.5)
    assert (length * 15.25 / 3.5**2) ** 0.5 == pytest.approx(21.6, abs=0.05)
    assert 1.2 * kind.least_stiffness / (length * 15.25 / 3.5**2) == pytest.approx(1776, abs=2)
    stability = beam_stability(1500, kind.least_stiffness, size, length)
    assert stability == pytest.approx(0.876, abs=0.0006)
    assert allowed_bending(kind, size, 1.0, length)[0] == pytest.approx(1313, abs=2)


@pytest.mark.parametrize(("duration", "factor", "stress", "bending"),
                         [(1.6, 0.432, 1073, 2160), (1.15, 0.555, 990, 1552.5), (0.9, 0.647, 904.5, 1215)])
def test_e1_7_stud(duration, factor, stress, bending):
    kind, size = wood("Southern Pine", "No.1", 5.5), Size(1.5, 5.5, False)
    starred = kind.compression * duration
    found = column_stability(starred, kind.least_stiffness, 108, 5.5)
    assert found == pytest.approx(factor, abs=0.001)
    assert starred * found == pytest.approx(stress, abs=3)
    assert allowed_bending(kind, size, duration)[0] == pytest.approx(bending, abs=2)


def test_e2_withdrawal_of_a_nail_and_a_lag_screw():
    assert nail_withdrawal(0.42, 0.131) * 2.395 == pytest.approx(49.5, abs=0.1)
    assert lag_withdrawal(0.55, 0.5) * 2.1875 == pytest.approx(955, abs=1)
