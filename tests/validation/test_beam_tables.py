"""Coefficients of simple and continuous beams: AISC Manual Table 3-23 and AWC Design Aid 6, from memory.

Two and three equal spans under spread and point loads; moments as parts of w l2 or P l, reactions of w l or P, sag of w
l4 / EI or P l3 / EI. And the Wood Handbook's simple beams (FPL-GTR-282, Table 9-1), whose 5/384 was read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.validation.ours import Bent, PointLoad, SpreadLoad, beam
from tests.validation.printed import Printed, Source, cells

LONG, STIFF = 60.0, 1e6
DESIGN_AID = Source(
    title="AWC Design Aid No. 6, Beam Design Formulas; AISC Manual Table 3-23",
    edition="2007; 15th ed.",
    place="two and three spans",
    state="from memory",
    rounding="fractions exact, decimals to half their last figure",
)
HANDBOOK = Source(
    title="Wood Handbook, FPL-GTR-282",
    edition="2021",
    place="Table 9-1",
    state="seen",
    rounding="fraction, exact",
)


def _spread(*spans: int) -> list[SpreadLoad]:
    return [SpreadLoad(LONG * i, LONG * (i + 1), 1.0) for i in spans]


def _bent(count: int, loads: list[SpreadLoad | PointLoad]) -> Bent:
    return beam([LONG * i for i in range(count + 1)], loads, STIFF)


def _greatest(bent: Bent, span: int) -> float:
    steps = range(1, 400)
    return max(bent.moment(LONG * (span + i / 400)) for i in steps) / LONG**2


def _sag(bent: Bent, span: int) -> float:
    return max(bent.sag(LONG * (span + i / 400)) for i in range(1, 400)) * STIFF / LONG**4


Case = tuple[str, Callable[[], Bent], dict[str, float]]
POINT = [PointLoad(LONG / 2, LONG)]  # as heavy as the spread load of a span
# R at a support, M over a support, m in a span, d greatest sag in a span
CASES: tuple[Case, ...] = (
    ("two spans, all loaded", lambda: _bent(2, _spread(0, 1)),
     {"R1": 3 / 8, "R2": 10 / 8, "M2": -1 / 8, "m1": 9 / 128, "d1": 1 / 185}),
    ("two spans, one loaded", lambda: _bent(2, _spread(0)),
     {"R1": 7 / 16, "R2": 5 / 8, "R3": -1 / 16, "M2": -1 / 16, "m1": 49 / 512}),
    ("two spans, one point", lambda: _bent(2, POINT),
     {"R1": 13 / 32, "R2": 11 / 16, "R3": -3 / 32, "M2": -3 / 32, "m1": 13 / 64}),
    ("three spans, all loaded", lambda: _bent(3, _spread(0, 1, 2)),
     {"R1": 0.400, "R2": 1.10, "M2": -0.100, "m1": 0.080, "m2": 0.025, "d1": 0.0069}),
    ("three spans, outer two loaded", lambda: _bent(3, _spread(0, 2)),
     {"R1": 0.450, "R2": 0.550, "M2": -0.050, "m1": 0.1013, "d1": 0.0099}),
    ("three spans, first two loaded", lambda: _bent(3, _spread(0, 1)),
     {"R1": 0.383, "R2": 1.20, "R3": 0.450, "R4": -0.033, "M2": -0.1167, "M3": -0.0333, "m1": 0.0735, "m2": 0.0534,
      "d1": 0.0059}),
    ("four spans, all loaded", lambda: _bent(4, _spread(0, 1, 2, 3)),
     {"R1": 0.393, "R2": 1.143, "R3": 0.929, "d1": 0.0065}),
)  # fmt: skip


def _read(bent: Bent, key: str) -> float:
    kind, number = key[0], int(key[1]) - 1
    match kind:
        case "R":
            return bent.reaction(LONG * number) / LONG
        case "M":
            return bent.moment(LONG * number) / LONG**2
        case "m":
            return _greatest(bent, number)
        case _:
            return _sag(bent, number)


def _cells() -> Iterator[Printed]:
    for name, make, printed in CASES:
        for key, value in printed.items():
            exact = round(value, 4) != value
            tolerance = 1e-4 if exact and key[0] != "d" else {"R": 0.0006, "d": 0.00006}.get(key[0], 1e-4)
            yield Printed(DESIGN_AID, f"{name}, {key}", value, tolerance, lambda make=make, key=key: _read(make(), key))


def _middle() -> float:
    return beam((0, 100), [PointLoad(50, 1.0)], STIFF).sag(50) * STIFF / 100**3


PRINTED: tuple[Printed, ...] = (
    *_cells(),
    *cells(HANDBOOK, 1e-7, [("simple, spread load", 5 / 384, lambda: _sag(_bent(1, _spread(0)), 0))]),
    Printed(DESIGN_AID, "simple, point at mid-span, sag", 1 / 48, 1e-7, _middle),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()
