"""Species: density, movement, hardness; and the design values and factors of graded lumber."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Literal

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.records import dataclass
from tutorial_lib.tables.rows import plain, rows, unknown

WATER = 62.4  # [lb/cu ft]
WIDE = 8  # [in] nominal: not sold as Stud from here on
STRENGTH_CLASSES = ("C16", "C24", "MGP10", "MGP12")  # of EN 338 and AS/NZS 1748: wood and grade in one
SIZE_INCLUDED = ("Southern Pine", *STRENGTH_CLASSES)  # a class's depth factor is left out: it is above 1
LEFT_OPEN = "No.2"  # the grade of a build file that states none
Property = Literal["Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin"]


@dataclass(frozen=True, kw_only=True)
class Species:
    """A wood as it is bought: a group of species at the yard, or one species."""

    name: str
    aliases: tuple[str, ...]
    kind: str  # "softwood" | "hardwood"
    gravity: float  # specific gravity on the basis below
    gravity_basis: str  # "oven-dry" (NDS) | "12 %" (oven-dry mass, volume at 12 %)
    radial: float | None  # movement per 1 % of moisture, quarter-sawn
    tangential: float | None  # movement per 1 % of moisture, flat-sawn
    hardness: float | None  # [lbf] side
    source: str
    status: str

    def density(self, moisture: float = 12.0) -> float:
        """Weight [lb/cu ft] at a moisture content [%].

        Oven-dry G: NDS Supplement 3.1.3, 62.4 G / (1 + 0.009 G M) (1 + M/100), from memory. G at 12 %: Wood
        Handbook Eq. 4-6, the volume taken as that at 12 %.

        >>> round(species("SPF").density(12), 1)
        28.1
        """
        swollen = 1 + 0.009 * self.gravity * moisture if self.gravity_basis == "oven-dry" else 1
        return WATER * self.gravity / swollen * (1 + moisture / 100)


@dataclass(frozen=True)
class WeightOnly:
    """A wood of which the weight is known and no published strength: a plan of it comes without strength."""

    species: Species

    @property
    def why(self) -> str:
        """Why no strength can be told, in words."""
        return f"Of {self.species.name} only the weight is known here, no published strength."


@dataclass(frozen=True, kw_only=True)
class DesignValues:
    """Reference design values of one grade [psi]; no factor applied."""

    species: str
    grade: str
    size_class: str
    widths: str  # nominal widths the row is for, "" for all its class allows
    Fb: float
    Ft: float
    Fv: float
    Fc_perp: float
    Fc: float
    E: float
    Emin: float
    gravity: float
    source: str
    status: str
    note: str = ""

    def __hash__(self) -> int:
        """By its names alone: limits are looked up by it far more often than it is made."""
        return hash((self.species, self.grade, self.size_class, self.widths))

    @property
    def size_included(self) -> bool:
        """True where the width is already in the value, so that no size factor is due."""
        return self.species in SIZE_INCLUDED

    @property
    def flat_use(self) -> bool:
        """True where boards laid flat have a factor: in the NDS's tables, not in Europe's."""
        return self.species not in STRENGTH_CLASSES


@dataclass(frozen=True, kw_only=True)
class Factor:
    """An adjustment factor with the condition it holds under."""

    name: str  # "CF", "Cfu", "CD" ...
    condition: str
    applies_to: str
    widths: str
    value: float | None  # None where the table holds a formula
    source: str
    status: str


@cache
def all_species() -> tuple[Species, ...]:
    """Groups sold as construction lumber, then single species."""
    groups = [
        Species(
            name=r["name"], aliases=tuple(r["aliases"].split(";")), kind=r["kind"], gravity=float(r["gravity"]),
            gravity_basis=r["gravity_basis"], radial=_float(r["radial"]), tangential=_float(r["tangential"]),
            hardness=_float(r["hardness_lbf"]), source=r["source"], status=r["status"],
        )
        for r in rows("lumber_groups.csv")
    ]  # fmt: skip
    return tuple(groups + [_single_species(row) for row in rows("species_physical.csv")])


def _single_species(row: dict[str, str]) -> Species:
    family, _, which = row["species"].partition(", ")
    alias = (f"{which} {family}",) if which else ()
    movement = row["source_movement"] or "movement: none seen"
    return Species(
        name=row["species"], aliases=alias, kind=row["group"], gravity=float(row["G_12"]), gravity_basis="12 %",
        radial=_float(row["CR_radial_per_pct"]), tangential=_float(row["CT_tangential_per_pct"]),
        hardness=_float(row["side_hardness_lbf"]), source=f"{row['source_mech']}; {movement}",
        status=f"{row['status_mech']}; movement {row['status_movement'] or 'not known'}",
    )  # fmt: skip


def species(name: str, where: str = "") -> Species:
    """A wood by its name or the letters of its stamp.

    >>> species("SPF").gravity, species("white oak").kind
    (0.42, 'hardwood')
    """
    for wood in all_species():
        if plain(name) in {plain(word) for word in (wood.name, *wood.aliases)}:
            return wood
    known = [word for wood in all_species() for word in (wood.name, *wood.aliases)]
    raise unknown("species", name, known, where)


@cache
def design_value_rows() -> tuple[DesignValues, ...]:
    """All grades of all species groups."""
    return tuple(_design_row(row) for row in rows("design_values.csv"))


def _design_row(row: dict[str, str]) -> DesignValues:
    fb, ft, fv, fc_perp, fc, e, e_min = (
        float(row[f"{key}_psi"]) for key in ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin")
    )
    return DesignValues(
        species=row["species"], grade=row["grade"], size_class=row["size_class"], widths=row["nominal_width_in"],
        Fb=fb, Ft=ft, Fv=fv, Fc_perp=fc_perp, Fc=fc, E=e, Emin=e_min, gravity=float(row["G"]), source=row["source"],
        status=row["status"], note=row["note"],
    )  # fmt: skip


@cache
def species_names() -> tuple[str, ...]:
    """Species groups with published design values, as they are stamped."""
    return tuple(dict.fromkeys(row.species for row in design_value_rows()))


@lru_cache(maxsize=64)
def grades_of(species_name: str) -> tuple[str, ...]:
    """Grades with published values for a species group, each by the name it is sold under."""
    grades = (row.grade for row in design_value_rows() if row.species == species(species_name).name)
    return tuple(dict.fromkeys(name for grade in grades for name in grade.split("/")))


def design_values(species_name: str, grade: str, width: int, where: str = "") -> DesignValues | WeightOnly:
    """The row for a species, grade and nominal width, or that of this wood only the weight is known.

    Args:
        species_name: group as stamped, "SPF", "Douglas Fir-Larch" ..., or a single species.
        grade: "No.2", "#2", "Stud", "Select Structural" ...; "No.2" of SPF is its joint row "No.1/No.2".
        width: nominal width [in].
        where: the place named in an error.

    Raises:
        InputError: the species or grade is not known, or the grade is not sold that wide.

    NDS Supplement 2018, Tables 4A and 4B. 8 in and wider is not sold as "Stud" (Table 4A, footnote 1).

    >>> design_values("SPF", "No.2", 6).Fb, design_values("SPF", "Stud", 4).Fb
    (875.0, 675.0)
    >>> design_values("Walnut, Black", "No.2", 4).why
    'Of Walnut, Black only the weight is known here, no published strength.'
    """
    wood = species(species_name, where)
    grade = wood.name if wood.name in STRENGTH_CLASSES and grade == LEFT_OPEN else grade
    of_group = [row for row in design_value_rows() if row.species == wood.name]
    if not of_group:
        return WeightOnly(wood)
    named = _of_grade(of_group, wood.name, grade, where)
    if _plain_grade(grade) == "stud" and width >= WIDE:
        raise InputError(Fault(where, f"lumber {width} in wide is not sold as Stud; its values are those of No.3."))
    fitting = [row for row in named if _covers(row.widths or _class_widths(row.size_class), width)]
    if not fitting:
        sizes = _sold_widths(named)
        what = f"{wood.name} {grade} is graded {sizes} in wide, not {width} in (nominal); choose No.2."
        raise InputError(Fault(where, what))
    return fitting[0]


def _of_grade(rows: list[DesignValues], wood: str, grade: str, where: str) -> list[DesignValues]:
    """The rows of a grade; refuses one that isn't known."""
    named = [row for row in rows if _same_grade(row.grade, grade)]
    if not named:
        raise unknown(f"grade of {wood}", grade, grades_of(wood), where)
    return named


