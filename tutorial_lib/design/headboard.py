"""A headboard between the head posts: battens on the posts' inner faces, boards across in front of them.

The boards begin above the end rail. Their number follows from the greatest gap that is wanted; the gap is evened out.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from tutorial_lib.design.heights import Stack
from tutorial_lib.design.model import SIDES, Box, Leg, Piece, Section
from tutorial_lib.design.options import Options
from tutorial_lib.design.posts import Posts, place_blocks, place_posts
from tutorial_lib.design.sizes import Sizes, clearance, to_grid
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer

TALLEST = Fraction(48)  # [in] of a headboard above the mattress; more is another piece of furniture (our choice)


def top_of(options: Options, sizes: Sizes, level: Stack) -> Fraction | None:
    """How high the headboard reaches above the floor [in]; None where there is none.

    Raises:
        DesignError: a mattress of unknown thickness, or one so thick that no board has room.
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


def row(options: Options, sizes: Sizes, level: Stack, top: Fraction) -> tuple[int, Fraction]:
    """How many boards, and the gap below each of them [in].

    Raises:
        DesignError: less room than one board.
    """
    room, wide = top - level.rail_top, sizes.headboard.width
    count = ceil(room / (wide + options.headboard.gap))
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


def place(posts: Posts, options: Options, sizes: Sizes, level: Stack, top: Fraction) -> Iterator[Piece]:
    """Battens, flush with the posts' outer faces, and the boards in front of them.

    Raises:
        DesignError: boards that would stand in the mattress's room.
    """
    batten, board, wide = sizes.batten, sizes.headboard, sizes.outside[0]
    back = -posts.reveal
    front = back + batten.thickness + board.thickness
    most = posts.rail + clearance(options)[1]
    if front > min(most, posts.start):
        w = writer(options.build.units)
        raise DesignError(
            Fault(
                "headboard.battens",
                f"and boards reach {w.length(front - min(most, posts.start))} too far toward the mattress; use thinner "
                "ones, or a larger posts.reveal.",
            )
        )
    count, gap = row(options, sizes, level, top)
    for side in SIDES:
        y0 = posts.start if side == "left" else wide - posts.start - batten.width
        box = Box((back, y0, level.rail_top), (back + batten.thickness, y0 + batten.width, top))
        yield Piece(label=f"batten {side}", part="batten", box=box, axis=2, said=f"{side} batten of the headboard")
    for i in range(count):
        low = level.rail_top + gap + i * (board.width + gap)
        box = Box((back + batten.thickness, posts.start, low), (front, wide - posts.start, low + board.width))
        yield Piece(label=f"headboard {i + 1}", part="headboard", box=box, axis=1, said=f"headboard board {i + 1}")


def corners(
    posts: Posts, options: Options, sizes: Sizes, level: Stack
) -> tuple[list[Leg], list[Piece], dict[str, Section]]:
    """All that stands in the bed's corners: posts as legs, their blocks, a headboard; and the sections of it."""
    top = top_of(options, sizes, level)
    legs, pieces = place_posts(posts, options, sizes, level, top)
    pieces += place_blocks(posts, options, sizes, level)
    sections = {"post": sizes.post, "corner_block": sizes.block}
    if top is not None:
        pieces += place(posts, options, sizes, level, top)
        sections |= {"batten": sizes.batten, "headboard": sizes.headboard}
    return legs, pieces, sections


__all__ = ["corners", "place", "row", "top_of"]
