"""What pieces weigh, from species and moisture."""

from __future__ import annotations

from collections.abc import Iterable
from math import pi

from tutorial_lib.design.model import Build, Piece, Section
from tutorial_lib.tables.wood import species

STEEL = 490  # [lb/ft3]; handbook value, from memory
TUBE_WALL = 0.083  # [in] 14 gauge; our assumption, the tube's own figure is better
CUBIC_INCHES = 1728
KG = 0.45359237  # in a pound, exact by definition


def weight(piece: Piece, section: Section, moisture: float, wood: str = "") -> float:
    """Weight of one piece [lb] at a moisture content [%]; ``wood`` where the section names none.

    Volume times density by NDS Supplement 3.1.3 (from memory); steel by volume.
    """
    if section.steel or piece.shape != "box":
        return _steel_volume(piece) * STEEL / CUBIC_INCHES
    x, y, z = piece.box.size
    return float(x * y * z) * species(section.species or wood).density(moisture) / CUBIC_INCHES


def _steel_volume(piece: Piece) -> float:
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
