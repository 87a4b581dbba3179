"""The metric demo: a plan without a stop, and nowhere an inch, a pound or a foot."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import factor
from tutorial_lib.plan import Plan, plan
from tutorial_lib.publishing.sheet import sheet_source

IMPERIAL = re.compile(
    r".{0,40}(?<![A-Za-z])\d[\d /.]*(?:in|lb|lbs|psi|ft|inch|inches|pounds|sq ft|gallons?|quarts?|fl oz|°F)\b"
    r"(?! (?:all|the|one|a|each|it|two|[\d,]+ beds)\b).{0,40}"
)


@pytest.fixture(scope="module")
def made(root: Path) -> Plan:
    path = root / "assets" / "builds" / "guest-bed-90.toml"
    return plan(read_build(path.read_text(encoding="utf-8"), path.name))


def test_it_can_be_built(made: Plan) -> None:
    assert [f for f in made.findings if f.severity == "stop"] == []
    assert made.cutting.priced


def test_people_are_rated_by_five_kilograms(made: Plan) -> None:
    for rating in (made.strength.lying, made.strength.sitting):
        kilograms = rating.pounds * factor("lb", "kg")
        assert kilograms >= 110
        assert kilograms % 5 == 0


def test_everything_is_on_whole_millimetres(made: Plan) -> None:
    for part in made.build.parts:
        for size in (part.length, part.section.thickness, part.section.width):
            assert (size * factor("in", "mm")).denominator == 1, part.key


def test_facts_and_findings_speak_metric(made: Plan) -> None:
    facts = facts_of(made)
    units = {entry["unit"] for entry in facts.as_json()["quantities"].values()}
    assert units == {"mm", "kg", "m²", "count", "grit", "h", "d", "%", "eur", ""}
    told = [f"{f.what} {f.working}" for f in facts.values()] + [str(f) for f in made.findings]
    assert [found.group() for text in told for found in IMPERIAL.finditer(text)] == []


def test_the_sheet_speaks_metric(made: Plan) -> None:
    text = re.sub(r"margin: \(.*?\)", "", sheet_source(made, "a4"))
    text = re.sub(r"<svg.*?</svg>", "", text, flags=re.DOTALL)
    assert [found.group() for found in IMPERIAL.finditer(text)] == []


def test_the_search_finds() -> None:
    assert IMPERIAL.search("take a 1 1/2 in screw") and IMPERIAL.search("holds 200 lb")
    assert not IMPERIAL.search("1 in 1,000 beds") and not IMPERIAL.search("4 in all")
