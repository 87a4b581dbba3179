"""The bed pulled apart in space, every part lettered, the three zero points signed where the tape is hooked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from math import cos, hypot, radians, sin

from tutorial_lib.design.model import Build, Piece
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.room import look_of, piece_solid
from tutorial_lib.drawing.scene import Balloon, Mark, Scene, Shape, Style, Text
from tutorial_lib.drawing.solids import Flat, Solid, Spot, back_to_front, faces, project
from tutorial_lib.drawing.wood import timber
from tutorial_lib.records import dataclass

OUT, AWAY, UP, DOWN = 16.0, 15.0, 17.0, -13.0  # [in] side rails, end rails, slats, legs
BARE = ("slat",)  # many alike: grain on each would hide their edges
RING = 11.0  # [pt] room for a ring
CLOSEST = 3  # pieces of a part that its letter may point to
REACHES = (26.0, 36.0, 48.0, 62.0)  # [pt] from a part to its letter


def pulled_apart(build: Build, letters: Mapping[str, str], width: float, height: float, style: Style) -> Scene:
    """The bed from its foot and left side, its parts apart.

    Args:
        build: the bed.
        letters: the letter of each part by its key.
        width: greatest width on paper [pt].
        height: greatest height on paper [pt].
        style: the look.
    """
    solids = [piece_solid(build, label, _shift(build, piece)) for label, piece in build.pieces.items()]
    shapes: list[Shape] = []
    for solid in back_to_front(solids):
        piece = build.pieces[solid.label]
        look = "bare" if piece.use in BARE else look_of(build, piece.label)
        shapes += timber(solid, piece.axis, look, halo=True)
    alt = f"The bed pulled apart, its {len(letters)} parts lettered"
    bare = fitted(shapes, width - 4 * RING, alt, height=height - 2 * RING, style=style)
    marks = [*_zeros(build), *_letters(build, solids, letters, bare.scale)]
    return fitted([*shapes, *marks], width, alt, height=height, style=style)


def _shift(build: Build, piece: Piece) -> Spot:
    """How far and which way a piece stands off."""
    side = -1.0 if piece.box.centre[1] < build.outside[0] / 2 else 1.0
    central = abs(float(piece.box.centre[1] - build.outside[0] / 2)) < float(build.outside[0]) / 6
    end = -1.0 if piece.box.centre[0] < build.outside[1] / 2 else 1.0
    outward: dict[str, Spot] = {
        "slat": (0.0, 0.0, UP),
        "batten": (-2 * AWAY, side * OUT, 0.0),
        "headboard": (-2 * AWAY, 0.0, 0.0),
        "headboard_slat": (-2 * AWAY, 0.0, 0.0),
        "upright": (-2 * AWAY, 0.0, 0.0),
        "end_rail": (end * AWAY, 0.0, 0.0),
        "side_rail": (0.0, side * OUT, 0.0),
        "post": (end * AWAY, side * OUT, 0.0),
        "corner_block": (end * AWAY / 4, side * OUT / 4, 0.0),
    }
    if piece.use in outward:
        return outward[piece.use]
    if piece.axis == 2:
        return (0.0, 0.0 if central else side * 6, DOWN)
    if central:
        return (0.0, 0.0, 5.0)
    return (0.0, side * 6, 3.0 if piece.use == "cleat" else -5.0)


def _zeros(build: Build) -> Iterator[Shape]:
    """Zero 1 on the bed's head end, 2 on the head rail's inner face, 3 on the end of what the slats lie on."""
    for number, place in enumerate(zero_places(build), 1):
        spot = project(place)
        yield Mark(spot, "datum", 9.2)
        yield Text(spot, str(number), "title", shift=(-12.0, 6.0), tries=((12.0, 8.0), (-12.0, -8.0)), halo=True)


def zero_places(build: Build) -> list[Spot]:
    """Where the tape is hooked, on the parts pulled apart [in]; a third where slats lie on a part of their own."""
    if build.bed_stands:
        return []
    rail = next((p for p in _used_as(build, "side_rail") if p.box.lo[1] == 0), None)
    head = next((p for p in _used_as(build, "end_rail") if p.box.centre[0] < build.outside[1] / 2), None)
    seat = next((p for p in _used_as(build, "cleat", "runner") if p.box.centre[1] < build.outside[0] / 2), None)
    return [_hook(build, piece, inner) for piece, inner in ((rail, False), (head, True), (seat, False)) if piece]


def _used_as(build: Build, *uses: str) -> Iterator[Piece]:
    return (piece for piece in build.pieces.values() if piece.use in uses)


def _hook(build: Build, piece: Piece, inner: bool) -> Spot:
    """Where the tape is hooked on a piece: its head end at the near side, or amid its inner face."""
    solid = piece_solid(build, piece.label, _shift(build, piece))
    if inner:
        return (solid.hi[0], solid.lo[1] + (solid.hi[1] - solid.lo[1]) * 0.55, solid.hi[2])
    return (solid.lo[0], solid.lo[1], solid.hi[2])


def _letters(build: Build, solids: Sequence[Solid], letters: Mapping[str, str], scale: float) -> Iterator[Balloon]:
    """One letter a part, on the piece where its ring finds room outside the wood."""
    wood = [Outline(outline) for solid in solids for outline, _, _ in faces(solid)]
    taken: list[Flat] = []
    for part in build.made:
        mine = [solid for solid in solids if build.pieces[solid.label].part == part.key]
        spots = [_face_middle(solid) for solid in sorted(mine, key=_nearness, reverse=True)]
        ring, spot = _place(spots, wood, taken, scale)
        taken.append(ring)
        yield Balloon(spot, letters[part.key], ((ring[0] - spot[0]) * scale, (ring[1] - spot[1]) * scale))


def _nearness(solid: Solid) -> float:
    """How near a box stands to the eye, beyond the foot, the left side and the top."""
    return solid.hi[0] - solid.lo[1] + solid.hi[2]


def _face_middle(solid: Solid) -> Flat:
    """A place on the face that the eye sees best."""
    (x0, y0, z0), (x1, y1, z1) = solid.lo, solid.hi
    if z1 - z0 < min(x1 - x0, y1 - y0):
        return project((x0 + (x1 - x0) * 0.5, y0 + (y1 - y0) * 0.3, z1))
    if x1 - x0 >= y1 - y0:
        return project((x0 + (x1 - x0) * 0.42, y0, (z0 + z1) / 2))
    return project((x1, y0 + (y1 - y0) * 0.45, (z0 + z1) / 2))


def _place(spots: Sequence[Flat], wood: Sequence[Outline], taken: Sequence[Flat], scale: float) -> tuple[Flat, Flat]:
    """A ring's middle and the place it points to: the first free paper about any of the places, the nearest first."""
    room = RING * 2.3 / scale
    best = (len(wood) * 5 + 1, (spots[0][0], spots[0][1] + room * (1 + len(taken))), spots[0])
    for spot in spots[:CLOSEST]:
        for ring in _rings(spot, scale):
            if any(hypot(ring[0] - x, ring[1] - y) < room for x, y in taken):
                continue
            hits = sum(outline.holds(p) for p in _about(ring, RING * 0.8 / scale) for outline in wood)
            if hits < best[0]:
                best = (hits, ring, spot)
            if not hits:
                return best[1], best[2]
    return best[1], best[2]


