"""The demo adapted, once for all tests; its captions checked."""

from __future__ import annotations

from functools import cache

from tests.design.builds import DEMO, demo
from tutorial_lib.adapting import Adaptation, Comparison, adapt, comparison
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import Report, check, read_captions
from tutorial_lib.plan import plan

CAPTIONS = DEMO.parents[1] / "captions" / "spare-room-twin.vtt"


@cache
def adapted(size: str) -> Adaptation:
    """The demo for another mattress."""
    return adapt(demo(), size)


@cache
def heavy() -> Adaptation:
    """The demo for people its style can't carry without a centre line."""
    return adapt(demo(), None, {"load.person": "300 lb", "slats.lumber": "1x3", "centre.lines": 0})


@cache
def report() -> Report:
    """The demo's captions against the demo."""
    return check(read_captions(CAPTIONS), facts_of(plan(demo())))


@cache
def compared(size: str, captions: bool = True) -> Comparison:
    """The demo and another size, with the captions or without."""
    return comparison(adapted(size), report() if captions else None)
