"""HUD Residential Structural Design Guide, 2nd ed. (Oct 2017): examples 5.1 (joist) and 5.6 (column).

5.1 was read in a transcription; 5.6 is pinned from a public test of the example. The joist's design values are its own
(Fb 975 psi, E 1.5e6 psi), those of Hem-Fir No.1; its shear and bearing spans use an older Fv and are left out.
"""

from __future__ import annotations

import pytest

from tests.validation.ours import Size, allowed, column, graded, lumber, sag_span, spans
from tests.validation.printed import Printed, Source, State

JOIST, POST = lumber(2, 8), Size(3.5, 3.5, False)


def _source(place: str, state: State) -> Source:
    return Source(title="HUD Residential Structural Design Guide", edition="2nd ed., October 2017", place=place,
                  state=state, rounding="to the last printed figure; spans within 0.1 ft")  # fmt: skip


def _bending() -> float:
    return allowed(graded("Hem-Fir", "No.1", 8), JOIST, repeated=1.15)


def _post() -> float:
    """F'c [psi] of the example's 4x4, 7.3 ft."""
    return column(graded("Spruce-Pine-Fir", "No.2", 4), POST, 7.3 * 12)


FIRST, SIXTH = _source("example 5.1", "seen"), _source("example 5.6", "pinned")
PRINTED: tuple[Printed, ...] = (
    Printed(FIRST, "S, in3", 13.14, 0.01, lambda: JOIST.modulus),
    Printed(FIRST, "I, in4", 47.63, 0.05, lambda: JOIST.inertia),
    Printed(FIRST, "F'b, psi", 1345, 1, _bending),
    Printed(FIRST, "span in bending, ft", 14.865, 0.02, lambda: spans(_bending(), JOIST.modulus, 40 * 16 / 144) / 12),
    Printed(FIRST, "span to L/360, ft", 13.8, 0.1, lambda: sag_span(1.5e6 * JOIST.inertia, 30 * 16 / 144, 360) / 12),
    Printed(SIXTH, "F'c, psi", 579, 0.6, _post),
    Printed(SIXTH, "CP", 0.438, 0.0006, lambda: _post() / (1150 * 1.15)),
    Printed(SIXTH, "use at 4800 lb", 0.677, 0.0006, lambda: 4800 / (_post() * 12.25)),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()
