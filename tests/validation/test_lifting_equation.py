"""DHHS (NIOSH) 94-110, Applications Manual for the Revised Lifting Equation: multiplier tables and an example.

The tables print two decimals. Cells from memory; the formulas they come from were seen in transcriptions. The example
is the manual's first, a reel lifted into a press (from memory: RWL 16.3 lb at the origin, 14.5 lb at the destination).
"""

from __future__ import annotations

import pytest

from tutorial_lib.assembly.lifting import Lift, asymmetry, coupling, distance, horizontal, recommended, vertical
from tutorial_lib.tables.practice import lifting_constants


@pytest.mark.parametrize(
    ("inches", "printed"), [(10, 1.00), (12, 0.83), (15, 0.67), (20, 0.50), (23, 0.43), (25, 0.40), (26, 0)]
)
def test_horizontal(inches, printed):
    assert horizontal(inches) == pytest.approx(printed, abs=0.006)


@pytest.mark.parametrize(
    ("inches", "printed"), [(0, 0.78), (15, 0.89), (30, 1.00), (45, 0.89), (60, 0.78), (70, 0.70), (71, 0)]
)
def test_vertical(inches, printed):
    assert vertical(inches) == pytest.approx(printed, abs=0.006)


@pytest.mark.parametrize(
    ("inches", "printed"), [(10, 1.00), (15, 0.94), (20, 0.91), (30, 0.88), (48, 0.86), (70, 0.85)]
)
def test_distance(inches, printed):
    assert distance(inches) == pytest.approx(printed, abs=0.006)


@pytest.mark.parametrize(("degrees", "printed"), [(0, 1.00), (30, 0.90), (45, 0.86), (90, 0.71), (135, 0.57), (136, 0)])
def test_asymmetry(degrees, printed):
    assert asymmetry(degrees) == pytest.approx(printed, abs=0.006)


@pytest.mark.parametrize(
    ("hold", "height", "printed"),
    [("good", 15, 1.0), ("fair", 15, 0.95), ("fair", 30, 1.0), ("poor", 15, 0.90), ("poor", 40, 0.90)],
)
def test_coupling(hold, height, printed):
    assert coupling(hold, height) == printed


@pytest.mark.parametrize(("lift", "printed"), [(Lift(23, 15, 48), 16.3), (Lift(23, 63, 48), 14.5)])
def test_the_manuals_first_example(lift, printed):
    # the manual multiplies multipliers rounded to two decimals (HM 0.44 for 10/23)
    assert recommended(lift) == pytest.approx(printed, rel=0.02)


def test_the_formulas_use_the_tabulated_constants():
    c = {name: row.value for name, row in lifting_constants().items()}
    assert recommended(Lift(10, 30, 10, 0, "good")) == c["load_constant"]
    assert horizontal(20) == c["horizontal"] / 20
    assert vertical(10) == pytest.approx(1 - c["vertical_slope"] * (c["vertical_origin"] - 10))
    assert distance(40) == pytest.approx(c["distance_base"] + c["distance_term"] / 40)
    assert asymmetry(50) == pytest.approx(1 - c["asymmetry_slope"] * 50)
