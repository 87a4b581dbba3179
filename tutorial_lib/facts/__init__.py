"""Plan to Facts: every number of the plan, named once. One module a room states that room's facts."""

from tutorial_lib.facts.fact import Fact, Facts
from tutorial_lib.facts.facts_file import read_facts
from tutorial_lib.facts.gather import facts_of

__all__ = ["Fact", "Facts", "facts_of", "read_facts"]
