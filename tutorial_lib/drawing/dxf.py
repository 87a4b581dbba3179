"""DXF of the bed from above and of every drilled face, full size in the plan's own unit; ezdxf is imported on use.

Holes are circles of the bit's diameter on a layer of their own, so that a machine can take them as they are; words,
dimensions and outlines lie on others.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from tutorial_lib.design.model import SIDES
from tutorial_lib.design.zero import leg_mark, leg_zero, leg_zero_name, marked, reach
from tutorial_lib.drawing.holes import edge_on_top, face_size, first_datum, hole_text
from tutorial_lib.measures import Writer, writer

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Piece
    from tutorial_lib.drilling.schedule import Hole, PieceHoles
    from tutorial_lib.plan import Plan

LAYERS = {  # name: (colour of the AutoCAD index, linetype)
    "OUTLINE": (7, "CONTINUOUS"),
    "HIDDEN": (8, "DASHED"),
    "CENTRE": (1, "CENTER"),
    "HOLES": (5, "CONTINUOUS"),
    "COUNTERSINKS": (4, "CONTINUOUS"),
    "DIMENSIONS": (3, "CONTINUOUS"),
    "TEXT": (7, "CONTINUOUS"),
}
HIDDEN_PARTS = ("cleat", "runner", "centre_beam", "centre_runner", "beam_block", "plinth_side", "plinth_end")
TEXT = Fraction(3, 4)  # [in] height of words on the plan
SMALL = Fraction(3, 16)  # [in] of those beside a hole
ROOM = Fraction(3)  # [in] between two faces
Spot = tuple[Fraction, Fraction]


class _Sheet:
    """A drawing in the making; takes inches, writes the plan's unit."""

    def __init__(self, w: Writer) -> None:
        from ezdxf import document, units
        from ezdxf.tools.standards import setup_linetypes

        self.w = w
        with _same_every_time():
            self.doc: Any = document.Drawing.new("R2010")
        setup_linetypes(self.doc)
        self.doc.units = units.MM if w.metric else units.IN
        self.doc.header["$MEASUREMENT"] = int(w.metric)
        for name, (colour, line) in LAYERS.items():
            self.doc.layers.add(name, color=colour, linetype=line)
        self.doc.styles.add("WORDS", font="arial.ttf")
        self.doc.header["$LTSCALE"] = self.size(Fraction(2))
        self.space: Any = self.doc.modelspace()

    def size(self, x: Fraction) -> float:
        """A length [in] in the file's unit."""
        return float(self.w.convert("length", x))

    def at(self, spot: Spot) -> tuple[float, float]:
        return self.size(spot[0]), self.size(spot[1])

    def rect(self, low: Spot, high: Spot, layer: str) -> None:
        corners = (low, (high[0], low[1]), high, (low[0], high[1]))
        self.space.add_lwpolyline([self.at(c) for c in corners], close=True, dxfattribs={"layer": layer})

    def line(self, a: Spot, b: Spot, layer: str) -> None:
        self.space.add_line(self.at(a), self.at(b), dxfattribs={"layer": layer})

    def circle(self, at: Spot, diameter: Fraction, layer: str) -> None:
        self.space.add_circle(self.at(at), self.size(diameter) / 2, dxfattribs={"layer": layer})

    def words(self, at: Spot, text: str, height: Fraction, align: str = "LEFT", turn: float = 0) -> None:
        from ezdxf.enums import TextEntityAlignment

        made = self.space.add_text(
            text, height=self.size(height), rotation=turn, dxfattribs={"layer": "TEXT", "style": "WORDS"}
        )
        made.set_placement(self.at(at), align=TextEntityAlignment[align])

    def dimension(self, p: Spot, q: Spot, base: Spot, text: str, upright: bool = False) -> None:
        """A dimension line that reads as the tape does."""
        size = self.size(TEXT)
        made = self.space.add_linear_dim(
            base=self.at(base), p1=self.at(p), p2=self.at(q), angle=90 if upright else 0, text=text,
            override={"dimtxt": size, "dimasz": size, "dimexe": size / 2, "dimexo": size / 2, "dimtxsty": "WORDS"},
            dxfattribs={"layer": "DIMENSIONS"},
        )  # fmt: skip
        made.render()

    def written(self) -> str:
        """The file's text."""
        out = io.StringIO()
        for kind in sorted(self.doc.entitydb.dxf_types_in_use()):  # a set: ezdxf would declare them as they come
            self.doc.classes.add_class(kind)
        with _same_every_time():
            self.doc.write(out)
        return out.getvalue()


