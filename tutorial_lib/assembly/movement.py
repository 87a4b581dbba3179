"""What the boards do between the yard and the bedroom: they dry, shrink across the grain, and move with the seasons."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from tutorial_lib.design.drying import dried_gap, moved, tangential, to_room
from tutorial_lib.design.model import Build
from tutorial_lib.design.parts import LEG_KEYS
from tutorial_lib.records import dataclass
from tutorial_lib.tables.finishing import moisture_at

WINTER, SUMMER = 30, 65  # [%] relative humidity in a heated and a summer bedroom; our choice
FIRST_DAYS = 30  # common practice, no source
HEATING_ENDS = (3, 1)  # 1 March: the wood is at its driest; northern winter, our choice


@dataclass(frozen=True, kw_only=True)
class Movement:
    """Changes of size between two states of the wood."""

    bought: float  # [%] moisture content
    room: float  # [%]
    winter: float  # [%]
    summer: float  # [%]
    slat: Fraction  # [in] change of a slat's width from yard to room, below 0 when it shrinks
    gap: tuple[Fraction, Fraction, Fraction]  # [in] as built, dried, in summer
    rail: Fraction  # [in] change of a rail's depth, yard to room
    grip: Fraction  # [in] change of the wood under a leg's bolt or screw, yard to room
    play: Fraction  # [in] slat's end play in the room: along the grain wood hardly moves
    tangential: float  # coefficient used, per % moisture


def movement(build: Build) -> Movement:
    """What the build's boards do. Flat-sawn boards are assumed: the larger coefficient, across their width."""
    wood, gap = build.options.wood, build.slats.gap
    slat, rail = build.part("slat").section, build.part("side_rail").section
    coefficient = tangential(slat.species or wood.species)
    winter, summer = moisture_at(WINTER), moisture_at(SUMMER)
    damp = moved(slat.width, coefficient, wood.moisture_bought, summer)
    grip = rail.thickness + max((p.section.thickness for p in build.parts if p.use in LEG_KEYS), default=Fraction(0))
    return Movement(
        bought=wood.moisture_bought,
        room=wood.moisture_room,
        winter=winter,
        summer=summer,
        slat=to_room(build, slat, slat.width),
        gap=(gap, dried_gap(build, gap), gap - damp),
        rail=to_room(build, rail, rail.width),
        grip=to_room(build, rail, grip),
        play=build.options.slats.play,
        tangential=coefficient,
    )


def retighten(today: date) -> tuple[date, date]:
    """When to go round with the driver: after a month, and at the end of the first heating season.

    >>> retighten(date(2026, 5, 2))
    (datetime.date(2026, 6, 1), datetime.date(2027, 3, 1))
    """
    first = today + timedelta(days=FIRST_DAYS)
    season = date(first.year, *HEATING_ENDS)
    return first, season if season > first else date(first.year + 1, *HEATING_ENDS)
