"""ANSI/AWC NDS 2018, Tables 12.2A, B, C and F: reference withdrawal and head pull-through.

The printed cells are rounded or cut to whole pounds, hence +-1 for screws and +-0.5 for the rest.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from tutorial_lib.strength.screws import head_pull, lag_withdrawal, nail_withdrawal, withdrawal

DATA = Path(__file__).parents[1] / "data" / "reference" / "screw_withdrawal_check.csv"
ROWS = list(csv.DictReader(DATA.read_text().splitlines()))
RULE = {"wood screw": withdrawal, "lag screw": lag_withdrawal, "nail": nail_withdrawal}
PER_INCH = [r for r in ROWS if r["published"] and r["unit"].startswith("lb per in")]
HEADS = [(0.234, 0.3125, 0.5, 40), (0.312, 1.0, 0.5, 132), (0.5, 1.5, 0.42, 239), (0.312, 0.75, 0.5, 127)]


@pytest.mark.parametrize("row", PER_INCH, ids=lambda r: f"{r['fastener']} {r['size']} G{r['G']}")
def test_withdrawal_equals_the_printed_cell(row):
    found = RULE[row["fastener"]](float(row["G"]), float(row["D_in"]))
    assert found == pytest.approx(float(row["published"]), abs=float(row["tolerance"]))


def test_there_are_printed_cells():
    assert len(PER_INCH) >= 9


@pytest.mark.parametrize(("head", "thickness", "gravity", "printed"), HEADS)
def test_head_pull_equals_the_printed_cell(head, thickness, gravity, printed):
    assert head_pull(gravity, head, thickness) == pytest.approx(printed, abs=0.5)


def test_design_is_a_fifth_of_the_ultimate():
    """Wood Handbook (FPL-GTR-282) Eq. 8-10b: p = 15 700 G^2 D L at failure; the design value is 2850."""
    assert 15700 * 0.42**2 * 0.19 / withdrawal(0.42, 0.19) == pytest.approx(5.5, abs=0.02)
