"""Abrasive sizes, coverage of finishes and the moisture wood settles at: rows as read, with source and status."""

from __future__ import annotations

import itertools
from functools import cache

from tutorial_lib.records import dataclass
from tutorial_lib.tables.rows import rows


@dataclass(frozen=True, kw_only=True)
class Grit:
    """One grit of one of the two scales sold."""

    scale: str  # "P" (FEPA 43, ISO 6344) or "CAMI"
    number: int
    micron: float  # mean grain
    source: str
    status: str


@dataclass(frozen=True, kw_only=True)
class Coverage:
    """How far a gallon goes, per coat."""

    finish: str
    surface: str
    low: float  # [sq ft per US gallon]
    high: float  # [sq ft per US gallon]
    source: str
    status: str


@dataclass(frozen=True, kw_only=True)
class Settled:
    """The moisture content wood settles at in one climate."""

    fahrenheit: float
    humidity: float  # [%] relative
    moisture: float  # [%]
    source: str
    status: str


@cache
def grits() -> tuple[Grit, ...]:
    """All grits of both scales, coarse first."""
    found = [
        Grit(
            scale=scale,
            number=int(row[column].lstrip("P")),
            micron=float(row["average_micron"]),
            source=row["source"],
            status=row["status"],
        )
        for row in rows("grit.csv")
        for scale, column in (("P", "FEPA_P"), ("CAMI", "CAMI"))
        if row[column]
    ]
    return tuple(sorted(found, key=lambda grit: -grit.micron))


@cache
def coverages() -> tuple[Coverage, ...]:
    """Coverage of the finishes that have a figure."""
    return tuple(
        Coverage(
            finish=row["finish"],
            surface=row["surface"],
            low=float(row["low_ft2_per_gal"]),
            high=float(row["high_ft2_per_gal"]),
            source=row["source"],
            status=row["status"],
        )
        for row in rows("coverage.csv")
        if row["low_ft2_per_gal"]
    )


@cache
def settled() -> tuple[Settled, ...]:
    """Moisture contents at equilibrium, as tabulated."""
    return tuple(
        Settled(
            fahrenheit=float(row["temp_F"]),
            humidity=float(row["RH_pct"]),
            moisture=float(row["EMC_pct"]),
            source=row["source"],
            status=row["status"],
        )
        for row in rows("emc.csv")
    )


def moisture_at(humidity: float, fahrenheit: float = 70) -> float:
    """Moisture content wood settles at [%], between the tabulated humidities in proportion.

    Args:
        humidity: relative humidity [%], within the table.
        fahrenheit: air temperature; one of those tabulated.

    Wood Handbook FPL-GTR-282 Table 4-2.

    >>> moisture_at(50)
    9.2
    """
    line = sorted((row.humidity, row.moisture) for row in settled() if row.fahrenheit == fahrenheit)
    if not line or not line[0][0] <= humidity <= line[-1][0]:
        raise ValueError(f"no figure for {humidity} % at {fahrenheit} F")
    for (h0, m0), (h1, m1) in itertools.pairwise(line):
        if humidity <= h1:
            return m0 + (m1 - m0) * (humidity - h0) / (h1 - h0)
    return line[-1][1]
