"""Facts are gathered once for a plan, and let go with it."""

from __future__ import annotations

import gc
import weakref
from collections.abc import Iterator

import pytest

from tests.design.builds import demo
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.facts.gather import ROOMS
from tutorial_lib.plan import Plan, plan


def test_a_room_is_asked_once(monkeypatch: pytest.MonkeyPatch) -> None:
    asked, design = [], ROOMS["design"]

    def counted(made: Plan) -> Iterator[Fact]:
        asked.append(made)
        return design(made)

    monkeypatch.setitem(ROOMS, "design", counted)
    one, other = plan(demo()), plan(demo())
    assert dict(facts_of(one, ["design"])) == dict(facts_of(one, ["design"])) == dict(facts_of(other, ["design"]))
    assert asked == [one, other]


def test_a_plan_nobody_uses_is_not_kept() -> None:
    made = plan(demo())
    facts_of(made, ["design"])
    gone = weakref.ref(made)
    del made
    gc.collect()
    assert gone() is None
