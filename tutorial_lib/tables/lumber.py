"""Dressed sizes of boards and posts by the name they are sold under, imperial and metric."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache, lru_cache

from tutorial_lib.measures import mm, read_length
from tutorial_lib.records import dataclass
from tutorial_lib.tables.rows import rows, unknown

TOLERANCE = Fraction(1, 8)  # [in] a measured or metric board may be so much wider than its dressed size; our choice


@dataclass(frozen=True, kw_only=True)
class DressedSize:
    """One section as sold."""

    name: str  # "2x4", "45x95"
    system: str  # "imperial" | "metric"
    category: str  # "board" | "dimension" | "post" | "timber"
    nominal_thickness: Fraction  # [nominal in] as the yard counts board feet; a metric one's nearest
    nominal_width: int  # [nominal in] the same; design values go by nominal_width()
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
        name=row["name"], system=row["system"], category=row["category"],
        nominal_thickness=Fraction(row["nominal_thickness"]), nominal_width=int(row["nominal_width"]),
        thickness=thickness, width=width, source=row["source"], status=row["status"],
    )  # fmt: skip


@lru_cache(maxsize=256)
def nominal_width(width: Fraction) -> int:
    """The nominal width [in] whose design values hold for a board of this width [in]: the step at or above it.

    >>> nominal_width(Fraction(7, 2)), nominal_width(Fraction(29, 4)), nominal_width(mm(95))
    (4, 8, 5)
    """
    steps = sorted((row.width, row.nominal_width) for row in dressed_sizes() if not row.metric)
    return next((nominal for dressed_width, nominal in steps if width <= dressed_width + TOLERANCE), 14)


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
    known = [size.name for size in dressed_sizes()]
    raise unknown("section", name, known, where, _meant(wanted, known))


def _meant(name: str, known: Sequence[str]) -> str | None:
    """The section of the same thickness whose width is nearest: 2x8, not 22x70, for 2x7."""
    sides = name.split("x")
    if len(sides) != 2 or not sides[1].isdecimal() or len(sides[1]) > 4:
        return None
    alike = [other for other in known if other.split("x")[0] == sides[0]]
    return min(alike, key=lambda other: abs(int(other.split("x")[1]) - int(sides[1])), default=None)


def nearest_section(thickness: Fraction, width: Fraction, system: str = "imperial") -> DressedSize:
    """The section whose dressed size is nearest to a measured board [in].

    >>> nearest_section(Fraction(23, 16), Fraction(7, 2)).name
    '2x4'
    """
    candidates = (size for size in dressed_sizes() if size.system == system)
    return min(candidates, key=lambda size: abs(size.thickness - thickness) + abs(size.width - width))
