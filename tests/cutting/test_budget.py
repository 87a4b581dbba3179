"""The time that the steps of a search share."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tutorial_lib.cutting import budget, planner
from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.budget import LEAST, Budget
from tutorial_lib.cutting.planner import plan_cuts


def test_a_share_is_of_what_is_left(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [100.0]
    monkeypatch.setattr(budget.time, "process_time", lambda: now[0])
    mine = Budget(8.0)
    assert mine.share(0.5) == 4.0 and not mine.late
    now[0] = 106.0
    assert mine.share(0.5) == 1.0 and mine.share() == 2.0
    now[0] = 108.5
    assert mine.late and mine.share() == LEAST


def test_sections_share_the_time_of_a_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    now, given = [0.0], []
    real = planner._section

    def slow(*arguments: Any) -> Any:
        given.append(arguments[-1])
        now[0] += 3.7  # as long as that takes
        return real(*arguments)

    monkeypatch.setattr(planner, "_section", slow)
    monkeypatch.setattr(budget.time, "process_time", lambda: now[0])
    sections = ("2x2", "2x4", "2x6")
    pieces = [PieceDemand("piece", Fraction(40), 2, section=name) for name in sections]
    boards = [Stock("8 ft", Fraction(96), 300, section=name) for name in sections]
    plan = plan_cuts(pieces, boards, Fraction(1, 8), Fraction(0), seconds=6.0)
    assert given == pytest.approx([6.0, 2.4, 0.6]) and plan.proven  # in tenths, and never less than one


@pytest.mark.parametrize(("seconds", "given"), [(8.0, 1.0), (0.4, 0.4)])
def test_lists_of_one_cost_are_told_apart_within_a_second(
    monkeypatch: pytest.MonkeyPatch, seconds: float, given: float
) -> None:
    told, real = [], planner._settled

    def settled(*arguments: Any) -> Any:
        told.append(arguments[-1])
        return real(*arguments)

    monkeypatch.setattr(planner, "_quickly", lambda *_: None)
    monkeypatch.setattr(planner, "_settled", settled)
    pieces, boards = (PieceDemand("piece", Fraction(40), 3),), (Stock("8 ft", Fraction(96), 300),)
    planner._section.__wrapped__("", pieces, boards, Fraction(1, 8), Fraction(0), ("layouts",), seconds)
    assert told == [given]
