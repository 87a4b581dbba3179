"""Grits in order, discs and minutes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.finishing.sanding import grit, sanding


def findings(*numbers):
    return {finding.rule: finding for finding in sanding(numbers, Fraction(20), Fraction(100))[1]}


def test_a_good_sequence_has_nothing_to_mind():
    assert findings(80, 120, 150) == findings(120, 180) == {}


def test_a_skipped_grit_is_named():
    assert findings(80, 180)["grit step"].remedy == "Put 120 grit in between."


def test_an_unknown_grit_names_the_nearest():
    assert findings(130, 180)["grit"].remedy == "Use 120."


def test_going_back_is_told():
    assert "no finer" in findings(180, 120)["grit order"].what


@pytest.mark.parametrize(("last", "told"), [(80, "scratches show"), (240, "takes less")])
def test_the_last_grit(last, told):
    assert told in findings(last)["last grit"].what


def test_discs_and_minutes_grow_with_the_area():
    small, large = (sanding((120, 180), Fraction(a), Fraction(0))[0] for a in (8, 81))
    assert (small.discs, large.discs) == ((1, 1), (9, 11))
    assert large.minutes == (162, 324)


def test_no_grit_of_that_number():
    assert grit(130) is None
