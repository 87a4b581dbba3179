"""What the boards do between the yard and the bedroom: they dry, shrink across the grain, and move with the seasons."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from tutorial_lib.design.model import Build
from tutorial_lib.tables.finishing import moisture_at
from tutorial_lib.tables.wood import species

WINTER, SUMMER = 30, 65  # [%] relative humidity in a heated and a summer bedroom; our choice
UNKNOWN_MOVES = 0.0027  # tangential, per % moisture, where the table has none; our guess from the other softwoods
FIRST_DAYS = 30  # common practice, no source
HEATING_ENDS = (3, 1)  # 1 March: the wood is at its driest; northern winter, our choice


@dataclass(frozen=True)
class Movement:
    """Changes of size between two states of the wood."""

    bought: float  # [%] moisture content
    room: float  # [%]
    winter: float  # [%]
    summer: float  # [%]
    slat: float  # [in] change of a slat's width from yard to room, below 0 when it shrinks
    gap: tuple[float, float, float]  # [in] as built, dried, in summer
    rail: float  # [in] change of a rail's depth, yard to room
    grip: float  # [in] change of the wood under a leg's bolt or screw, yard to room
    play: float  # [in] slat's end play in the room: along the grain wood hardly moves
    tangential: float  # coefficient used, per % moisture


def change(size: float, coefficient: float, before: float, after: float) -> float:
    """Change of a size across the grain [same unit as size].

    Args:
        size: at the moisture before.
        coefficient: per % moisture, radial or tangential.
        before, after: moisture content [%], between 6 and 14 by the table's scope.

    D C (MF - MI), Wood Handbook ch. 13.

    >>> round(change(232, 0.00245, 8, 11), 3)
    1.705
    """
    return size * coefficient * (after - before)


def tangential(name: str) -> float:
    """Movement of a flat-sawn board across its width, per % of moisture. Wood Handbook Table 13-5."""
    return species(name).tangential or UNKNOWN_MOVES


def movement(build: Build) -> Movement:
    """What the build's boards do. Flat-sawn boards are assumed: the larger coefficient, across their width."""
    wood = build.options.wood
    slat, rail = build.part("slat").section, build.part("side_rail").section
    c = tangential(slat.species or wood.species)
    winter, summer = moisture_at(WINTER), moisture_at(SUMMER)
    width, gap = float(slat.width), float(build.slats.gap)

    def moved(size: Fraction) -> float:
        return change(float(size), tangential(rail.species or wood.species), wood.moisture_bought, wood.moisture_room)

    dry = change(width, c, wood.moisture_bought, wood.moisture_room)
    damp = change(width, c, wood.moisture_bought, summer)
    grip = rail.thickness + max((p.section.thickness for p in build.parts if "leg" in p.key), default=Fraction(0))
    return Movement(
        wood.moisture_bought,
        wood.moisture_room,
        winter,
        summer,
        dry,
        (gap, gap - dry, gap - damp),
        moved(rail.width),
        moved(grip),
        float(build.options.slats.play),
        c,
    )


def retighten(today: date) -> tuple[date, date]:
    """When to go round with the driver: after a month, and at the end of the first heating season.

    >>> retighten(date(2026, 5, 2))
    (datetime.date(2026, 6, 1), datetime.date(2027, 3, 1))
    """
    first = today + timedelta(days=FIRST_DAYS)
    season = date(first.year, *HEATING_ENDS)
    return first, season if season > first else date(first.year + 1, *HEATING_ENDS)
