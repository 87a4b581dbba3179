"""Moves: nothing first, then by how much they change; sensible only."""

from __future__ import annotations

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.adapting import adapt
from tutorial_lib.adapting.moves import ALL, beam_lumber, eased_by, moves
from tutorial_lib.adapting.search import search
from tutorial_lib.adapting.soundness import Judged, Soundness, Trouble
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import plan


def test_nothing_is_tried_first_and_weights_rise() -> None:
    found = list(moves(demo()))
    assert not found[0].changes
    weights = [move.weight for move in found]
    assert weights == sorted(weights)


def test_a_centre_line_before_thicker_slats_before_other_screws() -> None:
    single = [next(iter(m.changes)) for m in moves(demo()) if sum(c.number > 0 for c in m.choices) == 1]
    assert single.index("centre.lines") < single.index("slats.lumber") < single.index("screws.cleat.gauge")


def test_legs_left_out_come_back_before_more_are_added() -> None:
    found = [m.changes for m in moves(changed(legs__omit=["L2"])) if {"legs.omit"} <= set(m.changes)]
    assert found[0] == {"legs.omit": None}


def test_no_line_legs_without_a_line() -> None:
    assert not [m for m in moves(demo()) if "centre.legs" in m.changes and "centre.lines" not in m.changes]


def test_what_lines_are_made_of() -> None:
    assert beam_lumber(demo()) == "2x4"
    assert beam_lumber(changed(frame__rail="45x145")) == "45x95"
    assert beam_lumber(changed(support__kind="runners", support__lumber="2x6", support__end_play=None)) == "2x6"


def test_screws_that_meet_are_cured_by_other_screws_or_slats_alone() -> None:
    assert eased_by("fasteners meet", "cleat") == ("slats", "screws")
    assert "set-back" in eased_by("bending", "side_rail") and "slats" not in eased_by("bending", "side_rail")
    assert eased_by("some other rule", "") == ALL


def test_a_long_bed_whose_stated_screws_meet_needs_few_tries(monkeypatch: pytest.MonkeyPatch) -> None:
    tried = []
    judge = Soundness.judge
    monkeypatch.setattr(Soundness, "judge", lambda self, plan: tried.append(plan) or judge(self, plan))
    assert not adapt(demo(), "72x94 in").troubles
    assert len(tried) <= 10


@pytest.mark.parametrize(("person", "tries"), [("300 lb", 7), ("301 lb", 5), ("1000 lb", 5)])
def test_who_weighs_more_than_any_bed_is_rated_for_is_not_searched_for_long(
    person: str, tries: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    judged: list[None] = []

    def bad(self: Soundness, plan: object) -> Judged:
        judged.append(None)
        return Judged(0, (Trouble("too much", "slat"),))

    monkeypatch.setattr(Soundness, "judge", bad)
    search(Soundness(plan(demo())), change(demo(), {"load.person": person}), frozenset(["load.person"]), tries=7)
    assert len(judged) == tries
