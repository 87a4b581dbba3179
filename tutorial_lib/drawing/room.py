"""The finished bed as it stands in the room: its mattress drawn back from the slats, outside sizes on the floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise, product
from math import cos, pi, radians, sin, sqrt

from tutorial_lib.design.model import Box, Build
from tutorial_lib.design.on_top import mattress_place
from tutorial_lib.design.storage import bays, box_places
from tutorial_lib.design.under_bed import ABOVE
from tutorial_lib.design.zero import reach
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import Arrow, Line, LineRole, Polygon, Scene, Shape, Style, Text
from tutorial_lib.drawing.solids import Flat, Solid, Spot, back_to_front, project
from tutorial_lib.drawing.views import size_text
from tutorial_lib.drawing.wood import Look, timber
from tutorial_lib.measures import mm

DRAWN_BACK = 0.47  # of the mattress's length is drawn, from the head
ROUND = 2.6  # [in] its corners
OFF = 7.5  # [in] a size on the floor stands this far off the bed
TWO = 50.0  # [in] a bed wider than this has two pillows
CARTON, CARTON_SIZE = "box", (17.0, 13.0)  # [in] long, deep: what is kept under a bed
LEAST_BOX = 5.0  # [in] a lower one is not drawn
NEAR = 2.6  # [in] a box stands this far in


def bed_in_room(build: Build, width: float, height: float, style: Style) -> Scene:
    """The bed from its foot and left side.

    Args:
        build: the bed.
        width: greatest width on paper [pt].
        height: greatest height on paper [pt].
        style: the look.
    """
    solids = [piece_solid(build, label) for label in build.pieces]
    bedding, below = _bedding(build), cartons(build, solids)
    shapes: list[Shape] = []
    for solid in back_to_front([*solids, *below, *([bedding] if bedding else [])]):
        if solid is bedding:
            shapes += _mattress(solid)
            shapes += _pillows(solid)
        elif solid.label == CARTON:
            shapes += _carton(build, solid)
        else:
            shapes += timber(solid, build.pieces[solid.label].axis, look_of(build, solid.label))
    shapes += _sizes(build)
    across, along = (size_text(build, size) for size in build.overall)
    alt = (f"The bed: {along} long and {across} wide outside, {size_text(build, build.heights.rail_top)} to the top "
           f"of the rails, {build.slats.count} slats, {len(build.legs)} legs.")  # fmt: skip
    if below:
        alt += f" Boxes {_box_told(build)} high go under it."
    return fitted(shapes, width, alt, height=height, style=style)


def piece_solid(build: Build, label: str, shift: Spot = (0.0, 0.0, 0.0)) -> Solid:
    """A piece where it stands, or moved from there [in]."""
    return _solid(build.pieces[label].box, label, shift)


def _solid(box: Box, label: str, shift: Spot = (0.0, 0.0, 0.0)) -> Solid:
    lo, hi = ([float(v) + d for v, d in zip(corner, shift, strict=True)] for corner in (box.lo, box.hi))
    return Solid((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2]), label)


def look_of(build: Build, label: str) -> Look:
    """Steel as metal, wood as wood."""
    return "wood" if build.pieces[label].shape == "box" else "metal"


def _bedding(build: Build) -> Solid | None:
    """The part of the mattress that is drawn; none where its thickness is not known."""
    high = build.heights
    if high.sleeping is None:
        return None
    (x0, x1), (y0, y1) = (map(float, ends) for ends in mattress_place(build))
    return Solid((x0, y0, float(high.slat_top)), (x0 + (x1 - x0) * DRAWN_BACK, y1, float(high.sleeping)), "mattress")


def box_height(build: Build) -> Fraction:
    """How high a box may be that goes under the bed, down to a round figure [in]."""
    step = mm(10) if build.options.build.units == "mm" else Fraction(1, 2)
    return (build.heights.storage - ABOVE) // step * step


def cartons(build: Build, solids: Sequence[Solid]) -> list[Solid]:
    """The boxes the build names; where it names none, one as high as goes under in each bay of the near side that has
    room for it, two at most. What would stand in the wood is left out."""
    named = [_solid(box, CARTON) for box in box_places(build)]
    usual = () if build.has("plinth_side") else _usual(build)  # nothing goes in behind a plinth
    return [c for c in named or usual if not any(_meet(c, solid) for solid in solids)]


def _usual(build: Build) -> Iterator[Solid]:
    high, (long, deep) = float(box_height(build)), CARTON_SIZE
    for start, end in sorted(bays(build, "left"), key=lambda bay: bay[0] - bay[1])[:2]:
        middle = float(start + end) / 2
        if high >= LEAST_BOX and float(end - start) > long:
            yield Solid((middle - long / 2, NEAR, 0.0), (middle + long / 2, NEAR + deep, high), CARTON)


def _meet(a: Solid, b: Solid) -> bool:
    return all(a.lo[i] < b.hi[i] and b.lo[i] < a.hi[i] for i in range(3))


def _box_told(build: Build) -> str:
    return size_text(build, build.options.storage.height or box_height(build))


def _carton(build: Build, box: Solid) -> Iterator[Shape]:
    """A box with its tape, and how high it may be."""
    yield from timber(box, 0, "paper")
    (x0, y0, _), (x1, y1, top) = box.lo, box.hi
    middle = (y0 + y1) / 2
    yield Line((project((x0, middle, top)), project((x1, middle, top))), "hair")
    words = f"{_box_told(build)} high"
    yield Text(project(((x0 + x1) / 2, y0, 0.36 * top)), words, "strong", lies="side")


def _corner(x: float, y: float, start: int) -> list[Flat]:
    return [(x + ROUND * cos(radians(t)), y + ROUND * sin(radians(t))) for t in range(start, start + 91, 15)]


def _mattress(bed: Solid) -> Iterator[Shape]:
    """From the head to a freehand break that shows its layers."""
    (x0, y0, low), (x1, y1, top) = bed.lo, bed.hi
    ys = [y0 + (y1 - y0) * k / 40 for k in range(41)]
    cut = [(x1 + 1.1 * sin((y - y0) / (y1 - y0) * 4.6 * pi), y) for y in ys]
    left, right = _corner(x0 + ROUND, y0 + ROUND, 180), _corner(x0 + ROUND, y1 - ROUND, 90)
    ring = [*left, *cut, *right]
    walls = _walls(ring)
    for a, b in sorted(walls, key=lambda wall: wall[0][0] - wall[0][1]):
        yield Polygon((_up(a, low), _up(b, low), _up(b, top), _up(a, top)), "paper", "clear")
    yield Polygon(tuple(_up(p, top) for p in ring), "paper", "none")
    side = [a for a, _ in walls if a[0] < x1 - 3] + cut[:1]
    yield from _layers(side, cut, low, top)
    yield _run([cut[-1], *right, *left], top, "outline")
    yield _run(side, top, "outline")


def _walls(ring: Sequence[Flat]) -> list[tuple[Flat, Flat]]:
    """The stretches of an outline whose upright faces are turned to the eye."""
    return [(a, b) for a, b in pairwise([*ring, ring[0]]) if (b[1] - a[1]) + (b[0] - a[0]) > 1e-9]


def _layers(side: Sequence[Flat], cut: Sequence[Flat], low: float, top: float) -> Iterator[Shape]:
    """The mattress's edges along its side, and across its break with what is inside."""
    for level, role in ((low, "outline"), (top - 0.9, "hair"), (low + 0.9, "hair"), (top, "thin")):
        yield _run(side, level, role)  # type: ignore[arg-type]
    yield _run(cut, low, "outline")
    yield _run(cut, top, "outline")
    for k in (1, 2, 3):
        yield _run(cut[1:-1], low + (top - low) * k / 4, "hair")
    for p in (side[0], cut[0], cut[-1]):
        yield Line((_up(p, low), _up(p, top)), "outline")