def _rings(spot: Flat, scale: float) -> Iterator[Flat]:
    """Where a letter may stand about a place, near ones first."""
    for reach in REACHES:
        for turn in (-60, -120, -30, -150, 60, 120, 30, 150, 0, 180):
            yield (spot[0] + reach / scale * cos(radians(turn)), spot[1] + reach / scale * sin(radians(turn)))


def _about(at: Flat, radius: float) -> list[Flat]:
    return [at, *((at[0] + radius * cos(t), at[1] + radius * sin(t)) for t in (0.0, 1.57, 3.14, 4.71))]


@dataclass(frozen=True)
class Outline:
    """A face on the drawing, with the rectangle about it so that most places are told apart quickly."""

    points: tuple[Flat, ...]

    @cached_property
    def frame(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top."""
        xs, ys = [p[0] for p in self.points], [p[1] for p in self.points]
        return min(xs), min(ys), max(xs), max(ys)

    def holds(self, p: Flat) -> bool:
        """True if a place lies in it; it is convex."""
        x0, y0, x1, y1 = self.frame
        if not (x0 < p[0] < x1 and y0 < p[1] < y1):
            return False
        sides = [
            (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
            for a, b in zip(self.points, (*self.points[1:], self.points[0]), strict=True)
        ]
        return all(s > 0 for s in sides) or all(s < 0 for s in sides)
