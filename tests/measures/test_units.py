"""One registry, exact, imported only when asked for."""

import subprocess
import sys
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.errors import InputError
from tutorial_lib.measures import Frac, convert, registry, to_mm
from tutorial_lib.measures.scales import HELD
from tutorial_lib.measures.sizes import ratio


def test_reading_and_writing_lengths_import_no_pint() -> None:
    code = (
        "import sys\n"
        "from tutorial_lib.measures import inch, write_length, say_length\n"
        "write_length(inch('47 5/8')); say_length(inch('1/2'))\n"
        "sys.exit('pint' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_plain_conversion_imports_no_pint() -> None:
    code = (
        "import sys\n"
        "from tutorial_lib.measures import convert, factor\n"
        "factor('lb', 'kg'); factor('gal', 'floz'); convert(3, 'lbf*in**2', 'kN*m**2')\n"
        "sys.exit('pint' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


COMPOUND = ["psi", "N/mm**2", "lbf*in", "N*m", "lbf/ft**2", "kN/m**2", "lb/ft**3", "kg/m**3", "ft**2/gal", "m**2/l",
            "cm**4", "in**4", "lbf*in**2", "kN*m**2", "mm", "ml", "kg", "MPa", "millimetre", "in in", "in**", "2*in",
            "1/in", "furlong"]  # fmt: skip


def test_our_own_conversions_are_those_of_pint() -> None:
    names = [
        "degF",
        "percent",
        *sorted({name for unit in HELD.values() for name in (unit.inch.unit, unit.metric.unit)}),
    ]
    known = 0
    for unit, to in permutations(dict.fromkeys([*names, *COMPOUND, "yd", "bf", "pint", "quart", "min", "day"]), 2):
        found = ratio(unit, to)
        if found is not None:
            known += 1
            assert found == registry().Quantity(Frac(1), unit).to(to).magnitude, (unit, to)
    assert known > 100


def test_there_is_one_registry() -> None:
    assert registry() is registry()


@pytest.mark.parametrize(
    ("value", "unit", "to", "result"),
    [
        (Fraction(381, 8), "in", "mm", Fraction(48387, 40)),
        (1, "in**2", "mm**2", Fraction(64516, 100)),
        (1, "board_foot", "in**3", Fraction(144)),
        (1, "gal", "in**3", Fraction(231)),
        (1, "lb", "g", Fraction(45359237, 100000)),
        (2, "ft", "in", Fraction(24)),
    ],
)
def test_conversions_are_exact(value: Fraction, unit: str, to: str, result: Fraction) -> None:
    assert convert(value, unit, to) == result


def test_stress_in_metric() -> None:
    assert float(convert(1, "psi", "MPa")) == pytest.approx(0.006894757, rel=1e-6)


def test_areas_print() -> None:
    assert str(registry().Quantity(Frac(3, 8), "in**2")) == "3/8 inch ** 2"


@pytest.mark.parametrize(
    ("value", "unit", "to", "reason"),
    [
        (1, "in", "lb", "can't be written in lb"),
        (1, "furlong", "m", "furlong"),
        (1, "((", "m", "is not a unit"),
        (0.5, "in", "mm", "approximation"),
    ],
)
def test_refusals(value: Fraction, unit: str, to: str, reason: str) -> None:
    with pytest.raises(InputError, match=reason):
        convert(value, unit, to)


@given(st.fractions(max_denominator=1000))
def test_there_and_back_is_exact(x: Fraction) -> None:
    assert convert(convert(x, "in", "mm"), "mm", "in") == x
    assert convert(x, "in", "mm") == to_mm(x)


@given(st.fractions(max_denominator=99), st.fractions(min_value=Fraction(1, 9), max_denominator=99))
def test_a_frac_stays_one(x: Fraction, y: Fraction) -> None:
    for result in (Frac(x) + y, y - Frac(x), Frac(x) * y, Frac(x) / y, -Frac(x), abs(Frac(x))):
        assert type(result) is Frac
    assert f"{Frac(x):.2f}" == f"{float(x):.2f}"
