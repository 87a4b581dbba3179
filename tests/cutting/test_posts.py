"""Posts: what they are sold as, and boards in their place where a second long one holds only short pieces."""

from __future__ import annotations

from functools import cache

import pytest

from tests.design.builds import changed
from tutorial_lib.findings import Finding
from tutorial_lib.plan import Plan
from tutorial_lib.remedies import tried


@cache
def four_a_side(price: str) -> Plan:
    """Eight legs: two posts of 8 ft, the second for two of them; boards of 2x4 at a price."""
    board = {"length": "8 ft", "price": price} if price else {"length": "8 ft"}
    return Plan(changed(legs__per_side=4, lumber__2x4={"stock": [board]}))


def long_board(plan: Plan) -> Finding:
    (finding,) = [f for f in plan.cutting.findings if f.rule == "long board"]
    return finding


@pytest.mark.parametrize(("price", "told"), [("4.20", True), ("14.20", False), ("", False)])
def test_boards_in_place_of_posts_are_told_where_they_cost_less(price: str, told: bool) -> None:
    plan = four_a_side(price)
    found = list(tried(plan, long_board(plan)))
    assert [r.changes for r in found] == [(("legs.kind", "doubled"), ("legs.lumber", "2x4"))] * told
    if told:
        assert found[0].outcome.startswith("all lumber $85.20, two people of 220 lb each lying")
        assert plan.cutting.cost > 8520


def test_a_post_is_warned_of_as_green_or_treated() -> None:
    (finding,) = [f for f in four_a_side("4.20").cutting.findings if f.rule == "green or treated post"]
    assert finding.severity == "note" and "4x4" in finding.what and "dry, untreated 4x4" in finding.remedy
    boards = Plan(changed(legs__kind="doubled", legs__lumber="2x4"))
    assert not [f for f in boards.cutting.findings if f.rule == "green or treated post"]