def _up(place: Flat, level: float) -> Flat:
    return project((place[0], place[1], level))


def _run(places: Sequence[Flat], level: float, role: LineRole) -> Line:
    return Line(tuple(_up(p, level) for p in places), role)


def _pillows(bed: Solid) -> Iterator[Shape]:
    (_, y0, _), (_, y1, top) = bed.lo, bed.hi
    beds = 2 if y1 - y0 > TWO else 1
    wide = (y1 - y0) / beds
    for k in reversed(range(beds)):
        yield from _pillow((bed.lo[0] + 9.1, y0 + wide * (k + 0.5), top), 7.5, min(13.0, wide / 2 - 1.5))


def _pillow(at: Spot, deep: float, wide: float) -> Iterator[Shape]:
    """A cushion by the outline of its bulge."""

    def spot(u: float, w: float, k: float) -> Flat:
        x, y = at[0] + deep * u * (0.93 + 0.07 * w * w), at[1] + wide * w * (0.93 + 0.07 * u * u)
        return project((x, y, at[2] + 1.9 + k * 4.1 * _bulge(u) * _bulge(w)))

    grid = [-1 + k / 10 for k in range(21)]
    below = [(x, y - 1.9) for x, y in (spot(u, w, 0) for u in (-0.8, 0.8) for w in (-0.86, 0.86))]
    outline = _hull([*(spot(u, w, 1) for u, w in product(grid, repeat=2)), *below])
    yield Polygon(tuple(outline), "paper", "outline")
    yield Line((*(spot(u, -1, 0) for u in grid), *(spot(1, w, 0) for w in grid)), "thin")
    for w, (p, q) in ((-0.45, (0.35, 0.8)), (0.1, (0.45, 0.85)), (0.55, (0.3, 0.75))):
        yield Line(tuple(spot(p + (q - p) * t / 6, w + 0.1 * (t / 6) ** 2, 1) for t in range(7)), "hair")


