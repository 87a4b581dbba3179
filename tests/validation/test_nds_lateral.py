"""ANSI/AWC NDS 2018, Tables 12A, 12J, 12K, 12L, 12M and 12N: lateral values of bolts, lag screws, screws and nails.

Wood screws and nails are printed to the pound, bolts and lag screws to ten pounds. The columns of bolts: along the
grain, across it in the side member, in the main member, in both. Further cells of 12L's layout were computed by other
code from the same equations, to a tenth of a pound.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.validation.printed import Printed, Source, cells
from tutorial_lib.strength.screws import Dowel, lateral, wood_bearing

DATA = Path(__file__).parents[1] / "data" / "reference" / "screw_lateral_check.csv"
ROWS = list(csv.DictReader(DATA.read_text().splitlines()))
# gauge: D, root [in], bending yield [psi]
GAUGES = {
    "6": (0.138, 0.113, 100000),
    "7": (0.151, 0.122, 90000),
    "8": (0.164, 0.131, 90000),
    "9": (0.177, 0.142, 90000),
    "10": (0.190, 0.152, 80000),
    "12": (0.216, 0.171, 80000),
    "14": (0.242, 0.196, 70000),
}
NAIL_YIELD = {0.113: 100000, 0.131: 100000, 0.148: 90000, 0.162: 90000, 0.135: 100000}
SCREWS = [r for r in ROWS if r["fastener"] == "wood screw" and r["side_member"].startswith("wood")]
STEEL = 61850  # [psi] bearing of A653 grade 33 sheet
NDS = "ANSI/AWC National Design Specification for Wood Construction"


def _source(place: str, seen: bool, rounding: str) -> Source:
    return Source(title=NDS, edition="2018", place=place, state="seen" if seen else "from memory", rounding=rounding)


def _dowel(
    d: float, root: float, yielding: float, *, main: float, side: float, fe: tuple[float, float], angle: float = 0
) -> float:
    return lateral(Dowel(diameter=d, root=root, yield_strength=yielding, main=main, side=side, main_bearing=fe[0],
                         side_bearing=fe[1], angle=angle)).value  # fmt: skip


def _screw(gauge: str, gravity: float, side: float) -> float:
    d, root, yielding = GAUGES[gauge]
    fe = wood_bearing(gravity, d)
    return _dowel(d, root, yielding, main=10 * d - d, side=side, fe=(fe, fe))


def _through_steel(gauge: str, thickness: float) -> float:
    d, root, yielding = GAUGES[gauge]
    return _dowel(d, root, yielding, main=9 * d, side=thickness, fe=(wood_bearing(0.5, d), STEEL))


def _nail(d: float, side: float, gravity: float) -> float:
    deep = min(10 * d, 2.0 - 1.0) if (d, side) == (0.113, 1.0) else 10 * d  # a 6d nail is 2 in long
    fe = wood_bearing(gravity, d)
    return _dowel(d, d, NAIL_YIELD[d], main=deep - d, side=side, fe=(fe, fe))


def _bolt(d: float, main: float, gravity: float, column: int) -> float:
    in_main, in_side = column in (2, 3), column in (1, 3)
    fe = wood_bearing(gravity, d, in_main), wood_bearing(gravity, d, in_side)
    return _dowel(d, d, 45000, main=main, side=1.5, fe=fe, angle=90 if column else 0)


def _lag(across: bool) -> float:
    fe = wood_bearing(0.5, 0.25, across)
    return _dowel(0.25, 0.173, 70000, main=8 * 0.25, side=0.5, fe=(fe, fe), angle=90 if across else 0)


# ------------------------------------------------------------------ Table 12L, wood screws

GRAVITIES = (0.67, 0.55, 0.50, 0.49, 0.46, 0.43, 0.42, 0.37, 0.36, 0.35)
SEEN_12L = {
    ("10", 0.5, 0.5): 90,
    ("8", 0.5, 0.5): 73,
    ("14", 0.5, 0.5): 120,
    ("12", 0.42, 0.5): 91,
    ("10", 0.5, 1.5): 117,
}
HALF_INCH_SIDE = {  # by the gravities above, from memory
    "6": "88 67 59 57 53 49 47 41 40 38",
    "7": "96 74 65 63 59 54 52 45 44 42",
    "8": "107 82 73 71 66 61 59 51 50 48",
    "9": "121 94 83 81 76 70 68 59 58 56",
    "10": "130 101 90 87 82 75 73 64 63 60",
    "12": "156 123 110 107 100 93 91 79 78 75",
    "14": "168 133 120 117 110 102 99 87 86 83",
}


def _seen_screws() -> Iterator[tuple[str, float, object]]:
    for (gauge, gravity, side), printed in SEEN_12L.items():
        yield f"No.{gauge}, G {gravity}, side {side} in", printed, lambda a=(gauge, gravity, side): _screw(*a)


def _remembered_screws() -> Iterator[tuple[str, float, object]]:
    for gauge, line in HALF_INCH_SIDE.items():
        for gravity, text in zip(GRAVITIES, line.split(), strict=True):
            if (gauge, gravity, 0.5) not in SEEN_12L:
                yield (f"No.{gauge}, G {gravity}, side 0.5 in", float(text),
                       lambda a=(gauge, gravity, 0.5): _screw(*a))  # fmt: skip


# ------------------------------------------------------------------ Tables 12M, 12N, 12J

STEEL_SIDES = [("No.10, 16 ga", 116, lambda: _through_steel("10", 0.06)),
               ("No.8, 12 ga", 103, lambda: _through_steel("8", 0.105))]  # fmt: skip
NAILS = [  # the 6d cell for a 1 in side equals that for 3/4 in (mode IV) and isn't counted twice
    ("6d", 0.113, 0.75, 0.5, 72), ("8d", 0.131, 0.75, 0.5, 90), ("8d", 0.131, 1.0, 0.5, 97),
    ("10d", 0.148, 0.75, 0.5, 105), ("10d", 0.148, 1.0, 0.5, 118), ("16d", 0.162, 0.75, 0.5, 121),
    ("16d", 0.162, 1.0, 0.5, 141), ("16d", 0.162, 1.5, 0.42, 120), ("16d box", 0.135, 0.75, 0.5, 94),
]  # fmt: skip


def _nails() -> Iterator[tuple[str, float, object]]:
    for name, d, side, gravity, printed in NAILS:
        yield f"{name}, G {gravity}, side {side} in", printed, lambda a=(d, side, gravity): _nail(*a)


# ------------------------------------------------------------------ Table 12K, lag screws through steel

# gauge of the sheet [in], D: along and across, by the gravities above as far as the scan of the page is readable
LAGS_STEEL = {
    (0.075, "1/4"): "170 130 160 120 150 110 150 110 150 100 140 100 140 100 130 90 130 90",
    (0.075, "5/16"): "220 160 200 140 190 130 190 130 190 130 180 120 180 120 170 110 170 110 160 100",
    (0.075, "3/8"): "220 160 200 140 200 130 190 130 190 120 180 120 180 120 170 110 170 100 170 100",
    (0.105, "5/16"): "230 170 210 150 200 140 200 140 190 130 190 130 190 120 180 110 170 110 170 110",
}
LAGS = {"1/4": (0.25, 0.173, 70000), "5/16": (0.3125, 0.227, 60000), "3/8": (0.375, 0.265, 45000)}


def _lag_steel(sheet: float, size: str, gravity: float, across: bool) -> float:
    d, root, yielding = LAGS[size]
    fe = wood_bearing(gravity, d, across), STEEL
    return _dowel(d, root, yielding, main=8 * d, side=sheet, fe=fe, angle=90 if across else 0)


def _lags_steel() -> Iterator[tuple[str, float, object]]:
    for (sheet, size), line in LAGS_STEEL.items():
        for i, text in enumerate(line.split()):
            a = (sheet, size, GRAVITIES[i // 2], i % 2 == 1)
            way = "across" if a[3] else "along"
            yield f"{size} through {sheet} in, G {a[2]}, {way}", float(text), lambda a=a: _lag_steel(*a)


# ------------------------------------------------------------------ Table 12A, bolts, 1 1/2 in side member

SEEN_BOLTS = {  # (D, main [in], G): along, side across, main across, both across
    (0.5, 1.5, 0.5): "480 300 300 220",
    (0.75, 1.5, 0.5): "720 420 420 270",
    (1.0, 1.5, 0.5): "970 530 530 310",
}
REMEMBERED_BOLTS = {
    (0.5, 1.5, 0.67): "650 420 420 330",
    (0.5, 1.5, 0.55): "530 330 330 250",
    (0.5, 1.5, 0.49): "470 290 290 210",
    (0.5, 1.5, 0.46): "440 270 270 190",
    (0.5, 1.5, 0.42): "410 240 240 170",
    (0.625, 1.5, 0.55): "660 400 400 280",
    (0.625, 1.5, 0.5): "600 360 360 240",
    (0.625, 1.5, 0.42): "510 290 290 190",
    (0.75, 1.5, 0.55): "800 460 460 310",
    (0.75, 1.5, 0.42): "610 340 340 210",
    (0.875, 1.5, 0.5): "850 470 470 290",
    (1.0, 1.5, 0.55): "1060 580 580 350",
    (0.5, 3.5, 0.55): "660 400 470 360",
    (0.5, 3.5, 0.5): "610 370 430 330",
    (0.625, 3.5, 0.55): "940 560 620 500",
    (0.625, 3.5, 0.5): "880 520 540 460",
    (0.75, 3.5, 0.55): "1270 660 690 580",
    (0.75, 3.5, 0.5): "1200 590 610 510",
}
COLUMNS = ("along", "across in the side", "across in the main", "across in both")


def _bolts(table: dict[tuple[float, float, float], str]) -> Iterator[tuple[str, float, object]]:
    for (d, main, gravity), line in table.items():
        for column, text in enumerate(line.split()):
            if (column, main) != (2, 1.5):  # equal members: the same as the column before
                yield (f"D {d}, main {main} in, G {gravity}, {COLUMNS[column]}", float(text),
                       lambda a=(d, main, gravity, column): _bolt(*a))  # fmt: skip


POUND, TEN = "to the pound: within half a pound", "to ten pounds, cut or rounded: within six"
PRINTED: tuple[Printed, ...] = (
    *cells(_source("Table 12L, p. 109", True, POUND), 0.5, _seen_screws()),
    *cells(_source("Table 12L, 1/2 in sides", False, POUND), 0.5, _remembered_screws()),
    *cells(_source("Table 12M, p. 110", True, POUND), 0.5, STEEL_SIDES),
    *cells(_source("Table 12N, p. 111", True, POUND), 0.5, _nails()),
    *cells(_source("Table 12A, p. 94", True, TEN), 6, _bolts(SEEN_BOLTS)),
    *cells(_source("Table 12A, further", False, TEN), 6, _bolts(REMEMBERED_BOLTS)),
    *cells(_source("Table 12K", True, TEN), 6, _lags_steel()),
    *cells(_source("Appendix E.7, errata of March 2019", True, TEN), 6,
           [("1/2 in bolt, 3 1/2 and 1 1/2 in Hem-Fir, along", 550, lambda: _bolt(0.5, 3.5, 0.43, 0))]),
    *cells(_source("Table 12J, p. 106", True, TEN), 6, [("1/4 along", 120, lambda: _lag(False)),
                                                        ("1/4 across", 80, lambda: _lag(True))]),
)  # fmt: skip


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()


def test_screws_equal_the_cells_computed_by_other_code() -> None:
    computed = [r for r in SCREWS if r["status"] == "computed"]
    assert len(computed) > 200
    off = [
        row
        for row in computed
        if abs(_screw(row["size"].removeprefix("No."), float(row["G"]), float(row["side_thickness_in"]))
               - float(row["formula_Z_lb"])) > 0.06
    ]  # fmt: skip
    assert off == []
