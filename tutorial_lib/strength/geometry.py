"""C-delta: what is left of a bolt's or lag screw's value where it stands near an end or a neighbour.

NDS 2018 12.5.1, Tables 12.5.1A (ends) and B (spacing in a row); for diameters of 1/4 in and more. The smallest of a
joint's fasteners counts for all of them. Edges have no factor.
"""

from __future__ import annotations

from itertools import combinations

from tutorial_lib.design.end_distances import ROW, THICK, end_wanted
from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build, Piece
from tutorial_lib.records import dataclass
from tutorial_lib.strength.working import Term, Working, step

SOURCE = "NDS 2018 Tables 12.5.1A and B"


@dataclass(frozen=True)
class Geometry:
    """The factor of one joint, and what sets it."""

    factor: float
    distance: float = 0.0  # [in]
    full: float = 0.0  # [in] what would be wanted for the full value
    what: str = ""

    @property
    def working(self) -> Working:
        """Distance over the distance for the full value."""
        terms = (Term(self.what, self.distance, "calculated"), Term("full value from", self.full, "calculated"))
        return step("geometry factor C-delta", "distance / distance for the full value", terms,
                       Term("", self.factor), SOURCE)  # fmt: skip


def part_of(distance: float, diameter: float, full: float, least: float) -> float:
    """The factor for one distance: 0 under the least, in proportion up to the full one.

    >>> part_of(0.75, 0.375, 4, 2), part_of(0.7, 0.375, 4, 2), part_of(2.0, 0.375, 4, 2)
    (0.5, 0.0, 1.0)
    """
    if distance < least * diameter - 1e-9:
        return 0.0
    return min(1.0, distance / (full * diameter))


def geometry(build: Build, fastening: Fastening) -> Geometry:
    """C-delta of a joint that carries a load down."""
    d = fastening.fastener.diameter
    if d < THICK or not fastening.driven:
        return Geometry(1.0)
    found = []
    for label in (fastening.joint.near, fastening.joint.far):
        piece = build.pieces[label]
        if piece.shape == "box" and piece.axis != fastening.joint.axis:
            found += _ends(build, fastening, piece)
    heads = [(float(v.head[0]), float(v.head[2])) for v in fastening.driven]
    found += [_row(a, b, d) for a, b in combinations(heads, 2)]
    return min(found, key=lambda g: round(g.factor, 9), default=Geometry(1.0))


def _ends(build: Build, fastening: Fastening, piece: Piece) -> list[Geometry]:
    """Every fastener in a piece to both of its ends."""
    places = sorted({float(driven.head[piece.axis]) for driven in fastening.driven})
    d = fastening.fastener.diameter
    return [_end(build, piece, place, low, d) for place in places for low in (True, False)]


def _end(build: Build, piece: Piece, at: float, low: bool, d: float) -> Geometry:
    wanted = end_wanted(build, piece, low)
    distance = at - float(piece.box.lo[piece.axis]) if low else float(piece.box.hi[piece.axis]) - at
    return Geometry(part_of(distance, d, wanted.full, wanted.least), distance, wanted.full * d, "end distance")


def _row(a: tuple[float, float], b: tuple[float, float], d: float) -> Geometry:
    """Two fasteners one above the other stand in one row; those side by side do not."""
    if abs(a[0] - b[0]) >= d:
        return Geometry(1.0)
    distance = abs(a[1] - b[1])
    return Geometry(part_of(distance, d, ROW.full, ROW.least), distance, ROW.full * d, "spacing in the row")
