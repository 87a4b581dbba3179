"""ANSI/AWC NDS 2018, Tables 12A, 12J, 12L, 12M and 12N: lateral values of bolts, lag screws, screws and nails.

Wood screws and nails are printed to the pound, hence +-0.5; bolts and lag screws to ten pounds, hence +-5.
The remaining cells of the same layout were computed by other code from the same equations, to a tenth of a pound.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from tutorial_lib.strength.screws import Dowel, lateral, wood_bearing

DATA = Path(__file__).parents[1] / "data" / "reference" / "screw_lateral_check.csv"
ROWS = list(csv.DictReader(DATA.read_text().splitlines()))
YIELD = {"6": 100000, "7": 90000, "8": 90000, "9": 90000, "10": 80000, "12": 80000, "14": 70000}
NAIL = {0.113: 100000, 0.131: 100000, 0.148: 90000, 0.162: 90000, 0.135: 100000}
SCREWS = [r for r in ROWS if r["fastener"] == "wood screw" and r["side_member"].startswith("wood")]
PRINTED = [r for r in SCREWS if r["published_Z_lb"]]


def _screw(row: dict[str, str]) -> float:
    d, gravity = float(row["D_in"]), float(row["G"])
    fe = wood_bearing(gravity, d)
    fy = YIELD[row["size"].removeprefix("No.")]
    return lateral(Dowel(d, float(row["D_yield_in"]), fy, 10 * d - d, float(row["side_thickness_in"]), fe, fe)).value


@pytest.mark.parametrize("row", PRINTED, ids=lambda r: f"{r['size']} {r['side_thickness_in']} G{r['G']}")
def test_screws_equal_the_printed_cells(row):
    assert _screw(row) == pytest.approx(float(row["published_Z_lb"]), abs=0.5)


def test_there_are_printed_cells():
    assert len(PRINTED) == 5 and len(SCREWS) > 200


def test_screws_equal_the_computed_cells():
    off = [r for r in SCREWS if r["status"] == "computed" and abs(_screw(r) - float(r["formula_Z_lb"])) > 0.06]
    assert off == []


@pytest.mark.parametrize(("size", "fe_side", "thickness", "printed"),
                         [("10", 61850, 0.06, 116), ("8", 61850, 0.105, 103)])
def test_screws_through_steel(size, fe_side, thickness, printed):
    d, root = {"10": (0.19, 0.152), "8": (0.164, 0.131)}[size]
    found = lateral(Dowel(d, root, YIELD[size], 9 * d, thickness, wood_bearing(0.5, d), fe_side))
    assert found.value == pytest.approx(printed, abs=0.6)


@pytest.mark.parametrize("row", [r for r in ROWS if "nail" in r["fastener"]],
                         ids=lambda r: f"{r['fastener']} {r['size']} {r['side_thickness_in']}")
def test_nails_equal_the_printed_cells(row):
    d, side = float(row["D_in"]), float(row["side_thickness_in"])
    p = min(10 * d, 2.0 - 1.0) if row["size"] == "6d" and side == 1 else 10 * d
    fe = wood_bearing(float(row["G"]), d)
    found = lateral(Dowel(d, d, NAIL[d], p - d, side, fe, fe)).value
    assert found == pytest.approx(float(row["published_Z_lb"]), abs=0.5)


@pytest.mark.parametrize(("d", "printed"), [(0.5, 480), (0.75, 720), (1.0, 970)])
def test_bolts_along_the_grain(d, printed):
    fe = wood_bearing(0.5, d)
    assert lateral(Dowel(d, d, 45000, 1.5, 1.5, fe, fe)).value == pytest.approx(printed, abs=5)


@pytest.mark.parametrize(("across", "angle", "printed"), [(False, 0, 120), (True, 90, 80)])
def test_lag_screws(across, angle, printed):
    fe = wood_bearing(0.5, 0.25, across)
    found = lateral(Dowel(0.25, 0.173, 70000, 8 * 0.25, 0.5, fe, fe, angle))
    assert found.value == pytest.approx(printed, abs=5)
