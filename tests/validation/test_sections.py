"""Section properties and weights of lumber as printed.

Hicks, Civil Engineering Formulas, Table 6.1, was read in a public copy; its sizes are those sold before 1964 (a 2x4 of
1 5/8 x 3 5/8 in). NDS Supplement Table 1B gives today's, from memory. Wood Structural Design Data (1992 revisions, page
with specific gravities) gives the weight of a cubic foot, read in a public copy; its figures are those at 15 %
moisture.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from tests.validation.ours import Size, lumber
from tests.validation.printed import Printed, Source, cells
from tutorial_lib.tables import species

HICKS = Source(
    title="Hicks, Civil Engineering Formulas",
    edition="McGraw-Hill 2002",
    place="Table 6.1",
    state="seen",
    rounding="to two decimals, some cut: within 0.01",
)
SUPPLEMENT = Source(
    title="NDS Supplement, Design Values for Wood Construction",
    edition="2018",
    place="Table 1B",
    state="from memory",
    rounding="to four figures: within 0.06 %",
)
WEIGHTS = Source(
    title="AF&PA, Wood Structural Design Data",
    edition="1986, 1992 revisions",
    place="properties of structural lumber",
    state="seen",
    rounding="to 0.1 lb: within 0.06",
)
OLD = {
    "2x4": (1.625, 3.625, 5.89, 6.45, 3.56),
    "2x6": (1.625, 5.5, 8.93, 22.53, 8.19),
    "2x8": (1.625, 7.5, 12.19, 57.13, 15.23),
}
# thickness, width, flat: S, I
TODAY = {
    (2, 4, False): (3.063, 5.359),
    (2, 4, True): (1.313, 0.984),
    (2, 6, False): (7.563, 20.80),
    (2, 6, True): (2.063, 1.547),
    (2, 8, True): (2.719, 2.039),
    (2, 10, False): (21.39, 98.93),
    (2, 12, False): (31.64, 178.0),
    (4, 4, False): (7.146, 12.51),
    (4, 6, False): (17.65, 48.53),
}
# gravity, pounds to the cubic foot
POUNDS = """
0.31 21.4|0.35 24.0|0.36 24.6|0.37 25.3|0.38 25.9|0.39 26.6|0.41 27.9|0.42 28.5|0.43 29.2|0.44 29.8|0.46 31.1|0.47 31.7
0.49 33.0|0.50 33.6|0.51 34.2|0.55 36.7|0.58 38.6|0.67 44.1|0.68 44.7|0.71 46.5
"""


def _old() -> Iterator[tuple[str, float, object]]:
    for name, (thick, wide, area, inertia, modulus) in OLD.items():
        size = Size(thick, wide, False)
        yield f"{name}, area", area, lambda size=size: size.area
        yield f"{name}, I", inertia, lambda size=size: size.inertia
        yield f"{name}, S", modulus, lambda size=size: size.modulus


def _today() -> Iterator[Printed]:
    for (thick, wide, flat), (modulus, inertia) in TODAY.items():
        size, name = lumber(thick, wide, flat), f"{thick}x{wide}{' flat' if flat else ''}"
        yield Printed(SUPPLEMENT, f"{name}, S", modulus, 0.0006 * modulus, lambda size=size: size.modulus)
        yield Printed(SUPPLEMENT, f"{name}, I", inertia, 0.0006 * inertia, lambda size=size: size.inertia)


def _density(gravity: float) -> float:
    return replace(species("SPF"), gravity=gravity).density(15)


def _weights() -> Iterator[tuple[str, float, object]]:
    for cell in POUNDS.replace("\n", "|").strip("|").split("|"):
        gravity, pounds = map(float, cell.split())
        yield f"G {gravity}", pounds, lambda gravity=gravity: _density(gravity)


PRINTED: tuple[Printed, ...] = (*cells(HICKS, 0.01, _old()), *_today(), *cells(WEIGHTS, 0.06, _weights()))


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()
