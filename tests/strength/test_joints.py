"""What one fastener is worth: the thread that is in the wood, its tip and its shank left out."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from tutorial_lib.strength.joints import _pull


@pytest.mark.parametrize(("kind", "each"), [("lag screw", 1800 * 0.42**1.5 * 0.375**0.75),
                                            ("wood screw", 2850 * 0.42**2 * 0.375)])  # fmt: skip
@pytest.mark.parametrize(("thread", "within", "holds"), [("5/2", 2.0, 2.0), ("3/2", 2.0, 1.5), ("5/2", 0.1, 0.1)])
def test_a_pull_by_hand(kind: str, each: float, thread: str, within: float, holds: float) -> None:
    """NDS 2018 Eq. 12.2-1 and 12.2-2: pounds for an inch of thread in the wood; a lag screw's tip holds nothing."""
    screw: Any = SimpleNamespace(kind=kind, diameter=0.375, thread=Fraction(thread))
    tip = 7 / 32 if kind == "lag screw" else 0.0  # Table L2, 3/8 in
    assert _pull(screw, 0.42, within, False)[0] == pytest.approx(each * max(0.0, holds - tip))
    assert _pull(screw, 0.42, within, True)[0] == 0, "out of end grain"
