"""A headboard bolted to the head rail of a bed whose rails meet: it can be added to a bed that stands already.

Two uprights stand on the floor behind the head rail, the panel on their fronts above it. The bolts go through
uprights and rail where no slat is in the nuts' way; the drilling step keeps them clear of every screw that is there.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor

from tutorial_lib.design.heights import Stack
from tutorial_lib.design.model import SIDES, Box, Joint, Piece, Section
from tutorial_lib.design.options import Options
from tutorial_lib.design.panel import Place, depth, panel, top_of
from tutorial_lib.design.sizes import Sizes, clearance
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer

NUT = Fraction(1, 2)  # [in] from a bolt's axis to a slat: half a washer (our choice)
LEAST = Fraction(11, 8)  # [in] of rail that takes bolts; as beside a leg
HEAD_RAIL = "end rail head"
OWN = ("upright", "headboard", "headboard_slat", "slat")
SOCKET = Fraction(3)  # [in] before the rail that a socket wants free; as a driver's bit (our choice)
STEP, MOST_STEPS = Fraction(1, 2), 40  # [in] places for an upright that are tried


def bolted(options: Options) -> bool:
    """True for a headboard that is bolted to the head rail."""
    return options.headboard.kind != "none" and not options.frame.posts


def place(options: Options, sizes: Sizes, level: Stack) -> tuple[list[Piece], dict[str, Section]]:
    """Uprights behind the head rail, the panel in front of them; and their sections.

    Raises:
        DesignError: uprights that stand in each other's way, or boards in the mattress's.
    """
    top = top_of(options, sizes, level)
    if top is None or options.frame.posts:
        return [], {}
    section, wide = sizes.upright, sizes.outside[0]
    inset, w = options.headboard.inset, writer(options.build.units)
    if 2 * (inset + section.width) > wide:
        what = f"= {w.length(inset)} brings the uprights together in a bed {w.length(wide)} wide; use less."
        raise DesignError(Fault("headboard.inset", what))
    if depth(options, sizes) > sizes.rail.thickness + clearance(options)[1]:
        what = f'= "{sizes.headboard.name}" stands in the mattress\'s room; use thinner boards.'
        raise DesignError(Fault("headboard.lumber", what))
    pieces, back = [], -section.thickness
    for side in SIDES:
        y0 = inset if side == "left" else wide - inset - section.width
        box = Box((back, y0, Fraction(0)), (Fraction(0), y0 + section.width, top))
        pieces.append(Piece(label=f"upright {side}", part="upright", box=box, axis=2, said=f"{side} upright"))
    pieces += panel(options, sizes, level, top, Place(Fraction(0), (Fraction(0), wide), flush=True))
    own = {"upright": section, "headboard": sizes.headboard, "headboard_slat": sizes.headboard_slat}
    return pieces, own


def joints(options: Options, pieces: dict[str, Piece]) -> Iterator[Joint]:
    """Uprights to the boards in front of them, and bolted to the head rail.

    Raises:
        DesignError: a head rail that slats leave no room for nuts.
    """
    uprights = [piece for piece in pieces.values() if piece.part == "upright"]
    for upright in uprights:
        yield from _to_boards(upright, pieces)
    for upright in uprights:
        contact = upright.box.contact(pieces[HEAD_RAIL].box)
        assert contact is not None
        low, high = _free(options, pieces, contact)
        face = Box((contact.lo[0], contact.lo[1], low), (contact.hi[0], contact.hi[1], high))
        yield Joint(kind="upright", near=upright.label, far=HEAD_RAIL, axis=0, sign=1, contact=face, fastener="bolt")


def _to_boards(upright: Piece, pieces: dict[str, Piece]) -> Iterator[Joint]:
    """One upright to the boards in front of it."""
    for board in (piece for piece in pieces.values() if piece.part == "headboard"):
        contact = upright.box.contact(board.box)
        if contact is not None and contact.size[0] == 0:
            yield Joint(kind="panel", near=upright.label, far=board.label, axis=0, sign=1, contact=contact)


def _free(options: Options, pieces: dict[str, Piece], contact: Box) -> tuple[Fraction, Fraction]:
    """Heights between which nothing covers a nut on the rail's inside: slats do, and what stands there; the longest.

    Raises:
        DesignError: no stretch that takes the bolts.
    """
    best = _longest(contact, [*_slats(pieces), *_behind(pieces, contact)])
    if best[1] - best[0] >= LEAST:
        return best
    w, alone = writer(options.build.units), _longest(contact, _slats(pieces))
    other = _beside(options, pieces, contact, w.grid)
    if alone[1] - alone[0] >= LEAST:
        what = (
            f"= {w.length(options.headboard.inset)} stands an upright where a leg, a cleat or a centre line is in the "
            f"way of its nuts. {f'With {w.length(other)} there is room.' if other is not None else 'Use deeper rails.'}"
        )
        raise DesignError(Fault("headboard.inset", what))
    what = (
        f"= boards are bolted to the head rail, and {w.length(max(alone[1] - alone[0], NUT))} of it is free above or "
        f"below the slats; {w.length(LEAST)} takes the bolts. Use deeper rails."
    )
    raise DesignError(Fault("headboard.kind", what))


def _beside(options: Options, pieces: dict[str, Piece], contact: Box, grid: Fraction) -> Fraction | None:
    """The inset nearest to the stated one that leaves the nuts room [in]; None where none does."""
    inset, wide = options.headboard.inset, contact.size[1]
    most = (pieces[HEAD_RAIL].box.hi[1] - 2 * wide) / 2
    for step in range(1, MOST_STEPS):
        for x in (inset - step * STEP, inset + step * STEP):
            moved = Box((contact.lo[0], x, contact.lo[2]), (contact.hi[0], x + wide, contact.hi[2]))
            low, high = _longest(moved, [*_slats(pieces), *_behind(pieces, moved)])
            if 0 <= x <= most and high - low >= LEAST:
                return floor(x / grid) * grid
    return None


def _slats(pieces: dict[str, Piece]) -> list[Box]:
    return [piece.box for piece in pieces.values() if piece.part == "slat"]


def _behind(pieces: dict[str, Piece], contact: Box) -> list[Box]:
    """What stands at the head rail's inside right behind an upright: a leg, a cleat, a centre line and its block."""
    inside = pieces[HEAD_RAIL].box.hi[0]
    found = (piece.box for piece in pieces.values() if piece.part not in OWN and piece.label != HEAD_RAIL)
    return [box for box in found if box.hi[0] > inside > box.lo[0] - SOCKET and contact.gap(box, 1) < -NUT]


def _longest(contact: Box, covers: list[Box]) -> tuple[Fraction, Fraction]:
    """The longest stretch of a face's height [in] that stays half a washer clear of what covers it."""
    ends = [(box.lo[2] - NUT, box.hi[2] + NUT) for box in covers]
    lows = [contact.lo[2], *(high for _, high in ends if contact.lo[2] < high < contact.hi[2])]
    stretches = [(low, min([low_end for low_end, high in ends if high > low] + [contact.hi[2]])) for low in lows]
    return max(stretches, key=lambda stretch: stretch[1] - stretch[0])


__all__ = ["bolted", "joints", "place"]
