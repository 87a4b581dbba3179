"""Design values of lumber by species and grade, and the factors that adjust them, each by name.

Values in psi from the tables shipped with the library; every row there has its source and how it was seen.
"""

from __future__ import annotations

import csv
import difflib
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files

from tutorial_lib.errors import Fault, InputError

SUPPLEMENT = "NDS Supplement 2018, Tables 4A and 4B"
ALIASES = {
    "spf": "Spruce-Pine-Fir",
    "spf-s": "Spruce-Pine-Fir (South)",
    "df-l": "Douglas Fir-Larch",
    "douglas fir": "Douglas Fir-Larch",
    "hem fir": "Hem-Fir",
    "hf": "Hem-Fir",
    "sp": "Southern Pine",
    "pine, southern": "Southern Pine",
    "syp": "Southern Pine",
}
CLASSES = {
    "Stud": "Stud",
    "Construction": "Construction, Standard",
    "Standard": "Construction, Standard",
    "Utility": "Utility",
}


@dataclass(frozen=True)
class Wood:
    """Reference design values of one species, grade and width [psi]."""

    species: str
    grade: str
    bending: float
    tension: float
    shear: float
    bearing: float  # across the grain
    compression: float  # along the grain
    stiffness: float
    least_stiffness: float
    gravity: float  # oven-dry
    width_inside: bool  # the size effect is already in the values
    source: str
    status: str


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
        """[in2]"""
        return self.thickness * self.width

    @property
    def modulus(self) -> float:
        """Section modulus b d^2 / 6 [in3]."""
        return self.breadth * self.depth**2 / 6

    @property
    def inertia(self) -> float:
        """Second moment of area b d^3 / 12 [in4]."""
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
    dressed = {1.5: 2, 2.5: 3, 3.5: 4, 4.5: 5, 5.5: 6, 7.25: 8, 9.25: 10, 11.25: 12}
    return next((n for w, n in dressed.items() if width <= w + 0.13), 14)


def _rows(name: str) -> list[dict[str, str]]:
    text = files("tutorial_lib.tables").joinpath("data", name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


@cache
def _values() -> dict[tuple[str, str], list[dict[str, str]]]:
    found: dict[tuple[str, str], list[dict[str, str]]] = {}
    for row in _rows("design_values.csv"):
        for grade in row["grade"].split("/"):
            found.setdefault((row["species"], grade), []).append(row)
    return found


def species_names() -> tuple[str, ...]:
    """Species the tables know."""
    return tuple(dict.fromkeys(species for species, _ in _values()))


def grades_of(species: str) -> tuple[str, ...]:
    """Grades the tables know for a species."""
    return tuple(grade for name, grade in _values() if name == species)


@cache
def wood(species: str, grade: str, width: float, thickness: float = 1.5) -> Wood:
    """Reference design values for a species, grade and dressed width [in].

    A board under 2 in nominal has no tabulated value: it takes those of the species' grade, and says so
    (:attr:`Size.board`; our choice).

    Raises:
        InputError: the species or grade is not in the tables; the nearest known one is named.

    NDS Supplement 2018 Tables 4A and 4B. "Stud" is a grade of its own, not No.2.
    """
    name = ALIASES.get(species.strip().lower(), species.strip())
    if name not in species_names():
        raise InputError(Fault("wood.species", _unknown("species", species, species_names())))
    kind = grade.strip().removeprefix("#")
    kind = f"No.{kind}" if kind in "123" else kind.replace("No. ", "No.")
    rows = _values().get((name, kind))
    if not rows:
        raise InputError(Fault("wood.grade", _unknown(f"grade of {name}", grade, grades_of(name))))
    row = _row_for(rows, nominal(width), name, kind)
    number = {key: float(row[key]) for key in row if key.endswith("_psi") or key == "G"}
    return Wood(
        name,
        kind,
        number["Fb_psi"],
        number["Ft_psi"],
        number["Fv_psi"],
        number["Fc_perp_psi"],
        number["Fc_psi"],
        number["E_psi"],
        number["Emin_psi"],
        number["G"],
        name == "Southern Pine",
        row["source"],
        row["status"],
    )


def _unknown(what: str, given: str, known: tuple[str, ...]) -> str:
    near = difflib.get_close_matches(given, known, 1, 0.5)
    hint = f' Did you mean "{near[0]}"?' if near else ""
    return f'"{given}" is not a {what} the strength tables know.{hint} Known: {", ".join(known)}.'


def _row_for(rows: list[dict[str, str]], width: int, species: str, grade: str) -> dict[str, str]:
    for row in rows:
        low, _, high = (row["nominal_width_in"] or "0-99").partition("-")
        if not row["nominal_width_in"] or width <= int(float(high or low)):
            return row
    raise InputError(
        Fault(
            "wood",
            f"{species} {grade} has no value for boards {width} in wide (nominal); choose No.2, or a narrower board.",
        )
    )


@cache
def _factors() -> tuple[dict[str, str], ...]:
    return tuple(_rows("adjustment_factors.csv"))


def _factor(name: str, stress: str, width: int, condition: str) -> float:
    best = 0.0
    for row in _factors():
        if row["factor"] == name and row["applies_to"] == stress and row["condition"].startswith(condition):
            low, _, high = row["nominal_width_in"].partition("-")
            if int(low) <= width <= int(high or low):
                return float(row["value"])
            if int(high or low) < width:
                best = float(row["value"])
    return best or 1.0


@cache
def size_factor(kind: Wood, size: Size, stress: str) -> float:
    """CF for bending ("Fb"), tension ("Ft") or compression along the grain ("Fc").

    NDS Supplement 2018 Table 4A; Southern Pine has it inside its values (Table 4B).

    >>> size_factor(wood("Spruce-Pine-Fir", "No.2", 3.5), Size(1.5, 3.5, False), "Fb")
    1.5
    """
    if kind.width_inside:
        return 1.0
    width = size.nominal
    if kind.grade in CLASSES:
        if kind.grade == "Stud":
            return _factor("CF", stress, 4 if width <= 4 else 6, "Stud, 2-4" if width <= 4 else "Stud, 5-6")
        return _factor("CF", stress, width, CLASSES[kind.grade])
    thick = "2-4 in thick" if stress != "Fb" else "4 in thick" if size.thickness > 2.6 else "2-3 in thick"
    return _factor("CF", stress, width, f"SS, No.1&Btr, No.1, No.2, No.3; {thick}")


@cache
def flat_factor(size: Size) -> float:
    """Cfu for a board loaded on its wide face; 1.0 on edge, square, and for 1x boards (our choice).

    NDS Supplement 2018 Table 4A.

    >>> flat_factor(Size(1.5, 5.5, True))
    1.15
    """
    if not size.flat or size.board or abs(size.width - size.thickness) < 0.01:
        return 1.0
    thick = "4 in thick" if size.thickness > 2.6 else "2-3 in thick"
    return _factor("Cfu", "Fb", size.nominal, thick)


def size_of(thickness: Fraction, width: Fraction, *, flat: bool) -> Size:
    """A section as a beam, from exact sizes."""
    return Size(float(thickness), float(width), flat)
