"""The head end of the left side from above: where the tape is hooked for what, how far one zero is from the next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.design.model import Build, Piece
from tutorial_lib.design.zero import leg_mark, leg_zero, leg_zero_name, marked
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import (
    Arrow,
    Dimension,
    FillRole,
    Line,
    LineRole,
    Mark,
    Polygon,
    Scene,
    Shape,
    Style,
    Text,
)
from tutorial_lib.drawing.solids import Flat
from tutorial_lib.drawing.views import mark_text
from tutorial_lib.records import dataclass

SEATS = ("cleat", "runner")
TINTS: dict[str, FillRole] = {"slat": "wood", "side_rail": "wood side", "end_rail": "wood side"}


@dataclass(frozen=True)
class Zero:
    """Where the tape is hooked."""

    number: int
    name: str
    x: Fraction  # [in] from the bed's head end
    first: Fraction  # [in] from there, the first mark made from it
    what: str  # what that mark is


def zeros(build: Build, first_hole: Fraction | None = None) -> list[Zero]:
    """The zero points of a bed.

    Args:
        build: the bed.
        first_hole: of what the slats lie on, from its end [in].
    """
    found = []
    sides = marked(build, "left")
    if sides:
        start = leg_zero(build)
        found.append(Zero(1, leg_zero_name(build), start, leg_mark(build, sides[0]), "first leg"))
    marks = build.slats.marks
    if len(marks) > 1:
        found.append(Zero(len(found) + 1, "the head rail's inner face", build.slats.start, marks[1], "second slat"))
    seat = next((p for p in build.pieces.values() if p.use in SEATS and p.box.lo[1] < build.outside[0] / 2), None)
    if seat is not None and first_hole is not None:
        first = "first " if len(_seats(build, seat)) > 1 else ""
        name = f"the {first}{seat.use}'s end"
        found.append(Zero(len(found) + 1, name, seat.box.lo[0], first_hole, "first hole"))
    return found


def _seats(build: Build, seat: Piece) -> list[Piece]:
    """What the slats lie on along the side that a piece of it is of."""
    return [p for p in build.pieces.values() if p.use == seat.use and p.box.lo[1] == seat.box.lo[1]]


def zero_points(build: Build, points: list[Zero], width: float, height: float, style: Style) -> Scene:
    """The corner from above with its zero points under each other.

    Args:
        build: the bed.
        points: its zero points.
        width: greatest width on paper [pt].
        height: greatest height on paper [pt].
        style: the look.
    """
    reach = _reach(build)
    deep = float(_deep(build)) + 1.5
    shapes = [shape for piece in _drawn(build) for shape in _plank(build, piece, reach, deep)]
    for row, zero in enumerate(points):
        below = [float(other.x) for other in points[row + 1 :]]
        shapes += _row(zero, -1.1 - 1.25 * row, mark_text(build, zero.first), reach, below)
    first = points[0].x if points else Fraction(0)
    for i, x in enumerate(sorted({zero.x for zero in points} - {first})):
        a, b = sorted((first, x))
        shapes.append(Dimension((a, deep), (b, deep), 12 + 17 * i, mark_text(build, b - a), "x"))
    alt = f"The head end of the left side from above, with {len(points)} zero points"
    return fitted(shapes, width, alt, height=height, largest=19.0, style=style)


def _deep(build: Build) -> Fraction:
    """How far in from the left the side reaches, its legs included [in]; a centre line may stand as near as a third."""
    legs = [leg.y + leg.size[1] / 2 for leg in build.legs if leg.line == "left"]
    return max(legs + [p.box.hi[1] for p in _near(build, "side_rail", "cleat", "runner")])


def _reach(build: Build) -> float:
    """How much of the length is drawn [in]: past the second slat."""
    row = build.slats
    return float(row.start + (row.marks[1] if len(row.marks) > 1 else row.marks[0]) + row.width) + 2.5


def _near(build: Build, *uses: str) -> list[Piece]:
    half = build.outside[0] / 5  # a centre line and its legs stand further in
    return [p for p in build.pieces.values() if p.use in uses and p.box.lo[1] < half and p.shape == "box"]


def _drawn(build: Build) -> Iterator[Piece]:
    reach = _reach(build)
    for use in ("post", "side_rail", "end_rail", "corner_block", "runner", "cleat", "slat"):
        yield from (p for p in _near(build, use) if p.box.lo[0] < reach - 3)


def _plank(build: Build, piece: Piece, reach: float, deep: float) -> Iterator[Shape]:
    """A piece from above, without a line where it is broken off."""
    (x0, y0, _), (x1, y1, _) = ([float(v) for v in corner] for corner in (piece.box.lo, piece.box.hi))
    hidden = piece.use == "runner"
    x, y = min(x1, reach), min(y1, deep)
    fill: FillRole = "none" if hidden else TINTS.get(piece.use, "wood front")
    line: LineRole = "hidden" if hidden else "outline"
    yield Polygon(((x0, y0), (x, y0), (x, y), (x0, y)), fill, "none")
    yield Line(((x, y0), (x0, y0), (x0, y), *([(x, y)] if y1 <= deep else [])), line)
    yield Line(((x, y0), (x, y)) if x1 <= reach else ((x0, y0), (x, y0)), line)
    if y1 <= deep:
        yield Line(((x0, y), (x, y)), line)
    yield from _plank_name(build, piece, ((x0, y0), (x, y)), deep)


def _plank_name(build: Build, piece: Piece, drawn: tuple[Flat, Flat], deep: float) -> Iterator[Shape]:
    """What a piece is called, at its open end, in its middle or along it; slats by their numbers."""
    (x0, y0), (x, y) = drawn
    name = build.part_of(piece.label).name
    if piece.use == "slat":
        yield Text(((x0 + x) / 2, deep), piece.label, "strong", shift=(0, -9))
    elif piece.axis == 0:
        yield Text((x, (y0 + y) / 2), name, "text", "end", shift=(-6, 0), optional=True)
    elif piece.use == "post":
        yield Text(((x0 + x) / 2, (y0 + y) / 2), "post", "text", optional=True)
    elif piece.axis == 1 and not build.options.frame.posts:
        yield Text(((x0 + x) / 2, deep * 0.62), name, "text", rotate=90, optional=True)


def _row(zero: Zero, y: float, mark: str, reach: float, below: Sequence[float]) -> Iterator[Shape]:
    """A zero point under the drawing, and the first mark made from it; one beyond the drawing is pointed at.

    Its words stand right of the lines that run down to the zero points below it.
    """
    x = float(zero.x)
    end = min(x + float(zero.first), reach)
    yield Line(((x, 0.0), (x, y)))
    yield Arrow((x, y), (end, y))
    if end < reach:
        yield Line(((end, y + 0.28), (end, y - 0.28)))
    yield Mark((x, y), "datum", 12.0)
    words = max([end, *below])
    aside = 6 if zero.first or words > end else 12  # clear of the sign
    yield Text((words, y), f"{mark}, {zero.what}", "strong", "start", shift=(aside, 0), halo=True)
    yield Text((0.0, y), f"Zero {zero.number}", "strong", "end", shift=(-16, 0))
