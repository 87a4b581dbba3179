"""The words people say for a part: the creator's own first, then the trade's."""

from __future__ import annotations

from collections.abc import Mapping

TRADE: Mapping[str, tuple[str, ...]] = {
    "side_rail": ("side rail", "rail"),
    "end_rail": ("end rail", "head rail", "foot rail"),
    "cleat": ("cleat", "ledger", "ledge"),
    "runner": ("runner", "bearer"),
    "runner_end": ("runner end", "runner", "bearer"),
    "glue_block": ("glue block", "corner block"),
    "plinth_side": ("plinth side", "plinth board", "plinth"),
    "plinth_end": ("plinth end", "plinth board", "plinth"),
    "strap": ("strap", "webbing"),
    "centre_beam": ("centre beam", "center beam", "beam"),
    "centre_runner": ("centre runner", "center runner"),
    "beam_block": ("block",),
    "slat": ("slat",),
    "post": ("corner post", "post"),
    "corner_block": ("corner block", "block"),
    "headboard": ("headboard", "headboard board"),
    "headboard_slat": ("headboard slat", "upright slat"),
    "upright": ("upright", "headboard upright"),
    "batten": ("batten", "headboard batten"),
    "leg": ("leg",),
    "corner_leg": ("corner leg", "leg"),
    "mid_leg": ("middle leg", "mid leg", "leg"),
    "centre_leg": ("centre leg", "center leg", "leg"),
    "flange": ("flange",),
    "bed_bolt": ("bed bolt", "bolt"),
    "barrel_nut": ("barrel nut", "cross dowel", "nut"),
    "bolt": ("bolt", "carriage bolt"),
    "corner": ("corner screw", "corner"),
    "mattress": ("mattress",),
    "frame": ("bed", "frame"),
}


def said_as(names: Mapping[str, tuple[str, ...]], part: str) -> tuple[str, ...]:
    """Words for a part, without doubles; a second length of a part is said like the first."""
    base = part.rstrip("0123456789").removesuffix("_")
    return tuple(dict.fromkeys((*names.get(base, ()), *TRADE.get(base, ()))))
