"""Facts of the legs: how many, how long, of how many boards, where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.design.parts import LEG_KEYS, NAMES
from tutorial_lib.facts import posts
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Leg

GRID = "the grid less those left out"


def facts(tell: Teller, build: Build) -> Iterator[Fact]:
    """All facts of the legs; corner posts are told as a part of their own."""
    if not _legs(build):
        return
    yield tell.count("leg.count", len(_legs(build)), "part_count", "legs", GRID)
    yield from _lengths(tell, build)
    for key, alike in _groups(build).items():
        if key != "leg":
            yield tell.count(f"{key}.count", len(alike), "part_count", f"{key.replace('_', ' ')}s", GRID)
    yield from _boards(tell, build)
    if build.options.tubes:
        yield from _tube(tell, build)
    yield from _places(tell, build)


def _legs(build: Build) -> list[Leg]:
    return [leg for leg in build.legs if not leg.post]


def _lengths(tell: Teller, build: Build) -> Iterator[Fact]:
    for key in LEG_KEYS:
        if build.has(key):
            part = build.part(key)
            yield tell.length(f"{key}.height", _height(build, key), "length", f"{part.section.name} {NAMES[key]}",
                              _working(tell, build))  # fmt: skip


def _height(build: Build, key: str) -> Fraction:
    """A leg's whole length, a tube's flange included."""
    leg = next(leg for leg in build.legs if build.pieces[leg.pieces[0]].part == key)
    boxes = [build.pieces[label].box for label in leg.pieces]
    return max(box.hi[2] for box in boxes) - min(box.lo[2] for box in boxes)


def _working(tell: Teller, build: Build) -> str:
    heights = build.heights
    if not build.has("cleat") or build.options.leg_place != "under":
        return "from the floor to the wood it carries"
    slat, cleat = build.part("slat").section.thickness, build.part("cleat").section.width
    level = f" − {tell.fine(heights.leveller)} leveller" if heights.leveller else ""
    return (
        f"{tell.fine(heights.rail_top)} rail top − {tell.fine(heights.recess)} recess − {tell.fine(slat)} slat − "
        f"{tell.fine(cleat)} cleat{level} = {tell.fine(heights.leg)}; centre legs end at their line"
    )


def _groups(build: Build) -> dict[str, list[Leg]]:
    groups: dict[str, list[Leg]] = {}
    for leg in _legs(build):
        groups.setdefault(build.pieces[leg.pieces[0]].part, []).append(leg)
    return groups


def _boards(tell: Teller, build: Build) -> Iterator[Fact]:
    """Legs of more than one board: boards in each, and in all."""
    wooden = [[p for p in leg.pieces if not build.section_of(p).steel] for leg in _legs(build)]
    plies = max(map(len, wooden), default=0)
    if plies < 2:
        return
    what = "boards in one leg" if len({*map(len, wooden)}) == 1 else "boards in one leg that is made of several"
    yield tell.count("leg.plies", plies, "part_count", what, "the kind of leg chosen")
    count = sum(map(len, wooden))
    yield tell.count("leg.pieces", count, "part_count", "leg pieces in all", f"boards of all {len(wooden)} legs")


def _tube(tell: Teller, build: Build) -> Iterator[Fact]:
    legs = build.options.legs
    yield tell.length("leg.tube_diameter", legs.tube_diameter, "diameter", "tube of a leg, outside", "stated or usual",
                      said=("tube", "pipe", "leg"))  # fmt: skip
    yield tell.length("flange.size", legs.flange, "length", "flange plate across", "stated or usual")
    yield tell.count("flange.count", build.part("flange").count, "part_count", "flanges", "one a tube leg")


def _places(tell: Teller, build: Build) -> Iterator[Fact]:
    sides = [leg for leg in _legs(build) if leg.line in ("left", "right")]
    if build.options.frame.posts:
        yield from posts.middle_legs(tell, build, sides)
    elif sides:
        yield from _side_places(tell, build, sides)
    central = sorted({leg.near_edge for leg in build.legs if leg.line not in ("left", "right")})
    if central:
        yield tell.marks("centre_leg.marks", central,
                         "near edge of each leg of a centre line from the head rail's outer face",
                         "evenly along the line")  # fmt: skip


def _side_places(tell: Teller, build: Build, sides: Sequence[Leg]) -> Iterator[Fact]:
    """Set-back, number and marks of the legs of a side."""
    stated = build.options.legs.setback is not None
    yield tell.length("leg.setback", min(leg.near_edge for leg in sides), "distance",
                      "corner leg from the end of the bed",
                      "stated set-back" if stated else "as far out as a leg goes")  # fmt: skip
    count = sum(leg.line == "left" for leg in sides)
    yield tell.count("leg.per_side", count, "part_count", "legs on one side", GRID)
    yield tell.marks("leg.marks", sorted({leg.near_edge for leg in sides}),
                     "near edge of each side leg from the head rail's outer face",
                     "evenly between the set-backs")  # fmt: skip
