"""All facts of a plan, room by room, in the order of the job."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Literal
from weakref import WeakKeyDictionary

from tutorial_lib.facts import assembly, cutting, design, drilling, finishing, strength
from tutorial_lib.facts.fact import Fact, Facts

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan

Room = Literal["design", "cutting", "drilling", "strength", "finishing", "assembly"]
ROOMS: dict[Room, Callable[[Plan], Iterator[Fact]]] = {
    "design": design.facts,
    "cutting": cutting.facts,
    "drilling": drilling.facts,
    "strength": strength.facts,
    "finishing": finishing.facts,
    "assembly": assembly.facts,
}

_KNOWN: WeakKeyDictionary[Plan, dict[Room, tuple[Fact, ...]]] = WeakKeyDictionary()  # as long as the plan is used


def facts_of(plan: Plan, rooms: Iterable[Room] = tuple(ROOMS)) -> Facts:
    """The facts of a plan; a panel that needs one room's facts asks for that room alone."""
    build, wanted = plan.options.build, tuple(rooms)
    told = (fact for room in ROOMS if room in wanted for fact in _room(plan, room))
    return Facts(build.name, build.title, build.units, told)


def _room(plan: Plan, room: Room) -> tuple[Fact, ...]:
    """One room's facts, gathered once for each plan: a sheet asks several times."""
    known = _KNOWN.setdefault(plan, {})
    if room not in known:
        known[room] = tuple(ROOMS[room](plan))
    return known[room]
