"""Boxes under the bed: where they stand, and whether they go in.

Boxes stand side by side along the long sides and are drawn out sideways, between the legs.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from operator import le

from tutorial_lib.design.mattress_rules import OURS, Rule, written
from tutorial_lib.design.model import SIDES, Box, Build, Leg
from tutorial_lib.design.under_bed import ABOVE, BESIDE, MOST_SHARES, boxes_of, shares, wanted_height, ways
from tutorial_lib.findings import Finding, Remedy


def bays(build: Build, side: str) -> list[tuple[Fraction, Fraction]]:
    """Clear stretches between the legs of one side [in], from the outer head face."""
    legs = sorted((leg for leg in build.legs if leg.line == side), key=lambda leg: leg.near_edge)
    return [(a.near_edge + a.size[0], b.near_edge) for a, b in pairwise(legs)]


def box_places(build: Build) -> tuple[Box, ...]:
    """Where the boxes stand, as far as they find room: spread evenly in each bay, their fronts at the bed's side."""
    storage, found = build.options.storage, list[Box]()
    deep, high = storage.depth or build.outside[0] / 3, storage.height or build.heights.storage
    for side, count in boxes_of(build.options).items():
        stretches = bays(build, side)
        for (start, end), boxes in zip(stretches, _filled(build, side, count), strict=True):
            width = storage.width or Fraction(0)
            apart = (end - start - boxes * width) / (boxes + 1)
            y = (Fraction(0), deep) if side == "left" else (build.outside[0] - deep, build.outside[0])
            for number in range(boxes):
                x = start + apart + number * (width + apart)
                found.append(Box((x, y[0], Fraction(0)), (x + width, y[1], high)))
    return tuple(found)


def _filled(build: Build, side: str, count: int) -> list[int]:
    """Boxes in each bay: the most even share of as many as there is room for."""
    rooms = [_room(build, *stretch) for stretch in bays(build, side)]
    wanted = min(count, sum(rooms))
    if ways(wanted, len(rooms)) > MOST_SHARES:
        return filled_in_turn(wanted, rooms)
    fitting = [share for share in shares(wanted, len(rooms)) if all(map(le, share, rooms))]
    return list(min(fitting, key=lambda share: max(share) - min(share))) if fitting else [0] * len(rooms)


def filled_in_turn(boxes: int, rooms: list[int]) -> list[int]:
    """Boxes one by one in the bay that has fewest, the last of several."""
    found = [0] * len(rooms)
    for _ in range(boxes):
        found[min((n, -bay) for bay, n in enumerate(found) if n < rooms[bay])[1] * -1] += 1
    return found


def _room(build: Build, start: Fraction, end: Fraction) -> int:
    """How many boxes a bay takes side by side."""
    width = build.options.storage.width
    return 0 if width is None else max(0, int((end - start - BESIDE) // (width + BESIDE)))


def _height(build: Build) -> Iterator[Finding]:
    """A box goes under everything, with a little air."""
    wanted, free = wanted_height(build.options), build.heights.storage
    if wanted is not None and free < wanted:
        yield Finding(
            rule="storage height",
            severity="caution",
            what=f"The boxes don't go under the bed: {written(build, free)} is free below its lowest wood.",
            value=written(build, free),
            limit=f"at least {written(build, wanted)}, the box and {written(build, ABOVE)}",
            whose=OURS,
            remedy="Raise the bed, or take lower boxes.",
            parts=("frame",),
            remedies=(Remedy.setting("Let the boxes give the height", heights__storage=written(build, wanted)),),
        )


def _between_legs(build: Build) -> Iterator[Finding]:
    for side, count in boxes_of(build.options).items():
        room = sum(_room(build, *stretch) for stretch in bays(build, side))
        if room < count:
            yield Finding(
                rule="storage boxes",
                severity="caution",
                what=f"Between the legs of the {side} side there is room for {room} of {count} boxes.",
                value=f"{room} boxes",
                limit=f"{count} boxes of {written(build, build.options.storage.width or Fraction(0))}",
                whose=OURS,
                remedy="Use fewer legs a side, narrower boxes, or fewer of them.",
                parts=("leg",),
                remedies=_fewer_legs(build),
            )
            return


def _fewer_legs(build: Build) -> tuple[Remedy, ...]:
    count = build.options.legs.per_side - 1
    if count < 2:
        return ()
    return (Remedy.setting(f"Stand {count} legs on each side", legs__per_side=count),)


def _depth(build: Build) -> Iterator[Finding]:
    """Boxes end before the legs of a centre line, and before those from the other side."""
    deep, free = build.options.storage.depth, free_depth(build)
    if deep is not None and deep > free:
        yield Finding(
            rule="storage depth",
            severity="caution",
            what=f"The boxes reach {written(build, deep)} under the bed and meet what stands there.",
            value=written(build, deep),
            limit=f"at most {written(build, free)}",
            whose=OURS,
            remedy="Take shallower boxes, or let them in from one side.",
            parts=("centre_leg",),
        )


def free_depth(build: Build) -> Fraction:
    """How far a box goes in from the side [in]: to the first legs that stand in its way, or to the middle."""
    both = all(boxes_of(build.options).values())
    most = build.outside[0] / 2 if both else build.outside[0]
    inner = [leg for leg in build.legs if leg.line not in SIDES]
    faces = [_inside_face(build, leg) for leg in (*inner, *(() if both else _far_legs(build)))]
    return min([most, *(face - BESIDE for face in faces)])


def _far_legs(build: Build) -> list[Leg]:
    """Legs of the side across from the boxes."""
    side = "left" if build.options.storage.sides == "right" else "right"
    return [leg for leg in build.legs if leg.line == side]


def _inside_face(build: Build, leg: Leg) -> Fraction:
    """From the side that the boxes come in by to a leg's nearer face [in]."""
    near, far = leg.y - leg.size[1] / 2, build.outside[0] - leg.y - leg.size[1] / 2
    return {"left": near, "right": far}.get(build.options.storage.sides, min(near, far))


RULES: tuple[Rule, ...] = (_height, _between_legs, _depth)
