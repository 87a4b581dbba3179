"""Sections as beams, and the wood they are cut from."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from tutorial_lib import tables
from tutorial_lib.design.model import Build, Section
from tutorial_lib.design.weights import density
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.records import dataclass
from tutorial_lib.tables import DesignValues
from tutorial_lib.tables.wood import Property, WeightOnly

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
        return _nominal(self.width)


@lru_cache(maxsize=512)
def _nominal(width: float) -> int:
    return tables.nominal_width(Fraction(width))


@lru_cache(maxsize=512)
def size_factor(wood: DesignValues, size: Size, of: Property) -> float:
    """CF for bending ("Fb") or compression along the grain ("Fc"). NDS Supplement 2018 Table 4A.

    >>> size_factor(tables.design_values("SPF", "No.2", 4), Size(1.5, 3.5, False), "Fb")
    1.5
    """
    return tables.size_factor(wood, of, 4 if size.thickness > 2.6 else 2, size.nominal).value or 1.0


@lru_cache(maxsize=512)
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
    return bool(tables.grades_of(name))


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
    return _values(
        section.species or chosen.species, section.grade or chosen.grade, tables.nominal_width(section.width)
    )


@lru_cache(maxsize=512)
def _values(species: str, grade: str, width: int) -> DesignValues:
    return design_row(species, grade, width)


def design_row(species: str, grade: str, width: int) -> DesignValues:
    """The design values of a graded wood.

    Raises:
        InputError: a species or grade that the tables don't have, or a wood known by its weight alone.
    """
    found = tables.design_values(species, grade, width, "wood")
    if isinstance(found, WeightOnly):
        raise InputError(Fault("wood", found.why))
    return found


def density_of(build: Build, section: Section) -> float:
    """Weight as bought [lb/ft3]."""
    wood = build.options.wood
    return density(section, wood.moisture_bought, wood.species)


def wet(build: Build) -> bool:
    """True when the wood is built in wet, over 19 %."""
    return build.options.wood.moisture_bought > WET_ABOVE


def grade_names() -> tuple[str, ...]:
    """Grades of those woods, as stamped: "No.1/No.2" is two."""
    return tuple(dict.fromkeys(grade for name in tables.species_names() for grade in tables.grades_of(name)))
