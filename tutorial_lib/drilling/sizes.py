"""Wood screws, lag screws and carriage bolts of the tables in one form, of both series."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from tutorial_lib.records import dataclass
from tutorial_lib.tables import BoltRow, LagRow, ScrewRow, carriage_bolts, lag_screws, screws
from tutorial_lib.tables.fasteners import Series


@dataclass(frozen=True, kw_only=True)
class ScrewSize:
    """One size of wood screw, lag screw or carriage bolt."""

    kind: str
    size: str  # gauge "9" or "4.5 mm", shank "3/8", "10 mm" or "M10"
    series: Series
    diameter: float  # [in] shank
    root: float  # [in] thread root
    head: float  # [in] head diameter
    tip: float  # [in] tapered tip of a lag screw, else 0
    yield_strength: float  # [psi] bending yield
    washer: Fraction  # [in] thickness; 0 for screws
    washer_width: float  # [in] outside diameter; 0 for screws
    nut: Fraction  # [in] height; 0 for screws
    lengths: tuple[Fraction, ...]  # [in] lengths sold
    source: str
    thread: str = ""  # of a bolt, that a nut is asked for by: "3/8-16 UNC", "M10"


NONE = Fraction(0)
SERIES: tuple[Series, ...] = ("imperial", "metric")


@cache
def screw_sizes() -> dict[tuple[str, str], ScrewSize]:
    """Every size by kind and size: ("wood screw", "9"), ("wood screw", "5 mm"), ("carriage bolt", "M10")."""
    sizes = [
        size
        for series in SERIES
        for size in (
            *(_wood_screw(row, series) for row in screws(series)),
            *(_lag(row, series) for row in lag_screws(series)),
            *(_bolt(row, series) for row in carriage_bolts(series)),
        )
    ]
    return {(size.kind, size.size): size for size in sizes}


def by_shank(kind: str, diameter: float) -> ScrewSize | None:
    """The size of this kind whose shank is this thick [in]."""
    close = [size for (k, _), size in screw_sizes().items() if k == kind and abs(size.diameter - diameter) < 1e-4]
    return close[0] if close else None


def _wood_screw(row: ScrewRow, series: Series) -> ScrewSize:
    return ScrewSize(
        kind="wood screw", size=row.gauge, series=series, diameter=row.shank, root=row.root, head=row.head, tip=0.0,
        yield_strength=row.yield_strength, washer=NONE, washer_width=0.0, nut=NONE, lengths=row.lengths,
        source=f"{row.source}; {row.status}",
    )  # fmt: skip


def _lag(row: LagRow, series: Series) -> ScrewSize:
    return ScrewSize(
        kind="lag screw", size=row.size, series=series, diameter=row.shank, root=row.root, head=row.head,
        tip=float(row.tip), yield_strength=row.yield_strength, washer=NONE, washer_width=0.0, nut=NONE,
        lengths=row.lengths, source=f"{row.source}; {row.status}",
    )  # fmt: skip


def _bolt(row: BoltRow, series: Series) -> ScrewSize:
    washer = Fraction(str(row.washer_thickness)).limit_denominator(10000)
    nut = Fraction(str(row.nut_height)).limit_denominator(10000)
    return ScrewSize(
        kind="carriage bolt", size=row.size, series=series, diameter=row.shank, root=row.shank, head=row.head, tip=0.0,
        yield_strength=row.yield_strength, washer=washer, washer_width=row.washer, nut=nut,
        lengths=row.lengths, thread=row.thread, source=f"{row.source}; {row.status}",
    )  # fmt: skip
