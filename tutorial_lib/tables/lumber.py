"""Dressed sizes of boards and posts by the name they are sold under, imperial and metric."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from tutorial_lib.measures import mm, read_length
from tutorial_lib.tables.rows import rows, unknown


@dataclass(frozen=True)
class DressedSize:
    """One section as sold."""

    name: str  # "2x4", "45x95"
    system: str  # "imperial" | "metric"
    category: str  # "board" | "dimension" | "post" | "timber"
    nominal_thickness: Fraction  # [nominal in], for the tables of design values
    nominal_width: int  # [nominal in]
    thickness: Fraction  # [in] dressed
    width: Fraction  # [in] dressed
    source: str
    status: str

    @property
    def metric(self) -> bool:
        """True where the size is exact in millimetres."""
        return self.system == "metric"


@cache
def dressed_sizes() -> tuple[DressedSize, ...]:
    """All sections known, imperial first."""
    return tuple(_size(row) for row in rows("dressed_sizes.csv"))


def _size(row: dict[str, str]) -> DressedSize:
    unit = row["unit"]
    thickness, width = (mm(row[k]) if unit == "mm" else read_length(row[k], "in") for k in ("thickness", "width"))
    return DressedSize(
        row["name"], row["system"], row["category"], Fraction(row["nominal_thickness"]), int(row["nominal_width"]),
        thickness, width, row["source"], row["status"],
    )  # fmt: skip


def dressed(name: str, where: str = "") -> DressedSize:
    """The dressed size of a section by its trade name.

    Raises:
        InputError: the name is in no table; names the nearest.

    >>> size = dressed("2x4")
    >>> size.thickness, size.width
    (Fraction(3, 2), Fraction(7, 2))
    """
    wanted = re.sub(r"\s|mm$", "", name.lower().replace("×", "x"))
    for size in dressed_sizes():
        if size.name == wanted:
            return size
    raise unknown("section", name, (size.name for size in dressed_sizes()), where)


def nearest_section(thickness: Fraction, width: Fraction, system: str = "imperial") -> DressedSize:
    """The section whose dressed size is nearest to a measured board [in].

    >>> nearest_section(Fraction(23, 16), Fraction(7, 2)).name
    '2x4'
    """
    candidates = (size for size in dressed_sizes() if size.system == system)
    return min(candidates, key=lambda size: abs(size.thickness - thickness) + abs(size.width - width))
