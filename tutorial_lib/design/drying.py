"""How boards shrink between the yard and the room: one figure from the species, for rules, facts and words."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.design.model import Build, Section
from tutorial_lib.tables.wood import species

UNKNOWN_MOVES = 0.0027  # tangential, per % moisture, where the table has none; our guess from the other softwoods


def tangential(name: str) -> float:
    """Movement of a flat-sawn board across its width, per % of moisture. Wood Handbook Table 13-5."""
    return species(name).tangential or UNKNOWN_MOVES


def moved(size: Fraction, coefficient: float, before: float, after: float) -> Fraction:
    """Change of a size across the grain [same unit as size], below 0 when it shrinks.

    Args:
        size: at the moisture before.
        coefficient: per % moisture, radial or tangential.
        before, after: moisture content [%], between 6 and 14 by the table's scope.

    D C (MF - MI), Wood Handbook ch. 13.

    >>> float(moved(Fraction(232), 0.00245, 8, 11))
    1.7052
    """
    return size * Fraction(str(coefficient)) * (Fraction(str(after)) - Fraction(str(before)))


def to_room(build: Build, section: Section, size: Fraction) -> Fraction:
    """Change of a size across a section's grain from the yard to the room [in]."""
    wood = build.options.wood
    return moved(size, tangential(section.species or wood.species), wood.moisture_bought, wood.moisture_room)


def dried_gap(build: Build, gap: Fraction) -> Fraction:
    """A gap beside a slat once the boards are as dry as the room [in]: it grows by what a slat's width shrinks."""
    slat = build.part("slat").section
    return gap - to_room(build, slat, slat.width)
