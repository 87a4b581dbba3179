"""The whole bed in space, as it stands in the room, with its outside sizes on the floor and its heights beside it."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.design.model import Build
from tutorial_lib.design.zero import reach
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import Arrow, FillRole, Line, Polygon, Scene, Shape, Text
from tutorial_lib.drawing.solids import Flat, Solid, Spot, back_to_front, faces, project
from tutorial_lib.drawing.views import size_text

FILLS: dict[int, FillRole] = {0: "wood front", 1: "wood side", 2: "wood"}  # by the face's axis; light from above
OFF = 7.0  # [in] a dimension stands this far off the bed


def whole_bed(build: Build, width: float = 460.0, height: float = 330.0) -> Scene:
    """The bed seen from its foot and left side, slats bare.

    Args:
        build: the bed.
        width: greatest width on paper [pt].
        height: greatest height on paper [pt].
    """
    shapes: list[Shape] = []
    for solid in back_to_front(_solids(build)):
        for outline, edges, axis in faces(solid):
            shapes.append(Polygon(outline, FILLS[axis], "none"))
            shapes += [Line(edge, "outline") for edge in edges]
    shapes += _sizes(build)
    across, along = (size_text(build, size) for size in build.overall)
    alt = (f"The bed: {along} long and {across} wide outside, {size_text(build, build.heights.rail_top)} to the top "
           f"of the rails, {build.slats.count} slats, {len(build.legs)} legs.")  # fmt: skip
    return fitted(shapes, width, alt, height=height)


def _solids(build: Build) -> list[Solid]:
    return [_solid(piece.box.lo, piece.box.hi, piece.label) for piece in build.pieces.values()]


def _solid(lo: tuple[Fraction, ...], hi: tuple[Fraction, ...], label: str) -> Solid:
    (a, b, c), (d, e, f) = map(float, lo), map(float, hi)
    return Solid((a, b, c), (d, e, f), label)


def _sizes(build: Build) -> list[Shape]:
    """Length and width on the floor, the rail's top and underside beside the foot and the head."""
    (start, long), (near, wide) = (tuple(map(float, span)) for span in reach(build))
    top, under = float(build.heights.rail_top), float(build.heights.underside)
    return [
        *_dimension((start, near - OFF, 0.0), (long, near - OFF, 0.0), size_text(build, build.overall[1])),
        *_dimension((long + OFF, near, 0.0), (long + OFF, wide, 0.0), size_text(build, build.overall[0])),
        *_dimension((long, wide + OFF, 0.0), (long, wide + OFF, top), size_text(build, build.heights.rail_top)),
        *_dimension((start, near - OFF, 0.0), (start, near - OFF, under), size_text(build, build.heights.underside)),
    ]


def _dimension(start: Spot, end: Spot, words: str) -> list[Shape]:
    p, q = project(start), project(end)
    middle: Flat = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    return [Arrow(p, q, both=True), Text(middle, words, "strong", halo=True)]
