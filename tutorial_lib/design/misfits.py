"""Choices that can't be had together: refused at once and by name, so that no stated value is quietly left aside."""

from __future__ import annotations

from collections.abc import Iterator

from tutorial_lib.design.model import LINE_LETTERS
from tutorial_lib.design.options import Options
from tutorial_lib.design.plinth import refuse_plinths
from tutorial_lib.design.post_misfits import of_posts
from tutorial_lib.design.sheet_decks import refuse_sheets
from tutorial_lib.design.sizes import Sizes, resolve
from tutorial_lib.errors import DesignError, Fault, InputError
from tutorial_lib.measures import writer


def sizes_of(options: Options) -> Sizes:
    """All sizes of a bed whose choices can be had together.

    Raises:
        InputError: with every section, species, grade or mattress that no table knows.
        DesignError: with all choices that don't go together, and the former.
    """
    faults: list[Fault] = []
    try:
        refuse_misfits(options)
    except DesignError as error:
        faults += error.faults
    try:
        sizes = resolve(options)
    except InputError as error:
        raise (DesignError([*faults, *error.faults]) if faults else error) from None
    if faults:
        raise DesignError(faults)
    return sizes


def refuse_misfits(options: Options) -> None:
    """Every stated choice must be one that this construction has.

    Raises:
        DesignError: with all that don't fit.
    """
    judges = (refuse_sheets, refuse_plinths, _of_supports, _of_slats, _of_halves, _of_legs, _of_legs_left_out, of_posts)
    faults = [fault for judge in judges for fault in judge(options)]
    if faults:
        raise DesignError(faults)


def _of_supports(options: Options) -> Iterator[Fault]:
    if options.support.kind == "cleats":
        return
    play, units = options.support.end_play, options.build.units
    if play:
        yield Fault(
            "support.end_play",
            f"= {writer(units).length(play)} is for cleats; runners go from end to end. Leave it out, or use cleats.",
        )
    if options.centre.lines and options.centre.ends != "leg":
        yield Fault(
            "centre.ends",
            f'= "{options.centre.ends}" is for cleats; on runners the lines run on under the end rails. Leave it out.',
        )


def _of_slats(options: Options) -> Iterator[Fault]:
    slats = options.slats
    if slats.edge_gap is not None and slats.edge != "fixed":
        gap = writer(options.build.units).length(slats.edge_gap)
        yield Fault(
            "slats.edge_gap",
            f'= {gap} is for slats.edge = "fixed"; with "{slats.edge}" the ends follow. Leave it out.',
        )


def _of_halves(options: Options) -> Iterator[Fault]:
    if options.slats.halves and options.centre.lines != 1:
        yield Fault(
            "slats.halves",
            f"= true wants one line under the middle for both halves to end on (centre.lines is "
            f"{options.centre.lines}); set centre.lines = 1, or leave halves out.",
        )


def _of_legs_left_out(options: Options) -> Iterator[Fault]:
    legs, centre = options.legs, options.centre
    rows = [("L", legs.per_side), ("R", legs.per_side)] + [(x, centre.legs) for x in LINE_LETTERS[: centre.lines]]
    known = [f"{letter}{number}" for letter, count in rows for number in range(1, count + 1)]
    for label in legs.omit:
        if label not in known:
            yield Fault("legs.omit", f'has "{label}", and there is no such leg; there are {", ".join(known)}.')


def _of_legs(options: Options) -> Iterator[Fault]:
    legs, runners, units = options.legs, options.support.kind == "runners", options.build.units
    if legs.glue_blocks is not None and legs.kind != "corner L":
        yield Fault(
            "legs.glue_blocks",
            f'= "{legs.glue_blocks}" goes into the corner of an L of two boards; with legs.kind = "{legs.kind}" there '
            'is none. Leave it out, or say legs.kind = "corner L".',
        )
    if runners and legs.place == "inside":
        yield Fault("legs.place", '= "inside" needs cleats; under runners use "under the rail" or "under".')
    elif legs.side_setback is not None and not runners:
        yield Fault("legs.side_setback", "is for legs under runners; with cleats leave it out.")
    elif legs.side_setback and options.leg_place == "under the rail":
        yield Fault(
            "legs.side_setback",
            f"= {writer(units).length(legs.side_setback)} is not under the rail; leave it out, or say "
            'legs.place = "under".',
        )
    yield from _of_leg_bolts(options)


def _of_leg_bolts(options: Options) -> Iterator[Fault]:
    runners = options.support.kind == "runners"
    if options.screws.leg.kind == "carriage bolt" and (runners or options.leg_place == "under the rail"):
        yield Fault(
            "screws.leg.kind",
            '= "carriage bolt" goes through a rail and a leg beside it; these legs stand under the wood they carry and '
            'take screws into their tops. Leave it out, or use legs.place = "under" with cleats.',
        )
