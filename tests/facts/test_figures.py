"""Values as a person reads them."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.figures import line, write_value


@pytest.mark.parametrize(("value", "unit", "units", "text"), [
    (Fraction(153, 4), "in", "in", "38 1/4 in"),
    (Fraction(153, 4), "in", "mm", "972 mm"),
    ((Fraction(0), Fraction(89, 16)), "in", "in", "0, 5 9/16 in"),
    ((Fraction(0), Fraction(10)), "in", "mm", "0, 254 mm"),
    ((120, 180), "grit", "in", "120, 180"),
    (14, "count", "in", "14"),
    (Fraction(1234, 10), "usd", "in", "$123.40"),
    (0.1 + 0.2, "psi", "in", "0.3 psi"),
    (3.14159, "psi", "in", "3.14 psi"),
    ("Spruce-Pine-Fir", "", "in", "Spruce-Pine-Fir"),
])  # fmt: skip
def test_no_figure_has_a_tail(value: Any, unit: str, units: Any, text: str) -> None:
    assert write_value(Fact(key="k", value=value, unit=unit, kind="length", what="w"), units) == text


def test_a_line_names_the_fact() -> None:
    fact = Fact(key="slat.count", value=14, unit="count", kind="part_count", what="slats")
    assert line(fact) == "slat.count = 14 (slats)"
