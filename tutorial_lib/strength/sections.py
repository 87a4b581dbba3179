"""Sections as beams, and the wood they are cut from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from tutorial_lib import tables
from tutorial_lib.design.model import Build, Section
from tutorial_lib.tables import DesignValues
from tutorial_lib.tables.wood import Property

DRESSED = {1.5: 2, 2.5: 3, 3.5: 4, 4.5: 5, 5.5: 6, 7.25: 8, 9.25: 10, 11.25: 12}  # [in] dressed to nominal width
WET_ABOVE = 19.0  # [%] moisture over which wood counts as wet when built; NDS 4.1.4
WET_THIN = 0.7  # CM of fasteners under 1/4 in and of pull, wood wet when built and dry in use; NDS Table 11.3.3
WET_BOLTS = 0.4  # CM of bolts in more than one place across the grain; NDS Table 11.3.3


@dataclass(frozen=True)
class Size:
    """A section as a beam: breadth across, depth along the load [in]."""

    thickness: float
    width: float
    flat: bool  # loaded on its wide face

    @property
    def breadth(self) -> float:
        """Across the load [in]."""
        return self.width if self.flat else self.thickness

    @property
    def depth(self) -> float:
        """Along the load [in]."""
        return self.thickness if self.flat else self.width

    @property
    def area(self) -> float:
        """[in2]

        >>> Size(1.5, 3.5, False).area
        5.25
        """
        return self.thickness * self.width

    @property
    def modulus(self) -> float:
        """Section modulus b d^2 / 6 [in3].

        >>> Size(1.5, 3.5, False).modulus, Size(1.5, 3.5, True).modulus
        (3.0625, 1.3125)
        """
        return self.breadth * self.depth**2 / 6

    @property
    def inertia(self) -> float:
        """Second moment of area b d^3 / 12 [in4].

        >>> round(Size(1.5, 5.5, False).inertia, 2)
        20.8
        """
        return self.breadth * self.depth**3 / 12

    @property
    def board(self) -> bool:
        """True for 1x boards, which the tables of dimension lumber leave out."""
        return self.thickness < 1.375

    @property
    def nominal(self) -> int:
        """Nominal width that the tables go by [in]."""
        return nominal(self.width)


def nominal(width: float) -> int:
    """Nominal width of a dressed (or measured, or metric) one: the table's step at or above it [in].

    >>> nominal(3.5), nominal(1.4375), nominal(7.25), nominal(3.74)
    (4, 2, 8, 5)
    """
    return next((n for dressed, n in DRESSED.items() if width <= dressed + 0.13), 14)


@cache
def size_factor(wood: DesignValues, size: Size, of: Property) -> float:
    """CF for bending ("Fb") or compression along the grain ("Fc"). NDS Supplement 2018 Table 4A.

    >>> size_factor(tables.design_values("SPF", "No.2", 4), Size(1.5, 3.5, False), "Fb")
    1.5
    """
    return tables.size_factor(wood, of, 4 if size.thickness > 2.6 else 2, size.nominal).value or 1.0


@cache
def flat_factor(size: Size) -> float:
    """Cfu for a board loaded on its wide face; 1.0 on edge, square, and for 1x boards (our choice).

    NDS Supplement 2018 Table 4A.

    >>> flat_factor(Size(1.5, 5.5, True))
    1.15
    """
    if not size.flat or size.board or abs(size.width - size.thickness) < 0.01:
        return 1.0
    return tables.flat_use_factor(4 if size.thickness > 2.6 else 2, size.nominal).value or 1.0


def graded(name: str) -> bool:
    """True for a wood with design values, False for one that is known by its weight alone.

    >>> graded("SPF"), graded("white oak")
    (True, False)
    """
    group = tables.species(name, "wood.species").name
    return any(row.species == group for row in tables.design_value_rows())


def ungraded(build: Build) -> tuple[str, ...]:
    """Woods of the build that have no design values."""
    names = {part.section.species or build.options.wood.species for part in build.parts if not part.section.steel}
    return tuple(sorted(name for name in names if not graded(name)))


def wood_of(build: Build, section: Section) -> DesignValues:
    """Design values for a section of the build.

    Raises:
        InputError: a species or grade that the tables don't have, or a wood known by its weight alone.
    """
    chosen = build.options.wood
    return _values(section.species or chosen.species, section.grade or chosen.grade, nominal(float(section.width)))


@cache
def _values(species: str, grade: str, width: int) -> DesignValues:
    return tables.design_values(species, grade, width, "wood")


def density_of(build: Build, section: Section) -> float:
    """Weight at 12 % moisture [lb/ft3]."""
    return tables.species(section.species or build.options.wood.species, "wood.species").density()


def wet(build: Build) -> bool:
    """True when the wood is built in wet, over 19 %."""
    return build.options.wood.moisture_bought > WET_ABOVE
