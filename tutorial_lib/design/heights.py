"""The stack of heights: whichever one is given, the others follow."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.design.model import Section
from tutorial_lib.design.options import Options
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import write_length

CHOSEN_RECESS = Fraction(3, 2)  # [in] our choice where the build file leaves it open


@dataclass(frozen=True)
class Stack:
    """Levels above the floor [in] before centre lines are known."""

    rail_top: Fraction
    rail_bottom: Fraction
    slat_top: Fraction
    slat_bottom: Fraction
    support_bottom: Fraction  # underside of cleat or runner
    leg_top: Fraction
    leg: Fraction
    leveller: Fraction
    recess: Fraction


def stack(options: Options, rail: Section, support: Section, slat: Section) -> Stack:
    """All levels from the one height that is given.

    Raises:
        DesignError: no room for a leg, or a recess that can't be had on runners.
    """
    runners = options.support.kind == "runners"
    recess = _recess(options, rail, slat)
    deep = support.thickness if runners else support.width
    down_to_slat = recess + slat.thickness  # rail top to slat underside
    down_to_support = (rail.width if runners else down_to_slat) + deep
    down_to_leg = _leg_top(options, down_to_slat, down_to_support)
    lowest = down_to_support if runners else rail.width
    heights, leveller = options.heights, options.legs.leveller
    if heights.underside is not None:
        top = heights.underside + lowest
    elif heights.sleeping is not None:
        top = heights.sleeping + recess
    else:
        top = (heights.leg or Fraction(0)) + leveller + down_to_leg
    leg = top - down_to_leg - leveller
    if leg <= 0 or top - rail.width < 0:
        raise DesignError(
            Fault(
                "heights",
                f"leaves {write_length(max(leg, Fraction(0)))} for the legs; raise the bed or use shallower rails.",
            )
        )
    return Stack(
        top,
        top - rail.width,
        top - recess,
        top - down_to_slat,
        top - down_to_support,
        top - down_to_leg,
        leg,
        leveller,
        recess,
    )


def _leg_top(options: Options, down_to_slat: Fraction, down_to_support: Fraction) -> Fraction:
    if options.legs.place == "under" or options.support.kind == "runners":
        return down_to_support
    return down_to_slat if options.legs.reach == "slats" else Fraction(0)


def _recess(options: Options, rail: Section, slat: Section) -> Fraction:
    stated = options.support.recess
    if options.support.kind == "cleats":
        return CHOSEN_RECESS if stated is None else stated
    follows = rail.width - slat.thickness
    if stated is not None and stated != follows:
        raise DesignError(
            Fault(
                "support.recess",
                f"= {write_length(stated)} can't be had on runners: slats lie on the "
                f"runner, so the recess is rail less slat, {write_length(follows)}. "
                "Leave recess out, or use cleats.",
            )
        )
    return follows
