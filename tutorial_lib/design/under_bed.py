"""What boxes under the bed ask of its height and of its side legs, before anything is placed.

The free room round a box is our choice: common practice has no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, combinations_with_replacement, islice, pairwise
from math import comb

from tutorial_lib.design.model import SIDES
from tutorial_lib.design.options import Options

ABOVE = Fraction(1, 2)  # [in] over a box
BESIDE = Fraction(1, 2)  # [in] between a box and the leg or box beside it


def wanted_height(options: Options) -> Fraction | None:
    """Free height that the boxes ask for [in]; None where no box is that is measured."""
    height = options.storage.height
    return None if height is None else height + ABOVE


def boxes_of(options: Options) -> dict[str, int]:
    """How many boxes stand on each side; the odd one on the left."""
    storage = options.storage
    count = storage.count if storage.width is not None else 0
    if storage.sides == "both":
        return {"left": -(-count // 2), "right": count // 2}
    return {side: count if side == storage.sides else 0 for side in SIDES}


def bay(options: Options, boxes: int) -> Fraction:
    """Clear length between two legs that so many boxes take [in]."""
    width = options.storage.width or Fraction(0)
    return boxes * width + (boxes + 1) * BESIDE if boxes else Fraction(0)


def moved_for_boxes(options: Options, edges: list[Fraction], size: Fraction) -> list[Fraction]:
    """The side legs' near edges [in], the inner ones moved as little as lets the boxes in; unmoved where none does.

    Args:
        options: the build's options.
        edges: near edges from the head, evenly.
        size: of a leg along the bed [in].
    """
    boxes, bays = max(boxes_of(options).values()), len(edges) - 1
    if not boxes or bays < 2 or bay(options, boxes) > edges[-1] - edges[0] - bays * size:  # side by side, at the least
        return edges
    tried = (_placed(edges, [bay(options, n) for n in share], size) for share in worth_trying(boxes, bays))
    fitting = [places for places in tried if places]
    return min(fitting, key=lambda places: _off(places, edges), default=edges)


def shares(boxes: int, bays: int) -> Iterator[tuple[int, ...]]:
    """Every way to share boxes out over bays; none where a side has one leg, so no bay."""
    if bays < 1:
        return
    for cuts in combinations_with_replacement(range(boxes + 1), bays - 1):
        yield tuple(b - a for a, b in pairwise((0, *cuts, boxes)))


MOST_SHARES = 3000  # six boxes under a bed on eight legs have 28


def ways(boxes: int, bays: int) -> int:
    """How many ways there are to share boxes out over bays."""
    return comb(boxes + bays - 1, boxes) if bays else 0


def worth_trying(boxes: int, bays: int) -> Iterator[tuple[int, ...]]:
    """Every way to share boxes out over bays; where those are too many, only the ways that differ by one at most."""
    if ways(boxes, bays) <= MOST_SHARES:
        yield from shares(boxes, bays)
        return
    each, more = divmod(boxes, bays)
    for fuller in islice(combinations(range(bays), more), MOST_SHARES):
        yield tuple(each + (number in fuller) for number in range(bays))


def _placed(edges: list[Fraction], wanted: list[Fraction], size: Fraction) -> list[Fraction]:
    """Near edges as near to the even ones as these bays allow; none where they don't fit between the outer legs."""
    places = [edges[0]]
    for number, even in enumerate(edges[1:-1], 1):
        low = places[-1] + size + wanted[number - 1]
        high = edges[-1] - sum(wanted[number:], Fraction(0)) - size * (len(edges) - 1 - number)
        if low > high:
            return []
        places.append(min(max(even, low), high))
    return [*places, edges[-1]]


def _off(places: list[Fraction], edges: list[Fraction]) -> Fraction:
    return sum((abs(a - b) for a, b in zip(places, edges, strict=True)), Fraction(0))
