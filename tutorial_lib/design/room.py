"""Room for a driver: which places on a shared face stand clear of the legs beside them."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from tutorial_lib.design.model import LATER, Box, Piece

EDGE = Fraction(1, 2)  # [in] a fastener stands at least so far inside a shared face (our choice)
STEP = Fraction(1, 4)  # [in] places that are tried


def stands_clear(x: Fraction, y: Fraction, legs: Iterable[Box], radius: Fraction) -> bool:
    """True if a round column of this radius [in], upright at x and y, meets none of the legs."""
    for leg in legs:
        dx = max(leg.lo[0] - x, x - leg.hi[0], Fraction(0))
        dy = max(leg.lo[1] - y, y - leg.hi[1], Fraction(0))
        if dx * dx + dy * dy < radius * radius:
            return False
    return True


def standing_below(pieces: Iterable[Piece]) -> list[Box]:
    """What stands under a bed that is screwed from below: all upright pieces but a headboard's, which come later."""
    return [piece.box for piece in pieces if piece.axis == 2 and (piece.use or piece.part) not in LATER]


def clear_of(contact: Box, legs: Iterable[Box], radius: Fraction) -> bool:
    """True if somewhere on a level shared face a driver stands clear of the legs below it."""
    under = [leg for leg in legs if leg.hi[2] <= contact.lo[2] and _beside(contact, leg, radius)]
    return any(stands_clear(x, y, under, radius) for x in _steps(contact, 0) for y in _steps(contact, 1))


def _beside(contact: Box, leg: Box, radius: Fraction) -> bool:
    return all(contact.gap(leg, axis) < radius for axis in (0, 1))


def _steps(contact: Box, axis: int) -> list[Fraction]:
    """Places along one side of the face, kept off its edges; its middle where it is narrow."""
    low, high = contact.lo[axis] + EDGE, contact.hi[axis] - EDGE
    if high <= low:
        return [contact.centre[axis]]
    count = int((high - low) / STEP)
    return [low + STEP * i for i in range(count + 1)]
