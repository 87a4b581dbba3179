"""The facts file: the plan's own units, exact numbers beside, and what can't be used is told by its key."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.design.builds import changed, demo
from tutorial_lib.errors import InputError
from tutorial_lib.facts import Fact, Facts, facts_of, read_facts
from tutorial_lib.facts.fact import Board
from tutorial_lib.measures import mm
from tutorial_lib.plan import plan


def of(fact: Fact, units: Any = "in") -> dict[str, Any]:
    entry: dict[str, Any] = json.loads(Facts("n", "t", units, [fact]).dumps())["quantities"][fact.key]
    return entry


def fact(value: Any, unit: str = "in") -> Fact:
    return Fact(key="a.b", value=value, unit=unit, kind="length", what="w", working="stated")


@pytest.mark.parametrize(
    ("value", "unit", "units", "told", "exact", "in_unit"),
    [
        (Fraction(153, 4), "in", "in", 38.25, "153/4", "in"),
        (Fraction(40), "in", "in", 40, "40", "in"),
        (mm(Fraction(895, 2)), "in", "mm", 447.5, "895/2", "mm"),
        (14, "count", "mm", 14, "14", "count"),
        ((Fraction(0), Fraction(107, 52)), "in", "in", [0, 107 / 52], ["0", "107/52"], "in"),
        (1.73, "m²", "mm", 1.73, None, "m²"),
        ("golden oak", "", "in", "golden oak", None, ""),
    ],
)
def test_the_number_and_the_exact_one(value: Any, unit: str, units: str, told: Any, exact: Any, in_unit: str) -> None:
    entry = of(fact(value, unit), units)
    assert (entry["value"], entry.get("exact"), entry["unit"]) == (told, exact, in_unit)


@given(st.fractions(0, 500, max_denominator=5000), st.sampled_from(["in", "mm"]))
def test_a_length_reads_back_exactly(x: Fraction, units: Any) -> None:
    facts = Facts("n", "t", units, [fact(x)])
    assert read_facts(facts.dumps(), "f.json")["a.b"] == facts["a.b"]


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("board", [Board("2x6", Fraction(96)), Board("45x95", mm(2400)), Board("2x4", Fraction(239, 2)),
                                   Board("1x4"), Board(length=Fraction(36))])  # fmt: skip
def test_the_board_a_fact_speaks_of_reads_back(board: Board, units: Any) -> None:
    text = Facts("n", "t", units, [replace(fact(Fraction(3), "count"), board=board)]).dumps()
    assert read_facts(text, "f")["a.b"].board == board


def test_a_file_without_exact_numbers_is_read_by_its_values() -> None:
    text = '{"units": "mm", "quantities": {"a.b": {"value": 447.5, "unit": "mm", "kind": "length", "what": "w"}}}'
    assert read_facts(text, "f.json")["a.b"].value == mm(Fraction(895, 2))


@pytest.mark.parametrize(
    ("entry", "reason"),
    [
        ({"value": 38.25, "exact": "153/8"}, r'38.25 and exact "153/8" are two numbers'),
        ({"value": [1, 2], "exact": ["1"]}, "another count"),
        ({"value": 3, "exact": "1/0"}, "exact is a whole number or a fraction"),
        ({"value": None}, "no number within reach"),
        ({"value": 3, "said_as": "slat"}, "list of words"),
        ({"value": 3, "board": "2x6"}, "board is an object"),
        ({"value": 3, "board": {"width": 6}}, "board is an object"),
        ({"value": 3, "board": {"length": 95.5}}, "whole number, or a fraction as text"),
        ({"value": 3, "board": {"length": "1/0"}}, "whole number, or a fraction as text"),
        ({"value": 3, "board": {"section": 6}}, "section is missing, or is no text"),
    ],
)
def test_what_cannot_be_used_is_told_by_its_key(entry: dict[str, Any], reason: str) -> None:
    whole = {"unit": "in", "kind": "length", "what": "w"} | entry
    with pytest.raises(InputError, match=f"f.json slat.gap: .*{reason}"):
        read_facts(json.dumps({"quantities": {"slat.gap": whole}}), "f.json")


def test_a_metric_plan_speaks_metric() -> None:
    facts = facts_of(plan(changed(build__units="mm")))
    units = {entry["unit"] for entry in facts.as_json()["quantities"].values()}
    assert not units & {"in", "lb", "psi", "sq ft", "gal"}
    assert {"mm", "kg", "m²"} <= units


def test_a_fact_is_a_pint_quantity() -> None:
    facts = facts_of(plan(demo()), ["design", "assembly", "cutting"])
    assert facts["slat.length"].quantity.to("mm").magnitude == Fraction(153, 4) * Fraction(127, 5)
    assert (2 * facts["slat.length"].quantity).magnitude == Fraction(153, 2)
    assert facts["weight.bed"].quantity.to("kg").magnitude == pytest.approx(77 * 0.45359237)
    assert facts["slat.count"].quantity.magnitude == 14
    assert len(facts["slat.marks"].quantities) == 14
    with pytest.raises(InputError, match="several numbers"):
        _ = facts["slat.marks"].quantity


@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_calculated_number_stays_calculated(units: Any) -> None:
    stated, diagonal, share = fact(Fraction(1, 2)), replace(fact(88.912), key="c.d"), replace(fact(1.0, ""), key="e")
    facts = Facts("n", "t", units, [stated, diagonal, share])
    again = read_facts(facts.dumps(), "f.json")
    assert again.dumps() == facts.dumps()
    assert isinstance(again["c.d"].value, float)
