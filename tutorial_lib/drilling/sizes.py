"""Wood screws, lag screws and carriage bolts of the tables in one form."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from tutorial_lib.tables import BoltRow, LagRow, ScrewRow, carriage_bolts, lag_screws, screws


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


NONE = Fraction(0)


@cache
def screw_sizes() -> dict[tuple[str, str], ScrewSize]:
    """Every size by kind and size: ("wood screw", "9"), ("carriage bolt", "3/8")."""
    sizes = [*map(_wood_screw, screws()), *map(_lag, lag_screws()), *map(_bolt, carriage_bolts())]
    return {(size.kind, size.size): size for size in sizes}


def _wood_screw(row: ScrewRow) -> ScrewSize:
    return ScrewSize("wood screw", row.gauge, row.shank, row.root, row.head, 0.0, row.yield_strength, NONE, NONE,
                     row.lengths, f"{row.source}; {row.status}")  # fmt: skip


def _lag(row: LagRow) -> ScrewSize:
    return ScrewSize("lag screw", row.size, row.shank, row.root, row.head, float(row.tip), row.yield_strength, NONE,
                     NONE, row.lengths, f"{row.source}; {row.status}")  # fmt: skip


def _bolt(row: BoltRow) -> ScrewSize:
    washer, nut = Fraction(str(row.washer_thickness)), Fraction(str(row.nut_height))
    return ScrewSize("carriage bolt", row.size, row.shank, row.shank, row.head, 0.0, row.yield_strength, washer, nut,
                     row.lengths, f"{row.source}; {row.status}")  # fmt: skip
