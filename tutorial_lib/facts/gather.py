"""All facts of a plan, room by room, in the order of the job."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from importlib import import_module
from typing import TYPE_CHECKING, Literal

from tutorial_lib.facts.fact import Fact, Facts

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan

Room = Literal["design", "cutting", "drilling", "strength", "finishing", "assembly"]
ROOMS: tuple[Room, ...] = ("design", "cutting", "drilling", "strength", "finishing", "assembly")


def facts_of(plan: Plan, rooms: Iterable[Room] = ROOMS) -> Facts:
    """The facts of a plan; a panel that needs one room's facts asks for that room alone."""
    build = plan.options.build
    return Facts(build.name, build.title, build.units, _all(plan, tuple(rooms)))


def _all(plan: Plan, rooms: tuple[Room, ...]) -> Iterator[Fact]:
    for room in ROOMS:
        if room in rooms:
            yield from import_module(f"tutorial_lib.facts.{room}").facts(plan)
