"""How far a bolt, lag or thick screw stands from an end and from its neighbour, in its diameters.

NDS 2018 12.5.1, Tables 12.5.1A (ends), B (spacing in a row) and D (rows), for diameters of 1/4 in and more: the
distance for the full value, and the least. The bed's weight bears across a rail's grain and down a leg's: toward the
leg's lower end, away from its top. The least distances are half of the full ones, of a row three quarters.
"""

from __future__ import annotations

from tutorial_lib.design.model import Build, Piece
from tutorial_lib.records import dataclass
from tutorial_lib.tables import species

THICK = 0.25  # [in] thinner fasteners have no such distances


@dataclass(frozen=True)
class Wanted:
    """A distance in diameters of the fastener."""

    full: float
    least: float


END = Wanted(4.0, 2.0)  # across the grain, or bearing away from the end
TOWARD = {"softwood": Wanted(7.0, 3.5), "hardwood": Wanted(5.0, 2.5)}  # bearing toward the end
ROW = Wanted(4.0, 3.0)  # between fasteners of one row


def end_wanted(build: Build, piece: Piece, low: bool) -> Wanted:
    """What a fastener that carries the bed keeps from an end of a piece.

    Args:
        build: the bed.
        piece: one that it goes through across the grain.
        low: from the lower end of an upright piece, or from the head or left end of a level one.

    Raises:
        InputError: a species that the tables don't have.
    """
    if piece.axis != 2 or not low:
        return END
    return TOWARD[species(build.section_of(piece.label).species or build.options.wood.species).kind]


def rows_aside(length: float, diameter: float) -> float:
    """Least distance between rows of fasteners loaded across the grain, in diameters. NDS 2018 Table 12.5.1D.

    Args:
        length: of the fastener in the thinner of its pieces [in].
        diameter: [in].

    >>> rows_aside(0.5, 0.375), rows_aside(1.5, 0.375), rows_aside(1.5, 0.25)
    (2.5, 3.75, 5.0)
    """
    return min(5.0, max(2.5, (5 * length / diameter + 10) / 8))
