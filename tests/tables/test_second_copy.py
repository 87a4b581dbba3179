"""Tables that are our own, or remembered: typed a second time, so that a slip of the hand is seen.

Bits, lengths sold, boxes, bolts, lag screws, metric fasteners, groups of lumber, lifting and tolerances.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from tutorial_lib import tables
from tutorial_lib.measures import convert
from tutorial_lib.tables.rows import rows


def _inches(text: str) -> tuple[Fraction, ...]:
    """ "3/4 1_1/2 2" as lengths."""
    return tuple(sum((Fraction(part) for part in word.split("_")), Fraction(0)) for word in text.split())


def _millimetres(lengths: tuple[Fraction, ...]) -> list[Fraction]:
    return [convert(length, "in", "mm") for length in lengths]


def _in_mm(sides: list[float]) -> list[float]:
    return [round(side * float(convert(1, "in", "mm")), 6) for side in sides]


SOLD = {
    ("wood screw", "6"): "1/2 5/8 3/4 1 1_1/4 1_1/2 1_5/8 2",
    ("wood screw", "7"): "1_1/4 1_1/2 1_5/8 2 2_1/4",
    ("wood screw", "8"): "1/2 3/4 1 1_1/4 1_1/2 1_3/4 2 2_1/4 2_1/2 3",
    ("wood screw", "9"): "1 1_1/4 1_1/2 1_3/4 2 2_1/4 2_1/2 2_3/4 3 3_1/2",
    ("wood screw", "10"): "3/4 1 1_1/4 1_1/2 1_3/4 2 2_1/4 2_1/2 2_3/4 3 3_1/2 4",
    ("wood screw", "12"): "1 1_1/4 1_1/2 1_3/4 2 2_1/2 3 3_1/2 4",
    ("wood screw", "14"): "1_1/2 2 2_1/2 3 3_1/2 4 5 6",
    ("lag screw", "1/4"): "1 1_1/2 2 2_1/2 3 3_1/2 4 5 6",
    ("lag screw", "5/16"): "1_1/2 2 2_1/2 3 3_1/2 4 5 6",
    ("lag screw", "3/8"): "1_1/2 2 2_1/2 3 3_1/2 4 5 6",
    ("lag screw", "1/2"): "2 2_1/2 3 3_1/2 4 5 6",
    ("carriage bolt", "1/4"): "1 1_1/2 2 2_1/2 3 3_1/2 4 4_1/2 5 6",
    ("carriage bolt", "5/16"): "1 1_1/2 2 2_1/2 3 3_1/2 4 4_1/2 5 6",
    ("carriage bolt", "3/8"): "1 1_1/2 2 2_1/2 3 3_1/2 4 4_1/2 5 5_1/2 6 7 8",
    ("carriage bolt", "1/2"): "1_1/2 2 2_1/2 3 3_1/2 4 4_1/2 5 5_1/2 6 7 8",
}


@pytest.mark.parametrize(("kind", "size"), list(SOLD))
def test_lengths_sold(kind, size):
    assert tables.sold_lengths(kind, size) == _inches(SOLD[kind, size])


TO_100 = "30 40 50 60 70 80 90 100"
SOLD_METRIC = {
    ("wood screw", "3.5 mm"): "16 20 25 30 35 40 45 50",
    ("wood screw", "4 mm"): "16 20 25 30 35 40 45 50 60 70",
    ("wood screw", "4.5 mm"): "20 25 30 35 40 45 50 60 70 80",
    ("wood screw", "5 mm"): "25 30 35 40 45 50 60 70 80 90 100 120",
    ("wood screw", "6 mm"): "40 50 60 70 80 90 100 110 120 130 140 150 160 180 200",
    ("lag screw", "6 mm"): TO_100,
    ("lag screw", "8 mm"): "40 50 60 70 80 90 100 110 120 130 140 150 160",
    ("lag screw", "10 mm"): "50 60 70 80 90 100 110 120 130 140 150 160 180 200",
    ("lag screw", "12 mm"): "60 70 80 90 100 120 140 160 180 200",
    ("carriage bolt", "M6"): "20 25 30 35 40 45 50 60 70 80 90 100 110 120",
    ("carriage bolt", "M8"): "25 30 35 40 45 50 60 70 80 90 100 110 120 130 140 150 160 180 200",
    ("carriage bolt", "M10"): f"{TO_100} 110 120 130 140 150 160 180 200 220 240",
    ("carriage bolt", "M12"): "40 50 60 70 80 90 100 110 120 130 140 150 160 180 200 220 240",
}


@pytest.mark.parametrize(("kind", "size"), list(SOLD_METRIC))
def test_metric_lengths_sold(kind, size):
    assert _millimetres(tables.sold_lengths(kind, size)) == [int(word) for word in SOLD_METRIC[kind, size].split()]


@pytest.mark.parametrize(
    ("kind", "counts"),
    [("wood screw", (50, 100, 250, 500)), ("lag screw", (1, 25, 50)), ("carriage bolt", (1, 10, 25, 50))],
)
def test_boxes(kind, counts):
    assert tables.box_sizes(kind) == counts


def test_bits_in_inches():
    """Twist bits go by 1/64 in from 5/64 on, spades as sold."""
    twist = [Fraction(1, 16), *(Fraction(i, 64) for i in range(5, 33))]
    assert [bit.diameter for bit in tables.drill_bits("in", "twist")] == twist
    assert [bit.diameter for bit in tables.drill_bits("in", "spade")] == list(_inches("9/16 5/8 3/4 7/8 1 1_1/4"))


def test_bits_in_millimetres():
    """Twist bits go by half a millimetre to 10, then by one."""
    twist = [*(Fraction(i, 2) for i in range(2, 21)), 11, 12, 13]
    assert _millimetres(tuple(bit.diameter for bit in tables.drill_bits("mm", "twist"))) == twist
    assert _millimetres(tuple(bit.diameter for bit in tables.drill_bits("mm", "spade"))) == [16, 18, 20, 22, 25, 32]


# shank, head, its height, washer, its thickness, nut, its height [in], bending yield [psi]
BOLTS = {
    "1/4": (0.25, 0.594, 0.145, 0.734, 0.065, 0.4375, 0.226, 45000),
    "5/16": (0.3125, 0.719, 0.176, 0.875, 0.083, 0.5, 0.273, 45000),
    "3/8": (0.375, 0.844, 0.208, 1.0, 0.08, 0.5625, 0.34, 45000),
    "1/2": (0.5, 1.094, 0.272, 1.375, 0.109, 0.75, 0.448, 45000),
}
# the same in mm
BOLTS_METRIC = {
    "M6": (6, 16.5, 3.9, 18, 1.6, 10, 5.2, 45000),
    "M8": (8, 20.6, 4.9, 24, 2, 13, 6.8, 45000),
    "M10": (10, 24.6, 5.4, 30, 2.5, 16, 8.4, 45000),
    "M12": (12, 30.6, 7, 37, 3, 18, 10.8, 45000),
}


# what a nut is asked for by: ASME B1.1 coarse, ISO 261 coarse
THREADS = {
    "1/4": "1/4-20 UNC", "5/16": "5/16-18 UNC", "3/8": "3/8-16 UNC", "1/2": "1/2-13 UNC",
    "M6": "M6", "M8": "M8", "M10": "M10", "M12": "M12",
}  # fmt: skip


@pytest.mark.parametrize("size", list(THREADS))
def test_threads_of_bolts(size):
    assert tables.carriage_bolt(size).thread == THREADS[size]


def _bolt(row: tables.BoltRow) -> list[float]:
    return [row.shank, row.head, row.head_height, row.washer, row.washer_thickness, row.nut, row.nut_height]


@pytest.mark.parametrize("size", list(BOLTS))
def test_carriage_bolts(size):
    row = tables.carriage_bolt(size)
    assert (*_bolt(row), row.yield_strength) == BOLTS[size]


@pytest.mark.parametrize("size", list(BOLTS_METRIC))
def test_metric_carriage_bolts(size):
    row = tables.carriage_bolt(size)
    assert (*_in_mm(_bolt(row)), row.yield_strength) == BOLTS_METRIC[size]


# shank, root, tip, across the flats [in], bending yield [psi]: NDS 2018 Table L2
LAGS = {
    "1/4": (0.25, 0.173, 5 / 32, 7 / 16, 70000),
    "5/16": (0.3125, 0.227, 3 / 16, 1 / 2, 60000),
    "3/8": (0.375, 0.265, 7 / 32, 9 / 16, 45000),
    "1/2": (0.5, 0.371, 5 / 16, 3 / 4, 45000),
}
LAGS_METRIC = {
    "6 mm": (6, 4.2, 6, 10, 70000),
    "8 mm": (8, 5.6, 8, 13, 60000),
    "10 mm": (10, 7, 10, 17, 45000),
    "12 mm": (12, 9, 12, 19, 45000),
}
SCREWS_METRIC = {
    "3.5 mm": (3.5, 2.2, 7, 100000),
    "4 mm": (4, 2.5, 8, 90000),
    "4.5 mm": (4.5, 2.7, 9, 80000),
    "5 mm": (5, 3.2, 10, 80000),
    "6 mm": (6, 3.9, 12, 70000),
}


@pytest.mark.parametrize("size", list(LAGS))
def test_lag_screws(size):
    row = tables.lag_screw(size)
    assert (row.shank, row.root, float(row.tip), row.head, row.yield_strength) == LAGS[size]


@pytest.mark.parametrize("size", list(LAGS_METRIC))
def test_metric_lag_screws(size):
    row = tables.lag_screw(size)
    sides = _in_mm([row.shank, row.root, float(row.tip), row.head])
    assert (*sides, row.yield_strength) == LAGS_METRIC[size]


@pytest.mark.parametrize("size", list(SCREWS_METRIC))
def test_metric_screws(size):
    row = tables.screw(size)
    assert (*_in_mm([row.shank, row.root, row.head]), row.yield_strength) == SCREWS_METRIC[size]


# gravity (NDS 2018 Table 12.3.3A), movement across and along the rings, hardness [lbf]
GROUPS = {
    "Spruce-Pine-Fir": (0.42, 0.00148, 0.00274, 380),
    "Spruce-Pine-Fir (South)": (0.36, 0.00148, 0.00274, 380),
    "Douglas Fir-Larch": (0.50, 0.00165, 0.00323, 510),
    "Hem-Fir": (0.43, 0.00144, 0.00274, 480),
    "Southern Pine": (0.55, 0.00187, 0.00271, 690),
    "Red Oak": (0.67, 0.00158, 0.00369, 1060),
    "Mixed Oak": (0.68, 0.00180, 0.00369, 1060),
    "Red Maple": (0.58, 0.00137, 0.00289, 950),
    "Yellow-Poplar": (0.43, 0.00158, 0.00289, 540),
}


@pytest.mark.parametrize("name", list(GROUPS))
def test_lumber_groups(name):
    wood = tables.species(name)
    assert (wood.gravity, wood.radial, wood.tangential, wood.hardness) == GROUPS[name]
    hard = name in ("Red Oak", "Mixed Oak", "Red Maple", "Yellow-Poplar")
    assert (wood.gravity_basis, wood.kind) == ("oven-dry", "hardwood" if hard else "softwood")


@pytest.mark.parametrize("name", list(GROUPS))
def test_a_group_has_one_gravity(name):
    assert {row.gravity for row in tables.design_value_rows() if row.species == name} == {GROUPS[name][0]}


LIFTING = {
    "load_constant": 51,
    "horizontal": 10,
    "horizontal_limit": 25,
    "vertical_origin": 30,
    "vertical_slope": 0.0075,
    "vertical_limit": 70,
    "distance_base": 0.82,
    "distance_term": 1.8,
    "asymmetry_slope": 0.0032,
    "asymmetry_limit": 135,
    "coupling_good": 1.0,
    "coupling_fair": 0.95,
    "coupling_poor": 0.90,
    "frequency_rare": 1.0,
}


def test_lifting_constants():
    assert {name: constant.value for name, constant in tables.lifting_constants().items()} == LIFTING


TOLERANCES = {
    "mattress US": ("1/2", "in"),
    "mattress UK": ("20", "mm"),
    "mattress EU": ("20", "mm"),
    "mattress measured": ("0", "in"),
    "stock length": ("1/16", "in"),
    "stop block": ("1/64", "in"),
    "tape mark": ("1/32", "in"),
    "tape class II per metre": ("1/5", "mm"),
    "tape class II": ("3/10", "mm"),
    "frame diagonals": ("1/8", "in"),
    "slat width": ("1/32", "in"),
}


def test_tolerances():
    found = {row.name: row.value for row in tables.tolerances()}
    assert {name: found[name] for name in TOLERANCES} == {
        name: convert(Fraction(value), unit, "in") for name, (value, unit) in TOLERANCES.items()
    }


# Metric sections say their own size; the nominal one is what the tables of design values are entered with.
METRIC_SECTIONS = """
38x38 2 2, 38x64 2 3, 38x89 2 4, 38x140 2 6, 38x184 2 8, 38x235 2 10, 38x286 2 12, 19x38 1 2, 19x64 1 3, 19x89 1 4,
19x140 1 6, 19x184 1 8, 19x235 1 10, 19x286 1 12, 64x89 3 4, 89x89 4 4, 89x140 4 6, 45x45 2 2, 45x70 2 3, 45x95 2 4,
45x120 2 5, 45x145 2 6, 45x170 2 6, 45x195 2 8, 45x220 2 8, 22x45 1 2, 22x70 1 3, 22x95 1 4, 22x120 1 5, 22x145 1 6,
28x95 5/4 4, 28x120 5/4 5, 28x145 5/4 6, 34x45 3/2 2, 34x70 3/2 3, 34x95 3/2 4, 70x70 3 3, 95x95 4 4, 44x44 2 2,
44x69 2 3, 44x94 2 4, 44x144 2 6, 18x44 1 2, 18x69 1 3, 18x94 1 4, 18x144 1 6, 69x69 3 3, 94x94 4 4, 35x70 3/2 3,
44x194 2 8, 42x42 2 2, 45x190 2 8, 19x42 1 2,
35x90 3/2 4, 42x90 2 4, 45x90 2 4, 45x140 2 6, 90x90 4 4, 19x90 1 4, 35x140 3/2 6
"""


@pytest.mark.parametrize(
    "text", [text.strip() for text in METRIC_SECTIONS.split(",")], ids=lambda text: text.split()[0]
)
def test_metric_sections(text):
    name, thick, wide = text.split()
    size = tables.dressed(name)
    assert size.metric
    assert _millimetres((size.thickness, size.width)) == [int(side) for side in name.split("x")]
    assert (size.nominal_thickness, size.nominal_width) == (Fraction(thick), int(wide))


def test_every_metric_section_is_typed_twice():
    twice = {text.split()[0] for text in METRIC_SECTIONS.split(",")}
    assert {size.name for size in tables.dressed_sizes() if size.metric} == twice


HARDWOODS = {  # Fb, Ft, Fc [psi], E [million psi] by grade; NDS Supplement 2018 Table 4A, from memory
    "Red Oak": (
        (170, 820, 0.67),
        "1150 675 1000 1.4|825 500 825 1.3|800 475 625 1.2|475 275 375 1.1|"
        "625 375 400 1.1|925 550 850 1.2|525 300 650 1.1|250 150 425 1.0",
    ),
    "Mixed Oak": (
        (170, 800, 0.68),
        "1150 675 1000 1.1|825 500 825 1.0|800 475 625 0.9|475 275 375 0.8|"
        "625 375 400 0.8|925 550 850 0.9|525 300 650 0.8|250 150 425 0.8",
    ),
    "Red Maple": (
        (210, 615, 0.58),
        "1300 750 1100 1.7|925 550 900 1.6|900 525 700 1.5|525 300 400 1.3|"
        "700 425 450 1.3|1050 600 925 1.4|575 325 725 1.3|275 150 475 1.2",
    ),
    "Yellow-Poplar": (
        (145, 420, 0.43),
        "1000 575 900 1.5|725 425 725 1.4|700 400 575 1.3|400 225 350 1.2|"
        "550 325 375 1.2|800 475 750 1.3|450 250 575 1.1|200 125 375 1.1",
    ),
}
GRADES = ("Select Structural", "No.1", "No.2", "No.3", "Stud", "Construction", "Standard", "Utility")


@pytest.mark.parametrize("name", list(HARDWOODS))
def test_hardwoods(name):
    same, lines = HARDWOODS[name]
    rows = [row for row in tables.design_value_rows() if row.species == name]
    assert [row.grade for row in rows] == list(GRADES)
    for row, line in zip(rows, lines.split("|"), strict=True):
        fb, ft, fc, million = map(float, line.split())
        assert (row.Fb, row.Ft, row.Fc, row.E) == (fb, ft, fc, million * 1e6), row.grade
        assert (row.Fv, row.Fc_perp, row.gravity) == same


@pytest.mark.parametrize("row", tables.design_value_rows(), ids=lambda row: f"{row.species} {row.grade} {row.widths}")
def test_the_least_stiffness_follows_from_the_mean(row):
    """Emin = E (1 - 1.645 x 0.25) x 1.03 / 1.66, to ten thousand psi. NDS 2018 Appendix D.4."""
    assert row.Emin == pytest.approx(row.E * (1 - 1.645 * 0.25) * 1.03 / 1.66, abs=10_000)


# how deep a bit bores [in] or [mm], in the order of their sizes
REACH = {
    (
        "in",
        "twist",
    ): "7/8 1 1_1/4 1_1/2 1_5/8 1_3/4 2 2_1/8 2_5/16 2_7/16 2_1/2 2_5/8 2_3/4 2_7/8 2_15/16 3_1/16 3_3/16 "
    "3_5/16 3_7/16 3_1/2 3_5/8 3_3/4 3_7/8 3_15/16 4_1/16 4_3/16 4_5/16 4_3/8 4_1/2",
    (
        "in",
        "long twist",
    ): "2 2_1/4 2_1/2 2_3/4 3 3 3_3/8 3_3/8 3_5/8 3_5/8 3_3/4 3_3/4 3_7/8 3_7/8 4 4 4_1/8 4_1/8 4_1/4 "
    "4_1/4 4_3/8 4_3/8 4_5/8 4_5/8 4_3/4 4_3/4 4_3/4 4_3/4",
    ("in", "spade"): "5 5 5 5 5 5",
    ("mm", "twist"): "12 18 24 30 33 39 43 47 52 57 57 63 69 69 75 75 81 81 87 94 101 101",
    ("mm", "long twist"): "56 62 66 73 78 82 87 91 91 97 102 102 109 109 115 115 121 128 134 134",
    ("mm", "spade"): "130 130 130 130 130 130",
}


@pytest.mark.parametrize(("unit", "kind"), list(REACH))
def test_how_deep_bits_bore(unit, kind):
    found = tuple(bit.reach for bit in tables.drill_bits(unit, kind))
    text = REACH[unit, kind]
    assert (found if unit == "in" else tuple(_millimetres(found))) == (
        _inches(text) if unit == "in" else tuple(int(word) for word in text.split())
    )


def test_long_bits_are_sold_as_thick_as_the_others():
    assert [bit.diameter for bit in tables.drill_bits("in", "long twist")] == [Fraction(i, 64) for i in range(5, 33)]
    thick = [*(Fraction(i, 2) for i in range(4, 21)), 11, 12, 13]
    assert _millimetres(tuple(bit.diameter for bit in tables.drill_bits("mm", "long twist"))) == thick


BOARDS = {  # region: lengths, their unit, sections
    "US": (
        "8 10 12 14 16",
        "ft",
        "1x2 1x3 1x4 1x6 1x8 1x10 1x12 5/4x4 5/4x6 2x2 2x3 2x4 2x6 2x8 2x10 2x12 4x4 4x6 6x6",
    ),
    "EU": (
        "2400 2700 3000 3600 4200 4800",
        "mm",
        "45x45 45x70 45x95 45x120 45x145 45x170 45x195 45x220 22x45 22x70 22x95 22x120 22x145 28x95 28x120 28x145 "
        "34x45 34x70 34x95 70x70 95x95",
    ),
    "UK": (
        "1800 2400 3000 3600 4200 4800",
        "mm",
        "44x44 44x69 44x94 44x144 18x44 18x69 18x94 18x144 69x69 94x94 44x194",
    ),
    "AU": (
        "1800 2400 2700 3000 3600 4200 4800 5400",
        "mm",
        "35x70 35x90 42x90 45x90 45x140 90x90 19x90 19x140 35x140 42x42 45x190 19x42",
    ),
}


@pytest.mark.parametrize("region", list(BOARDS))
def test_boards_of_a_region(region):
    lengths, unit, sections = BOARDS[region]
    boards = tables.sold_boards(region)
    assert [board.section for board in boards] == sections.split()
    wanted = tuple(convert(int(length), unit, "in") for length in lengths.split())
    assert {board.lengths for board in boards} == {wanted}
    assert all(tables.board_lengths(region, board.section) == wanted for board in boards)


@pytest.mark.parametrize(
    ("region", "like", "section"),
    [("EU", "2x4", "45x95"), ("UK", "2x6", "44x144"), ("AU", "2x4", "42x90"), ("US", "45x145", "2x6"),
     ("UK", "2x10", "44x194"), ("EU", "1x4", "22x95"), ("AU", "4x4", "90x90"),
     ("UK", "6/4x4", "44x94"), ("AU", "6/4x4", "35x90"), ("EU", "6/4x4", "34x95")],
)  # fmt: skip
def test_what_takes_a_section_s_place_elsewhere(region, like, section):
    assert tables.section_in(region, tables.dressed(like)) == section


def test_an_unlisted_section_has_the_region_s_lengths():
    assert tables.board_lengths("US", "3x4") == tables.board_lengths("US", "2x4")


@pytest.mark.parametrize(
    ("series", "sizes"),
    [("imperial", ["1/4", "5/16", "3/8", "1/2"]), ("metric", ["M6", "M8", "M10", "M12"])],
)
def test_a_series_of_bolts_is_its_own(series, sizes):
    assert [row.size for row in tables.carriage_bolts(series)] == sizes
    assert [row.size.removeprefix("M") for row in tables.lag_screws(series)] == [
        size.replace("M", "") + (" mm" if series == "metric" else "") for size in sizes
    ]


def test_sizes_that_grades_are_tabled_for():
    """How many rows have each class of sizes: NDS Supplement 2018, Tables 4A and 4B; Southern Pine's go by width."""
    classes = Counter((row["size_class"], row["nominal_width_in"]) for row in rows("design_values.csv"))
    assert classes == {
        ("2-4 in thick, 2 in and wider", ""): 45, ("2-4 in thick, 2-4 in wide", ""): 24,
        ("2-4 in thick, 4 in wide", "4"): 3,
        **{("2-4 in thick", width): 4 for width in ("2-4", "5-6", "8", "10", "12")},
    }  # fmt: skip
    by_grade = {row["grade"]: row["size_class"] for row in rows("design_values.csv") if row["species"] == "Red Maple"}
    narrow = {"Construction", "Standard", "Utility"}
    assert {grade for grade, sizes in by_grade.items() if sizes == "2-4 in thick, 2-4 in wide"} == narrow
