"""How late each kind of piece comes into the frame."""

RANKS = {
    "post": 0,
    "corner_block": 1,
    "batten": 1,
    "headboard": 2,
    "headboard_slat": 3,
    "upright": 3,
    "side_rail": 0,
    "end_rail": 0,
    "cleat": 1,
    "runner": 1,
    "beam_block": 2,
    "centre_beam": 3,
    "centre_runner": 3,
    "leg": 4,
    "corner_leg": 4,
    "mid_leg": 4,
    "centre_leg": 4,
    "flange": 4,
    "glue_block": 4,
    "plinth_side": 5,
    "plinth_end": 5,
    "slat": 6,
}


def rank(use: str) -> int:
    """How late a piece comes, by what it is in the bed: rails first, slats last."""
    return RANKS.get(use, 3)
