"""Drilling facts: every kind of bed states them, once each, with their working."""

from __future__ import annotations

import json

import pytest

from tests.design.builds import changed as changed_demo
from tests.drilling.builds import OPEN, RUNNERS, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import Plan

BEDS = {
    "demo": {}, "open": OPEN, "runners": RUNNERS | OPEN,
    "doubled": RUNNERS | {"legs.kind": "doubled", "legs.lumber": "2x4"},
    "tube": RUNNERS | {"legs.kind": "tube"},
    "queen": {"mattress.width": "60 in", "mattress.length": "80 in", "centre.lines": 1},
    "lags": {"screws.leg.kind": "lag screw", "screws.leg.diameter": "5/16 in"}, "metric": {"build.units": "mm"},
}  # fmt: skip


@pytest.mark.parametrize("name", BEDS)
def test_totals_add_up_to_what_is_driven(name: str) -> None:
    plan = Plan(change(demo(), BEDS[name]) if BEDS[name] else demo())
    facts = facts_of(plan, ["drilling"])
    total = sum(int(fact.value) for key, fact in facts.items() if key.endswith(("screw_total", "bolt_total")))  # type: ignore[arg-type]
    assert total == sum(fastening.count for fastening in plan.drilling.fastenings)
    assert all(fact.working and fact.what for fact in facts.values())
    json.dumps(facts.as_json())


def test_each_times_legs_is_the_total() -> None:
    plan = Plan(change(demo(), BEDS["doubled"]))
    facts = facts_of(plan, ["drilling"])
    assert int(facts["leg.screws_each"].value) * len(plan.build.legs) == facts["leg.screw_total"].value  # type: ignore[arg-type]


def test_brackets_are_facts() -> None:
    facts = facts_of(Plan(change(demo(), BEDS["queen"])), ["drilling"])
    assert facts["line_end.bracket_count"].value == 2 and facts["line_leg.bracket_count"].value == 3


def test_a_stated_bit_says_so_and_a_chosen_one_does_not() -> None:
    for pilot in (None, "1/8 in"):
        facts = facts_of(Plan(change(demo(), {"screws.cleat.pilot": pilot})), ["drilling"])
        assert facts["pilot.diameter"].working.startswith("stated; ") == (pilot is not None)


def test_screws_of_all_legs_are_told_where_two_joints_have_their_own() -> None:
    one = facts_of(Plan(change(demo(), RUNNERS | OPEN)), ["drilling"])
    two = facts_of(Plan(change(demo(), BEDS["doubled"])), ["drilling"])
    assert "legs.screws" not in one
    assert two["legs.screws"].value == two["leg.screw_total"].value + two["ply.screw_total"].value  # type: ignore[operator]


def test_screws_of_a_runner_s_end_are_told() -> None:
    plan = Plan(change(demo(), RUNNERS | OPEN))
    facts = facts_of(plan, ["drilling"])
    ends = [f for f in plan.drilling.fastenings if f.joint.kind == "runner" and "end rail" in f.joint.far]
    assert {fastening.count for fastening in ends} == {facts["runner.screws_per_end"].value}


def test_runner_screws_add_up_as_they_are_shown() -> None:
    options = changed_demo(
        support__kind="runners", support__lumber="2x6", support__recess=None, support__end_play=None, screws=None,
        legs__place=None, legs__kind="doubled", legs__lumber="2x4", mattress__size="queen", mattress__width=None,
        mattress__length=None, centre__lines=1, centre__kind="flat", centre__lumber="2x6", centre__legs=3,
    )  # fmt: skip
    known = {key: fact.value for key, fact in facts_of(Plan(options), ["drilling"]).items()}
    runners, line = known["runner.screws_each"], known["centre_runner.screws_each"]
    assert known["runner.screw_total"] == 2 * runners + line


@pytest.mark.parametrize(("lines", "told"), [(1, "one"), (2, "2 alike")])
def test_screws_of_centre_lines_are_told_for_one_line_and_how_many_are_alike(lines: int, told: str) -> None:
    options = changed_demo(
        support__kind="runners", support__lumber="2x6", support__recess=None, support__end_play=None, screws=None,
        legs__place=None, mattress__size="king", mattress__width=None, mattress__length=None, centre__lines=lines,
        centre__kind="flat", centre__lumber="2x6", centre__legs=3,
    )  # fmt: skip
    assert facts_of(Plan(options), ["drilling"])["centre_runner.screws_each"].working == told


def test_a_row_of_cleat_screws_is_told_from_its_first_to_its_last() -> None:
    told = facts_of(Plan(demo()), ["drilling"])["cleat.screws_each"]
    assert (told.value, told.working) == (9, "from 3/4 in to 72 3/4 in: 9")
