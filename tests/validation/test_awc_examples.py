"""AWC Structural Wood Design Solved Example Problems (2015/2018 NDS): E1.2a, E1.7, E2.1a and E2.3.

E1.2a was read; the figures of E1.7 and E2 are pinned from a public test of the examples. E2.4 is disputed and not used.
"""

from __future__ import annotations

import pytest

from tests.validation.ours import Size, allowed, graded
from tests.validation.printed import Printed, Source, State
from tutorial_lib.strength.members import beam_stability, column_stability
from tutorial_lib.strength.screws import lag_withdrawal

STUD, TALL = Size(1.5, 5.5, False), Size(3.5, 15.25, False)
LENGTH = 1.37 * 240 + 3 * 15.25  # [in] effective
SLENDER = (LENGTH * 15.25 / 3.5**2) ** 0.5


def _source(place: str, state: State) -> Source:
    return Source(title="AWC Structural Wood Design, Solved Example Problems", edition="2015/2018 NDS", place=place,
                  state=state, rounding="to the last printed figure, steps rounded between")  # fmt: skip


E12, E17, E2 = (_source("E1.2a", "seen"), _source("E1.7", "pinned"), _source("E2.1a, E2.3", "pinned"))


def _tall() -> float:
    return graded("Douglas Fir-Larch", "Select Structural", 12).Emin


def _bending() -> float:
    return allowed(graded("Douglas Fir-Larch", "Select Structural", 12), TALL, 1.0, LENGTH)


def _stability(duration: float) -> float:
    kind = graded("Southern Pine", "No.1", 6)
    return column_stability(kind.Fc * duration, kind.Emin, 108, 5.5)


def _stress(duration: float) -> float:
    return graded("Southern Pine", "No.1", 6).Fc * duration * _stability(duration)


PRINTED: tuple[Printed, ...] = (
    Printed(E12, "RB", 21.6, 0.05, lambda: SLENDER),
    Printed(E12, "FbE, psi", 1776, 2, lambda: 1.2 * _tall() / SLENDER**2),
    Printed(E12, "CL", 0.876, 0.0006, lambda: beam_stability(1500, _tall(), TALL, LENGTH)),
    Printed(E12, "F'b, psi", 1313, 2, _bending),
    *(
        Printed(E17, f"{what}, CD {duration}", value, tolerance, lambda duration=duration, ours=ours: ours(duration))
        for duration, *values in ((1.6, 0.432, 1073, 2160), (1.15, 0.555, 990, 1552.5), (0.9, 0.647, 904.5, 1215))
        for what, value, tolerance, ours in zip(
            ("CP", "F'c, psi", "F'b, psi"),
            values,
            (0.001, 3, 2),
            (_stability, _stress, lambda cd: allowed(graded("Southern Pine", "No.1", 6), STUD, cd)),
            strict=True,
        )
    ),
    Printed(E2, "1/2 in lag screw in Southern Pine, lb", 955, 1, lambda: lag_withdrawal(0.55, 0.5) * 2.1875),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()
