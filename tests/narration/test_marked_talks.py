"""Talks that nothing was learned from: every slip but one is called wrong or asked about, nothing else is called wrong.

Three are of one writer, on beds of the gallery with a headboard, boxes in a metric plan, and a plinth. Six are by other
voices: one before a class, and, with build files beside them, one who talks fast and rounds, one abroad and two of a
family in millimetres, one in sixteenths, one in automatic captions that mishear. Among the slips are boards' names,
gauges, prices and waits. What they are made of is in ``tests.narration.marked``.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.narration.marked import SLIP, Marked, marked, names, talk_of
from tests.narration.talks import DATA
from tutorial_lib.design.build_file import read_build


@pytest.fixture(scope="module")
def found() -> dict[str, Marked]:
    """Every talk against its bed, once."""
    return {name: marked(name) for name in names()}


def test_each_talk_has_forty_sentences_and_some_slips() -> None:
    for name in names():
        text = talk_of(name).read_text(encoding="utf-8")
        assert len(text.splitlines()) >= 38
        assert 6 <= len(SLIP.findall(text)) <= 7


def test_hardly_a_slip_is_missed_and_most_are_sure(found: dict[str, Marked]) -> None:
    assert {name: got.missed for name, got in found.items() if got.missed} == MISSED
    assert {name: len(got.sure) for name, got in found.items()} == SURE


MISSED = {"king-two-lines": ("headboard.lumber",)}  # "grab a one by eight if you've lost yours": a condition
SURE = {  # of six or seven
    "first-shavings-twin-xl": 4,
    "hobnail-bench-queen-posts": 4,
    "king-two-lines": 5,
    "molenwiek-140-with-a-beam": 6,
    "queen-runners-set-in": 4,
    "rapid-lane-full-on-runners": 3,
    "twin-headboard": 5,
    "two-cousins-guest-90": 5,
    "uk-king-over-boxes": 6,
}


def test_nothing_right_is_called_wrong(found: dict[str, Marked]) -> None:
    assert [(name, i.quote) for name, got in found.items() for i in got.alarms] == []


def test_little_else_is_asked(found: dict[str, Marked]) -> None:
    idle = sum(len(got.idle) for got in found.values())
    claims = sum(i.verdict not in ("not_a_claim", "not_in_plan") for got in found.values() for i in got.report.items)
    assert idle <= 0.08 * claims


@pytest.mark.parametrize("path", sorted(DATA.glob("talks_*/*.toml")), ids=lambda path: path.stem)
def test_every_build_file_of_a_talk_is_of_todays_form(path: Path) -> None:
    assert read_build(path.read_text(encoding="utf-8"), path.name).build.name
