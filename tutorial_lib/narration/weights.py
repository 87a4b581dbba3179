"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on development talks by maximum likelihood with a pull toward the round figures they started from.
"""

from __future__ import annotations

WEIGHTS: dict[str, float] = {
    "anaphor": 2.15,
    "apiece": 3.2,
    "axis_other": -2.81,
    "bare_length": 1.35,
    "count_off": -0.98,
    "cue_hit": 2.07,
    "cue_none": -0.42,
    "each_other": -0.41,
    "equal": 4.63,
    "equal_rare": 0.05,
    "far": -5.75,
    "grit_said": 1.19,
    "heading": 4.04,
    "hedged": 4.35,
    "name_hit": 1.11,
    "name_near": 2.17,
    "name_other": -5.08,
    "noun_hit": 3.51,
    "noun_missing": 1.19,
    "noun_none": -0.91,
    "noun_other": -2.55,
    "offset_other": -0.5,
    "pair_section": 0.86,
    "part": 6.7,
    "rest": 1.68,
    "row_stock": 2.34,
    "slip": 0.62,
    "spacing_other": -1.62,
    "stock_length_hit": 3.57,
    "stock_noun": 0.03,
    "thing": 1.34,
    "thing_instead": -2.57,
    "told": 1.51,
    "total_other": -0.19,
    "unit_said": -1.45,
}
KINDS: dict[str, float] = {
    "bolt_count": -0.59,
    "bolt_length": 0.69,
    "centre_mark": 0.18,
    "clearance": -0.21,
    "coats": -0.08,
    "depth": -0.22,
    "diameter": -0.48,
    "distance": -1.35,
    "dowel_count": 1.52,
    "gap": -0.73,
    "gap_count": -0.85,
    "gap_limit": -0.3,
    "grit": 0.19,
    "height": 2.55,
    "kerf": -0.01,
    "length": 0.5,
    "mattress_size": -0.51,
    "part_count": 1.25,
    "pieces_per_board": -0.46,
    "screw_count": -0.77,
    "screw_length": -1.73,
    "section": -0.5,
    "spacing": -0.03,
    "stock_count": 0.55,
    "stock_length": 0.18,
    "thickness": -0.01,
    "time": 0.9,
}
NONE: dict[str, float] = {
    "a_number": 0.67,
    "bias": 4.57,
    "foreign_noun": -0.46,
    "foreign_subject": 1.73,
    "left": 1.3,
    "one": 4.73,
    "other": 0.14,
    "slack": 2.08,
    "small": 4.82,
    "supposed": 0.29,
    "unit": -2.13,
}
TURNS: dict[str, float] = {
    "again": -1.58,
    "again_equal": -2.09,
    "clash": -3.0,
    "each_total": 0.74,
    "pair": 2.99,
    "same_group": 1.94,
}


def weight(name: str) -> float:
    """The weight of a feature; kinds without one count nothing."""
    if name.startswith("kind_"):
        return KINDS.get(name[5:], 0.0)
    return WEIGHTS.get(name, 0.0)
