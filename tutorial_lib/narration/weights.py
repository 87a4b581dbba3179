"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 2.23,
    "apiece": 3.26,
    "axis_other": -2.94,
    "bare_length": 1.33,
    "count_off": -1.18,
    "counting": -3.57,
    "cue_hit": 2.13,
    "cue_none": -0.35,
    "each_other": -0.39,
    "equal": 4.33,
    "equal_rare": 0.25,
    "far": -5.78,
    "grit_said": 1.2,
    "heading": 4.09,
    "hedged": 4.3,
    "name_hit": 1.24,
    "name_near": 2.26,
    "name_other": -4.93,
    "noun_hit": 3.12,
    "noun_missing": 1.22,
    "noun_none": -1.14,
    "noun_other": -2.57,
    "offset_other": -0.56,
    "pair_section": 0.84,
    "part": 6.7,
    "rest": 1.56,
    "row_stock": 2.02,
    "slip": 0.57,
    "spacing_other": -1.66,
    "stock_length_hit": 3.59,
    "stock_noun": -0.33,
    "thing": 1.52,
    "thing_instead": -2.59,
    "told": 1.48,
    "total_other": -0.28,
    "unit_said": -1.55,
}
KINDS: dict[str, float] = {
    "bolt_count": -0.67,
    "bolt_length": 0.67,
    "centre_mark": 0.2,
    "clearance": -0.55,
    "coats": -0.09,
    "depth": -0.21,
    "diameter": -0.25,
    "distance": -1.32,
    "dowel_count": 1.59,
    "gap": -0.76,
    "gap_count": -0.89,
    "gap_limit": -0.31,
    "grit": 0.19,
    "height": 2.54,
    "kerf": -0.03,
    "length": 0.55,
    "mattress_size": -0.59,
    "part_count": 1.31,
    "pieces_per_board": -0.41,
    "screw_count": -0.86,
    "screw_length": -1.68,
    "section": -0.31,
    "spacing": -0.01,
    "stock_count": 0.43,
    "stock_length": 0.2,
    "time": 0.93,
}
NONE: dict[str, float] = {
    "a_number": 0.67,
    "bias": 4.54,
    "foreign_noun": -0.52,
    "foreign_subject": 1.77,
    "left": 1.12,
    "one": 4.5,
    "other": 0.13,
    "slack": 2.16,
    "small": 4.51,
    "supposed": 0.44,
    "unit": -2.11,
}
TURNS: dict[str, float] = {
    "again": -1.56,
    "again_equal": -2.11,
    "clash": -2.65,
    "each_total": 0.87,
    "pair": 2.87,
    "same_group": 1.96,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
