"""What the bed weighs: one density of each section's wood, one weight of each piece, as moist as it was bought."""

from __future__ import annotations

from collections.abc import Iterable
from math import pi

from tutorial_lib.design.model import Build, Piece, Section
from tutorial_lib.tables.wood import species

STEEL = 490  # [lb/cu ft]; handbook value, from memory
TUBE_WALL = 0.083  # [in] 14 gauge; our assumption, the tube's own figure is better
CUBIC_INCHES = 1728  # in a cubic foot


def density(section: Section, moisture: float, wood: str = "") -> float:
    """Weight of a section's wood [lb/cu ft] at a moisture content [%]; ``wood`` where the section names none.

    NDS Supplement 3.1.3 (from memory); steel by its own.
    """
    return STEEL if section.steel else species(section.species or wood).density(moisture)


def weight(piece: Piece, section: Section, moisture: float, wood: str = "") -> float:
    """Weight of one piece [lb] at a moisture content [%]: its volume times its density."""
    return _volume(piece) * density(section, moisture, wood) / CUBIC_INCHES


def _volume(piece: Piece) -> float:
    """[cu in]; a tube's is its wall's."""
    x, y, z = (float(side) for side in piece.box.size)
    if piece.shape != "tube":
        return x * y * z
    across = sorted((x, y, z))[0]
    return pi * (across - TUBE_WALL) * TUBE_WALL * float(piece.length)


def weights(build: Build) -> dict[str, float]:
    """Weight of every piece by label [lb], as moist as it was bought: the heaviest it will be."""
    wood = build.options.wood
    return {
        piece.label: weight(piece, part.section, wood.moisture_bought, wood.species)
        for part in build.parts
        for piece in part.pieces
    }


def total(labels: Iterable[str], each: dict[str, float]) -> float:
    """Weight of several pieces [lb]."""
    return sum(each[label] for label in labels)


def bed_weight(build: Build) -> float:
    """Weight of the whole bed without its mattress [lb], screws not counted."""
    return sum(weights(build).values())
