"""Drawings for plates, in their own pixels: one part in the bed, the slats with their marks, legs, section, joints.

A scene drawn for paper is laid small and enlarged, so that its least words stand 36 px high.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil

from tutorial_lib.design.model import SIDES, Build
from tutorial_lib.drawing.layout import extent, fitted
from tutorial_lib.drawing.lettering import text_width
from tutorial_lib.drawing.scene import PAPER, FillRole, Line, LineRole, Polygon, Rect, Scene, Shape, Style, Text
from tutorial_lib.drawing.solids import Solid, back_to_front, faces
from tutorial_lib.drawing.views import mark_text, section, size_text

LEAST = 36.0  # [px] words on a video; our choice, to be read on a phone
STYLE = replace(
    PAPER, thick=4.0, thin=2.0, hair=1.2, clear=6.0, text=38.0, small=LEAST, title=44.0, gap=10.0, past=14.0, arrow=22.0
)
ENLARGED = LEAST / PAPER.small  # a drawing made for paper, on the screen
ROW_GAP = 26.0  # [px] between two rows of slats
SLAT_HIGH = 104.0  # [px] of a slat in the strip
RAIL_HIGH = 22.0
TICK = 16.0
APART = 12.0  # [px] between two marks' words
UNDER = ("cleat", "runner", "centre_beam", "centre_runner", "beam_block", "centre_leg", "flange")  # under the slats
FACES: dict[int, FillRole] = {0: "wood front", 1: "wood side", 2: "wood"}


def in_the_bed(build: Build, parts: Collection[str], width: float, height: float) -> Scene:
    """The bed in thin lines, some parts of it as wood in thick ones: what it is and where it goes.

    The slats are left out where they would hide it.
    """
    bare = any(build.part(key).use in UNDER for key in parts)
    found = [
        Solid(_spot(piece.box.lo), _spot(piece.box.hi), piece.label, piece.part in parts)
        for piece in build.pieces.values()
        if not (bare and piece.use == "slat")
    ]
    shapes: list[Shape] = []
    for solid in back_to_front(found):
        line: LineRole = "outline" if solid.new else "hair"
        for outline, edges, axis in faces(solid):
            shapes.append(Polygon(outline, FACES[axis] if solid.new else "paper", "none"))
            shapes += [Line(edge, line) for edge in edges]
    names = ", ".join(build.part(key).name for key in parts)
    return fitted(shapes, width, f"The bed, seen from its foot, with the {names} set off", height=height, style=STYLE)


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
    """So that a full row, with half its last mark's words and the rail before its first slat, fills the width [px/in]."""
    row = build.slats
    pitch = float(row.width + row.gap)
    rail = float(build.section_of(build.parts[0].pieces[0].label).thickness)
    return (width - LEAST) / (pitch * (each - 1) + float(row.width) + rail + pitch / 4)


def _strip_row(build: Build, which: range, y: float, scale: float) -> Iterator[Shape]:
    """Some slats in a row: the head rail before the first, the rail they lie on, a tick and its mark under each."""
    row = build.slats
    rail = float(build.section_of(build.parts[0].pieces[0].label).thickness)
    marks = row.marks[which.start : which.stop]
    zero, wide = float(marks[0]), float(row.width)
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
        inward = -1 if leg.y > wide / 2 else 1
        shapes.append(Text((leg.x, leg.y + inward * dy / 2), leg.label, "text", shift=(0, inward * 26.0)))
    shapes.append(Text((0, wide / 2), "HEAD", "small", rotate=90, shift=(30, 0)))
    shapes += _leg_marks(build)
    names = ", ".join(f"{leg.label} at {mark_text(build, leg.near_edge)}" for leg in build.legs)
    alt = f"{len(build.legs)} legs from above; near edges from the head end: {names}"
    return fitted(shapes, width, alt, height=height, style=STYLE)


def _leg_marks(build: Build) -> Iterator[Shape]:
    """Ticks and marks of the side legs under the map, of those on a centre line over it where they stand elsewhere."""
    wide = build.outside[0]
    sides = sorted({leg.near_edge for leg in build.legs if leg.line in SIDES})
    middle = sorted({leg.near_edge for leg in build.legs if leg.line not in SIDES})
    rows: list[tuple[Sequence[Fraction], Fraction, int]] = [(sides, Fraction(0), -1)]
    rows += [(middle, wide, 1)] if middle and middle != sides else []
    for marks, y, way in rows:
        for mark in marks:
            yield Line(((mark, y), (mark, y + way)), "outline")
            yield Text((mark, y + way), mark_text(build, mark), "strong small", shift=(0, way * LEAST * 0.7))


def section_drawing(build: Build, width: float, height: float) -> Scene:
    """The section through rail, support and slat, made for paper and enlarged."""
    return fitted_into(section(build, width / ENLARGED), width, height)


def fitted_into(scene: Scene, width: float, height: float) -> Scene:
    """A drawing made for paper, laid again so that enlarged it fits a space of the screen [px]."""
    room = (width / ENLARGED, height / ENLARGED)
    return fitted(scene.shapes, room[0], scene.alt, height=room[1], style=replace(PAPER, text=PAPER.small))


def enlarged(scene: Scene) -> float:
    """How much a scene is enlarged on the screen: one of paper so that its least words reach 36 px."""
    return 1.0 if scene.style.small >= LEAST else ENLARGED


def size_of(scene: Scene) -> tuple[float, float]:
    """Width and height of a scene on the screen [px]."""
    x0, y0, x1, y1 = extent(scene)
    k = enlarged(scene)
    return (x1 - x0 + 2 * scene.margin) * k, (y1 - y0 + 2 * scene.margin) * k


def widest(style: Style, words: Sequence[str]) -> float:
    """Width of the widest of some words [px]."""
    return max((text_width(word, style.text, True, style.face) for word in words), default=0.0)


def heights_told(build: Build) -> str:
    """What the section shows, in a line: the slats' depth below the rail's top."""
    return f"slats {size_text(build, build.heights.recess)} below the rail's top"
