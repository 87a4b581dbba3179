"""All facts of a plan, room by room, in the order of the job."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Literal

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


def facts_of(plan: Plan, rooms: Iterable[Room] = tuple(ROOMS)) -> Facts:
    """The facts of a plan; a panel that needs one room's facts asks for that room alone."""
    build, wanted = plan.options.build, tuple(rooms)
    return Facts(
        build.name, build.title, build.units, (fact for room in ROOMS if room in wanted for fact in ROOMS[room](plan))
    )