def _bulge(t: float) -> float:
    """How full a cushion is from its middle, 0, to an edge, -1 or 1."""
    return sqrt(max(0.0, 1 - abs(t) ** 2.6))


def _hull(points: Sequence[Flat]) -> list[Flat]:
    """The convex outline of some places."""
    found = sorted(set(points))
    return _half(found)[:-1] + _half(found[::-1])[:-1]


def _half(points: Sequence[Flat]) -> list[Flat]:
    out: list[Flat] = []
    for p in points:
        while len(out) > 1 and _turn(out[-2], out[-1], p) <= 0:
            out.pop()
        out.append(p)
    return out


def _turn(a: Flat, b: Flat, c: Flat) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _sizes(build: Build) -> Iterator[Shape]:
    """Length and width on the floor, the rail's top and underside beside the foot and the head."""
    (start, long), (near, wide) = (tuple(map(float, span)) for span in reach(build))
    top, under = float(build.heights.rail_top), float(build.heights.underside)
    along, across = (size_text(build, build.overall[1]), size_text(build, build.overall[0]))
    yield from _size((start, near, 0), (long, near, 0), (0, -OFF, 0), f"{along} long outside", "x")
    yield from _size((long, near, 0), (long, wide, 0), (OFF, 0, 0), f"{across} wide", "y")
    yield from _size((long, wide, 0), (long, wide, top), (3.6, 3.6, 0), size_text(build, build.heights.rail_top))
    yield from _size((start, near, 0), (start, near, under), (-3.6, -3.6, 0), size_text(build, build.heights.underside))


def _size(a: Spot, b: Spot, out: Spot, words: str, lies: str = "") -> Iterator[Shape]:
    """A size in space: its extension lines run along ``out`` from the two places."""
    far = max(map(abs, out))
    ends = []
    for place in (a, b):
        near, end, past = (project(_moved(place, out, k)) for k in (0.8 / far, 1.0, 1 + 1.2 / far))
        ends.append(end)
        yield Line((near, past), "thin")
    yield Arrow(ends[0], ends[1], both=True)
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    yield Text(middle, words, "title", halo=True, lies=lies)  # type: ignore[arg-type]


def _moved(place: Spot, way: Spot, share: float) -> Spot:
    x, y, z = (p + w * share for p, w in zip(place, way, strict=True))
    return (x, y, z)
