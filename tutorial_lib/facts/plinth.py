"""Facts of a plinth: how far it stands back under the deck, and off the floor."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.design.plinth import OFF_FLOOR
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build

SAID = ("plinth", "base", "base frame")


def facts(tell: Teller, build: Build) -> Iterator[Fact]:
    """All facts of the plinth; none where there is none."""
    if not build.has("plinth_side"):
        return
    board = build.part("plinth_side").pieces[0].box
    carries = build.options.plinth.carries
    name, low = ("base frame", Fraction(0)) if carries else ("plinth", OFF_FLOOR)
    behind = "from the deck's edge to the board's face"
    for key, x, kind, what, working in (
        ("side_setback", board.lo[1], "distance", "plinth back from the bed's sides", behind),
        ("end_setback", board.lo[0], "distance", "plinth back from the bed's ends", behind),
        ("height", board.hi[2] - board.lo[2], "height", "plinth board, as it stands", "the board's width"),
        ("off_floor", low, "clearance", "plinth off the floor", "so that the legs alone stand on it"),
        ("below_deck", build.heights.underside - board.hi[2], "clearance", "plinth below the deck", "what is left"),
    ):
        if x or not carries:
            yield tell.length(f"plinth.{key}", x, kind, what.replace("plinth", name), working, said=SAID)
