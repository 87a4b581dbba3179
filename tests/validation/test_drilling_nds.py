"""ANSI/AWC NDS 2018, Tables L3 (p. 182) and L2, and 12.1.5, as transcribed: sizes, lead holes, penetration, thread.

The hole columns were computed from the printed roots; a bit is the nearest 1/64 in, hence the half step.
"""

from __future__ import annotations

import pytest

from tutorial_lib.drilling import bits, screws
from tutorial_lib.drilling.sizes import screw_sizes
from tutorial_lib.tables import screw

HALF_STEP = 1 / 128

# gauge, D, root, 6 D, 10 D, 7/8 root, 70 % root [in]
TABLE_L3 = [
    ("6", 0.138, 0.113, 0.828, 1.38, 0.0989, 0.0791),
    ("8", 0.164, 0.131, 0.984, 1.64, 0.1146, 0.0917),
    ("9", 0.177, 0.142, 1.062, 1.77, 0.1242, 0.0994),
    ("10", 0.190, 0.152, 1.14, 1.90, 0.133, 0.1064),
    ("12", 0.216, 0.171, 1.296, 2.16, 0.1496, 0.1197),
    ("14", 0.242, 0.196, 1.452, 2.42, 0.1715, 0.1372),
]


@pytest.mark.parametrize(("gauge", "shank", "root", "six", "ten", "lateral", "handbook"), TABLE_L3)
def test_table_l3(
    gauge: str, shank: float, root: float, six: float, ten: float, lateral: float, handbook: float
) -> None:
    size = screw_sizes()["wood screw", gauge]
    assert (size.diameter, size.root) == (shank, root)
    assert screws.least_penetration("wood screw", shank) == pytest.approx(six, abs=5e-4)
    assert screws.full_penetration("wood screw", shank) == pytest.approx(ten, abs=5e-4)
    across, pull = bits.pilot(root, 0.42, "lateral"), bits.pilot(root, 0.42, "withdrawal")
    assert across.wanted == pytest.approx(lateral, abs=1e-4) and pull.wanted == pytest.approx(handbook, abs=1e-4)
    assert abs(float(across.size) - lateral) <= HALF_STEP and abs(float(pull.size) - handbook) <= HALF_STEP


@pytest.mark.parametrize(("gravity", "share"), [(0.42, 0.875), (0.60, 0.875), (0.61, 1.0), (0.67, 1.0)])
def test_lateral_lead_holes_12_1_5_3(gravity: float, share: float) -> None:
    assert bits.pilot_share(gravity, "lateral")[0] == share


@pytest.mark.parametrize(("gravity", "share"), [(0.42, 0.7), (0.55, 0.7), (0.67, 0.9)])
def test_withdrawal_lead_holes_12_1_5_2_and_handbook(gravity: float, share: float) -> None:
    assert bits.pilot_share(gravity, "withdrawal")[0] == share


@pytest.mark.parametrize(("gravity", "low", "high"), [(0.42, 0.40, 0.70), (0.55, 0.60, 0.75), (0.67, 0.65, 0.85)])
def test_lag_lead_holes_lie_in_the_standard_s_range(gravity: float, low: float, high: float) -> None:
    for size in ("1/4", "5/16", "3/8", "1/2"):
        shank = screw_sizes()["lag screw", size].diameter
        assert low * shank <= float(bits.lag_pilot(shank, gravity).size) <= high * shank


@pytest.mark.parametrize(
    ("size", "root", "tip"),
    [("1/4", 0.173, 5 / 32), ("5/16", 0.227, 3 / 16), ("3/8", 0.265, 7 / 32), ("1/2", 0.371, 5 / 16)],
)
def test_table_l2(size: str, root: float, tip: float) -> None:
    lag = screw_sizes()["lag screw", size]
    assert (lag.root, lag.tip) == (root, pytest.approx(tip))


def test_bolt_holes_12_1_3_2() -> None:
    for size in ("1/4", "5/16", "3/8", "1/2"):
        shank = screw_sizes()["carriage bolt", size].diameter
        assert 1 / 32 <= float(bits.bolt_hole(shank).size) - shank <= 1 / 16


def test_thread_is_two_thirds_of_the_length() -> None:
    """Table L3, footnote 3: at least 4 D and two thirds of the length."""
    row = screw("9")
    assert all(
        float(row.thread(length)) >= min(float(length), max(4 * row.shank, float(length) * 2 / 3)) - 1e-9
        for length in row.lengths
    )
