"""FEPA 43 / ISO 6344 and CAMI comparison chart (as reprinted by abrasives makers): mean grain in micrometres."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tutorial_lib.finishing.sanding import grit
from tutorial_lib.tables.finishing import grits


@pytest.mark.parametrize(
    ("number", "micron"), [(80, 200), (100, 162), (120, 125), (150, 100), (180, 82), (220, 68), (240, 60)]
)
def test_p_scale(number, micron):
    assert grit(number).micron == micron


@pytest.mark.parametrize(("number", "micron"), [(80, 192), (120, 116), (150, 93), (180, 82), (220, 68)])
def test_other_scale(number, micron):
    assert grit(number, "CAMI").micron == micron


def test_cami_400_is_p800():
    assert grit(400, "CAMI").micron == grit(800).micron


@pytest.mark.parametrize("scale", ["P", "CAMI"])
def test_a_higher_number_is_always_finer(scale):
    row = sorted((g for g in grits() if g.scale == scale), key=lambda g: g.number)
    assert all(a.micron > b.micron for a, b in pairwise(row))
