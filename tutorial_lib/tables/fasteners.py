"""Screws, lag screws, carriage bolts and the bits that drill for them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Literal, TypeVar

from tutorial_lib.measures import mm, read_length
from tutorial_lib.tables.rows import rows, unknown

SoldKind = Literal["wood screw", "lag screw", "carriage bolt"]
Row = TypeVar("Row")


@dataclass(frozen=True)
class ScrewRow:
    """A wood screw by its gauge."""

    gauge: str  # "9"
    shank: float  # [in] D
    root: float  # [in] Dr
    head: float  # [in]
    yield_strength: float  # [psi] bending yield
    lengths: tuple[Fraction, ...]  # [in] sold
    source: str
    status: str

    def thread(self, length: Fraction) -> Fraction:
        """Threaded length [in]: the larger of two thirds of the length and 4 D. NDS 2018 Table L3, footnote 3."""
        return min(length, max(length * 2 / 3, Fraction(str(self.shank)) * 4))


@dataclass(frozen=True)
class LagRow:
    """A lag screw by its shank."""

    size: str  # "3/8"
    shank: float  # [in]
    root: float  # [in]
    tip: Fraction  # [in] tapered tip
    head: float  # [in] across flats
    yield_strength: float  # [psi]
    lengths: tuple[Fraction, ...]  # [in] sold
    source: str
    status: str


@dataclass(frozen=True)
class BoltRow:
    """A carriage bolt with its washer and nut."""

    size: str  # "3/8"
    shank: float  # [in]
    head: float  # [in] diameter
    head_height: float  # [in]
    washer: float  # [in] outside diameter
    washer_thickness: float  # [in]
    nut: float  # [in] across flats
    nut_height: float  # [in]
    yield_strength: float  # [psi]
    lengths: tuple[Fraction, ...]  # [in] sold
    source: str
    status: str


@dataclass(frozen=True)
class BitRow:
    """A drill bit as sold."""

    name: str  # "7/64 in", "2.5 mm"
    kind: str  # "twist" | "spade"
    unit: str  # "in" | "mm"
    diameter: Fraction  # [in]
    source: str
    status: str


@cache
def sold_lengths(kind: SoldKind, size: str) -> tuple[Fraction, ...]:
    """Lengths sold [in], shortest first. Common practice, no source."""
    found = (read_length(r["length"], "in") for r in rows("sold_lengths.csv") if (r["kind"], r["size"]) == (kind, size))
    return tuple(sorted(found))


@cache
def box_sizes(kind: SoldKind) -> tuple[int, ...]:
    """How many come in a box, smallest first. Common practice, no source."""
    return tuple(sorted(int(row["count"]) for row in rows("boxes.csv") if row["kind"] == kind))


@cache
def screws() -> tuple[ScrewRow, ...]:
    """Wood screws by gauge, thinnest first. NDS 2018 Appendix L."""
    return tuple(
        ScrewRow(r["gauge"], float(r["shank_in"]), float(r["root_in"]), float(r["head_in"]), float(r["yield_psi"]),
                 sold_lengths("wood screw", r["gauge"]), r["source"], r["status"])
        for r in rows("screws.csv")
    )  # fmt: skip


def screw(gauge: str | int, where: str = "") -> ScrewRow:
    """One wood screw: "9", "#9", "No. 9" or 9.

    >>> screw("#9").root
    0.142
    """
    wanted = str(gauge).lower().removeprefix("no").strip(" .#")
    for row in screws():
        if row.gauge == wanted:
            return row
    raise unknown("screw gauge", str(gauge), (f"#{row.gauge}" for row in screws()), where)


@cache
def lag_screws() -> tuple[LagRow, ...]:
    """Lag screws, thinnest first. NDS 2018 Table L2."""
    return tuple(
        LagRow(r["size"], float(r["shank_in"]), float(r["root_in"]), Fraction(r["tip_in"]),
               float(Fraction(r["head_in"])), float(r["yield_psi"]), sold_lengths("lag screw", r["size"]), r["source"],
               r["status"])
        for r in rows("lag_screws.csv")
    )  # fmt: skip


@cache
def carriage_bolts() -> tuple[BoltRow, ...]:
    """Carriage bolts, thinnest first."""
    return tuple(_bolt(row) for row in rows("carriage_bolts.csv"))


def _bolt(row: dict[str, str]) -> BoltRow:
    shank, head, head_height, washer, washer_thickness, nut, nut_height = (
        float(row[f"{key}_in"])
        for key in ("shank", "head", "head_height", "washer", "washer_thickness", "nut", "nut_height")
    )
    return BoltRow(
        row["size"], shank, head, head_height, washer, washer_thickness, nut, nut_height, float(row["yield_psi"]),
        sold_lengths("carriage bolt", row["size"]), row["source"], row["status"],
    )  # fmt: skip


def lag_screw(size: str, where: str = "") -> LagRow:
    """One lag screw by its shank, "3/8"."""
    return _by_size("lag screw", size, {row.size: row for row in lag_screws()}, where)


def carriage_bolt(size: str, where: str = "") -> BoltRow:
    """One carriage bolt by its shank, "3/8"."""
    return _by_size("carriage bolt", size, {row.size: row for row in carriage_bolts()}, where)


def _by_size(kind: str, size: str, known: dict[str, Row], where: str) -> Row:
    wanted = size.strip().removesuffix('"').removesuffix("in").strip()
    if wanted not in known:
        raise unknown(kind, size, known, where)
    return known[wanted]


@cache
def drill_bits(unit: str | None = None, kind: str | None = None) -> tuple[BitRow, ...]:
    """Bits sold, thinnest first; all, or those of one unit ("in", "mm") and kind ("twist", "spade")."""
    found = [
        BitRow(f"{r['size']} {r['unit']}", r["kind"], r["unit"],
               mm(r["size"]) if r["unit"] == "mm" else read_length(r["size"], "in"), r["source"], r["status"])
        for r in rows("drill_bits.csv")
        if unit in (None, r["unit"]) and kind in (None, r["kind"])
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda bit: bit.diameter))
