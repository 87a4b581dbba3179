"""Tools follow from the plan: the saw's own, the screws' bits."""

from __future__ import annotations

from tests.design.builds import changed
from tutorial_lib.plan import plan
from tutorial_lib.publishing.tools import tools


def test_a_hand_saw_is_named_with_its_cut_and_needs_no_ear_protection() -> None:
    hand = tools(plan(changed(saw__kind="hand", saw__kerf="1/16 in")))
    assert "hand saw (its cut 1/16 in wide), saw horses or a bench hook" in hand
    assert not any("ear protection" in tool or "stop block" in tool for tool in hand)
    assert any("stop block (blade 1/8 in wide)" in tool for tool in tools(plan(changed())))
