"""Wood screws, lag screws and carriage bolts of the tables in one form."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from tutorial_lib.tables import carriage_bolts, lag_screws, screws


@dataclass(frozen=True)
class ScrewSize:
    """One gauge of wood screw, lag screw or carriage bolt."""

    kind: str
    size: str  # gauge "9", or shank "3/8"
    diameter: float  # [in] shank
    root: float  # [in] thread root
    head: float  # [in] head diameter
    tip: float  # [in] tapered tip of a lag screw, else 0
    yield_strength: float  # [psi] bending yield
    washer: Fraction  # [in] thickness; 0 for screws
    nut: Fraction  # [in] height; 0 for screws
    lengths: tuple[Fraction, ...]  # [in] lengths sold
    source: str


@cache
def screw_sizes() -> dict[tuple[str, str], ScrewSize]:
    """Every size by kind and size: ("wood screw", "9"), ("carriage bolt", "3/8")."""
    none = Fraction(0)
    sizes = [
        ScrewSize(
            "wood screw",
            s.gauge,
            s.shank,
            s.root,
            s.head,
            0.0,
            s.yield_strength,
            none,
            none,
            s.lengths,
            f"{s.source}; {s.status}",
        )
        for s in screws()
    ]
    sizes += [
        ScrewSize(
            "lag screw",
            g.size,
            g.shank,
            g.root,
            g.head,
            float(g.tip),
            g.yield_strength,
            none,
            none,
            g.lengths,
            f"{g.source}; {g.status}",
        )
        for g in lag_screws()
    ]
    sizes += [
        ScrewSize(
            "carriage bolt",
            b.size,
            b.shank,
            b.shank,
            b.head,
            0.0,
            b.yield_strength,
            Fraction(str(b.washer_thickness)),
            Fraction(str(b.nut_height)),
            b.lengths,
            f"{b.source}; {b.status}",
        )
        for b in carriage_bolts()
    ]
    return {(size.kind, size.size): size for size in sizes}
