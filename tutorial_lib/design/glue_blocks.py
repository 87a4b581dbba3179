"""A block glued into the inner corner of an L leg: it keeps the boards square, and no figure counts on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.design.model import Box, Joint, Leg, Piece, Section
from tutorial_lib.design.options import Options
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer

SHORT = Fraction(1, 2)  # [in] at each end, so that the boards alone touch floor and frame; our choice


def with_glue_block(options: Options, section: Section, leg: Leg, pieces: list[Piece]) -> tuple[Leg, list[Piece]]:
    """The leg with its block, where the build file has one and the leg is an L.

    Raises:
        DesignError: a block wider than the corner it goes into.
    """
    if options.legs.glue_blocks is None or len(pieces) != 2 or pieces[0].box.size == pieces[1].box.size:
        return leg, pieces
    flat, edge = (piece.box for piece in pieces)  # one along the rail, the other across
    thick, room = section.thickness, min(flat.size[0] - edge.size[0], edge.size[1])
    if thick > room or flat.size[2] <= 2 * SHORT:
        w = writer(options.build.units)
        raise DesignError(
            Fault(
                "legs.glue_blocks",
                f'= "{options.legs.glue_blocks}" is {w.length(thick)} thick, and the corner of the L has '
                f"{w.length(room)}; use thinner stock.",
            )
        )
    toward_head = edge.lo[0] == flat.lo[0]
    x = edge.hi[0] if toward_head else edge.lo[0] - thick
    y = flat.hi[1] if edge.lo[1] == flat.hi[1] else flat.lo[1] - thick
    box = Box((x, y, flat.lo[2] + SHORT), (x + thick, y + thick, flat.hi[2] - SHORT))
    block = Piece(label=f"leg {leg.label} glue block", part="glue_block", box=box, axis=2)
    return replace(leg, blocks=(block.label,)), [*pieces, block]


def glued(leg: Leg, pieces: dict[str, Piece]) -> Iterator[Joint]:
    """A block to both its boards, by glue alone."""
    for label in leg.blocks:
        block = pieces[label]
        for board in leg.pieces:
            contact = block.box.contact(pieces[board].box)
            if contact is not None:
                axis = 0 if contact.size[0] == 0 else 1
                sign = 1 if block.box.centre[axis] < pieces[board].box.centre[axis] else -1
                yield Joint(kind="ply", near=label, far=board, axis=axis, sign=sign, contact=contact, fastener="glue")  # type: ignore[arg-type]  # an axis and its direction
