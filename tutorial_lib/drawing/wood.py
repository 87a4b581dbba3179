"""Wood in isometric by shop practice: thick outer edges, thin inner ones, grain along it, rings at its end."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import groupby
from math import cos, hypot, pi, sin
from typing import Literal

from tutorial_lib.drawing.scene import FillRole, Line, LineRole, Polygon, Shape
from tutorial_lib.drawing.solids import Flat, Solid, faces, project

TINTS: dict[int, FillRole] = {0: "wood front", 1: "wood side", 2: "wood"}  # by the face's axis; light from above
PARTS = 32  # half a ring is drawn by so many strokes
ARC = [(cos(pi * k / PARTS), sin(pi * k / PARTS)) for k in range(PARTS + 1)]
Look = Literal["wood", "bare", "metal", "paper"]  # bare: without grain, for many small pieces; paper: there already


def timber(solid: Solid, axis: int, look: Look = "wood", halo: bool = False) -> Iterator[Shape]:
    """One box as the eye sees it.

    Args:
        solid: where it is; edges where it was cut for the drawing get no ink.
        axis: direction of its grain.
        look: how it is filled.
        halo: white about it, for what stands before something else.
    """
    seen = list(faces(solid))
    if halo:
        yield from (Polygon(outline, "paper", "clear") for outline, _, _ in seen)
    for outline, _, face in seen:
        yield Polygon(outline, _fill(face, axis, look), "none")
        if look == "wood" and not solid.cuts:
            yield from (_rings if face == axis else _grain)(solid, face, axis)
    yield from _edges((edge for _, drawn, _ in seen for edge in drawn), look)


def _edges(drawn: Iterable[tuple[Flat, Flat]], look: Look) -> Iterator[Line]:
    """The edges of faces: those of two faces, within the outline, thinner than it."""
    outer: LineRole = "thin" if look == "paper" else "outline"
    inner: LineRole = "hair" if look == "paper" else "thin"
    edges = Counter((min(a, b), max(a, b)) for a, b in (map(_near, edge) for edge in drawn))
    for (a, b), times in sorted(edges.items(), key=lambda edge: -edge[1]):
        yield Line((a, b), inner if times > 1 else outer)


def _fill(face: int, axis: int, look: Look) -> FillRole:
    if look in ("paper", "metal"):
        return "paper" if look == "paper" else "metal"
    return "end" if face == axis else TINTS[face]


def _near(p: Flat) -> Flat:
    """A place to a thousandth, so that the same edge of two faces is found again."""
    return (round(p[0], 3), round(p[1], 3))


def _spot(solid: Solid, face: int, at: dict[int, float]) -> Flat:
    """A place on a face by its other two coordinates."""
    level = solid.lo[1] if face == 1 else solid.hi[face]
    x, y, z = (at.get(i, level) for i in range(3))
    return project((x, y, z))


def _grain(solid: Solid, face: int, axis: int) -> Iterator[Line]:
    """A few bent lines along the grain, always the same for the same piece."""
    across = next(i for i in range(3) if i not in (face, axis))
    wide, long = solid.hi[across] - solid.lo[across], solid.hi[axis] - solid.lo[axis]
    if wide < 2 or long < 6:
        return
    draw = random.Random(f"{solid.label}{face}")
    rows = max(1, min(3, int(wide / 2)))
    for row in range(rows):
        v = solid.lo[across] + wide * (row + 0.5 + draw.uniform(-0.25, 0.25)) / rows
        a = solid.lo[axis] + long * draw.uniform(0.02, 0.45)
        b = min(solid.hi[axis] - 0.02 * long, a + long * draw.uniform(0.25, 0.5))
        bend = 0.06 * wide * draw.choice((1, -1))
        points = (_spot(solid, face, {axis: a + (b - a) * t / 8, across: v + bend * sin(t / 8 * pi)}) for t in range(9))
        yield Line(tuple(points), "grain")


@lru_cache(maxsize=512)  # a piece is drawn again in every step
def rings(wide: float, high: float, seed: str, step: float) -> tuple[tuple[Flat, ...], ...]:
    """Growth rings on a board's end, about a heart below it: runs of places from its lower left corner.

    Args:
        wide: the end's width [in].
        high: its height [in].
        seed: always the same rings for the same piece.
        step: from ring to ring [in].
    """
    found: list[tuple[Flat, ...]] = []
    heart = (wide * random.Random(seed).uniform(0.25, 0.75), -0.4 * high)
    for ring in range(1, int(hypot(wide, 1.5 * high) / step) + 1):
        places = [(heart[0] + ring * step * c, heart[1] + ring * step * s) for c, s in ARC]
        for on, run in groupby(places, lambda p: 0 < p[0] < wide and 0 < p[1] < high):
            if on and len(line := tuple(run)) > 1:
                found.append(line)
    return tuple(found)


def _rings(solid: Solid, face: int, axis: int) -> Iterator[Line]:
    i, j = (k for k in range(3) if k != axis)
    wide, high = solid.hi[i] - solid.lo[i], solid.hi[j] - solid.lo[j]
    for run in rings(wide, high, solid.label, max(0.45, hypot(wide, high) / 7)):
        yield Line(tuple(_spot(solid, face, {i: solid.lo[i] + u, j: solid.lo[j] + v}) for u, v in run), "grain")
