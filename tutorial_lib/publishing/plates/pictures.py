"""Drawings for plates, a point a pixel: one part in the bed, the slats with their marks, legs, section, a step."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING

from tutorial_lib.design.model import SIDES, Box, Build, Joint, Leg
from tutorial_lib.design.zero import leg_mark, leg_zero, leg_zero_short, marked, reach
from tutorial_lib.drawing.isometric import Frame, pulls
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.lettering import text_width
from tutorial_lib.drawing.scene import (
    PAPER,
    Dimension,
    FillRole,
    Line,
    LineRole,
    Polygon,
    Rect,
    Scene,
    Shape,
    Text,
)
from tutorial_lib.drawing.solids import Flat, Solid, Spot, back_to_front, faces, project, seen
from tutorial_lib.drawing.views import mark_text, size_text

if TYPE_CHECKING:
    from tutorial_lib.assembly.steps import Step
    from tutorial_lib.design.fasteners import Driven

LEAST = 36.0  # [px] words on a video; our choice, to be read on a phone
STYLE = replace(
    PAPER, thick=4.0, thin=2.0, hair=1.8, clear=6.0, text=38.0, small=LEAST, title=44.0, gap=10.0, past=14.0, arrow=22.0
)
ROW_GAP = 26.0  # [px] between two rows of slats
SLAT_HIGH = 104.0  # [px] of a slat in the strip
RAIL_HIGH = 22.0
TICK = 16.0
APART = 12.0  # [px] between two marks' words
UNDER = (  # under the slats
    "cleat", "runner", "centre_beam", "centre_runner", "beam_block", "centre_leg", "flange", "plinth_side",
    "plinth_end", "corner_block",
)  # fmt: skip
SEEN = 1 / 3  # share of a piece's outline: less is drawn as hidden; our choice, to tell where it is
FACES: dict[int, FillRole] = {0: "wood front", 1: "wood side", 2: "wood"}


def in_the_bed(build: Build, parts: Collection[str], width: float, height: float) -> Scene:
    """The bed in thin lines, some parts of it as wood in thick ones: what it is and where it goes.

    The slats are left out where they would hide it; what is hidden else is drawn over what hides it, dashed.
    """
    bare = any(build.part(key).use in UNDER for key in parts)
    found = [
        Solid(_spot(piece.box.lo), _spot(piece.box.hi), piece.label, piece.part in parts)
        for piece in build.pieces.values()
        if not (bare and piece.use == "slat")
    ]
    shapes = [*_solids(found), *_hidden(found)]
    names = ", ".join(build.part(key).name for key in parts)
    return fitted(shapes, width, f"The bed, seen from its foot, with the {names} set off", height=height, style=STYLE)


def _solids(found: Sequence[Solid]) -> Iterator[Shape]:
    """Boxes from the back to the front: new ones as wood with thick edges, the others white with thin ones."""
    for solid in back_to_front(found):
        line: LineRole = "outline" if solid.new else "hair"
        for outline, edges, axis in faces(solid):
            yield Polygon(outline, FACES[axis] if solid.new else "paper", "none")
            yield from (Line(edge, line) for edge in edges)


def _hidden(found: Sequence[Solid]) -> Iterator[Shape]:
    """What is set off and mostly hidden once more, over what stands before it: as wood with dashed edges."""
    for solid in back_to_front(solid for solid in found if solid.new and seen(solid, found) < SEEN):
        for outline, edges, axis in faces(solid):
            yield Polygon(outline, FACES[axis], "none")
            yield from (Line(edge, "hidden") for edge in edges)


def _spot(point: tuple[Fraction, Fraction, Fraction]) -> tuple[float, float, float]:
    return float(point[0]), float(point[1]), float(point[2])


def slat_strip(build: Build, width: float) -> Scene:
    """The slats from above along one rail, in as many rows as their marks' words need, each row to one scale."""
    row = build.slats
    words = max(text_width(mark_text(build, m), STYLE.small, True, STYLE.face) for m in row.marks) + APART
    each = max(1, min(row.count, int(width / words)))
    rows = ceil(row.count / each)
    each = ceil(row.count / rows)
    scale = _strip_scale(build, each, width)
    shapes: list[Shape] = []
    for n in range(rows):
        y = -n * (SLAT_HIGH + RAIL_HIGH + TICK + LEAST + ROW_GAP) / scale
        shapes += _strip_row(build, range(n * each, min((n + 1) * each, row.count)), y, scale)
    marks = ", ".join(mark_text(build, m) for m in row.marks)
    alt = f"{row.count} slats from above; near edges from the head rail's inner face at {marks}"
    return Scene(tuple(shapes), scale, alt, style=STYLE)


