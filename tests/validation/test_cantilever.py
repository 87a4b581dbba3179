"""A headboard's post as a cantilever: the Wood Handbook's coefficients, and a textbook's rule written out.

Wood Handbook, FPL-GTR-282, Table 9-1: a load at the free end of a cantilever bends it k_b W L3 / E I with k_b 1/3; from
memory. AWC Design Aid 6, figure "Cantilever beam, concentrated load at free end": M = P l, from memory.
"""

from __future__ import annotations

import pytest

from tests.validation.printed import Printed, Source, cells
from tutorial_lib.strength.headboard import Cantilever

HANDBOOK = Source(
    title="Wood Handbook, FPL-GTR-282", edition="2021", place="Table 9-1, cantilever, load at its free end",
    state="from memory", rounding="fraction, exact",
)  # fmt: skip
DESIGN_AID = Source(
    title="AWC Design Aid No. 6, Beam Design Formulas", edition="2007", place="cantilever, load at its free end",
    state="from memory", rounding="exact",
)  # fmt: skip
PUSH, LONG, STIFF = 110.0, 26.125, 1.4e6 * 3.5**4 / 12
POST = Cantilever(PUSH, LONG)
PRINTED: tuple[Printed, ...] = (
    *cells(HANDBOOK, 1e-9, [("k_b", 1 / 3, lambda: POST.sag(STIFF) * STIFF / (PUSH * LONG**3))]),
    *cells(DESIGN_AID, 1e-9, [("M as a part of P l", 1.0, lambda: POST.moment / (PUSH * LONG))]),
)


@pytest.mark.parametrize("printed", PRINTED, ids=str)
def test_printed(printed: Printed) -> None:
    printed.check()


def test_stress_is_the_moment_over_the_section_modulus() -> None:
    assert POST.stress(3.5**3 / 6) == pytest.approx(110 * 26.125 / 7.1458, rel=1e-4)