def _sold_widths(rows_of_grade: list[DesignValues]) -> str:
    ends = [end for row in rows_of_grade for end in _ends(row.widths or _class_widths(row.size_class))]
    low, high = min(ends), max(ends)
    return f"{low}" if low == high else f"{low} to {high}"


def size_factor(values: DesignValues, of: Property, thickness: float, width: int) -> Factor:
    """CF for a property of a row, by nominal thickness and width [in]; 1 where the size is in the value.

    NDS Supplement 2018, Table 4A. Under 2 in thick the column of 2-3 in serves: out of its scope, our choice.

    >>> size_factor(design_values("SPF", "No.2", 6), "Fb", 2, 6).value
    1.3
    """
    if of not in ("Fb", "Ft", "Fc") or values.size_included:
        why = "size is in the tabulated value" if values.size_included else "no size factor for this property"
        wide = values.species == "Southern Pine" and of == "Fb" and thickness >= 4 and width >= 8
        return Factor(
            name="CF", condition="Southern Pine, 4x8 and larger" if wide else why, applies_to=of, widths="",
            value=1.1 if wide else 1.0, source=values.source, status=values.status,
        )  # fmt: skip
    return _pick("CF", _size_condition(values.grade, thickness, width, of), of, width)


def flat_use_factor(thickness: float, width: int) -> Factor:
    """Cfu for a board laid flat, by nominal thickness and width [in]. NDS Supplement 2018, Table 4A.

    >>> flat_use_factor(2, 4).value, flat_use_factor(2, 6).value
    (1.1, 1.15)
    """
    return _pick("Cfu", "4 in thick" if thickness >= 4 else "2-3 in thick", "Fb", width)