def _strip_scale(build: Build, each: int, width: float) -> float:
    """So that a full row, with half its last mark's words and the rail before its first slat, fills the width."""
    row = build.slats
    pitch, first = float(row.width + row.gap), float(row.marks[0])
    rail = float(build.section_of(build.parts[0].pieces[0].label).thickness)
    return (width - LEAST) / (pitch * (each - 1) + float(row.width) + first + rail + pitch / 4)


def _strip_row(build: Build, which: range, y: float, scale: float) -> Iterator[Shape]:
    """Some slats in a row: the head rail before the first, the rail they lie on, a tick and its mark under each."""
    row = build.slats
    rail = float(build.section_of(build.parts[0].pieces[0].label).thickness)
    marks = row.marks[which.start : which.stop]
    zero, wide = (float(marks[0]) if which.start else 0.0), float(row.width)
    low, tick = y - RAIL_HIGH / scale, TICK / scale
    left = -rail if which.start == 0 else -rail / 2
    right = float(marks[-1]) - zero + wide + rail / 2
    yield Rect(left, low, right - left, RAIL_HIGH / scale, "wood side")
    if which.start == 0:
        yield Rect(-rail, y, rail, SLAT_HIGH / scale, "wood front")
    for i, mark in zip(which, marks, strict=True):
        x = float(mark) - zero
        yield Rect(x, y, wide, SLAT_HIGH / scale, "wood")
        yield Text((x + wide / 2, y + SLAT_HIGH / scale / 2), str(i + 1), "text")
        yield Line(((x, low), (x, low - tick)), "outline")
        yield Text((x, low - tick), mark_text(build, mark), "strong small", shift=(0, -LEAST * 0.55))


def leg_map(build: Build, width: float, height: float) -> Scene:
    """The legs from above, head on the left, each with its name; near edges of the side legs from the head end."""
    wide, long = build.outside
    shapes: list[Shape] = [Rect(0, 0, long, wide, "none", line="outline")]
    for line in build.lines:
        if line.central:
            shapes.append(Line(((line.x[0], line.y), (line.x[1], line.y)), "centre"))
    for leg in build.legs:
        dx, dy = leg.size
        shapes.append(Rect(leg.x - dx / 2, leg.y - dy / 2, dx, dy, "end"))
        shapes.append(_leg_name(leg, long, wide))
    shapes.append(Text((0, wide / 2), "HEAD", "small", rotate=90, shift=(-26, 0)))
    shapes += _leg_marks(build)
    legs = [leg for leg in build.legs if not leg.post]
    names = ", ".join(f"{leg.label} at {mark_text(build, leg_mark(build, leg))}" for leg in legs)
    alt = f"{len(build.legs)} legs from above; near edges from {leg_zero_short(build)}: {names}"
    return fitted(shapes, width, alt, height=height, style=STYLE)


def _leg_name(leg: Leg, long: Fraction, wide: Fraction) -> Text:
    """A leg's name beside it, toward the bed's middle; at the bed's ends clear of the line that ends it."""
    dx, dy = leg.size
    inward = -1 if leg.y > wide / 2 else 1
    y = leg.y + inward * dy / 2
    if leg.x < long / 4:
        return Text((max(leg.x - dx / 2, Fraction(0)), y), leg.label, "text", "start", shift=(8.0, inward * 26.0))
    if leg.x > long * 3 / 4:
        return Text((min(leg.x + dx / 2, long), y), leg.label, "text", "end", shift=(-8.0, inward * 26.0))
    return Text((leg.x, y), leg.label, "text", shift=(0, inward * 26.0))


def _leg_marks(build: Build) -> Iterator[Shape]:
    """Ticks and marks of the side legs under the map, of those on a centre line over it where they stand elsewhere."""
    wide = build.outside[0]
    sides, start = sorted({leg_mark(build, leg) for leg in marked(build)}), leg_zero(build)
    middle = sorted({leg.near_edge for leg in build.legs if leg.line not in SIDES})
    rows: list[tuple[Sequence[Fraction], Fraction, Fraction, int]] = [(sides, start, Fraction(0), -1)]
    rows += [(middle, Fraction(0), wide, 1)] if middle and middle != sides else []
    for marks, zero, y, way in rows:
        for mark in marks:
            yield Line(((zero + mark, y), (zero + mark, y + way)), "outline")
            yield Text((zero + mark, y + way), mark_text(build, mark), "strong small", shift=(0, way * LEAST * 0.7))


def section_uses(build: Build) -> tuple[str, ...]:
    """What the section goes through, from outside to inside: side rail, what is fixed to it, slat."""
    left = next(line for line in build.lines if line.name == "left")
    held = next((build.pieces[m].use for m in left.members if build.pieces[m].use != "side_rail"), None)
    return ("side_rail", *([held] if held else []), "slat")


