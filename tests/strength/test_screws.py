"""One screw across and along its axis."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.errors import InputError
from tutorial_lib.strength.joints import holding
from tutorial_lib.strength.screws import Dowel, combined, lateral, wood_bearing

NINE = Fastener(
    kind="wood screw", gauge="#9", length=Fraction(5, 2), diameter=0.177, root=0.142, head=0.337, thread=Fraction(5, 3),
    yield_strength=90000,
)  # fmt: skip


def test_below_six_diameters_there_is_no_value_across():
    assert holding(NINE, 1.5, 1.0, 0.42, False)[0] == 0.0


def test_end_grain_carries_two_thirds_across_and_nothing_along():
    side, end = (holding(NINE, 1.5, 1.25, 0.42, grain) for grain in (False, True))
    assert end[0] == pytest.approx(0.67 * side[0])
    assert end[1] == 0.0


def test_wood_outside_the_rules_is_refused():
    with pytest.raises(InputError, match=r"0\.31 to 0\.73"):
        wood_bearing(0.25, 0.19)


def test_a_screw_with_nothing_to_hold_in_is_refused():
    with pytest.raises(InputError, match="longer screw"):
        lateral(
            Dowel(
                diameter=0.19,
                root=0.152,
                yield_strength=80000,
                main=0.0,
                side=1.5,
                main_bearing=3350,
                side_bearing=3350,
            )
        )


@given(st.floats(0, 200), st.floats(0, 200), st.floats(1, 3))
def test_more_load_never_uses_less(pull, across, factor):
    assert combined(100, 80, pull * factor, across * factor) >= combined(100, 80, pull, across) - 1e-9


def test_pull_on_a_joint_without_pull_value_has_no_limit():
    assert combined(0.0, 80, 1, 10) == float("inf")