@contextmanager
def _same_every_time() -> Iterator[None]:
    """ezdxf writes no times and no random marks, so that the same bed gives the same file."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def plan_dxf(build: Build) -> str:
    """The bed from above, head on the left, with the slats' and the legs' marks and the outside measures."""
    w = writer(build.options.build.units)
    sheet = _Sheet(w)
    (start, long), (near, wide) = reach(build)
    for piece in build.pieces.values():
        lo, hi = piece.box.lo, piece.box.hi
        sheet.rect((lo[0], lo[1]), (hi[0], hi[1]), _layer(piece))
    for line in build.lines:
        if line.central:
            sheet.line((line.x[0] - 2, line.y), (line.x[1] + 2, line.y), "CENTRE")
    for leg in build.legs:
        sheet.words((leg.x, leg.y - TEXT / 2), leg.label, TEXT, "CENTER")
    row = build.slats
    low = -4 * TEXT
    _marks(sheet, row.start, row.marks, low, f"slats: near edges from the head rail's inner face, {w.units}")
    _leg_marks(sheet, build, low - 8 * TEXT)
    across, along = build.overall
    sheet.dimension((start, wide), (long, wide), (start, wide + 4 * TEXT), w.length(along))
    sheet.dimension((long, near), (long, wide), (long + 4 * TEXT, near), w.length(across), upright=True)
    return sheet.written()


def _leg_marks(sheet: _Sheet, build: Build, low: Fraction) -> None:
    """Near edges of the legs: all from the head end, between posts those of each side from its rail's end."""
    w, sides = sheet.w, marked(build)
    middle = [leg for leg in build.legs if leg.line not in SIDES]
    if not build.options.frame.posts:
        edges = sorted({leg.near_edge for leg in build.legs})
        _marks(sheet, Fraction(0), tuple(edges), low, f"legs: near edges from the head end, {w.units}")
        return
    if sides:
        edges = sorted({leg_mark(build, leg) for leg in sides})
        _marks(sheet, leg_zero(build), tuple(edges), low, f"legs: near edges from {leg_zero_name(build)}, {w.units}")
    if middle:
        edges = sorted({leg.near_edge for leg in middle})
        told = f"centre legs: near edges from the head rail's outer face, {w.units}"
        _marks(sheet, Fraction(0), tuple(edges), low - 8 * TEXT, told)


def _layer(piece: Piece) -> str:
    return "HIDDEN" if (piece.axis == 2 and piece.use != "post") or piece.use in HIDDEN_PARTS else "OUTLINE"


def _marks(sheet: _Sheet, start: Fraction, marks: tuple[Fraction, ...], y: Fraction, told: str) -> None:
    """Running marks from one datum along a line."""
    sheet.line((start, y), (start + marks[-1], y), "DIMENSIONS")
    for mark in marks:
        x = start + mark
        sheet.line((x, y - TEXT / 2), (x, y + TEXT / 2), "DIMENSIONS")
        sheet.words((x, y - TEXT), sheet.w.mark(mark), TEXT, "MIDDLE_RIGHT", 90)
    sheet.words((start, y + TEXT), told, TEXT)


def templates_dxf(plan: Plan) -> str:
    """Every drilled face at full size, one under the other, each hole with its bit, its marks and its depth."""
    sheet = _Sheet(writer(plan.options.build.units))
    y = Fraction(0)
    for group, face in faces(plan):
        _, high = face_size(group, face)
        y -= high + ROOM
        _face(sheet, plan.build, group, face, y)
    return sheet.written()


def faces(plan: Plan) -> Iterator[tuple[PieceHoles, str]]:
    """Every drilled face."""
    for group in plan.drilling.schedule:
        for face in group.faces:
            yield group, face


def _face(sheet: _Sheet, build: Build, group: PieceHoles, face: str, y: Fraction) -> None:
    long, high = face_size(group, face)
    top = edge_on_top(build, group, face)
    sheet.rect((Fraction(0), y), (long, y + high), "OUTLINE")
    for hole in group.on(face):
        at = (hole.u, y + (high - hole.v if top else hole.v))
        sheet.circle(at, hole.diameter, "HOLES")
        if hole.countersink:
            sheet.circle(at, hole.countersink, "COUNTERSINKS")
    edge = f"marks down from the {group.datum_edges[face]} ({'above' if top else 'below'})"
    head = f"{group.name}, {face}: {group.which}. Left is the {first_datum(group, face)}; {edge}."
    sheet.words((Fraction(0), y + high + SMALL), head, 2 * SMALL)
    for n, (kind, holes) in enumerate(_kinds(build, group, face).items(), 1):
        w = sheet.w
        places = "; ".join(f"{w.mark(hole.u)} along, {w.mark(hole.v)} down" for hole in holes)
        sheet.words((Fraction(0), y - n * 2 * SMALL), f"{kind}: {places} {w.units}", SMALL)


def _kinds(build: Build, group: PieceHoles, face: str) -> dict[str, list[Hole]]:
    """Holes of a face by what is bored."""
    found: dict[str, list[Hole]] = {}
    for hole in group.on(face):
        found.setdefault(hole_text(build, hole), []).append(hole)
    return found
