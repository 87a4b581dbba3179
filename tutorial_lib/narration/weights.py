"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "part": 4.0, "rest": 1.0, "cue_hit": 1.3, "cue_none": -0.6, "equal": 2.6, "equal_rare": 0.8, "hedged": 1.5, "slip": -0.6,
    "far": -2.2, "noun_hit": 2.0, "noun_other": -2.5, "thing": 1.8, "thing_instead": -0.8, "stock_noun": 1.2,
    "axis_other": -1.8, "spacing_other": -1.5, "offset_other": -1.2, "bare_length": 0.5, "each_other": -0.8,
    "total_other": -0.8, "unit_said": 0.3, "pair_section": 0.6,
}
KINDS: dict[str, float] = {}
NONE: dict[str, float] = {
    "bias": 3.2, "supposed": 1.4, "other": 1.2, "left": 1.0, "slack": 1.2, "one": 1.0, "small": 0.2, "unit": -0.2,
}
TURNS: dict[str, float] = {
    "again": -1.4, "again_equal": 0.7, "same_group": 0.7, "pair": 2.0, "each_total": 0.8, "clash": -2.5, "next": 0.35,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
