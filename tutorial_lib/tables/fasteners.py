"""Screws, lag screws, carriage bolts and the bits that drill for them, in the inch series and in the metric one."""

from __future__ import annotations

from fractions import Fraction
from functools import cache, lru_cache
from typing import Literal, TypeVar

from tutorial_lib.measures import mm, read_length
from tutorial_lib.records import dataclass
from tutorial_lib.tables.rows import rows, unknown

SoldKind = Literal["wood screw", "lag screw", "carriage bolt"]
Series = Literal["imperial", "metric"]
Row = TypeVar("Row")


@dataclass(frozen=True, kw_only=True)
class ScrewRow:
    """A wood screw by its gauge, or by its diameter in the metric series."""

    gauge: str  # "9", "4.5 mm"
    number: int | None = None  # of a gauge; None in the metric series
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


@dataclass(frozen=True, kw_only=True)
class LagRow:
    """A lag screw by its shank."""

    size: str  # "3/8", "10 mm"
    shank: float  # [in]
    root: float  # [in]
    tip: Fraction  # [in] tapered tip
    head: float  # [in] across flats
    yield_strength: float  # [psi]
    lengths: tuple[Fraction, ...]  # [in] sold
    source: str
    status: str


@dataclass(frozen=True, kw_only=True)
class BoltRow:
    """A carriage bolt with its washer and nut."""

    size: str  # "3/8", "M10"
    thread: str  # that a nut is asked for by: "3/8-16 UNC", "M10"
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


@dataclass(frozen=True, kw_only=True)
class BitRow:
    """A drill bit as sold."""

    name: str  # "7/64 in", "2.5 mm"
    kind: str  # "twist" | "long twist" | "spade"
    unit: str  # "in" | "mm"
    diameter: Fraction  # [in]
    reach: Fraction  # [in] how deep it bores: its flutes
    source: str
    status: str


@lru_cache(maxsize=256)
def sold_lengths(kind: SoldKind, size: str) -> tuple[Fraction, ...]:
    """Lengths sold [in], shortest first. Common practice, no source."""
    wanted = (kind, size)
    found = [read_length(r["length"], "in") for r in rows("sold_lengths.csv") if (r["kind"], r["size"]) == wanted]
    found += [mm(r["length_mm"]) for r in rows("sold_lengths_metric.csv") if (r["kind"], r["size"]) == wanted]
    return tuple(sorted(found))


@cache
def box_sizes(kind: SoldKind) -> tuple[int, ...]:
    """How many come in a box, smallest first. Common practice, no source."""
    return tuple(sorted(int(row["count"]) for row in rows("boxes.csv") if row["kind"] == kind))


@cache
def screws(series: Series = "imperial") -> tuple[ScrewRow, ...]:
    """Wood screws of one series, thinnest first: by gauge (NDS 2018 Appendix L), or 3.5 to 6 mm."""
    if series == "metric":
        return tuple(
            ScrewRow(
                gauge=r["size"],
                shank=_in(r, "shank"),
                root=_in(r, "root"),
                head=_in(r, "head"),
                yield_strength=float(r["yield_psi"]),
                lengths=sold_lengths("wood screw", r["size"]),
                source=r["source"],
                status=r["status"],
            )
            for r in rows("screws_metric.csv")
        )
    return tuple(
        ScrewRow(
            gauge=r["gauge"],
            number=int(r["gauge"]),
            shank=float(r["shank_in"]),
            root=float(r["root_in"]),
            head=float(r["head_in"]),
            yield_strength=float(r["yield_psi"]),
            lengths=sold_lengths("wood screw", r["gauge"]),
            source=r["source"],
            status=r["status"],
        )
        for r in rows("screws.csv")
    )


def _in(row: dict[str, str], name: str) -> float:
    """A cell in inches [in], from its column in mm or in inches."""
    text = row.get(f"{name}_mm")
    return float(Fraction(row[f"{name}_in"])) if text is None else float(mm(text))


def screw(gauge: str | int, where: str = "") -> ScrewRow:
    """One wood screw: "9", "#9", "No. 9" or 9; "4.5 mm" in the metric series.

    >>> screw("#9").root
    0.142
    >>> screw("5 mm").lengths[0] == mm(25)
    True
    """
    wanted = str(gauge).lower().removeprefix("no").strip(" .#")
    if wanted.endswith("mm"):
        wanted = f"{wanted.removesuffix('mm').strip()} mm"
    for row in (*screws(), *screws("metric")):
        if row.gauge == wanted:
            return row
    known = [f"#{row.gauge}" for row in screws()] + [row.gauge for row in screws("metric")]
    raise unknown("screw gauge", str(gauge), known, where)