def section_drawing(build: Build, called: Mapping[str, str], width: float, height: float) -> Scene:
    """The section through rail, support and slat: what lies how deep below the rail's top.

    Args:
        build: the bed.
        called: a word for each of :func:`section_uses`.
        width: room for the drawing [px].
        height: the same upright.
    """
    left = next(line for line in build.lines if line.name == "left")
    slat = next(piece for piece in build.pieces.values() if piece.use == "slat").box
    rail = next(p for p in build.pieces.values() if p.use == "side_rail" and p.box.lo[1] == 0).box
    held = next((build.pieces[m].box for m in left.members if build.pieces[m].use != "side_rail"), rail)
    reach = max(held.hi[1], left.seat[1]) + 3
    cut = [(rail, "end"), (held, "end")] if held is not rail else [(rail, "end")]
    shapes: list[Shape] = [Rect(b.lo[1], b.lo[2], b.size[1], b.size[2], fill) for b, fill in cut]  # type: ignore[arg-type]
    shapes.append(Rect(slat.lo[1], slat.lo[2], reach - slat.lo[1], slat.size[2], "wood"))
    shapes += _section_names(called, rail, held, slat, reach)
    shapes += _section_depths(build, rail, held, slat, reach)
    depth = size_text(build, build.heights.recess)
    return fitted(shapes, width, f"Section: the slats' top {depth} below the rail's top", height=height, style=STYLE)


def _section_names(called: Mapping[str, str], rail: Box, held: Box, slat: Box, reach: Fraction) -> Iterator[Shape]:
    """What each of the pieces is."""
    first, *middle, last = called.values()
    yield Text((rail.centre[1], rail.centre[2]), first, "text", rotate=90)
    yield Text((reach, slat.hi[2]), last, "text", "end", shift=(-8, 26))
    yield from (Text((held.hi[1], held.lo[2]), name, "text", "start", shift=(10, 4)) for name in middle)


def _section_depths(build: Build, rail: Box, held: Box, slat: Box, reach: Fraction) -> Iterator[Shape]:
    """The rail and its support on the left; on the right the slat, and the recess where there is one."""
    top, zero = rail.hi[2], Fraction(0)
    if zero < top - held.hi[2] < rail.size[2]:
        yield Dimension((zero, held.hi[2]), (zero, top), -70, size_text(build, top - held.hi[2]), "y")
    yield Dimension((zero, rail.lo[2]), (zero, top), -220, size_text(build, rail.size[2]), "y")
    yield Dimension((reach, slat.lo[2]), (reach, slat.hi[2]), 60, size_text(build, slat.size[2]), "y")
    if slat.hi[2] < top:
        yield Dimension((reach, slat.hi[2]), (reach, top), 220, size_text(build, top - slat.hi[2]), "y")


def step_picture(build: Build, step: Step, width: float, height: float) -> Scene:
    """A step: what comes in as wood, pulled out along its joint, what is there in white; the screws' axes."""
    frame = Frame(build, step.way == "upside down")
    new = step.new or step.made
    shifts = pulls(build, step.operation) if step.operation else {}
    none = (0.0, 0.0, 0.0)
    there = [label for label in step.present if step.new or not step.operation]
    found = [frame.solid(label) for label in there]
    found += [frame.solid(label, shifts.get(label, none), True) for label in new]
    shapes = list(_solids(found))
    for fastening in step.operation.fastenings if step.operation else ():
        for driven in fastening.driven:
            shapes.append(Line(axis_of(frame, driven, shifts, fastening.joint), "centre"))
    if step.key == "square":
        shapes += [Line(line, "new") for line in diagonals(build, found)]
    alt = f"Step {step.number}: {step.title}"
    return fitted(shapes, width, alt, height=height, style=STYLE)


def axis_of(frame: Frame, driven: Driven, shifts: Mapping[str, Spot], joint: Joint) -> tuple[Flat, Flat]:
    """The line a screw is driven along: from its head, moved with the near piece, to its tip in the far one."""
    none = (0.0, 0.0, 0.0)
    ends = ((driven.head, joint.near), (driven.tip, joint.far))
    a, b = (
        project(frame.spot(float(v) + d for v, d in zip(place, shifts.get(label, none), strict=True)))
        for place, label in ends
    )
    return a, b


def diagonals(build: Build, found: Sequence[Solid]) -> tuple[tuple[Flat, Flat], tuple[Flat, Flat]]:
    """Both diagonals over the outside corners, at the height of the rails' top: posts may go on above it."""
    rails = [piece.label for piece in build.pieces.values() if piece.use in ("side_rail", "end_rail")]
    top = max(solid.hi[2] for solid in found if solid.label in rails)
    (start, long), (near, wide) = (tuple(map(float, span)) for span in reach(build))
    return (
        (project((start, near, top)), project((long, wide, top))),
        (project((start, wide, top)), project((long, near, top))),
    )
