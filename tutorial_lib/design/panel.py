"""The panel of a headboard: boards across, or two rails across with upright slats on their fronts.

Its height is counted from the mattress. Boards and slats follow from the greatest gap that is wanted; it is evened out.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from tutorial_lib.design.heights import Stack
from tutorial_lib.design.model import Box, Piece, Section
from tutorial_lib.design.options import Options
from tutorial_lib.design.sizes import Sizes, to_grid
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

TALLEST = Fraction(48)  # [in] of a headboard above the mattress; more is another piece of furniture (our choice)
BELOW = Fraction(1, 2)  # [in] from the end rail's top to the lower rail of upright slats (our choice)
LEAST_SEEN = Fraction(4)  # [in] of slats between the two rails; shorter ones are no slats any more (our choice)


@dataclass(frozen=True)
class Place:
    """Where the boards across go: from their backs forward, between two ends across the bed [in]."""

    back: Fraction
    ends: tuple[Fraction, Fraction]
    flush: bool  # the outermost slats end flush with the boards; else a gap stands there as between the slats


def top_of(options: Options, sizes: Sizes, level: Stack) -> Fraction | None:
    """How high the headboard reaches above the floor [in]; None where there is none.

    Raises:
        DesignError: a mattress of unknown thickness, or a headboard too high over it.
    """
    asked = options.headboard
    if asked.kind == "none":
        return None
    thick = options.mattress.thickness
    if thick is None:
        what = "is missing: the headboard's height is counted from the mattress's top."
        raise DesignError(Fault("mattress.thickness", what))
    if asked.over > TALLEST:
        w = writer(options.build.units)
        raise DesignError(
            Fault("headboard.over", f"= {w.length(asked.over)} is more than the {w.length(TALLEST)} we plan for.")
        )
    return to_grid(level.slat_top + (options.mattress.box_spring or 0) + thick + asked.over, sizes.grid)


def depth(options: Options, sizes: Sizes) -> Fraction:
    """From the backs of the boards across to the front of the panel [in]."""
    slats = sizes.headboard_slat.thickness if options.headboard.kind == "slats" else Fraction(0)
    return sizes.headboard.thickness + slats


def row(options: Options, sizes: Sizes, level: Stack, top: Fraction) -> tuple[int, Fraction]:
    """How many boards across, and the gap below each of them [in].

    Raises:
        DesignError: less room than one board.
    """
    room, wide = top - level.rail_top, sizes.headboard.width
    count = ceil(room / (wide + options.headboard.at_most))
    if count * wide > room:
        count = floor(room / wide)
    if count < 1:
        w = writer(options.build.units)
        raise DesignError(
            Fault(
                "headboard.over",
                f"leaves {w.length(max(room, Fraction(0)))} above the rail, and a board is {w.length(wide)} wide; "
                "raise the headboard, or use narrower boards.",
            )
        )
    return count, (room - count * wide) / count


def panel(options: Options, sizes: Sizes, level: Stack, top: Fraction, at: Place) -> Iterator[Piece]:
    """All pieces of the panel.

    Raises:
        DesignError: no room for a board, or for slats between two rails.
    """
    if options.headboard.kind == "slats":
        yield from _slatted(options, sizes, level, top, at)
        return
    count, gap = row(options, sizes, level, top)
    for i in range(count):
        low = level.rail_top + gap + i * (sizes.headboard.width + gap)
        yield _across(f"headboard {i + 1}", f"headboard board {i + 1}", low, sizes.headboard, at)


def _across(label: str, said: str, low: Fraction, board: Section, at: Place) -> Piece:
    """One board across, on edge."""
    box = Box((at.back, at.ends[0], low), (at.back + board.thickness, at.ends[1], low + board.width))
    return Piece(label=label, part="headboard", box=box, axis=1, said=said)


def _slatted(options: Options, sizes: Sizes, level: Stack, top: Fraction, at: Place) -> Iterator[Piece]:
    """Two rails, and the slats on their fronts, as long as the panel is high."""
    rail, slat, low = sizes.headboard, sizes.headboard_slat, level.rail_top + BELOW
    if top - low - 2 * rail.width < LEAST_SEEN:
        w = writer(options.build.units)
        raise DesignError(
            Fault(
                "headboard.over",
                f"leaves {w.length(max(top - low - 2 * rail.width, Fraction(0)))} of the slats between the headboard's "
                f"two rails, and {w.length(LEAST_SEEN)} is the least; raise the headboard, use narrower rails, or "
                'kind = "boards".',
            )
        )
    yield _across("headboard rail 1", "lower headboard rail", low, rail, at)
    yield _across("headboard rail 2", "upper headboard rail", top - rail.width, rail, at)
    front = at.back + rail.thickness
    for i, y in enumerate(slat_places(at, slat.width, options.headboard.at_most)):
        box = Box((front, y, low), (front + slat.thickness, y + slat.width, top))
        yield Piece(
            label=f"headboard slat {i + 1}", part="headboard_slat", box=box, axis=2, said=f"headboard slat {i + 1}"
        )


def slat_places(at: Place, wide: Fraction, most: Fraction) -> list[Fraction]:
    """Left edges of the slats across the bed [in]: as few as keep the gaps to the most that is wanted."""
    room, ends = at.ends[1] - at.ends[0], -1 if at.flush else 1
    count = max(ceil((room - ends * most) / (wide + most)), 2)
    gap = (room - count * wide) / (count + ends)
    first = at.ends[0] + (0 if at.flush else gap)
    return [first + i * (wide + gap) for i in range(count)]


__all__ = ["Place", "depth", "panel", "row", "slat_places", "top_of"]
