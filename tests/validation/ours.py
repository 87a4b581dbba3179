"""Our calculation as the checks call it: wood, sections, beams."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache

from tests.strength.beam import Bent, PointLoad, SpreadLoad, bend
from tutorial_lib.strength.members import allowed_bending, column_limit
from tutorial_lib.strength.sections import Size, design_row
from tutorial_lib.tables import DesignValues as Wood

DRESSED = {2: 1.5, 3: 2.5, 4: 3.5, 5: 4.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25}

__all__ = ["Bent", "PointLoad", "Size", "SpreadLoad", "Wood", "allowed", "beam", "graded", "lumber", "root", "spans"]


def graded(species: str, grade: str, width: int) -> Wood:
    """Design values by nominal width [in]."""
    return design_row(species, grade, width)


def lumber(thickness: int, width: int, flat: bool = False) -> Size:
    """A dressed section by its nominal size [in]."""
    return Size(DRESSED[thickness], DRESSED[width], flat)


def allowed(kind: Wood, size: Size, duration: float = 1.0, length: float = 0.0, repeated: float = 1.0) -> float:
    """F'b [psi]."""
    return allowed_bending(kind, size, duration, length, repeated)[0]


def beam(supports: Sequence[float], loads: Sequence[PointLoad | SpreadLoad], stiffness: float = 1.0) -> Bent:
    """A beam from its first to its last support."""
    return bend(supports[0], supports[-1], stiffness, tuple(supports), list(loads))


@cache
def _simple() -> tuple[float, float]:
    """Moment and sag of a simple beam of 100 in under 1 lb/in, EI 1e6."""
    bent = beam((0, 100), [SpreadLoad(0, 100, 1.0)], 1e6)
    return bent.moment(50), bent.sag(50)


def spans(stress: float, modulus: float, load: float) -> float:
    """Simple span [in] at which a spread load [lb/in] makes this stress [psi]."""
    return 100 * (stress * modulus / load / _simple()[0]) ** 0.5


def sag_span(stiffness: float, load: float, part: float) -> float:
    """Simple span [in] at which a spread load [lb/in] sags a part of the span."""
    return float(100 * (100 / part / (_simple()[1] * load * 1e6 / stiffness)) ** (1 / 3))


def root(value: Callable[[float], float], low: float, high: float) -> float:
    """Where a function is nought between two places, by halving."""
    rising = value(high) > value(low)
    for _ in range(60):
        middle = (low + high) / 2
        if (value(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def column(kind: Wood, size: Size, length: float, duration: float = 1.0) -> float:
    """F'c of a column [psi]."""
    return column_limit(kind, size, length, duration).value / size.area
