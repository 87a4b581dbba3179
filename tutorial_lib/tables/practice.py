"""Tolerances, the constants of the lifting equation, and the colours drawings use."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from tutorial_lib.measures import mm
from tutorial_lib.records import dataclass
from tutorial_lib.tables.rows import rows, unknown


@dataclass(frozen=True, kw_only=True)
class Tolerance:
    """How far something may be off, and who says so."""

    name: str
    value: Fraction  # [in]
    what: str
    source: str
    status: str


@dataclass(frozen=True, kw_only=True)
class Constant:
    """One constant of a published formula."""

    name: str
    value: float
    unit: str
    what: str
    source: str
    status: str


@dataclass(frozen=True, kw_only=True)
class Colour:
    """A colour told apart by all readers, with its contrast."""

    name: str
    hex: str
    on_white: float  # contrast ratio
    text_on_white: bool  # at least 4.5 : 1
    line_on_white: bool  # at least 3 : 1; others are outlined
    source: str
    status: str


@cache
def tolerances() -> tuple[Tolerance, ...]:
    """All tolerances, as exact inches."""
    return tuple(
        Tolerance(
            name=r["name"],
            value=mm(r["value"]) if r["unit"] == "mm" else Fraction(r["value"]),
            what=r["what"],
            source=r["source"],
            status=r["status"],
        )
        for r in rows("tolerances.csv")
    )


def tolerance(name: str) -> Tolerance:
    """One tolerance by name.

    >>> tolerance("mattress US").value
    Fraction(1, 2)
    """
    known = {row.name: row for row in tolerances()}
    if name not in known:
        raise unknown("tolerance", name, known)
    return known[name]


@cache
def lifting_constants() -> dict[str, Constant]:
    """Constants of the revised lifting equation, by name. DHHS (NIOSH) 94-110."""
    return {
        r["name"]: Constant(
            name=r["name"],
            value=float(r["value"]),
            unit=r["unit"],
            what=r["what"],
            source=r["source"],
            status=r["status"],
        )
        for r in rows("lifting.csv")
    }


@cache
def palette() -> tuple[Colour, ...]:
    """The Okabe-Ito colours."""
    return tuple(
        Colour(
            name=r["name"],
            hex=r["hex"],
            on_white=float(r["contrast_on_white"]),
            text_on_white=r["text_ok_4_5_on_white"] == "yes",
            line_on_white=r["graphic_ok_3_on_white"] == "yes",
            source=r["source"],
            status=r["status"],
        )
        for r in rows("palette.csv")
    )
