"""Corner posts that the rails die into: where they stand, the blocks in their corners, and what meets there.

The rails end at the posts' inner faces. A post's outer faces stand a reveal beyond the rails', its inner corner a
little way into the opening (or flush with the rails' inner faces), where slats and cleats make room for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.design.heights import Stack
from tutorial_lib.design.model import SIDES, Box, Leg, Piece
from tutorial_lib.design.options import Options
from tutorial_lib.design.sizes import Sizes
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

ENDS = ("head", "foot")
THINNEST_BLOCK = Fraction(11, 8)  # [in] that takes screws both ways; as a leg's top does (our choice)
SHORTEST_BLOCK = Fraction(3)  # [in] room for two screws each way below those of a slat (our choice)


@dataclass(frozen=True, kw_only=True)
class Posts:
    """The posts of one bed, all four alike from above [in]."""

    size: Fraction  # a post's side, seen from above
    reveal: Fraction  # from its outer face back to the rail's
    rail: Fraction  # thickness of the rails
    blocked: bool  # blocks in the corners hold the rails; else fittings do

    @property
    def start(self) -> Fraction:
        """From the rails' outer faces to where a rail that runs into the post begins."""
        return self.size - self.reveal

    @property
    def inside(self) -> Fraction:
        """How far a post stands into the opening, each way."""
        return self.start - self.rail


def posts_of(options: Options, sizes: Sizes) -> Posts | None:
    """The bed's posts; None for a frame whose rails meet each other.

    Raises:
        DesignError: posts thinner than a rail, a reveal that leaves the rails nothing to die into, no room for blocks.
    """
    if not options.frame.posts:
        return None
    asked, size, rail = options.posts, sizes.post.thickness, sizes.rail.thickness
    blocked = asked.joint == "corner blocks"
    most = size - rail
    open_reveal = most - (sizes.block.thickness if blocked else Fraction(0))
    reveal = asked.reveal if asked.reveal is not None else max(open_reveal, Fraction(0))
    faults = list(_faults(options, sizes, most - reveal, most))
    if faults:
        raise DesignError(faults)
    return Posts(size=size, reveal=reveal, rail=rail, blocked=blocked)


def _faults(options: Options, sizes: Sizes, inside: Fraction, most: Fraction) -> Iterator[Fault]:
    w, asked, post = writer(options.build.units), options.posts, sizes.post
    block = sizes.block.thickness
    if post.thickness != post.width:
        yield Fault("posts.lumber", f'= "{post.name}" is not square; corner posts are, such as "4x4" or "6x6".')
    if most < 0:
        yield Fault("posts.lumber", f"{w.length(post.thickness)} is less than a rail is thick; use thicker posts.")
    elif inside < 0 and asked.reveal is not None:
        yield Fault(
            "posts.reveal",
            f"= {w.length(asked.reveal)} leaves part of the rail's end with no post behind it; use {w.length(most)} or "
            "less, or thicker posts.",
        )
    elif asked.joint == "corner blocks" and block < THINNEST_BLOCK:
        yield Fault(
            "posts.blocks",
            f'= "{asked.blocks}" is {w.length(block)} thick; screws both ways need {w.length(THINNEST_BLOCK)}.',
        )
    elif asked.joint == "corner blocks" and inside < block:
        yield Fault(
            "posts.reveal",
            f"leaves {w.length(max(inside, Fraction(0)))} of the post inside the rail, and a corner block "
            f"{w.length(block)} thick is screwed to it there. Use a reveal of "
            f'{w.length(max(most - block, Fraction(0)))} or less, thicker posts, or joint = "hooks".',
        )


def place_posts(
    posts: Posts, options: Options, sizes: Sizes, level: Stack, headboard: Fraction | None = None
) -> tuple[list[Leg], list[Piece]]:
    """The four posts as legs, and their pieces; those at the head as high as a headboard [in] asks."""
    legs, pieces = [], []
    width, length = sizes.outside
    low, high = -posts.reveal, level.rail_top if headboard is None else headboard
    for side, y0 in zip(SIDES, (low, width - posts.start), strict=True):
        for end, x0 in zip(ENDS, (low, length - posts.start), strict=True):
            number = _number(side, end, options)
            label = f"post {number}"
            box = Box(
                (x0, y0, level.leveller),
                (x0 + posts.size, y0 + posts.size, (high if end == "head" else level.rail_top) + options.posts.above),
            )
            pieces.append(Piece(label=label, part="post", box=box, axis=2, said=f"{end} {side} post"))
            legs.append(
                Leg(
                    label=number,
                    line=side,
                    x=x0 + posts.size / 2,
                    y=y0 + posts.size / 2,
                    near_edge=x0,
                    size=(posts.size, posts.size),
                    pieces=(label,),
                    corner=True,
                    post=True,
                )
            )
    return legs, pieces


def _number(side: str, end: str, options: Options) -> str:
    """A post's label among the legs: "L1" at the head, "L3" at the foot of three a side."""
    return f"{side[0].upper()}{1 if end == 'head' else options.legs.per_side}"


def place_blocks(posts: Posts, options: Options, sizes: Sizes, level: Stack) -> list[Piece]:
    """The corner blocks: one beside each post on each rail, from the rail's lower edge up to the slats' undersides.

    Raises:
        DesignError: slats so low that no block has room below them.
    """
    high = level.slat_bottom - level.rail_bottom
    if not posts.blocked:
        return []
    if high < SHORTEST_BLOCK:
        w = writer(options.build.units)
        raise DesignError(
            Fault(
                "posts.joint",
                f'"corner blocks" need {w.length(SHORTEST_BLOCK)} from the rails\' lower edges up to the slats; here '
                f"there is {w.length(max(high, Fraction(0)))}. Use deeper rails, a smaller recess, thinner slats, "
                'or joint = "hooks".',
            )
        )
    (width, length), found = sizes.outside, []
    for side in SIDES:
        for end in ENDS:
            for use in ("side", "end"):
                along, across = (posts.start, posts.rail) if use == "side" else (posts.rail, posts.start)
                thick, wide = sizes.block.thickness, sizes.block.width  # inward, and along its rail
                dx, dy = (wide, thick) if use == "side" else (thick, wide)
                x0 = along if end == "head" else length - along - dx
                y0 = across if side == "left" else width - across - dy
                box = Box((x0, y0, level.rail_bottom), (x0 + dx, y0 + dy, level.slat_bottom))
                found.append(
                    Piece(
                        label=f"{use} block {_number(side, end, options)}",
                        part="corner_block",
                        box=box,
                        axis=2,
                        said=f"{end} {side} {use} block",
                    )
                )
    return found


__all__ = ["Posts", "place_blocks", "place_posts", "posts_of"]
