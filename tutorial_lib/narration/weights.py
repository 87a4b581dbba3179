"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 1.65,
    "apiece": 2.8,
    "axis_other": -2.7,
    "bare_length": 1.18,
    "count_off": -1.15,
    "counting": -3.62,
    "cue_hit": 1.76,
    "cue_none": -0.7,
    "each_other": -0.74,
    "equal": 4.31,
    "equal_rare": 0.22,
    "far": -6.1,
    "grit_said": 1.12,
    "heading": 3.89,
    "hedged": 4.15,
    "name_hit": 1.41,
    "name_near": 3.61,
    "name_other": -4.79,
    "noun_hit": 3.01,
    "noun_missing": 1.09,
    "noun_none": -0.93,
    "noun_other": -2.58,
    "offset_other": -2.05,
    "pair_section": 0.76,
    "part": 6.75,
    "rest": 1.04,
    "row_stock": 1.88,
    "slip": 0.42,
    "spacing_other": -1.97,
    "stock_length_hit": 3.16,
    "stock_noun": -0.05,
    "thing": 1.87,
    "thing_instead": -1.8,
    "told": 1.93,
    "total_other": -0.43,
    "unit_said": -1.57,
}
KINDS: dict[str, float] = {
    "bolt_count": -0.63,
    "bolt_length": 0.5,
    "centre_mark": 0.13,
    "clearance": -0.44,
    "coats": -0.09,
    "depth": -0.19,
    "diameter": -0.33,
    "distance": -0.96,
    "dowel_count": 1.79,
    "gap": -0.99,
    "gap_count": -0.99,
    "gap_limit": -0.49,
    "grit": 0.13,
    "height": 2.32,
    "kerf": -0.02,
    "length": 0.62,
    "mattress_size": -0.61,
    "part_count": 1.15,
    "pieces_per_board": -0.29,
    "screw_count": -1.01,
    "screw_length": -1.44,
    "section": -0.27,
    "spacing": 0.04,
    "stock_count": 0.45,
    "stock_length": 0.16,
    "thickness": 0.07,
    "time": 1.01,
}
NONE: dict[str, float] = {
    "a_number": 0.7,
    "bias": 4.01,
    "foreign_noun": -0.13,
    "foreign_subject": 1.28,
    "left": 1.24,
    "one": 4.49,
    "other": -0.28,
    "slack": 2.08,
    "small": 4.34,
    "supposed": 0.8,
    "unit": -2.2,
}
TURNS: dict[str, float] = {
    "again": -1.67,
    "again_equal": -1.9,
    "clash": -2.88,
    "each_total": 1.46,
    "pair": 2.7,
    "restated": 6.0,
    "same_group": 1.94,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
