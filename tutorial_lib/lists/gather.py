"""All lists of a plan by name."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from tutorial_lib.errors import InputError
from tutorial_lib.lists import buying, cutting, drilling, numbers, work
from tutorial_lib.lists.table import List

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan

_LISTS: dict[str, Callable[[Plan], List]] = {
    "facts": numbers.facts,
    "parts": numbers.parts,
    "shopping": buying.shopping_list,
    "cuts": cutting.cuts,
    "stops": cutting.stops,
    "holes": drilling.holes,
    "fasteners": drilling.fasteners,
    "marks": work.marks,
    "steps": work.steps,
    "loads": work.leg_loads,
}
NAMES = tuple(_LISTS)


def list_of(plan: Plan, name: str) -> List:
    """One list of a plan.

    Raises:
        InputError: no list has this name.
    """
    if name not in _LISTS:
        raise InputError(f'there is no list "{name}"; there are {", ".join(NAMES)}.')
    return _LISTS[name](plan)


def lists_of(plan: Plan) -> tuple[List, ...]:
    """Every list of a plan, in the order of the job."""
    return tuple(make(plan) for make in _LISTS.values())
