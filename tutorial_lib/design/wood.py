"""The wood of a section: its species and grade as the tables know them, or refused at the door."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib import tables
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError


def wood_of(options: Options, name: str, use: str, width: Fraction) -> tuple[str, str]:
    """Species (as the tables name it) and grade of a section.

    Args:
        options: the build file.
        name: the section, "2x6".
        use: what it is for, "rail", named in the error.
        width: its larger size [in].

    Raises:
        InputError: a species that no table knows, a grade that is not known or not sold that wide.
    """
    own = options.lumber.get(name)
    own_species, own_grade = (own.species, own.grade) if own else ("", "")
    species, grade = own_species or options.wood.species, own_grade or options.wood.grade
    group = tables.species(species, f"lumber.{name}.species" if own_species else "wood.species").name
    where = f"lumber.{name}.grade" if own_grade else "wood.grade"
    try:
        tables.design_values(group, grade, tables.nominal_width(width))
    except InputError as error:
        way = "" if own_grade else f" Or give the {use} a grade of its own: grade under [lumber.{name}]."
        raise InputError([Fault(where, f"{use} {name}: {fault.what}{way}") for fault in error.faults]) from None
    return group, group if group in tables.STRENGTH_CLASSES else grade
