"""Factors that our calculation works out: Cb for short bearings and Ceg for end grain.

NDS 2018 Table 3.10.4, from memory; 12.5.2.2 as public pages quote it.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.validation.printed import Printed, Source, State, cells
from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.strength.joints import holding
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


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()


def test_near_the_end_and_on_long_bearings_there_is_no_gain():
    assert bearing_factor(1.5, 2.9) == bearing_factor(6.0, 12) == bearing_factor(12.0, 12) == 1.0


@pytest.mark.parametrize("fastener", [SCREW, LAG], ids=lambda f: f.kind)
def test_in_end_grain_nothing_is_counted_in_pull(fastener):
    """NDS 12.2.2.3; a lag screw would keep 0.75 of it (12.2.1.3), which we leave out."""
    assert holding(fastener, 1.5, 10 * fastener.diameter, 0.50, True)[1] == 0.0
