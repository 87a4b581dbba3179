"""Simulated marking: the figures worked for 14 slats of 3 1/2 in 75 3/4, limit 2 1/4, by 200,000 trials."""

from __future__ import annotations

from dataclasses import fields

import pytest

from tutorial_lib.cutting.marking import Errors, Row, chance_to_rock, compare

TRIALS = 12_000
ROW = Row(75.75, 3.5, 14, 2.25)
WORKED = {"spacer": (0.398, 0.315), "step": (0.162, 0.119), "stack": (0.198, 0.166), "centre": (0.183, 0.146)}


@pytest.fixture(scope="module")
def methods():
    return {m.key: m for m in compare(ROW, trials=TRIALS)}


@pytest.mark.parametrize("key", WORKED)
def test_the_last_gap_spreads_as_worked(methods, key):
    spread, over = WORKED[key]
    assert methods[key].spread == pytest.approx(spread, rel=0.04)
    assert methods[key].over == pytest.approx(over, abs=0.015)


def test_marks_from_one_end_are_best(methods):
    assert methods["marks"].worst == pytest.approx(2.150, abs=0.004)
    assert methods["marks"].over == pytest.approx(0.003, abs=0.003)
    assert methods["marks"].over == min(m.over for m in methods.values())


def test_the_same_seed_gives_the_same_figures():
    assert compare(ROW, trials=300) == compare(ROW, trials=300)
    assert compare(ROW, trials=300) != compare(ROW, trials=300, seed=1)


def test_a_stop_block_takes_the_rock_out_of_the_legs():
    rocks = {limit: chance_to_rock(limit, trials=TRIALS) for limit in (1 / 64, 1 / 32, 1 / 16)}
    # half the difference of the diagonals' sums is as wide as one leg's own error: 1.96 of it in 19 beds of 20
    assert rocks[1 / 16]["tape"] == pytest.approx(0.05, abs=0.01)
    assert rocks[1 / 64]["stop"] == pytest.approx(0.05, abs=0.01)
    assert rocks[1 / 32]["stop"] < 0.01


@pytest.mark.parametrize("count", [14, 15, 16])
def test_without_errors_every_method_gives_the_planned_gap(count):
    exact = Errors(**{field.name: 0.0 for field in fields(Errors)})
    row = Row(80.75, 3.5, count, 3.0)
    for method in compare(row, exact, trials=3):
        assert method.sample == pytest.approx([row.gap] * 3), method.name
