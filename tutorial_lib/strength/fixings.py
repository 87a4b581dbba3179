"""Where the fasteners of each joint are: as placed, or as assumed while they are still to be chosen."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Joint
from tutorial_lib.records import dataclass

ASSUMED_SPACING = 8.0  # [in] of a row of screws whose spacing is still to be chosen; common practice
ASSUMED_DIAMETER = 0.19  # [in] a #10 screw


def slip(diameter: float) -> float:
    """What a screw gives across [lb/in]: 180 000 D^1.5, wood to wood. NDS 11.3.6, from memory.

    >>> round(slip(0.177))
    13404
    """
    return float(180000 * diameter**1.5)


@dataclass(frozen=True)
class Row:
    """The fasteners of one joint along the bed."""

    places: tuple[float, ...]  # [in] x of each
    stiffness: float  # [lb/in] of one, across


class Fixings:
    """Every joint's fasteners; without any placed ones they are assumed."""

    def __init__(self, fastenings: Sequence[Fastening] | None = None) -> None:
        self.placed = None if fastenings is None else {f.joint: f for f in fastenings}

    def row(self, joint: Joint) -> Row | None:
        """The fasteners of a joint, or None where nothing is driven."""
        if self.placed is None:
            return _assumed(joint)
        fastening = self.placed.get(joint)
        if fastening is None or not fastening.driven:
            return None
        return Row(tuple(float(d.head[0]) for d in fastening.driven), slip(fastening.fastener.diameter))

    def of(self, joint: Joint) -> Fastening | None:
        """The placed fastening of a joint."""
        return None if self.placed is None else self.placed.get(joint)


def _assumed(joint: Joint) -> Row | None:
    if joint.fastener in ("bearing", "bracket"):
        return None
    low, high = float(joint.contact.lo[0]), float(joint.contact.hi[0])
    if joint.kind not in ("cleat", "runner"):
        middle = (low + high) / 2
        return Row((middle, middle), slip(ASSUMED_DIAMETER))
    if high - low < 2 * ASSUMED_SPACING:  # apart, so that a short piece can't turn about them
        quarter = (high - low) / 4
        return Row((low + quarter, high - quarter), slip(ASSUMED_DIAMETER))
    count = ceil((high - low - 2) / ASSUMED_SPACING) + 1
    step = (high - low - 2) / (count - 1)
    return Row(tuple(low + 1 + step * i for i in range(count)), slip(ASSUMED_DIAMETER))
