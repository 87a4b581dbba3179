"""What the loads ask of a joint's fasteners, and what is taken where a fastener is worth nothing."""

from __future__ import annotations

from math import inf
from typing import Any

import pytest

from tests.drilling.builds import drilled
from tutorial_lib.drilling.demand import least_count, widest

CLEAT = drilled()[1].fastenings[0]


class Asked:
    """Loads that ask for a spacing and a count told by a screw's worth."""

    def spacing(self, _joint: Any, lateral: float, pull: float) -> float:
        return lateral + pull

    def count(self, _joint: Any, lateral: float, _pull: float) -> int:
        return round(lateral)

    def upright(self, _fastening: Any) -> bool:
        return True


@pytest.mark.parametrize(
    ("worth", "spacing", "count"),
    [((7.0, 5.0), 12.0, 7), ((0.5, 0.25), 0.75, 0), ((0.0, 5.0), inf, 2), ((7.0, 0.0), inf, 7)],
)
def test_a_worth_counts_from_the_least_on(worth: tuple[float, float], spacing: float, count: int) -> None:
    def holding(*_: Any) -> tuple[float, float]:
        return worth

    assert widest(Asked(), holding, CLEAT, 0.42) == spacing
    assert least_count(Asked(), holding, CLEAT, 0.42) == count


def test_without_loads_or_worth_two_do_and_no_spacing_is_asked_for() -> None:
    assert (widest(None, None, CLEAT, 0.42), least_count(None, None, CLEAT, 0.42)) == (inf, 2)