@lru_cache(maxsize=64)
def factors(name: str | None = None) -> tuple[Factor, ...]:
    """Adjustment factors, all or those of one name ("CD", "CM", "Cr" ...)."""
    return tuple(
        Factor(
            name=r["factor"], condition=r["condition"], applies_to=r["applies_to"], widths=r["nominal_width_in"],
            value=_number(r["value"]), source=r["source"], status=r["status"],
        )
        for r in rows("adjustment_factors.csv")
        if name in (None, r["factor"])
    )  # fmt: skip


def duration_factor(condition: str) -> Factor:
    """CD by the start of its condition: "permanent", "ten years", "seven days", "ten minutes" ... NDS Table 2.3.2."""
    for factor in factors("CD"):
        if factor.condition.startswith(condition):
            return factor
    raise unknown("load duration", condition, (factor.condition for factor in factors("CD")))


def _pick(name: str, condition: str, of: str, width: int) -> Factor:
    """The row of the widest tabulated width not above this one (the narrowest for a narrower board)."""
    of_kind = sorted(
        (f for f in factors(name) if f.applies_to == of and condition in f.condition), key=lambda f: _ends(f.widths)
    )
    fitting = [f for f in of_kind if _ends(f.widths)[0] <= width] or of_kind[:1]
    return fitting[-1]


def _size_condition(grade: str, thickness: float, width: int, of: str) -> str:
    if grade == "Stud" and width < 8:
        return "Stud, 2-4 in wide" if width <= 4 else "Stud, 5-6 in wide"
    if grade in ("Construction", "Standard"):
        return "Construction, Standard"
    if grade == "Utility":
        return "Utility"
    if of == "Fb":
        return "No.3; 4 in thick" if thickness >= 4 else "No.3; 2-3 in thick"
    return "No.3; 2-4 in thick"


def _same_grade(of_row: str, asked: str) -> bool:
    return _plain_grade(asked) in {plain(of_row), *(plain(part) for part in of_row.split("/"))}


def _plain_grade(asked: str) -> str:
    wanted = plain(asked).replace("number", "no").replace("#", "no").removesuffix("grade")
    wanted = f"no{wanted}" if wanted in ("1", "2", "3") else wanted
    return {"ss": "selectstructural", "selstr": "selectstructural"}.get(wanted, wanted)


def _class_widths(size_class: str) -> str:
    """Widths of a size class: "2-4 in thick, 2-4 in wide" -> "2-4"; "2 in and wider" -> any."""
    last = size_class.rsplit(", ", 1)[-1]
    return last.removesuffix(" in wide") if last.endswith("in wide") else "2-99"


def _covers(widths: str, width: int) -> bool:
    low, high = _ends(widths)
    return low <= width <= high


def _ends(widths: str) -> tuple[int, int]:
    low, _, high = widths.partition("-")
    return int(low), int(high or low)


def _float(text: str) -> float | None:
    return float(text) if text else None


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None
