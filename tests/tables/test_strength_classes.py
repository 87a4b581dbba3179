"""European and Australian strength classes: wood and grade in one, permissible stresses, none of America's factors."""

from __future__ import annotations

import pytest

from tests.design.builds import changed
from tests.validation.test_british_joists import PSI, STRESS
from tutorial_lib import tables
from tutorial_lib.errors import InputError
from tutorial_lib.plan import plan
from tutorial_lib.strength.members import allowed_bending
from tutorial_lib.strength.sections import Size
from tutorial_lib.strength.words import wood_named
from tutorial_lib.tables.rows import rows


@pytest.mark.parametrize("name", ["C16", "C24", "MGP10", "MGP12"])
def test_a_class_is_its_own_grade(name: str) -> None:
    assert tables.design_values(name, "No.2", 4) == tables.design_values(name, name, 4)
    with pytest.raises(InputError, match=f"Select Structural.*grade of {name}"):
        tables.design_values(name, "Select Structural", 4)


def test_the_printed_joist_spans_and_the_table_have_the_same_stress() -> None:
    stress = STRESS["C16"][0]
    assert tables.design_values("C16", "C16", 6).Fb == pytest.approx(stress / PSI, rel=1e-3)


@pytest.mark.parametrize(("name", "bending", "characteristic"), [("MGP10", 5.5, 17), ("MGP12", 9.5, 28)])
def test_australian_pine_keeps_the_proportions_of_its_characteristic_values(
    name: str, bending: float, characteristic: float
) -> None:
    """AS 1720.1:2010, Table H3.1 [N/mm2]: bending, tension, shear, compression; E in full."""
    wood = tables.design_values(name, name, 4)
    tension, shear, push, stiff = {"MGP10": (7.7, 2.6, 18, 10000), "MGP12": (12, 3.5, 24, 12700)}[name]
    for value, own in ((wood.Fb, characteristic), (wood.Ft, tension), (wood.Fv, shear), (wood.Fc, push)):
        assert value * PSI == pytest.approx(own * bending / characteristic, rel=5e-3)
    assert pytest.approx(stiff, rel=1e-3) == wood.E * PSI


@pytest.mark.parametrize("flat", [True, False])
def test_no_size_or_flat_factor_is_added(flat: bool) -> None:
    wood = tables.design_values("C24", "C24", 4)
    assert allowed_bending(wood, Size(1.75, 3.7, flat), 1.0)[0] == wood.Fb


@pytest.mark.parametrize(("name", "density"), [("C16", 370), ("C24", 420)])
def test_a_class_weighs_what_its_standard_says(name: str, density: float) -> None:
    """Mean density at 12 % [kg/m3], EN 338:2016."""
    assert tables.species(name).density(12) * 16.0185 == pytest.approx(density, rel=0.01)


@pytest.mark.parametrize("name", ["C24", "MGP10"])
def test_a_bed_of_a_class_is_rated_and_named(name: str) -> None:
    made = plan(changed(wood__species=name))
    assert wood_named(made.strength) == name
    assert made.strength.outcome is not None


def test_each_class_is_graded_by_its_own_standard() -> None:
    under = {row["species"]: row["agency"] for row in rows("design_values.csv")}
    assert {name: under[name] for name in tables.STRENGTH_CLASSES} == {
        "C16": "EN 14081", "C24": "EN 14081", "MGP10": "AS/NZS 1748", "MGP12": "AS/NZS 1748",
    }  # fmt: skip
