"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 2.96,
    "apiece": 4.81,
    "axis_other": -3.44,
    "bare_length": 2.12,
    "count_off": -0.69,
    "cue_hit": 2.9,
    "cue_none": -0.08,
    "each_other": -0.16,
    "equal": 4.9,
    "equal_rare": -0.48,
    "far": -10.15,
    "heading": 4.2,
    "hedged": 5.61,
    "name_hit": 2.77,
    "name_near": 4.9,
    "name_other": -6.29,
    "noun_hit": 4.2,
    "noun_missing": 1.61,
    "noun_none": -2.17,
    "noun_other": -1.22,
    "offset_other": 0.09,
    "pair_section": 3.7,
    "part": 9.48,
    "rest": 2.42,
    "row_stock": 2.68,
    "slip": -0.97,
    "spacing_other": -1.23,
    "stock_length_hit": 3.44,
    "stock_noun": 2.28,
    "thing": 2.57,
    "thing_instead": -2.21,
    "total_other": 0.19,
    "unit_said": -2.91,
}
KINDS: dict[str, float] = {
    "bolt_count": -1.47,
    "bolt_length": 1.15,
    "centre_mark": 0.87,
    "clearance": -0.86,
    "coats": -0.37,
    "depth": -0.44,
    "diameter": -0.43,
    "distance": -2.7,
    "dowel_count": 2.81,
    "gap": -1.48,
    "gap_count": -1.85,
    "gap_limit": -0.98,
    "grit": 1.91,
    "height": 4.77,
    "joint_count": -0.06,
    "kerf": 0.02,
    "length": 0.86,
    "mattress_size": -0.79,
    "part_count": 1.68,
    "pieces_per_board": -1.08,
    "screw_count": -0.87,
    "screw_length": -2.89,
    "section": -0.86,
    "spacing": -1.41,
    "stock_count": 1.64,
    "stock_length": 0.63,
    "thickness": -0.04,
    "time": 1.61,
}
NONE: dict[str, float] = {
    "a_number": 2.47,
    "bias": 5.69,
    "foreign_noun": -1.74,
    "foreign_subject": 1.21,
    "left": 1.66,
    "one": 6.4,
    "other": -0.19,
    "slack": 2.93,
    "small": 6.27,
    "supposed": 0.61,
    "unit": -3.57,
}
TURNS: dict[str, float] = {
    "again": -1.86,
    "again_equal": -3.49,
    "clash": -3.96,
    "each_total": 0.8,
    "pair": 3.93,
    "same_group": 2.43,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
