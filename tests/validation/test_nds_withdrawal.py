"""ANSI/AWC NDS 2018, Tables 12.2A and B: reference withdrawal.

Printed to the pound; cells of 12.2B are cut as well as rounded (208 for 208.6), hence +-1 there and +-0.5 elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.validation.printed import Printed, Source, State, cells
from tutorial_lib.strength.screws import lag_withdrawal, withdrawal

GAUGES = {"6": 0.138, "7": 0.151, "8": 0.164, "9": 0.177, "10": 0.190, "12": 0.216, "14": 0.242}
LAGS = {"1/4": 0.25, "5/16": 0.3125, "3/8": 0.375, "7/16": 0.4375, "1/2": 0.5, "5/8": 0.625, "3/4": 0.75, "7/8": 0.875,
        "1": 1.0}  # fmt: skip

# gravity: by size as above; an asterisk where the cell was seen
SCREW_CELLS = {0.55: "119 130 141 152 164 186 208*", 0.50: "98 107 117 126 135* 154 172*", 0.42: "- - 82* - - - 121*"}
LAG_CELLS = {  # page 77 was read in a city's public file of a permit; lines its scan spoilt are left out
    0.73: "397* 469* 538* 604* 668* 789* 905* 1016* 1123*",
    0.67: "349* 413* 473* 531* 587* 694* 796* 893* 987*",
    0.58: "281* 332* 381* 428* 473* 559* 641* 719* 795*",
    0.55: "260* 307* 352* 395* 437* 516* 592* 664* 734*",
    0.50: "225* 266* 305* 342* 378* 447* 513* 576* 636*",
    0.43: "- 212* 243* 273* 302* 357* 409* 459* 508*",
    0.42: "173* 205* 235* 264* 291* 344* 395* 443* 490*",
    0.36: "137* 163* 186* 209* 231* 273* 313* 352* 389*",
}


def _cells(
    sizes: dict[str, float], table: dict[float, str], rule: Callable[[float, float], float], seen: bool
) -> Iterator[tuple[str, float, Callable[[], float]]]:
    for gravity, line in table.items():
        for (size, d), text in zip(sizes.items(), line.split(), strict=True):
            if text != "-" and text.endswith("*") == seen:
                yield (f"{size}, G {gravity}", float(text.rstrip("*")),
                       lambda gravity=gravity, d=d: rule(gravity, d))  # fmt: skip


def _source(place: str, state: State, rounding: str) -> Source:
    title = "ANSI/AWC National Design Specification for Wood Construction"
    return Source(title=title, edition="2018", place=place, state=state, rounding=rounding)


def _table(
    place: str, tolerance: float, what: tuple[dict[str, float], dict[float, str], Callable[[float, float], float]]
) -> tuple[Printed, ...]:
    rounding = f"to the pound: within {tolerance:g} lb"
    return (*cells(_source(place, "seen", rounding), tolerance, _cells(*what, True)),
            *cells(_source(f"{place}, further", "from memory", rounding), tolerance, _cells(*what, False)))  # fmt: skip


PRINTED: tuple[Printed, ...] = (
    *_table("Table 12.2A, p. 77 (lag screws)", 0.5, (LAGS, LAG_CELLS, lag_withdrawal)),
    *_table("Table 12.2B, p. 78 (wood screws)", 1.0, (GAUGES, SCREW_CELLS, withdrawal)),
    Printed(
        Source(
            title="Engineering ToolBox, wood screws, allowable withdrawal",
            edition="web page",
            place="worked example",
            state="seen",
            rounding="cut to the pound: within 1 lb",
        ),
        "No.10, G 0.45",
        109,
        1.0,
        lambda: withdrawal(0.45, 0.190),
    ),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()


def test_design_is_a_fifth_of_the_ultimate() -> None:
    """Wood Handbook (FPL-GTR-282) Eq. 8-10b: p = 15 700 G^2 D L at failure; the design value is 2850."""
    assert 15700 * 0.42**2 * 0.19 / withdrawal(0.42, 0.19) == pytest.approx(5.5, abs=0.02)
