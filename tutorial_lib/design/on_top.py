"""Where the mattress lies: one rectangle, for loads, faces that show and drawings."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.design.model import Box, Build

Span = tuple[Fraction, Fraction]


def mattress_place(build: Build) -> tuple[Span, Span]:
    """The mattress's rectangle, centred in the opening: along the bed from, to and across from, to [in].

    Measured from the outer head face and the outer left face; one larger than the opening is held to it.
    """
    (across, along), (wide, long) = build.outside, build.opening
    width, length = min(build.mattress[0], wide), min(build.mattress[1], long)
    x, y = (along - length) / 2, (across - width) / 2
    return (x, x + length), (y, y + width)


def mattress_box(build: Build) -> Box | None:
    """The mattress in place; None when its thickness is not known."""
    top = build.heights.sleeping
    if top is None:
        return None
    (x0, x1), (y0, y1) = mattress_place(build)
    return Box((x0, y0, build.heights.slat_top), (x1, y1, top))
