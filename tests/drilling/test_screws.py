"""The chooser takes the shortest length that reaches and stays inside, and says why its neighbours fail."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.drilling.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.design.screw_options import ScrewOptions
from tutorial_lib.drilling.screws import (
    Stack,
    bolt_length,
    check_bolt,
    check_length,
    choose_length,
    faults_of,
    full_penetration,
    least_penetration,
    size_for,
)
from tutorial_lib.drilling.sizes import screw_sizes
from tutorial_lib.errors import InputError
from tutorial_lib.measures import inch

TWO_BY_TWO = Stack(inch("1 1/2"), inch("1 1/2"))


@pytest.mark.parametrize("gauge", ["9", "10"])
def test_only_two_and_three_quarters_fits_two_inch_and_a_half_boards(gauge: str) -> None:
    size = screw_sizes()["wood screw", gauge]
    choice = choose_length(size.lengths, TWO_BY_TWO, least_penetration("wood screw", size.diameter))
    assert choice.length == inch("2 3/4") and choice.fits
    assert "reaches 1 in into the second piece" in choice.shorter
    assert "leaves only 0 in beyond its tip" in choice.longer


def test_the_neighbours_of_the_demo_s_cleat_screw_fail_or_would_do() -> None:
    stack = Stack(inch("1 1/2"), inch("1 1/2"), inch("1/16"))
    choice = check_length(inch("2 1/2"), screw_sizes()["wood screw", "9"].lengths, stack, 6 * 0.177)
    assert choice.fits and choice.stated
    assert "2 1/4 in reaches 0.812 in" in choice.shorter and choice.longer == "2 3/4 in would do too"


def test_a_tip_needs_an_eighth_of_wood() -> None:
    assert faults_of(inch("2 7/8"), TWO_BY_TWO, 1.0) == []
    assert "must stay" in faults_of(inch("2 15/16"), TWO_BY_TWO, 1.0)[0]
    assert "comes 0.125 in through" in faults_of(inch("3 1/8"), TWO_BY_TWO, 1.0)[0]


def test_a_screw_that_only_holds_down_needs_half_an_inch() -> None:
    stack = Stack(inch("3/4"), inch("1 1/2"), holds_down=True)
    assert faults_of(inch("1 1/4"), stack, 0.984) == []
    assert faults_of(inch("1"), stack, 0.984)


def test_nothing_fits_takes_the_longest_that_stays_inside() -> None:
    choice = choose_length((inch("1"), inch("2"), inch("3")), TWO_BY_TWO, 1.2)
    assert not choice.fits and choice.length == inch("2")


def test_bolts_count_washer_and_nut() -> None:
    bolt = screw_sizes()["carriage bolt", "3/8"]
    assert bolt_length(bolt.lengths, inch("5"), bolt.washer, bolt.nut).length == inch("5 1/2")
    assert not check_bolt(inch("5"), bolt.lengths, inch("5"), bolt.washer, bolt.nut).fits
    assert not bolt_length(bolt.lengths, inch("40"), bolt.washer, bolt.nut).fits


def test_lag_screws_count_without_their_tip() -> None:
    assert least_penetration("lag screw", 0.25, 0.15) == pytest.approx(1.15)
    assert full_penetration("lag screw", 0.25, 0.15) == pytest.approx(2.15)


def test_an_unknown_gauge_names_the_known_ones() -> None:
    with pytest.raises(InputError, match=r"no wood screw of size 11 .* 9, 10, 12"):
        size_for(ScrewOptions(gauge="#11"), "cleat")


def test_a_structural_screw_without_data_is_told_what_is_missing() -> None:
    options = change(demo(), {"screws.cleat.kind": "structural screw"}).screws.cleat
    with pytest.raises(InputError, match="diameter, root, head, thread, yield_strength"):
        size_for(options, "cleat")


def test_open_shanks_have_a_usual_size() -> None:
    size = size_for(ScrewOptions(kind="lag screw"), "leg")
    assert size is not None and size.diameter == pytest.approx(float(Fraction(5, 16)))
