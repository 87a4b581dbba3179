"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "axis_other": -0.66,
    "bare_length": 0.87,
    "cue_hit": 1.85,
    "cue_none": -0.49,
    "each_other": -0.62,
    "equal": 3.63,
    "equal_rare": -0.42,
    "far": -4.56,
    "heading": 2.22,
    "hedged": 2.81,
    "noun_hit": 2.99,
    "noun_other": -1.19,
    "offset_other": -0.7,
    "pair_section": 1.77,
    "part": 6.11,
    "rest": 2.08,
    "row_stock": 1.15,
    "slip": -0.38,
    "spacing_other": -1.29,
    "stock_noun": 1.75,
    "thing": 1.89,
    "thing_instead": -0.7,
    "total_other": -0.01,
    "unit_said": -1.47,
}
KINDS: dict[str, float] = {
    "bolt_count": -0.69,
    "bolt_length": 0.31,
    "centre_mark": 0.81,
    "clearance": -0.4,
    "coats": -0.15,
    "depth": -0.15,
    "diameter": -0.39,
    "distance": -1.1,
    "dowel_count": 0.99,
    "gap": -0.49,
    "gap_count": -0.49,
    "gap_limit": -0.41,
    "grit": 0.5,
    "height": 1.59,
    "joint_count": -0.05,
    "kerf": -0.01,
    "length": 0.37,
    "mattress_size": -0.26,
    "part_count": 0.48,
    "pieces_per_board": -0.56,
    "screw_count": -0.66,
    "screw_length": -1.47,
    "section": -0.38,
    "spacing": -0.28,
    "stock_count": 1.42,
    "stock_length": 0.46,
    "thickness": -0.02,
    "time": 0.96,
}
NONE: dict[str, float] = {
    "bias": 3.57,
    "left": 1.01,
    "one": 4.09,
    "other": 0.54,
    "slack": 2.2,
    "small": 3.87,
    "supposed": 1.23,
    "unit": -2.26,
}
TURNS: dict[str, float] = {
    "again": -1.25,
    "again_equal": -1.6,
    "clash": -2.46,
    "each_total": 0.64,
    "pair": 2.51,
    "same_group": 2.53,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
