"""Face maps: a part unfolded, each face with what is done to it; and the whole bed with the faces that show."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from tutorial_lib.design.model import Box, Build
from tutorial_lib.design.on_top import mattress_box
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import FillRole, Line, Polygon, Rect, Scene, Shape, Text
from tutorial_lib.drawing.solids import Solid, back_to_front, faces
from tutorial_lib.finishing import FaceMap, FaceState, Finishing

FILLS: dict[str, FillRole] = {"seen": "wood", "touched": "paper", "hidden": "paper", "contact": "metal"}
TOLD = {"seen": "sand and finish", "touched": "break edges", "hidden": "leave raw", "contact": "against wood"}
ROW = 15.0  # [pt] least height of a row
LARGEST = 6.0  # [pt per in] short parts are not blown up
WORDS = 150.0  # [pt] room for the words


def part_map(found: FaceMap, width: float = 430.0, sealed: bool = False) -> Scene:
    """A part unfolded along its length, its faces one under the other, ends last; wood against it is grey.

    Args:
        found: the part's face map.
        width: on paper [pt].
        sealed: hidden faces get a coat too.
    """
    shapes: list[Shape] = []
    y = 0.0
    sides = [s for s in found.states if not s.face.end_grain]
    longest = float(sides[0].face.piece.length)
    scale = min((width - WORDS) / longest, LARGEST)
    edge = longest * scale + 8
    for state in (*sides, *(s for s in found.states if s.face.end_grain)):
        along, high = _size(state)
        tall = max(high * scale, 4.0)
        row = max(tall, ROW - 3)
        y -= row + 3
        base = y + (row - tall) / 2
        shapes += _face(state, scale, base, tall, along * scale)
        told = "seal" if sealed and state.state == "hidden" else TOLD[state.state]
        shapes.append(
            Text((edge, y + row / 2), f"{state.label}: {told}", "strong" if state.state == "seen" else "text", "start")
        )
    alt = f"{found.name}, unfolded. {found.sentence}"
    return Scene(tuple(shapes), 1.0, alt)


def _size(state: FaceState) -> tuple[float, float]:
    """Length along the piece and height of a face as drawn [in]."""
    size, piece = state.face.rectangle.size, state.face.piece
    if state.face.end_grain:
        across = [float(size[i]) for i in range(3) if i != piece.axis]
        return max(across), min(across)
    other = next(i for i in range(3) if i not in (state.face.axis, piece.axis))
    return float(size[piece.axis]), float(size[other])


def _face(state: FaceState, scale: float, base: float, tall: float, long: float) -> Iterator[Shape]:
    yield Rect(0, base, long, tall, FILLS[state.state], line="outline" if state.state == "seen" else "thin")
    if state.face.end_grain or state.state == "contact":
        return
    for box in state.contacts:
        yield _contact(state, box, scale, base, tall)


def _contact(state: FaceState, box: Box, scale: float, base: float, tall: float) -> Rect:
    piece, face = state.face.piece, state.face
    other = next(i for i in range(3) if i not in (face.axis, piece.axis))
    whole = face.rectangle
    x = float(box.lo[piece.axis] - whole.lo[piece.axis]) * scale
    y = float((box.lo[other] - whole.lo[other]) / whole.size[other]) * tall
    return Rect(
        x,
        base + y,
        float(box.size[piece.axis]) * scale,
        float(box.size[other] / whole.size[other]) * tall,
        "metal",
        line="hidden",
    )


def bed_map(build: Build, finishing: Finishing, width: float = 400.0) -> Scene:
    """The bed as it stands, mattress on, with the faces that show filled."""
    shown = {(s.face.piece.label, s.face.axis, s.face.sign) for s in finishing.states if s.state == "seen"}
    solids = [_solid(piece.box, piece.label) for piece in build.pieces.values()]
    on_top = mattress_box(build)
    if on_top is not None:
        solids.append(_solid(on_top, "mattress"))
    shapes: list[Shape] = []
    for solid in back_to_front(solids):
        shapes += _solid_faces(solid, shown)
    return fitted(shapes, width, f"The bed with its mattress; {float(finishing.seen):.1f} square feet of wood show.")


def _solid_faces(solid: Solid, shown: Collection[tuple[str, int, int]]) -> Iterator[Shape]:
    """What the eye sees of a box: its faces that show as wood, the others as paper."""
    for outline, edges, axis in faces(solid):
        wood = (solid.label, axis, -1 if axis == 1 else 1) in shown
        yield Polygon(outline, "wood" if wood else "paper", "none")
        yield from (Line(edge, "outline" if wood else "thin") for edge in edges)


def _solid(box: Box, label: str) -> Solid:
    (a, b, c), (d, e, f) = box.lo, box.hi
    return Solid((float(a), float(b), float(c)), (float(d), float(e), float(f)), label)
