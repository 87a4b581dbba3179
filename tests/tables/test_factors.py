"""Factors of the standard say why they are one."""

from __future__ import annotations

import pytest

from tutorial_lib import tables


@pytest.mark.parametrize(
    ("species", "of", "why"),
    [("SYP", "Fb", "size is in the tabulated value"), ("SPF", "Fv", "no size factor for this property"),
     ("SYP", "Fv", "size is in the tabulated value")],
)  # fmt: skip
def test_a_size_factor_of_one_says_why(species, of, why):
    found = tables.size_factor(tables.design_values(species, "No.2", 6), of, 2, 6)
    assert (found.value, found.condition) == (1.0, why)


def test_southern_pine_of_four_by_eight_has_a_factor_in_bending_alone():
    values = tables.design_values("SYP", "No.2", 8)
    asked = (("Fb", 4), ("Fb", 2), ("Ft", 4))
    assert [tables.size_factor(values, of, thick, 8).value for of, thick in asked] == [1.1, 1, 1]
