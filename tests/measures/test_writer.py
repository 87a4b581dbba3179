"""The one writer: every kind of quantity in both systems, against figures of NIST SP 811 worked apart."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.errors import InputError
from tutorial_lib.measures import convert, mm, registry, writer
from tutorial_lib.measures.scales import HELD, Kind

INCH, METRIC = writer("in"), writer("mm")

# value as held, as an inch plan has it, as a metric plan has it (worked by hand from the factors of NIST SP 811)
WRITTEN: list[tuple[Kind, float | Fraction, str, str]] = [
    ("length", Fraction(381, 8), "47 5/8 in", "1210 mm"),
    ("length", Fraction(3, 64), "1/16 in", "1 mm"),
    ("run", 76.4, "76 ft", "23 m"),
    ("calculated", 0.8124, "0.812 in", "20.6 mm"),
    ("weight", 200.0, "200 lb", "91 kg"),
    ("force", 72.6, "72.6 lb", "323 N"),
    ("stress", 875.0, "875 psi", "6.03 N/mm²"),
    ("modulus", 1.4e6, "1400000 psi", "9653 N/mm²"),
    ("moment", 2568.5, "2568 lb in", "290 N m"),
    ("line load", 13.89, "13.9 lb/in", "2.43 N/mm"),
    ("spread load", 0.163522, "23.5 lb/sq ft", "1.13 kN/m²"),
    ("spring", 1000.0, "1000 lb/in", "175 N/mm"),
    ("stiffness", 1.378e6, "1378000 lb in²", "3.95 kN m²"),
    ("density", 28.1, "28.1 lb/cu ft", "450 kg/m³"),
    ("area", 18.65, "18.65 sq ft", "1.73 m²"),
    ("section area", 5.25, "5.25 in²", "3387 mm²"),
    ("section modulus", 3.0625, "3.06 in³", "50185 mm³"),
    ("inertia", 5.359, "5.36 in⁴", "223 cm⁴"),
    ("volume", 0.1, "13 fl oz", "379 ml"),
    ("coverage", 400.0, "400 sq ft a gallon", "9.8 m² a litre"),
    ("board volume", Fraction(170, 3), "56.67 board ft", "0.134 m³"),
    ("temperature", 68, "68 °F", "20 °C"),
]


@pytest.mark.parametrize(("kind", "value", "inch", "metric"), WRITTEN)
def test_every_kind_in_both_systems(kind: Kind, value: float | Fraction, inch: str, metric: str) -> None:
    assert (INCH.write(kind, value), METRIC.write(kind, value)) == (inch, metric)
    assert METRIC.write(kind, value) == f"{METRIC.number(kind, value)} {METRIC.unit(kind)}"


def test_every_kind_is_in_the_table_above() -> None:
    assert {row[0] for row in WRITTEN} == set(HELD)


@given(st.fractions(0, 1000, max_denominator=64))
def test_a_conversion_is_exact(x: Fraction) -> None:
    assert METRIC.convert("length", x) == convert(x, "in", "mm")
    assert INCH.convert("length", x) == x


def test_a_tape_has_one_finest_mark_and_one_reading_error() -> None:
    assert (INCH.grid, METRIC.grid) == (Fraction(1, 16), mm(1))
    assert (INCH.reading_error, METRIC.reading_error) == (Fraction(1, 64), mm("0.5"))
    assert (INCH.bit_error, METRIC.bit_error) == (Fraction(1, 128), mm("0.1"))


def test_more_places_where_they_are_wanted() -> None:
    assert INCH.number("weight", 8.19, 1) == "8.2"
    assert METRIC.write("weight", 8.19, 1) == "3.7 kg"


def test_lengths() -> None:
    assert INCH.marks([Fraction(0), Fraction(89, 16)]) == "0, 5 9/16 in"
    assert METRIC.marks([Fraction(0), mm(141)]) == "0, 141 mm"
    assert [INCH.stated(Fraction(3, 64)), INCH.stated(Fraction(1, 100))] == ["3/64 in", "0.01 in"]
    assert METRIC.stated(mm("3.2")) == "3.2 mm"
    assert INCH.between("length", Fraction(1), Fraction(2)) == "1 to 2 in"
    assert INCH.between("weight", 1.1, 1.2) == "1 lb"


@pytest.mark.parametrize(
    ("diameter", "inch", "metric"),
    [
        (Fraction(9, 64), "9/64 in", "3.6 mm"),
        (0.140625, "9/64 in", "3.6 mm"),
        (mm("3.5"), "0.138 in", "3.5 mm"),
        (Fraction(17, 32), "17/32 in", "13.5 mm"),
        (Fraction(1, 4), "1/4 in", "6.4 mm"),  # 6.35: a tie goes up
        (Fraction(1, 2), "1/2 in", "12.7 mm"),
    ],
)
def test_a_bit_keeps_its_sold_size(diameter: Fraction, inch: str, metric: str) -> None:
    assert (INCH.bit(diameter), METRIC.bit(diameter)) == (inch, metric)


def test_what_is_bought() -> None:
    assert INCH.section("2x4", Fraction(3, 2), Fraction(7, 2)) == "2x4"
    assert METRIC.section("45x95", mm(45), mm(95)) == "45x95"
    assert METRIC.section("2x4", Fraction(3, 2), Fraction(7, 2)) == "2x4 (38 x 89 mm)"
    assert INCH.section("45x95", mm(45), mm(95)) == "45x95 (1 3/4 x 3 3/4 in)"
    assert INCH.screw("#8", Fraction(3, 2)) == "#8 x 1 1/2 in"
    assert METRIC.screw("4 mm", mm(40)) == "4 x 40 mm"
    assert INCH.screw("4 mm", mm(40)) == "4 mm x 1 9/16 in"
    assert INCH.bolt(Fraction(3, 8), Fraction(11, 2)) == "3/8 x 5 1/2 in"
    assert METRIC.bolt(mm(10), mm(140)) == "M10 x 140 mm"
    assert METRIC.bolt(Fraction(3, 8), mm(140)) == "9.5 x 140 mm"


def test_liquids_and_time() -> None:
    assert [INCH.volume(v) for v in (0.1, 0.25, 0.5)] == ["13 fl oz", "1 quart", "2 quarts"]
    assert [METRIC.volume(v) for v in (0.1, 0.66, 0.2642)] == ["379 ml", "2.5 litres", "1 litre"]
    assert [METRIC.time(h) for h in (0.5, 4, 47.9, 80)] == ["30 min", "4 h", "47.9 h", "3.3 days"]


@pytest.mark.parametrize(
    ("value", "unit", "inch", "metric"),
    [
        (200, "lb", "200 lb", "91 kg"),
        (90, "kg", "198 lb", "90 kg"),
        (1000, "N", "225 lb", "1000 N"),
        (24, "N/mm**2", "3481 psi", "24 N/mm²"),
        (2, "m", "78.74 in", "2000 mm"),
        (2, "l", "68 fl oz", "2000 ml"),
        (90, "min", "1.5 h", "1.5 h"),
        (14, "", "14", "14"),
        (20, "degC", "68 °F", "20 °C"),
    ],
)
def test_a_pint_quantity(value: int, unit: str, inch: str, metric: str) -> None:
    quantity = registry().Quantity(value, unit)
    assert (INCH.of(quantity), METRIC.of(quantity)) == (inch, metric)


def test_what_cannot_be_written_says_so() -> None:
    with pytest.raises(InputError, match="of no kind"):
        INCH.of(registry().Quantity(1, "m/s"))
    with pytest.raises(InputError, match='use "in" or "mm"'):
        writer("cm")  # type: ignore[arg-type]
    assert INCH.force(float("inf")) == "beyond any limit"


def test_both_systems_stand_beside_each_other_but_in_what_things_are_sold_under() -> None:
    both, x = writer("in", both=True), Fraction(3, 2)
    assert both.length(x) == "1 1/2 in (38 mm)" and both.own.length(x) == "1 1/2 in"
    assert both.marks([Fraction(0), x]) == "0, 1 1/2 in (0, 38 mm)"
    assert both.size(x, Fraction(11, 2)) == "1 1/2 x 5 1/2 in (38 x 140 mm)"
    assert both.stated(Fraction(1, 8)) == "1/8 in (3.2 mm)"
    assert both.bit(Fraction(9, 64)) == "9/64 in (3.6 mm)"
    assert both.bits([Fraction(9, 64), Fraction(3, 16)]) == "9/64, 3/16 in (3.6, 4.8 mm)"
    assert both.screw("#8", x) == "#8 x 1 1/2 in" and both.bolt(Fraction(3, 8), x) == "3/8 x 1 1/2 in"
    assert both.section("45x95", mm(45), mm(95)) == "45x95 (1 3/4 x 3 3/4 in)"
    assert writer("mm", both=True).length(mm(600)) == "600 mm (23 5/8 in)" and both.other == METRIC
