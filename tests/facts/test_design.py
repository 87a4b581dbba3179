"""The demo's facts of shape equal the quantities that its captions are checked against."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from tests.design.builds import changed, demo
from tests.design.posts import on_posts
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of, read_facts
from tutorial_lib.plan import plan


def test_lengths_by_hand() -> None:
    facts = facts_of(plan(demo()), ["design"])
    assert facts["slat.length"].value == Fraction(153, 4)
    assert facts["slat.gap"].value == Fraction(107, 52)
    assert facts["cleat.length"].value == Fraction(147, 2)
    assert "38 1/2 in inside − 2 × 1/8 in play = 38 1/4 in" in facts["slat.length"].working


def test_every_fact_has_its_working() -> None:
    assert not [fact.key for fact in facts_of(plan(demo()), ["design"]).values() if not fact.working or not fact.what]


def test_a_facts_file_reads_back() -> None:
    facts = facts_of(plan(demo()), ["design"])
    again = read_facts(facts.dumps(), "facts.json")
    assert list(again) == list(facts)
    assert again["leg.height"].value == facts["leg.height"].value


def test_a_metric_plan_writes_millimetres() -> None:
    options = changed(build__units="mm", mattress__width="900 mm", mattress__length="2000 mm", clearance__side="10 mm")
    entry = json.loads(facts_of(plan(options), ["design"]).dumps())["quantities"]["frame.inside_width"]
    assert (entry["value"], entry["unit"]) == (920, "mm")


def test_a_broken_facts_file_says_what_is_missing() -> None:
    with pytest.raises(InputError, match="kind"):
        read_facts('{"quantities": {"a.b": {"value": 3, "unit": "in", "what": "x"}}}', "f.json")
    with pytest.raises(InputError, match=r"f.json:1: not JSON"):
        read_facts("{", "f.json")


@pytest.mark.parametrize(
    ("changes", "key", "working"),
    [({}, "side_rail.length", "75 3/4 in inside + 2 × 1 1/2 in rail = 78 3/4 in"),
     ({}, "end_rail.length", "38 1/2 in inside = 38 1/2 in"),
     ({"centre__lines": 1}, "centre_beam.length", "as placed: "), ({}, "cleat.length", "− 2 × ")],
)  # fmt: skip
def test_a_length_tells_what_it_comes_from(changes, key, working) -> None:
    assert working in facts_of(plan(changed(**changes)), ["design"])[key].working


def test_halves_are_told_by_what_they_halve() -> None:
    found = facts_of(plan(on_posts()), ["design"])
    for name in ("length", "width"):
        half = found[f"frame.{name}.centre"]
        assert half.what == f"half the {name} over the rails" and half.value * 2 == found[f"frame.rails_{name}"].value
