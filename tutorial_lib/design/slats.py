"""The row of slats: how many, how far apart, where each one starts."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from tutorial_lib.design.model import SlatRow
from tutorial_lib.design.options import Options
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer

DEFAULT_GAP = Fraction(9, 4)  # [in] common practice, no source
RESERVE = Fraction(1, 8)  # [in] kept under the mattress maker's limit for drying, our choice


def wanted_gap(options: Options) -> Fraction:
    """Largest gap the creator wants [in]: stated, or chosen under the mattress maker's limit."""
    if options.slats.gap is not None:
        return options.slats.gap
    limit = options.mattress.gap_limit
    return DEFAULT_GAP if limit is None else min(DEFAULT_GAP, limit - RESERVE)


def slat_row(
    options: Options, opening: Fraction, width: Fraction, start: Fraction, clear: Fraction = Fraction(0)
) -> SlatRow:
    """Fewest slats whose gaps stay within what is wanted, or the stated count.

    Args:
        options: the build's options.
        opening: clear length between the end rails [in].
        width: slat width [in].
        start: x of the head rail's inner face [in].
        clear: what posts in the opening's corners take from it at each end [in].

    Raises:
        DesignError: fewer than two slats, or the slats overfill the opening.

    flush: n = ceil((L + g)/(w + g)); equal edges: ceil((L - g)/(w + g)); fixed edge e: flush over L - 2e.
    Box spring: n = ceil((L - w)/s) + 1 with s centre to centre. Common practice, no source.
    """
    equal, edge = options.slats.edge == "equal", max(_edge(options), clear)
    count, gap = _laid(options, opening if equal else opening - 2 * edge, width, equal)
    if equal and 0 <= gap < clear:  # posts stand where the first gap would be
        equal, (count, gap) = False, _laid(options, opening - 2 * edge, width, False)
    if count < 2 or gap < 0:
        w = writer(options.build.units)
        raise DesignError(
            Fault(
                "slats",
                f"{count} slat{'s' * (count > 1)}, {w.length(width)} wide, make no row across an opening of "
                f"{w.length(opening)}; use 2 slats or more that fit.",
            )
        )
    first = gap if equal else edge
    return SlatRow(count=count, width=width, gap=gap, edge=first, start=start, opening=opening)


def _laid(options: Options, room: Fraction, width: Fraction, equal: bool) -> tuple[int, Fraction]:
    """How many slats in a room, and their gap [in]; with equal ends one more gap than slats."""
    count = options.slats.count or _count(options, room, width, equal)
    spaces = count + 1 if equal else count - 1
    return count, (room - count * width) / spaces if spaces else Fraction(0)


def _edge(options: Options) -> Fraction:
    if options.slats.edge != "fixed":
        return Fraction(0)
    if options.slats.edge_gap is None:
        raise DesignError(Fault("slats.edge_gap", 'is missing; edge = "fixed" needs the gap to the end rails.'))
    return options.slats.edge_gap


def _count(options: Options, room: Fraction, width: Fraction, equal: bool) -> int:
    if options.slats.carries == "box spring" and options.slats.gap is None:
        return ceil((room - width) / options.slats.spacing_limit) + 1
    gap = wanted_gap(options)
    if gap < 0 or width + gap <= 0:
        raise DesignError(Fault("slats.gap", "leaves no gap; give a gap above 0."))
    return ceil((room - gap) / (width + gap)) if equal else ceil((room + gap) / (width + gap))
