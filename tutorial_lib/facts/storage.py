"""Facts of the boxes under the bed: how many go in, and what is free above and beside them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.design.storage import bays, box_places, free_depth
from tutorial_lib.design.under_bed import ABOVE, boxes_of
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build

BOX = ("box", "storage box", "bin", "drawer")


def facts(tell: Teller, build: Build) -> Iterator[Fact]:
    """All facts of the boxes; none where none is stated."""
    storage = build.options.storage
    for key, size, kind, what in (
        ("storage.box_width", storage.width, "length", "storage box, along the bed"),
        ("storage.box_depth", storage.depth, "length", "storage box, from the bed's side in"),
        ("storage.box_height", storage.height, "height", "storage box, its height"),
    ):
        if size is not None:
            yield tell.length(key, size, kind, what, "stated", said=BOX)
    if storage.height is not None:
        air = build.heights.storage - storage.height
        yield tell.length("storage.air", air, "clearance", "free above a storage box",
                          f"lowest wood − box; {tell.fine(ABOVE)} is wanted", said=BOX)  # fmt: skip
    if storage.width is not None:
        yield from _between_legs(tell, build)
    if storage.depth is not None:
        yield tell.length("storage.free_depth", free_depth(build), "clearance", "free for a box, from the side in",
                          "to what stands in its way, or to the middle", said=BOX)  # fmt: skip


def _between_legs(tell: Teller, build: Build) -> Iterator[Fact]:
    """How many boxes go in between the side legs, and the narrowest way there."""
    sides = [side for side, count in boxes_of(build.options).items() if count]
    clear = [end - start for side in sides for start, end in bays(build, side)]
    yield tell.count("storage.box_count", len(box_places(build)), "part_count", "storage boxes that go in",
                     "between the side legs", said=BOX)  # fmt: skip
    if clear:
        yield tell.length("storage.bay", min(clear), "clearance", "clear between two side legs, the narrowest",
                          "from leg to leg", said=BOX)  # fmt: skip
