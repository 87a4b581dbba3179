"""One task after the other."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from tutorial_lib.finishing.cans import SOLD
from tutorial_lib.finishing.coats import coats
from tutorial_lib.finishing.sanding import sanding
from tutorial_lib.finishing.timeline import timeline


def made(kind="oil", count=2, recoat=None):
    sand, _ = sanding((120, 180), Fraction(20), Fraction(100))
    return timeline(sand, coats(kind, count, Fraction(20), Fraction(1), SOLD["in"]), recoat)


def test_each_task_starts_where_the_one_before_ends():
    assert all(a.end == b.start for a, b in pairwise(made(count=4)))


def test_a_stated_recoat_time_is_no_range():
    assert next(task for task in made(recoat=4.0) if task.name.startswith("Dry before")).hours == (4.0, 4.0)


def test_three_coats_dry_three_times():
    names = [task.name for task in made(count=3)]
    assert [n for n in names if n.startswith(("Coat", "Dry"))] == [
        "Coat 1",
        "Dry before coat 2",
        "Coat 2",
        "Dry before coat 3",
        "Coat 3",
        "Dry until parts can be handled",
    ]


def test_the_mattress_waits_its_full_time_after_the_last_coat():
    tasks = made()
    last_coat = next(task for task in tasks if task.name == "Coat 2")
    assert tasks[-1].end[1] - last_coat.end[1] == pytest.approx(72)
    assert tasks[-1].end[0] - last_coat.end[0] == pytest.approx(48)


def test_raw_wood_needs_no_waiting():
    assert [task.work for task in made(count=0)] == ["hands"] * 3


def test_a_film_is_sanded_between_coats_and_an_oil_is_not():
    film = [task.name for task in made("varnish", 2)]
    at = film.index("Dry before coat 2")
    assert film[at + 1 : at + 3] == ["Sand lightly, 220 grit; wipe off the dust", "Coat 2"]
    assert not any(task.name.startswith("Sand lightly") for task in (*made("oil", 3), *made("varnish", 1)))
