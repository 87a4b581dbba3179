"""Slats on their lines: which contacts open, and that a slat stays on two lines."""

from __future__ import annotations

import pytest

from tests.strength.beam import _line
from tutorial_lib.strength.grillage import Grillage, State, _lifted
from tutorial_lib.strength.slat import Slat


@pytest.mark.parametrize(
    ("lines", "before", "after"),
    [(3, {(0, 0), (1, 1)}, {(1, 1), (0, 2)}), (4, {(0, 0), (1, 1)}, {(0, 0), (1, 1), (0, 2)}),
     (4, {(0, 0), (0, 1)}, {(0, 2)})],
)  # fmt: skip
def test_a_slat_that_lifts_off_one_more_line_stays_on_two(lines: int, before: set, after: set) -> None:
    """Where it would be left on one, its others close again first; other slats stay as they are."""
    places = tuple(10.0 * i for i in range(lines))
    grillage = Grillage(Slat(0.0, places[-1], places, 1e5), [_line(y) for y in places])
    state = State(grillage.closed.lines, frozenset(before))
    assert _lifted(state, (0, 2), lines) == State(state.lines, frozenset(after))
