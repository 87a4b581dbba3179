"""A headboard between the head posts: battens on the posts' inner faces, the panel in front of them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.design.heights import Stack
from tutorial_lib.design.model import SIDES, Box, Leg, Piece, Section
from tutorial_lib.design.options import Options
from tutorial_lib.design.panel import Place, depth, panel, top_of
from tutorial_lib.design.posts import Posts, place_blocks, place_posts
from tutorial_lib.design.sizes import Sizes, clearance
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer


def place(posts: Posts, options: Options, sizes: Sizes, level: Stack, top: Fraction) -> Iterator[Piece]:
    """Battens, flush with the posts' outer faces, and the panel in front of them.

    Raises:
        DesignError: a panel that would stand in the mattress's room.
    """
    batten, wide = sizes.batten, sizes.outside[0]
    back = -posts.reveal
    front = back + batten.thickness + depth(options, sizes)
    most = min(posts.rail + clearance(options)[1], posts.start)
    if front > most:
        w = writer(options.build.units)
        raise DesignError(
            Fault(
                "headboard.battens",
                f"and what is in front of them reach {w.length(front - most)} too far toward the mattress; use "
                "thinner boards, or a larger posts.reveal.",
            )
        )
    for side in SIDES:
        y0 = posts.start if side == "left" else wide - posts.start - batten.width
        box = Box((back, y0, level.rail_top), (back + batten.thickness, y0 + batten.width, top))
        yield Piece(label=f"batten {side}", part="batten", box=box, axis=2, said=f"{side} batten of the headboard")
    at = Place(back + batten.thickness, (posts.start, wide - posts.start), flush=False)
    yield from panel(options, sizes, level, top, at)


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
        own = {"batten": sizes.batten, "headboard": sizes.headboard, "headboard_slat": sizes.headboard_slat}
        sections |= own
    return legs, pieces, sections


__all__ = ["corners", "place"]
