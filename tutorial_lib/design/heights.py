"""The stack of heights: whichever one is given, the others follow."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.design.model import Section
from tutorial_lib.design.options import Options
from tutorial_lib.design.under_bed import wanted_height
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

CHOSEN_RECESS = Fraction(3, 2)  # [in] our choice where the build file leaves it open


@dataclass(frozen=True, kw_only=True)
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


def stack(options: Options, rail: Section, support: Section, slat: Section, line: Section) -> Stack:
    """All levels from the one height that is given.

    Args:
        options: the build's options.
        rail: section of the rails.
        support: section of cleats or runners.
        slat: section of the slats.
        line: section of the centre lines, if there are any.

    Raises:
        DesignError: no room for a leg, or a recess that can't be had.
    """
    runners = options.support.kind == "runners"
    recess = _recess(options, rail, support, slat)
    deep = support.thickness if runners else support.width
    down_to_slat = recess + slat.thickness  # rail top to slat underside
    down_to_support = (rail.width if runners else down_to_slat) + deep
    down_to_leg = _down_to_leg(options, rail, down_to_slat, down_to_support)
    leveller = options.legs.leveller
    down_to_side = max(rail.width, down_to_support)
    down = _Down(
        side=down_to_side,
        lowest=max(down_to_side, down_to_slat + _hangs(options, support, line)),
        slat_top=recess,
        leg=down_to_leg + leveller,
    )
    top = _top(options, down)
    leg = top - down_to_leg - leveller
    if leg <= 0 or top - rail.width < 0:
        raise DesignError(
            Fault(
                "heights",
                f"leaves {writer(options.build.units).length(max(leg, Fraction(0)))} for the legs; raise the bed or "
                "use shallower rails.",
            )
        )
    return Stack(
        rail_top=top,
        rail_bottom=top - rail.width,
        slat_top=top - recess,
        slat_bottom=top - down_to_slat,
        support_bottom=top - down_to_support,
        leg_top=top - down_to_leg,
        leg=leg,
        leveller=leveller,
        recess=recess,
    )


@dataclass(frozen=True, kw_only=True)
class _Down:
    """From the rail's top down to each level that may be given [in]."""

    side: Fraction
    lowest: Fraction
    slat_top: Fraction
    leg: Fraction


def _top(options: Options, down: _Down) -> Fraction:
    """The rail's top above the floor [in], from the height that is given."""
    heights = options.heights
    if heights.underside is not None:
        return heights.underside + down.side
    free = wanted_height(options) if not heights.given else heights.storage
    if free is not None:
        return free + down.lowest
    if heights.mattress_top is not None:
        return heights.mattress_top - _on_slats(options, heights.mattress_top) + down.slat_top
    if heights.sleeping is not None:
        return heights.sleeping + down.slat_top
    return (heights.leg or Fraction(0)) + down.leg


def _on_slats(options: Options, wanted: Fraction) -> Fraction:
    """What lies on the slats: mattress and box spring [in]."""
    thick, w = options.mattress.thickness, writer(options.build.units)
    if thick is None:
        raise DesignError(
            Fault(
                "heights.mattress_top",
                f"= {w.length(wanted)} needs the mattress's own height: measure it and state mattress.thickness.",
            )
        )
    return thick + (options.mattress.box_spring or 0)


def _hangs(options: Options, support: Section, line: Section) -> Fraction:
    """How far centre lines, and the blocks under their ends, hang below the slats [in]."""
    centre = options.centre
    if not centre.lines:
        return Fraction(0)
    deep = line.width if centre.kind == "beam" else line.thickness
    blocks = centre.ends == "block" and options.support.kind == "cleats"
    return deep + (support.width if blocks else 0)


def _down_to_leg(options: Options, rail: Section, down_to_slat: Fraction, down_to_support: Fraction) -> Fraction:
    """From the rail's top down to the top of a side leg [in]."""
    if options.support.kind == "runners" or options.leg_place == "under":
        return down_to_support
    return rail.width if options.leg_place == "under the rail" else down_to_slat


def recess_limits(options: Options) -> tuple[Fraction, Fraction]:
    """The least and greatest recess that the rules ask for [in]: our choice."""
    if options.slats.carries == "box spring":
        return Fraction(1), Fraction(2)
    thick = options.mattress.thickness
    return Fraction(3, 2), Fraction(3) if thick is None else min(Fraction(3), thick / 2)


def _recess(options: Options, rail: Section, support: Section, slat: Section) -> Fraction:
    stated = options.support.recess
    if options.support.kind == "runners":
        return _recess_on_runners(options, rail.width - slat.thickness)
    level = rail.width - slat.thickness - support.width  # cleat and rail end level, and both stand on the leg
    if stated is None:
        low, high = recess_limits(options)
        usual = min(CHOSEN_RECESS, high)
        if options.leg_place != "under the rail":
            return usual
        return level if low <= level <= high else min(usual, level)
    if options.leg_place == "under the rail" and stated > level:
        units = options.build.units
        raise DesignError(
            Fault(
                "support.recess",
                f"= {writer(units).length(stated)} puts the cleats {writer(units).length(stated - level)} below the "
                f"rails, so that no rail reaches the leg under it; use {writer(units).length(max(level, Fraction(0)))} "
                'or less, deeper rails, or legs.place = "under".',
            )
        )
    return stated


def _recess_on_runners(options: Options, follows: Fraction) -> Fraction:
    stated = options.support.recess
    if stated is not None and stated != follows:
        units = options.build.units
        raise DesignError(
            Fault(
                "support.recess",
                f"= {writer(units).length(stated)} can't be had on runners: slats lie on the "
                f"runner, so the recess is rail less slat, {writer(units).length(follows)}. "
                "Leave recess out, or use cleats.",
            )
        )
    return follows
