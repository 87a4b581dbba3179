"""Placed pieces gathered into parts that are cut alike, and the refusal of pieces that share space."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from tutorial_lib.design.model import Part, Piece, Section
from tutorial_lib.design.options import Options
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer

NAMES = {
    "post": "corner post", "corner_block": "corner block", "batten": "batten", "upright": "upright",
    "headboard": "headboard board", "headboard_slat": "headboard slat",
    "side_rail": "side rail", "end_rail": "end rail", "cleat": "cleat", "runner": "runner", "slat": "slat",
    "centre_beam": "centre beam", "centre_runner": "centre runner", "beam_block": "beam block", "leg": "leg",
    "corner_leg": "corner leg", "mid_leg": "middle leg", "centre_leg": "centre leg", "flange": "flange",
    "glue_block": "glue block",
    "plinth_side": "plinth side", "plinth_end": "plinth end",
}  # fmt: skip
TOLD = 6  # pairs of pieces in one place that a message names
MADE_UP = ("doubled", "corner L")  # kinds of legs of two boards
LEG_KEYS = ("leg", "corner_leg", "mid_leg", "centre_leg")


def names_of(options: Options) -> Mapping[str, str]:
    """What the parts are called in this bed."""
    halves = {"slat": "half slat"} if options.slats.halves else {}
    rails = {"headboard": "headboard rail"} if options.headboard.kind == "slats" else {}
    base = {"plinth_side": "base side", "plinth_end": "base end"} if options.plinth.carries else {}
    return NAMES | halves | rails | base | _leg_boards(options)


def _leg_boards(options: Options) -> dict[str, str]:
    """Legs that are made up of boards: what is cut is a board, several of them are a leg."""
    sides, lines = options.legs.kind in MADE_UP, options.line_leg_kind in MADE_UP
    boards = ("corner_leg", "mid_leg") * sides + ("centre_leg",) * lines
    if sides and (lines or not options.centre.lines):
        boards += ("leg",)
    return {key: f"{NAMES[key]} board" for key in boards}


def group(
    pieces: list[Piece], sections: Mapping[str, Section], units: str, names: Mapping[str, str] = NAMES
) -> tuple[Part, ...]:
    """Pieces cut alike, in the order of the job; a second length of a part gets its own key, and all tell theirs."""
    groups: dict[tuple[str, Fraction], list[Piece]] = {}
    for key in NAMES:
        for piece in pieces:
            if piece.part == key:
                groups.setdefault((key, piece.length), []).append(piece)
    parts, seen = [], dict[str, int]()
    lengths = Counter(key for key, _ in groups)
    for (key, length), alike in groups.items():
        seen[key] = seen.get(key, 0) + 1
        own = key if seen[key] == 1 else f"{key}_{seen[key]}"
        size = "" if lengths[key] == 1 else f" ({writer(units).length(length)})"
        name = f"{names[key]}{size}", f"{names[key]}s{size}"
        if key == "post" and len({piece.length for piece in pieces if piece.part == key}) > 1:
            name = _post_names(alike, pieces)
        members = tuple(replace(p, part=own, use=key) for p in alike)
        parts.append(
            Part(
                key=own,
                name=name[0],
                several=name[1],
                section=sections[key],
                length=length,
                pieces=members,
                stands=_stands(members[0]),
                use=key,
            )
        )
    return tuple(parts)


def _post_names(alike: list[Piece], pieces: list[Piece]) -> tuple[str, str]:
    """Of one and of several corner posts of one length, where those at the head are longer than those at the foot."""
    foot = max(piece.box.lo[0] for piece in pieces if piece.part == "post")
    end = "foot" if alike[0].box.lo[0] == foot else "head"
    return f"{end} post", f"{end} posts"


def _stands(piece: Piece) -> Literal["on edge", "flat", "upright"]:
    if piece.axis == 2:
        return "upright"
    across = piece.box.size[1 - piece.axis]
    return "on edge" if piece.box.size[2] > across else "flat"


def refuse_overlaps(pieces: list[Piece]) -> None:
    """Two pieces can't share space; the first six pairs that would are named at once."""
    faults = []
    ordered = sorted(pieces, key=lambda piece: piece.box.lo[0])
    for i, a in enumerate(ordered):
        for b in ordered[i + 1 :]:
            if b.box.lo[0] >= a.box.hi[0]:
                break
            if a.box.overlaps(b.box):
                faults.append(
                    Fault(
                        f"{a.label} and {b.label}",
                        "would stand in the same place; move one, change its "
                        "set-back or choose another kind of leg or line.",
                    )
                )
    if faults:
        raise DesignError(faults[:TOLD])
