"""The units of ``units.txt`` as so many of its base units, so that a plain conversion needs no pint.

pint takes longer to load than a bed to plan, in a browser above all. What isn't understood here (an offset, another
spelling, nonsense) is left to pint; a test holds the two to each other.
"""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from functools import cache, lru_cache
from pathlib import Path

from tutorial_lib.records import dataclass

DEFINITIONS = Path(__file__).with_name("units.txt")
KEPT = 256  # names that are remembered; a person may write any
TERM = re.compile(r"\s*([*/]?)\s*(?:([A-Za-z_]+)|([0-9][0-9.e-]*))(?:\s*\*\*\s*([0-9]))?\s*")


@dataclass(frozen=True)
class Measure:
    """A unit as so many of the base units."""

    size: Fraction
    powers: tuple[tuple[str, int], ...] = ()  # base unit and its power, sorted


def ratio(unit: str, to: str) -> Fraction | None:
    """How many of ``to`` are in one ``unit``; None where that can't be told here.

    >>> ratio("ft**2", "in**2"), ratio("degF", "degC"), ratio("lb", "in")
    (Fraction(144, 1), None, None)
    """
    one, other = _product(unit), _product(to)
    if one is None or other is None or one.powers != other.powers:
        return None
    return one.size / other.size


def _factor(term: re.Match[str] | None, later: bool, figures: bool) -> Measure | None:
    """One factor of a product: a unit, or a figure; each but the first behind its sign."""
    if term is None or bool(term[1]) != later or (term[3] and not figures):
        return None
    return _named(term[2]) if term[2] else Measure(Fraction(term[3]))


@lru_cache(maxsize=KEPT)
def _product(text: str, figures: bool = False) -> Measure | None:
    """Units multiplied and divided: "lb/ft**3"; None where some is unknown here. Figures only in a definition."""
    size, powers, place = Fraction(1), Counter[str](), 0
    while place < len(text):
        term = TERM.match(text, place)
        measure = _factor(term, bool(place), figures)
        if term is None or measure is None:
            return None
        power = int(term[4] or 1) * (-1 if term[1] == "/" else 1)
        size *= measure.size**power
        powers.update({name: of * power for name, of in measure.powers})
        place = term.end()
    return Measure(size, tuple(sorted((name, n) for name, n in powers.items() if n))) if place else None


@lru_cache(maxsize=KEPT)
def _named(name: str) -> Measure | None:
    """One unit by any of its names, with or without a prefix."""
    units, prefixes = _definitions()
    if name in units:
        first, made = units[name]
        return Measure(Fraction(1), ((first, 1),)) if made.startswith("[") else _product(made, figures=True)
    for prefix, times in prefixes.items():
        unit = _named(name.removeprefix(prefix)) if name.startswith(prefix) and name != prefix else None
        if unit is not None:
            return Measure(times * unit.size, unit.powers)
    return None


@cache
def _definitions() -> tuple[dict[str, tuple[str, str]], dict[str, Fraction]]:
    """Each name of a unit with the unit's first name and what it is made of; the prefixes. An offset is not ours."""
    units: dict[str, tuple[str, str]] = {}
    prefixes: dict[str, Fraction] = {}
    for row in DEFINITIONS.read_text(encoding="utf-8").splitlines():
        if "=" in row and row[0] != "#" and not {";", "[]"} & {*row, row.split("=")[1].strip()}:
            first, made, *others = (cell.strip() for cell in row.split("="))
            if first.endswith("-"):
                prefixes |= {cell[:-1]: Fraction(made) for cell in (first, *others)}
            else:
                units |= dict.fromkeys((first, *others), (first, made))
    return units, prefixes
