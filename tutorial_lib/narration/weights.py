"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 3.95,
    "apiece": 7.03,
    "axis_other": -4.04,
    "bare_length": 2.38,
    "count_off": -1.52,
    "cue_hit": 3.54,
    "cue_none": 0.06,
    "each_other": -0.1,
    "equal": 4.86,
    "equal_rare": -0.22,
    "far": -11.09,
    "grit_said": 0.03,
    "heading": 6.26,
    "hedged": 6.19,
    "name_hit": 1.81,
    "name_near": 4.79,
    "name_other": -8.25,
    "noun_hit": 5.01,
    "noun_missing": 2.15,
    "noun_none": -1.73,
    "noun_other": -1.28,
    "offset_other": 0.63,
    "pair_section": 3.49,
    "part": 10.17,
    "rest": 2.65,
    "row_stock": 3.67,
    "slip": -1.25,
    "spacing_other": -1.72,
    "stock_length_hit": 5.09,
    "stock_noun": 0.24,
    "thing": 3.12,
    "thing_instead": -1.93,
    "total_other": 0.35,
    "unit_said": -3.59,
}
KINDS: dict[str, float] = {
    "bolt_count": -1.85,
    "bolt_length": 1.25,
    "centre_mark": 0.96,
    "clearance": -0.73,
    "coats": -0.4,
    "depth": -0.6,
    "diameter": -1.13,
    "distance": -3.04,
    "dowel_count": 3.54,
    "gap": -1.54,
    "gap_count": -2.22,
    "gap_limit": -1.02,
    "grit": 1.95,
    "height": 5.68,
    "joint_count": -0.06,
    "kerf": 0.04,
    "length": 0.9,
    "mattress_size": -0.94,
    "part_count": 2.33,
    "pieces_per_board": -1.02,
    "screw_count": -1.02,
    "screw_length": -3.54,
    "section": -1.08,
    "spacing": -1.3,
    "stock_count": 1.54,
    "stock_length": 0.54,
    "thickness": -0.04,
    "time": 1.99,
}
NONE: dict[str, float] = {
    "a_number": 2.45,
    "bias": 6.37,
    "foreign_noun": -1.74,
    "foreign_subject": 1.14,
    "left": 1.77,
    "one": 7.22,
    "other": -0.38,
    "slack": 3.17,
    "small": 6.6,
    "supposed": -0.19,
    "unit": -4.43,
}
TURNS: dict[str, float] = {
    "again": -1.95,
    "again_equal": -4.56,
    "clash": -4.4,
    "each_total": 0.11,
    "pair": 4.5,
    "same_group": 2.39,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
