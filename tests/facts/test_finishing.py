"""The facts of finishing and assembly of the demo bed."""

from __future__ import annotations

from functools import cache

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import Plan


@cache
def facts(**keys):
    return facts_of(Plan(changed(**keys) if keys else demo()), ["finishing", "assembly"])


@pytest.mark.parametrize(
    ("key", "value", "unit"),
    [("finish.coats", 2, "count"), ("finish.recoat", 4, "h"), ("finish.grit.first", 120, "grit"),
     ("finish.grit.last", 180, "grit"), ("assembly.turns", 1, "count"), ("assembly.people", 2, "count"),
     ("weight.bed", 77, "lb"), ("weight.turn", 54, "lb")],
)  # fmt: skip
def test_values(key, value, unit):
    assert (facts()[key].value, facts()[key].unit) == (value, unit)


def test_diagonal_as_a_number():
    assert facts()["frame.diagonal"].value == pytest.approx(89.0158, abs=1e-4)


def test_every_fact_has_its_working():
    assert [f.key for f in facts().values() if not f.working] == []


def test_a_metric_plan_weighs_in_kilograms():
    metric = facts(build__units="mm")
    assert (metric["weight.bed"].value, metric["weight.bed"].unit) == (35, "kg")
    assert metric["finish.area"].unit == "m²"


def test_recoat_not_stated_takes_the_longer_time():
    assert facts(finish__recoat=None)["finish.recoat"].value == 24


@pytest.mark.parametrize(("coats", "grit"), [(1, None), (2, 220), (3, 220)])
def test_between_coats_is_sanded_where_there_are_two(coats, grit):
    found = facts(finish__kind="water varnish", finish__coats=coats)
    assert found["finish.grit.between"].value == grit if grit else "finish.grit.between" not in found
