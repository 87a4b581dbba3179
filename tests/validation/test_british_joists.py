"""Spans of British floor joists under the permissible stresses of BS 5268-2 (withdrawn): a second country's arithmetic.

Joists at 400 mm, as a public table of Approved Document A's spans gives them, 0.25 kN/m2 dead and 1.5 kN/m2 imposed.
The grade stresses (C16 5.3, SC4 7.5 N/mm2 in bending, mean E 8800 and 9900 N/mm2, from memory) are not the
characteristic values of EN 338 and never meet them here. BS 5268-7.1: depth factor (300/h)^0.11, load sharing 1.1; sag
under all load at most 0.003 of the span and 14 mm, its shear part counted (E/16). Joists of 97 mm are left out: a point
load of 1.4 kN, which the table spreads by rules of its own, governs them. The sheet's C24 column is that of the older
class SC4 (E 9900), which our figures show: with C24's E it would be 2 to 3 % longer throughout.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.validation.ours import Size, SpreadLoad, beam, root
from tests.validation.printed import Printed, Source
from tutorial_lib.measures import factor

UK = Source(
    title="British floor joist spans after Approved Document A and BS 5268-7.1",
    edition="carryduffdesigns.co.uk",
    place="floor joists at 400 mm centres",
    state="seen",
    rounding="clear spans to 10 mm; the bearing and the joist's own weight are ours: within 1 %",
)
INCH, POUND = float(factor("in", "mm")), float(factor("lbf", "N"))
PSI = POUND / INCH**2  # [N/mm2]
STRESS = {"C16": (5.3, 8800.0, 370.0), "C24 (SC4)": (7.5, 9900.0, 420.0)}  # [N/mm2], [N/mm2], mean density [kg/m3]
# depth x width [mm]: clear span [m] in C16, C24
SPANS = """
122x38 2.48 2.58|122x50 2.72 2.83|147x50 3.27 3.39|170x50 3.77 3.91|195x50 4.31 4.47|220x50 4.79 4.93|220x63 5.06 5.20
220x75 5.27 5.42
"""


def _clear_span(grade: str, depth: float, width: float) -> float:
    """[m], our beam and section in their inches and pounds."""
    stress, stiff, density = STRESS[grade]
    size = Size(width / INCH, depth / INCH, False)
    own = density * 9.81 * width * depth * 1e-9  # [N/mm]
    per_inch = (1.75e-3 * 400 + own) * INCH / POUND
    shear_stiff = stiff / 16 / PSI * size.area / 1.2  # [lb]

    def over(span: float) -> float:
        """Use at a span [in], less 1."""
        bent = beam((0, span), [SpreadLoad(0, span, per_inch)], stiff / PSI * size.inertia)
        sag = bent.sag(span / 2) + per_inch * span**2 / 8 / shear_stiff
        strong = stress / PSI * 1.1 * (300 / depth) ** 0.11
        return max(bent.moment(span / 2) / size.modulus / strong, sag / min(0.003 * span, 14 / INCH)) - 1

    return (root(over, 20, 400) * INCH - 40) / 1000  # 40 mm: the bearing the code asks for


def _cells() -> Iterator[tuple[str, float, object]]:
    for line in SPANS.replace("\n", "|").strip("|").split("|"):
        name, *printed = line.split()
        depth, width = map(float, name.split("x"))
        for grade, text in zip(STRESS, printed, strict=True):
            yield f"{grade} {name}", float(text), lambda a=(grade, depth, width): _clear_span(*a)


PRINTED = tuple(Printed(UK, what, value, 0.01 * value, ours) for what, value, ours in _cells())


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()