@cache
def lag_screws(series: Series = "imperial") -> tuple[LagRow, ...]:
    """Lag screws of one series, thinnest first: NDS 2018 Table L2, or coach screws of 6 to 12 mm."""
    return tuple(
        LagRow(
            size=r["size"],
            shank=_in(r, "shank"),
            root=_in(r, "root"),
            tip=mm(r["tip_mm"]) if metric else Fraction(r["tip_in"]),
            head=_in(r, "head"),
            yield_strength=float(r["yield_psi"]),
            lengths=sold_lengths("lag screw", r["size"]),
            source=r["source"],
            status=r["status"],
        )
        for metric in [series == "metric"]
        for r in rows("lag_screws_metric.csv" if metric else "lag_screws.csv")
    )


@cache
def carriage_bolts(series: Series = "imperial") -> tuple[BoltRow, ...]:
    """Carriage bolts of one series, thinnest first: 1/4 to 1/2 in, or M6 to M12."""
    name = "carriage_bolts_metric.csv" if series == "metric" else "carriage_bolts.csv"
    return tuple(_bolt(row) for row in rows(name))


@dataclass(frozen=True, kw_only=True)
class BarrelNut:
    """A nut that lies across the bolt, in a hole of its own width."""

    size: str  # of the bolt: "3/8", "M10"
    width: Fraction  # [in] across
    length: Fraction  # [in]
    source: str
    status: str


def barrel_nut(size: str, where: str = "") -> BarrelNut:
    """The barrel nut of a bolt's size.

    Raises:
        InputError: a size that none is listed for.
    """
    found = {row["size"]: row for row in rows("barrel_nuts.csv")}
    if size not in found:
        raise unknown("barrel nut for a bolt", size, found, where)
    row = found[size]
    width, length = (mm(Fraction(row[key])) for key in ("barrel_mm", "length_mm"))
    return BarrelNut(size=size, width=width, length=length, source=row["source"], status=row["status"])


def _bolt(row: dict[str, str]) -> BoltRow:
    shank, head, head_height, washer, washer_thickness, nut, nut_height = (
        _in(row, key) for key in ("shank", "head", "head_height", "washer", "washer_thickness", "nut", "nut_height")
    )
    return BoltRow(
        size=row["size"],
        thread=row["thread"],
        shank=shank,
        head=head,
        head_height=head_height,
        washer=washer,
        washer_thickness=washer_thickness,
        nut=nut,
        nut_height=nut_height,
        yield_strength=float(row["yield_psi"]),
        lengths=sold_lengths("carriage bolt", row["size"]),
        source=row["source"],
        status=row["status"],
    )


def lag_screw(size: str, where: str = "") -> LagRow:
    """One lag screw by its shank, "3/8" or "10 mm"."""
    return _by_size("lag screw", size, {row.size: row for row in (*lag_screws(), *lag_screws("metric"))}, where)


def carriage_bolt(size: str, where: str = "") -> BoltRow:
    """One carriage bolt by its shank, "3/8" or "M10"."""
    known = {row.size: row for row in (*carriage_bolts(), *carriage_bolts("metric"))}
    return _by_size("carriage bolt", size, known, where)


def _by_size(kind: str, size: str, known: dict[str, Row], where: str) -> Row:
    wanted = size.strip().removesuffix('"').removesuffix("in").strip()
    if wanted not in known:
        raise unknown(kind, size, known, where)
    return known[wanted]


@lru_cache(maxsize=16)
def drill_bits(unit: str | None = None, kind: str | None = None) -> tuple[BitRow, ...]:
    """Bits sold, thinnest first; all, or those of one unit ("in", "mm") and kind ("twist", "long twist", "spade")."""
    found = [
        BitRow(
            name=f"{r['size']} {r['unit']}",
            kind=r["kind"],
            unit=r["unit"],
            diameter=_either(r["size"], r["unit"]),
            reach=_either(r["reach"], r["unit"]),
            source=r["source"],
            status=r["status"],
        )
        for r in rows("drill_bits.csv")
        if unit in (None, r["unit"]) and kind in (None, r["kind"])
    ]
    return tuple(sorted(found, key=lambda bit: bit.diameter))


def _either(text: str, unit: str) -> Fraction:
    return mm(text) if unit == "mm" else read_length(text, "in")
