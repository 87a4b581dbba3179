"""Every build that design accepts goes through all rooms: findings, facts, facts file and sheet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields
from math import isfinite
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings

from tests.design.builds import NO_DEMO, changes, demo
from tests.snapshots.written import OURS, read
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError
from tutorial_lib.facts import Facts, facts_of, read_facts
from tutorial_lib.facts.figures import line
from tutorial_lib.plan import Plan, plan
from tutorial_lib.publishing.booklet.leaf import Book, Leaf, dumped
from tutorial_lib.publishing.sheet import sheet_pages

KINDS = frozenset(
    "area bolt_count bolt_length centre_mark clearance coats cost diameter distance duration gap gap_count gap_limit "
    "gauge grit height kerf leg_load length load_rating lumber mattress_size name part_count people people_count "
    "pieces_per_board price sag screw_count screw_length section share spacing step_count stock_count stock_length "
    "supply supply_count time tolerance trim turn_count utilisation volume wait weight yield".split()
)
MISPRINT = re.compile(r"\d\.\d{6}|\bin in\b|\bmm mm\b|\bmm in\b|\bNone\b|\bnan\b|\binf\b|Fraction\(|\w\.\.(?!\.)")


def numbers(value: Any) -> Iterator[Any]:
    """The numbers of a fact's value."""
    for each in value if isinstance(value, tuple) else (value,):
        if not isinstance(each, str):
            yield each


def check_facts(facts: Facts) -> None:
    """Kinds from the closed list, finite numbers, a working for each, words without a misprint; reads back."""
    assert {fact.kind for fact in facts.values()} <= KINDS
    for fact in facts.values():
        assert fact.working and fact.what
        assert all(isfinite(number) for number in numbers(fact.value))
        for text in (line(fact, facts.units), fact.working):
            assert not MISPRINT.search(text), text
    again = read_facts(facts.dumps(), "facts.json")
    assert list(again) == list(facts)
    assert again.dumps() == facts.dumps()


def check_plan(made: Plan) -> None:
    """All rooms, their findings and their facts."""
    for finding in made.findings:
        assert not MISPRINT.search(str(finding)), str(finding)
    check_facts(facts_of(made))


@given(changes())
@settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
def test_all_rooms_accept_every_build_that_design_accepts(keys: dict[str, Any]) -> None:
    made = plan(change(demo(), keys))
    try:
        assert made.build.pieces
    except InputError as error:
        assert not MISPRINT.search(str(error))
        assume(False)
    check_plan(made)


METRIC = {
    "build.units": "mm", "mattress.size": "EU 160x200 cm", "frame.rail": "45x145", "support.lumber": "45x45",
    "slats.lumber": "22x95", "legs.lumber": "95x95", "centre.lines": 1, "centre.lumber": "45x95",
    "clearance.side": "10 mm", "clearance.end": "10 mm", "slats.gap": "60 mm", "heights.underside": "300 mm",
}  # fmt: skip
DIRECTED: dict[str, dict[str, Any]] = {
    "metric lumber": METRIC,
    "three lines on hangers": {"mattress.size": "king", "centre.lines": 3, "centre.ends": "hanger"},
    "flat lines on runners": {
        "mattress.size": "king", "support.kind": "runners", "support.lumber": "2x4", "centre.lines": 1,
        "centre.kind": "flat",
    },
    "tube legs": {"support.kind": "runners", "support.lumber": "2x4", "legs.kind": "tube"},
    "slats on end grain": {"mattress.size": "queen", "legs.kind": "corner L", "legs.lumber": "2x4",
                           "legs.place": "inside", "legs.setback": None, "centre.lines": 1},
    "no stock listed": {"lumber": {}},
    "stock without prices": {"lumber": {"2x6": {"stock": [{"length": "8 ft"}, {"length": "10 ft"}]}}},
    "a leg too few": {"legs.per_side": 1},
    "no finish": {"finish.kind": "none", "finish.coats": 0},
}  # fmt: skip


@pytest.mark.parametrize("name", DIRECTED)
def test_unusual_builds_go_through_all_rooms(name: str) -> None:
    check_plan(plan(change(demo(), NO_DEMO | {"mattress.size": "twin"} | DIRECTED[name])))


SCREWS: tuple[dict[str, Any], ...] = (
    {"screws.cleat.gauge": "#10", "screws.cleat.length": None, "screws.cleat.pilot": None},
    {"screws.cleat.spacing": "5 in"},
    {"screws.slat.count": 2},
    {"screws.leg.count": 3},
    {"screws.leg": None},
    {"screws.leg": {"kind": "carriage bolt", "diameter": "1/2 in"}},
    {"screws.runner_end.count": 1},
    {"screws.block.gauge": "#12"},
    {"screws.bed_bolt.diameter": "1/2 in"},
    {"screws.corner.count": 2},
)


def made_of(options: Options, like: Plan | None) -> object:
    """The wood, and all that is said of its screws, from which the rest follows; or why there is no such bed."""
    try:
        made = plan(options, like)
        build, drilled = made.build, made.drilling
        wood = [getattr(build, f.name) for f in fields(build) if f.name != "options"]
        return wood, drilled.jobs, drilled.there, drilled.buys, drilled.findings
    except InputError as error:
        return str(error)


@pytest.mark.parametrize("name", ["spare-room-twin", "full-bed-bolts", "queen-corner-posts", "queen-runners-set-in"])
def test_what_other_screws_cannot_touch_is_as_if_worked_out_anew(name: str) -> None:
    before = read(next(OURS.rglob(f"{name}.toml")))
    for keys in SCREWS:
        try:
            options = change(before.options, keys)
        except InputError:
            continue  # refused as it is read
        assert made_of(options, before) == made_of(options, None), keys


@pytest.mark.parametrize("name", ["metric lumber", "no stock listed", "slats on end grain"])
def test_no_page_of_the_sheet_is_empty(name: str) -> None:
    pages = sheet_pages(Book(plan=plan(change(demo(), NO_DEMO | {"mattress.size": "twin"} | DIRECTED[name]))))
    assert len(pages) > 6
    words = [re.sub(r"<svg.*?</svg>", "", dumped(page.data)) for page in pages if isinstance(page, Leaf)]
    assert not [text[:200] for text in words if MISPRINT.search(text)]
