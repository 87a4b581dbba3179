"""DHHS (NIOSH) 94-110, Applications Manual for the Revised Lifting Equation: multiplier tables and examples.

The tables print two decimals. Three cells of the vertical multiplier were read in a public summary; the rest is from
memory, as are the manual's first two examples, a reel lifted into a press and a roll set into a machine.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.validation.printed import Printed, Source, State, cells
from tutorial_lib.assembly.lifting import Lift, asymmetry, coupling, distance, horizontal, recommended, vertical
from tutorial_lib.tables.practice import lifting_constants


def _source(place: str, state: State, rounding: str) -> Source:
    return Source(title="DHHS (NIOSH) 94-110, Revised Lifting Equation", edition="1994, revised 2021", place=place,
                  state=state, rounding=rounding)  # fmt: skip


TABLES: dict[str, tuple[Callable[[float], float], str]] = {
    "HM": (horizontal, "11 .91|12 .83|13 .77|14 .71|15 .67|16 .63|17 .59|18 .56|19 .53|20 .50|21 .48|22 .46|23 .44|"
                       "24 .42|25 .40"),
    "VM": (vertical, "5 .81|10 .85|15 .89|20 .93|25 .96|35 .96|40 .93|45 .89|50 .85|55 .81|60 .78|65 .74"),
    "DM": (distance, "15 .94|20 .91|25 .89|30 .88|35 .87|40 .87|45 .86|50 .86|55 .85|60 .85|70 .85"),
    "AM": (asymmetry, "15 .95|30 .90|45 .86|60 .81|75 .76|90 .71|105 .66|120 .62|135 .57"),
}  # fmt: skip
ROLL, ROLL_SET_DOWN = Lift(15, 27, 17, 0, "poor"), Lift(20, 10, 17, 0, "poor")  # a roll of 35 lb onto a machine
SEEN = "0 .78|30 1.00|70 .70"


def _cells(name: str, rule: Callable[[float], float], text: str) -> Iterator[tuple[str, float, object]]:
    for cell in text.split("|"):
        at, value = map(float, cell.split())
        yield f"{name} at {at:g}", value, lambda rule=rule, at=at: rule(at)


TWO = "to two decimals, some cut: within 0.006"
MANUAL = _source("multiplier tables 1 to 4", "from memory", TWO)
PRINTED: tuple[Printed, ...] = (
    *cells(_source("vertical multiplier", "seen", TWO), 0.006, _cells("VM", vertical, SEEN)),
    *(cell for name, (rule, text) in TABLES.items() for cell in cells(MANUAL, 0.006, _cells(name, rule, text))),
    *cells(
        _source("example 1", "from memory", "multipliers rounded to two decimals before: within 2 %"),
        0.33,
        [
            ("RWL at the origin, lb", 16.3, lambda: recommended(Lift(23, 15, 48))),
            ("RWL at the destination, lb", 14.5, lambda: recommended(Lift(23, 63, 48))),
        ],
    ),
    *cells(
        _source("example 2", "from memory", "multipliers rounded to two decimals before: within 2 %"),
        0.36,
        [
            ("RWL at the origin, lb", 28.0, lambda: recommended(ROLL)),
            ("RWL at the destination, lb", 18.1, lambda: recommended(ROLL_SET_DOWN)),
        ],
    ),
    *cells(
        _source("example 2", "from memory", "to one decimal, cut or rounded: within 0.06"),
        0.06,
        [
            ("lifting index of 35 lb at the origin", 1.3, lambda: 35 / recommended(ROLL)),
            ("lifting index of 35 lb at the destination", 1.9, lambda: 35 / recommended(ROLL_SET_DOWN)),
        ],
    ),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()


@pytest.mark.parametrize(
    ("hold", "height", "printed"),
    [("good", 15, 1.0), ("fair", 15, 0.95), ("fair", 30, 1.0), ("poor", 15, 0.90), ("poor", 40, 0.90)],
)
def test_coupling(hold, height, printed):
    assert coupling(hold, height) == printed


def test_beyond_the_limits_nothing_is_lifted():
    assert (horizontal(26), vertical(71), distance(71), asymmetry(136)) == (0, 0, 0, 0)
    assert (horizontal(8), distance(8)) == (1, 1)


def test_the_formulas_use_the_tabulated_constants():
    c = {name: row.value for name, row in lifting_constants().items()}
    assert recommended(Lift(10, 30, 10, 0, "good")) == c["load_constant"]
    assert horizontal(20) == c["horizontal"] / 20
    assert vertical(10) == pytest.approx(1 - c["vertical_slope"] * (c["vertical_origin"] - 10))
    assert distance(40) == pytest.approx(c["distance_base"] + c["distance_term"] / 40)
    assert asymmetry(50) == pytest.approx(1 - c["asymmetry_slope"] * 50)
