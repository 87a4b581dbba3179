"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 2.8,
    "apiece": 2.55,
    "axis_other": -2.08,
    "bare_length": 1.73,
    "count_off": -0.37,
    "cue_hit": 1.95,
    "cue_none": -0.63,
    "each_other": -0.42,
    "equal": 4.31,
    "equal_rare": -0.4,
    "far": -7.47,
    "heading": 2.3,
    "hedged": 4.24,
    "name_hit": 2.55,
    "name_near": 2.76,
    "name_other": -3.31,
    "noun_hit": 3.64,
    "noun_missing": 0.88,
    "noun_none": -1.03,
    "noun_other": -0.86,
    "offset_other": -0.18,
    "pair_section": 2.68,
    "part": 7.77,
    "rest": 2.68,
    "row_stock": 1.9,
    "slip": -0.52,
    "spacing_other": -0.82,
    "stock_length_hit": 1.95,
    "stock_noun": 1.7,
    "thing": 2.32,
    "thing_instead": -1.52,
    "total_other": 0.17,
    "unit_said": -1.59,
}
KINDS: dict[str, float] = {
    "bolt_count": -1.32,
    "bolt_length": 0.71,
    "centre_mark": 0.84,
    "clearance": -0.85,
    "coats": -0.23,
    "depth": -0.3,
    "diameter": -0.73,
    "distance": -1.99,
    "dowel_count": 2.04,
    "gap": -0.81,
    "gap_count": -0.77,
    "gap_limit": -0.68,
    "grit": 1.11,
    "height": 3.39,
    "joint_count": -0.06,
    "kerf": 0.02,
    "length": 0.64,
    "mattress_size": -0.5,
    "part_count": 0.93,
    "pieces_per_board": -0.9,
    "screw_count": -0.91,
    "screw_length": -2.18,
    "section": -0.51,
    "spacing": -0.58,
    "stock_count": 1.71,
    "stock_length": 0.67,
    "thickness": -0.03,
    "time": 0.97,
}
NONE: dict[str, float] = {
    "a_number": 1.57,
    "bias": 4.51,
    "foreign_noun": -0.54,
    "foreign_subject": 0.84,
    "left": 0.96,
    "one": 5.03,
    "other": 0.02,
    "slack": 2.64,
    "small": 5.19,
    "supposed": 0.8,
    "unit": -2.16,
}
TURNS: dict[str, float] = {
    "again": -1.47,
    "again_equal": -2.52,
    "clash": -3.05,
    "each_total": 0.5,
    "pair": 3.07,
    "same_group": 2.4,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
