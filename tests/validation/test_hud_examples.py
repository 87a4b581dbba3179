"""HUD Residential Structural Design Guide, 2nd ed. (Oct 2017): examples 5.1 (joist) and 5.6 (column).

5.1 was read in a transcription; 5.6 is pinned from a public test of the example.
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from tutorial_lib.strength.members import allowed_bending, column
from tutorial_lib.strength.wood import Size, wood


def test_5_1_joist():
    size = Size(1.5, 7.25, False)
    kind = replace(wood("Hem-Fir", "No.1", 7.25), bending=975, stiffness=1.5e6)
    assert size.modulus == pytest.approx(13.14, abs=0.01)
    assert size.inertia == pytest.approx(47.63, abs=0.05)
    allowed = allowed_bending(kind, size, 1.0, repeated=1.15)[0]
    assert allowed == pytest.approx(1345, abs=1)
    per_inch = 40 * 16 / 12 / 12
    assert sqrt(8 * size.modulus * allowed / per_inch) / 12 == pytest.approx(14.865, abs=0.02)
    live = 30 * 16 / 12 / 12
    span = (384 * 1.5e6 * size.inertia / (5 * live * 360)) ** (1 / 3)
    assert span / 12 == pytest.approx(13.8, abs=0.1)


def test_5_6_column():
    kind, size = wood("Spruce-Pine-Fir", "No.2", 3.5), Size(3.5, 3.5, False)
    check = column(kind, size, 4800, 7.3 * 12, 1.0)
    allowed = check.workings[1].result
    assert allowed == pytest.approx(579, abs=0.6)
    assert allowed / (1150 * 1.15) == pytest.approx(0.438, abs=0.0006)
    assert check.ratio == pytest.approx(0.677, abs=0.0006)
