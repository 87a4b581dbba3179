"""Another mattress, other boards, another saw: options that still make a sound bed, and what changes and why."""

from tutorial_lib.adapting.adapt import Adaptation, adapt, compare
from tutorial_lib.adapting.changed import Change
from tutorial_lib.adapting.comparison import Comparison, comparison

__all__ = ["Adaptation", "Comparison", "Change", "adapt", "compare", "comparison"]
