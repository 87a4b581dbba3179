"""What a search learns from beds that won't do, and what it must not conclude."""

from __future__ import annotations

import pytest

from tests.design.builds import demo
from tutorial_lib.adapting import adapt
from tutorial_lib.adapting.moves import Axis, Choice, Move
from tutorial_lib.adapting.search import Hull, _learn, _within
from tutorial_lib.adapting.soundness import Judged, Soundness, Trouble

RACKING = ("leg", "racking", "sitting")
AXES: tuple[Axis, ...] = ("lines", "line legs", "side legs", "slats", "set-back", "screws")


def move(**numbers: int) -> Move:
    """A move by the numbers of its choices; 0 where none is given."""
    return Move(tuple(Choice(axis, numbers.get(axis.replace(" ", "_"), 0)) for axis in AXES))


def racking(ratio: float) -> Trouble:
    return Trouble(f"racking {ratio}", "leg", RACKING, ratio, "racking")


def learned(*met: tuple[Move, Trouble]) -> dict[object, Hull]:
    known: dict[object, Hull] = {}
    for each, trouble in met:
        _learn(known, each, Judged(2, (trouble,)))
    return known


def shut(known: dict[object, Hull], each: Move) -> bool:
    return any(_within(each, hull) for hull in known.values())


def test_what_two_moves_of_one_figure_differ_in_is_no_matter_to_it() -> None:
    known = learned((move(lines=2), racking(1.01)), (move(screws=1), racking(1.01)))
    assert shut(known, move(lines=2, screws=1)) and shut(known, move(lines=2, screws=1, slats=1))
    assert not shut(known, move(lines=1, screws=1)), "one line was not looked at"
    assert not shut(known, move(lines=2, screws=1, side_legs=1))


@pytest.mark.parametrize(
    ("axis", "one", "other"),
    [
        ("lines", racking(1.01), racking(1.012)),
        ("lines", racking(float("inf")), racking(float("inf"))),
        ("slats", Trouble("they meet", "cleat", rule="screw tip"), Trouble("they meet", "cleat", rule="screw tip")),
    ],
)
def test_of_other_figures_of_tipping_and_of_stops_mixtures_are_looked_at(
    axis: str, one: Trouble, other: Trouble
) -> None:
    known = learned((move(**{axis: 1}), one), (move(screws=1), other))
    assert shut(known, move(**{axis: 1})) and shut(known, move(screws=1))
    assert not shut(known, move(**{axis: 1}, screws=1))


def test_legs_that_can_t_be_added_are_soon_seen_to_be_what_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    judged: list[object] = []
    judge = Soundness.judge
    monkeypatch.setattr(Soundness, "judge", lambda self, plan: judged.append(plan) or judge(self, plan))
    assert adapt(demo(), "queen", {"load.person": "220 lb", "legs.per_side": 2}).troubles
    assert len(judged) <= 14
