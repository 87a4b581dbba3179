"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 2.16,
    "apiece": 3.17,
    "axis_other": -2.86,
    "bare_length": 1.29,
    "count_off": -1.03,
    "cue_hit": 2.13,
    "cue_none": -0.38,
    "each_other": -0.42,
    "equal": 4.59,
    "equal_rare": 0.06,
    "far": -5.73,
    "grit_said": 1.19,
    "heading": 4.05,
    "hedged": 4.29,
    "name_hit": 1.15,
    "name_near": 2.19,
    "name_other": -5.1,
    "noun_hit": 3.51,
    "noun_missing": 1.17,
    "noun_none": -0.91,
    "noun_other": -2.56,
    "offset_other": -0.52,
    "pair_section": 0.84,
    "part": 6.6,
    "rest": 1.6,
    "row_stock": 1.98,
    "slip": 0.6,
    "spacing_other": -1.64,
    "stock_length_hit": 3.62,
    "thing": 1.33,
    "thing_instead": -2.59,
    "told": 1.47,
    "total_other": -0.13,
    "unit_said": -1.45,
}
KINDS: dict[str, float] = {
    "bolt_count": -0.62,
    "bolt_length": 0.69,
    "centre_mark": 0.19,
    "clearance": -0.21,
    "coats": -0.08,
    "depth": -0.22,
    "diameter": -0.47,
    "distance": -1.33,
    "dowel_count": 1.57,
    "gap": -0.73,
    "gap_count": -0.84,
    "gap_limit": -0.31,
    "grit": 0.19,
    "height": 2.54,
    "kerf": -0.02,
    "length": 0.54,
    "mattress_size": -0.6,
    "part_count": 1.26,
    "pieces_per_board": -0.44,
    "screw_count": -0.78,
    "screw_length": -1.74,
    "section": -0.39,
    "spacing": -0.03,
    "stock_count": 0.49,
    "stock_length": 0.16,
    "time": 0.89,
}
NONE: dict[str, float] = {
    "a_number": 0.67,
    "bias": 4.52,
    "foreign_noun": -0.41,
    "foreign_subject": 1.78,
    "left": 1.26,
    "one": 4.69,
    "other": 0.17,
    "slack": 2.12,
    "small": 4.75,
    "supposed": 0.28,
    "unit": -2.1,
}
TURNS: dict[str, float] = {
    "again": -1.55,
    "again_equal": -2.11,
    "clash": -2.89,
    "each_total": 0.81,
    "pair": 2.97,
    "same_group": 1.89,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
