"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 1.66,
    "apiece": 1.11,
    "axis_other": -2.58,
    "bare_length": 0.98,
    "count_off": 0.22,
    "counting": -3.65,
    "cue_hit": 1.4,
    "cue_none": -1.11,
    "each_other": -0.59,
    "equal": 4.97,
    "equal_rare": -0.3,
    "far": -6.01,
    "footer": 3.4,
    "grit_said": 1.09,
    "heading": 3.76,
    "hedged": 3.67,
    "name_hit": 1.42,
    "name_near": 3.6,
    "name_other": -4.75,
    "noun_hit": 1.85,
    "noun_missing": 0.26,
    "noun_none": -1.81,
    "noun_other": -2.69,
    "offset_other": -2.58,
    "pair_section": 0.83,
    "part": 6.63,
    "rest": 0.88,
    "row_stock": 2.23,
    "slip": 0.36,
    "spacing_other": -1.56,
    "stock_length_hit": 2.95,
    "stock_noun": 0.14,
    "thing": 1.72,
    "thing_instead": -2.2,
    "told": 2.35,
    "total_other": -0.64,
    "unit_said": -1.22,
}
KINDS: dict[str, float] = {
    "bolt_count": -0.64,
    "bolt_length": 0.41,
    "centre_mark": 0.17,
    "clearance": -0.47,
    "coats": -0.11,
    "depth": -0.15,
    "diameter": -0.35,
    "distance": -1.12,
    "dowel_count": 1.62,
    "gap": -0.99,
    "gap_count": -1.34,
    "gap_limit": -0.49,
    "grit": 0.13,
    "height": 2.28,
    "joint_count": -0.01,
    "kerf": -0.06,
    "length": 0.93,
    "mattress_size": -0.72,
    "offcut": 0.01,
    "part_count": 0.92,
    "pieces_per_board": -0.38,
    "screw_count": -0.83,
    "screw_length": -1.22,
    "section": -0.09,
    "spacing": 0.55,
    "stock_count": 0.38,
    "stock_length": 0.03,
    "thickness": 0.09,
    "time": 1.12,
}
NONE: dict[str, float] = {
    "a_number": 0.69,
    "bias": 3.73,
    "foreign_noun": -0.31,
    "foreign_subject": 1.65,
    "left": 1.27,
    "one": 4.55,
    "other": -0.1,
    "slack": 2.26,
    "small": 4.09,
    "supposed": 0.86,
    "unit": -2.49,
}
TURNS: dict[str, float] = {
    "again": -1.94,
    "again_equal": -1.34,
    "clash": -2.62,
    "each_total": 1.12,
    "pair": 2.73,
    "recalled": 4.36,
    "restated": 6.06,
    "same_group": 2.08,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
