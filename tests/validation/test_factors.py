"""Factors that our calculation works out: Cb for short bearings, Cfu flatwise, Ceg in end grain, C-delta near an end.

NDS 2018 Table 3.10.4 and Tables 12.5.1A, B and D, from memory; Supplement Table 4A as transcribed; 12.5.2.2 as public
pages quote it.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.validation.ours import allowed, graded, lumber
from tests.validation.printed import Printed, Source, State, cells
from tutorial_lib.design.end_distances import rows_aside
from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.strength.geometry import part_of
from tutorial_lib.strength.joints import holding, slanted
from tutorial_lib.strength.members import bearing_factor

SCREW = Fastener(kind="wood screw", gauge="#10", length=Fraction(3), diameter=0.190, root=0.152, head=0.363,
                 thread=Fraction(2), yield_strength=80000)  # fmt: skip
LAG = Fastener(kind="lag screw", gauge="", length=Fraction(5), diameter=0.375, root=0.265, head=0.5625,
               thread=Fraction(3), yield_strength=45000)  # fmt: skip


def _source(place: str, state: State, rounding: str) -> Source:
    title = "ANSI/AWC National Design Specification for Wood Construction"
    return Source(title=title, edition="2018", place=place, state=state, rounding=rounding)


def _end_grain(fastener: Fastener) -> float:
    """What end grain leaves of a fastener's value across."""
    deep = 10 * fastener.diameter
    end, side = (holding(fastener, 1.5, deep, 0.50, grain)[0] for grain in (True, False))
    return end / side


PRINTED: tuple[Printed, ...] = (
    *cells(
        _source("Table 3.10.4, Cb", "from memory", "to two decimals, some up: within 0.0065"),
        0.0065,
        [
            (f"bearing of {length:g} in", printed, lambda length=length: bearing_factor(length, 12))
            for length, printed in ((0.5, 1.75), (1, 1.38), (1.5, 1.25), (2, 1.19), (3, 1.13), (4, 1.10), (6, 1.00))
        ],
    ),
    *cells(
        _source("12.5.2.2, Ceg", "seen", "exact"),
        1e-9,
        [
            ("screw across, end grain", 0.67, lambda: _end_grain(SCREW)),
            ("lag screw across, end grain", 0.67, lambda: _end_grain(LAG)),
        ],
    ),
)


def _flat(thick: int, wide: int) -> float:
    """What lying flat adds to a board's allowed bending stress."""
    kind = graded("Spruce-Pine-Fir", "No.2", wide)
    return allowed(kind, lumber(thick, wide, True)) / allowed(kind, lumber(thick, wide))


FLAT = {(2, 3): 1.0, (2, 4): 1.1, (2, 5): 1.1, (2, 6): 1.15, (2, 8): 1.15, (2, 10): 1.2, (4, 6): 1.05, (4, 8): 1.05,
        (4, 10): 1.1}  # fmt: skip
# distance in diameters, that for the full value, the least; C-delta
NEAR_ENDS = {
    "end, bearing away from it or across the grain, 4 D": (4, 4, 2, 1.0),
    "end, bearing away from it or across the grain, 2 D": (2, 4, 2, 0.5),
    "end, softwood pulled toward it, 7 D": (7, 7, 3.5, 1.0),
    "end, softwood pulled toward it, 3.5 D": (3.5, 7, 3.5, 0.5),
    "spacing in a row, 4 D": (4, 4, 3, 1.0),
    "spacing in a row, 3 D": (3, 4, 3, 0.75),
}
ROWS_ASIDE = {2: 2.5, 4: 3.75, 6: 5.0, 8: 5.0}  # length over diameter: diameters between rows loaded across the grain
PRINTED += (
    *cells(
        Source(
            title="NDS Supplement, Design Values for Wood Construction",
            edition="2018",
            place="Table 4A, Cfu",
            state="seen",
            rounding="exact",
        ),
        1e-9,
        [
            (f"{thick}x{wide} flat", printed, lambda a=(thick, wide): _flat(*a))
            for (thick, wide), printed in FLAT.items()
        ],
    ),
    *cells(
        _source("Tables 12.5.1A and B, C-delta", "from memory", "exact"),
        1e-9,
        [
            (what, printed, lambda a=(at * 0.375, 0.375, full, least): part_of(*a))
            for what, (at, full, least, printed) in NEAR_ENDS.items()
        ],
    ),
    *cells(
        _source("Table 12.5.1D, rows", "from memory", "exact"),
        1e-9,
        [
            (f"rows loaded across the grain, l/D {slender}", printed, lambda a=slender: rows_aside(a * 0.375, 0.375))
            for slender, printed in ROWS_ASIDE.items()
        ],
    ),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()


def test_near_the_end_and_on_long_bearings_there_is_no_gain():
    assert bearing_factor(1.5, 2.9) == bearing_factor(6.0, 12) == bearing_factor(12.0, 12) == 1.0


@pytest.mark.parametrize("fastener", [SCREW, LAG], ids=lambda f: f.kind)
def test_in_end_grain_nothing_is_counted_in_pull(fastener):
    """NDS 12.2.2.3; a lag screw would keep 0.75 of it (12.2.1.3), which we leave out."""
    assert holding(fastener, 1.5, 10 * fastener.diameter, 0.50, True)[1] == 0.0


@pytest.mark.parametrize(("distance", "factor"), [(0.749, 0.0), (0.75, 0.5), (1.2, 0.8), (1.5, 1.0), (1.6, 1.0)])
def test_near_an_end_the_value_falls_in_proportion_and_then_ends(distance, factor):
    """A 3/8 in bolt, 4 D and 2 D."""
    assert part_of(distance, 0.375, 4, 2) == pytest.approx(factor)


@pytest.mark.parametrize(("slope", "across"), [(0.0, 100.0), (1.0, 200 * 100 / (200 * 0.5 + 100 * 0.5) / 2**0.5)])
def test_pull_and_load_across_together(slope, across):
    """NDS Eq. 12.4-1: W'p 200 lb, Z' 100 lb, pulled as much as loaded across: 133.3 lb along the slant."""
    assert slanted(200.0, 100.0, slope) == pytest.approx(across)
