"""Plan to Facts: every number of the plan, named once. One module a room states that room's facts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact, Facts
from tutorial_lib.facts.facts_file import read_facts

if TYPE_CHECKING:
    from tutorial_lib.facts.gather import facts_of

__all__ = ["Fact", "Facts", "facts_of", "read_facts"]


def __getattr__(name: str) -> object:
    """Gathers the rooms when they are first asked for: facts that are kept or read need none of them."""
    if name != "facts_of":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from tutorial_lib.facts.gather import facts_of

    return facts_of
