"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 2.08,
    "apiece": 3.24,
    "axis_other": -2.78,
    "bare_length": 1.34,
    "count_off": -1.05,
    "cue_hit": 2.01,
    "cue_none": -0.49,
    "each_other": -0.49,
    "equal": 4.61,
    "equal_rare": 0.06,
    "far": -5.74,
    "grit_said": 1.2,
    "heading": 4.08,
    "hedged": 4.41,
    "name_hit": 1.15,
    "name_near": 2.21,
    "name_other": -5.06,
    "noun_hit": 3.55,
    "noun_missing": 1.3,
    "noun_none": -0.75,
    "noun_other": -2.54,
    "offset_other": -0.43,
    "pair_section": 0.87,
    "part": 6.68,
    "rest": 1.64,
    "row_stock": 2.34,
    "slip": 0.6,
    "spacing_other": -1.87,
    "stock_length_hit": 3.53,
    "stock_noun": 0.07,
    "thing": 1.79,
    "thing_instead": -1.05,
    "told": 1.5,
    "total_other": -0.2,
    "unit_said": -1.53,
}
KINDS: dict[str, float] = {
    "bolt_count": -0.52,
    "bolt_length": 0.71,
    "centre_mark": 0.17,
    "clearance": -0.18,
    "coats": -0.09,
    "depth": -0.22,
    "diameter": -0.51,
    "distance": -1.36,
    "dowel_count": 1.59,
    "gap": -0.68,
    "gap_count": -0.87,
    "gap_limit": -0.29,
    "grit": 0.21,
    "height": 2.51,
    "joint_count": -0.01,
    "kerf": 0.01,
    "length": 0.53,
    "mattress_size": -0.47,
    "part_count": 1.15,
    "pieces_per_board": -0.4,
    "screw_count": -0.76,
    "screw_length": -1.73,
    "section": -0.64,
    "spacing": -0.11,
    "stock_count": 0.54,
    "stock_length": 0.18,
    "thickness": -0.02,
    "time": 0.93,
}
NONE: dict[str, float] = {
    "a_number": 0.66,
    "bias": 4.61,
    "foreign_noun": -0.49,
    "foreign_subject": 1.58,
    "left": 1.29,
    "one": 4.66,
    "other": 0.12,
    "slack": 1.99,
    "small": 4.93,
    "supposed": 0.39,
    "unit": -2.2,
}
TURNS: dict[str, float] = {
    "again": -1.58,
    "again_equal": -2.11,
    "clash": -2.91,
    "each_total": 0.8,
    "pair": 2.99,
    "same_group": 1.91,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
