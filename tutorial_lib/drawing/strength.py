"""Drawings of strength: legs with what they carry, utilisations as bars, slat and side as they bend."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from tutorial_lib.design.model import Build, Piece
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import Anchor, Line, LineRole, Rect, Scene, Shape, Text
from tutorial_lib.measures import Writer
from tutorial_lib.strength.working import in_words

if TYPE_CHECKING:
    from tutorial_lib.strength.leg_map import LegEntry

WIDTH = 470.0  # [pt]
SHOWN_SAG = 0.02  # [in] smaller sags are not drawn larger than this one
RAILS = ("side_rail", "end_rail")
FRAME = (*RAILS, "runner", "centre_beam", "centre_runner")
SHOWN_TO = 2.5  # utilisations above this end in an arrow's worth of bar and their figure


def leg_loads(
    build: Build, legs: Sequence[LegEntry], left_out: Sequence[str], units: Writer, width: float = WIDTH
) -> Scene:
    """The legs from above, each with its load and what happens without it, by word and shape."""
    wide, long = build.outside
    shapes: list[Shape] = [_from_above(piece) for piece in build.pieces.values() if piece.use in FRAME]
    for entry in legs:
        shapes += _leg_told(build, entry, units)
    shapes.append(Text((0, wide / 2), "HEAD", "small", rotate=90, shift=(-9, 0)))
    if left_out:
        words = f"left out: {', '.join(left_out)}"
        shapes.append(Text((long / 2, wide / 2), words, "text", halo=True))
    told = "; ".join(f"{e.leg.label} {units.weight(e.load)}, {e.word}" for e in legs)
    alt = f"Legs from above, head on the left, each with its greatest load and whether it may go: {told}."
    return fitted(shapes, width, alt, height=200)


def _from_above(piece: Piece) -> Rect:
    (x, y, _), (dx, dy, _) = piece.box.lo, piece.box.size
    return Rect(x, y, dx, dy, "none" if piece.use in RAILS else "wood", line="thin")


def _leg_told(build: Build, entry: LegEntry, units: Writer) -> Iterator[Shape]:
    """A leg, filled where it has to stay; its load and its word toward the middle of the bed."""
    leg, (dx, dy) = entry.leg, entry.leg.size
    yield Rect(leg.x - dx / 2, leg.y - dy / 2, dx, dy, "paper" if entry.word == "may go" else "ink", line="outline")
    high = leg.y * 2 > build.outside[0]
    at, first, second = (leg.x, leg.y + dy / 2), 7.0, 17.0
    if high:
        at, first, second = (leg.x, leg.y - dy / 2), -13.0, -23.0
    anchor, words = _anchor(float(leg.x), float(build.outside[1])), f"{leg.label}  {units.weight(entry.load)}"
    yield Text(at, words, "strong", anchor, shift=(0.0, first), halo=True)
    yield Text(at, entry.word, "small", anchor, shift=(0.0, second), halo=True, colour="ink")


def _anchor(x: float, long: float) -> Anchor:
    return "start" if x < long * 0.15 else "end" if x > long * 0.85 else "middle"


def bars(rows: Sequence[tuple[str, float]], width: float = WIDTH) -> Scene:
    """Utilisations as bars against the line at 1: (what, ratio) from the top down."""
    shapes: list[Shape] = []
    pitch, unit = 3.0, 22.0
    for i, (_, ratio) in enumerate(rows):
        y, over = -i * pitch, ratio > 1
        shapes.append(
            Rect(
                0,
                y,
                max(0.05, min(ratio, SHOWN_TO) * unit),
                1.7,
                "wrong" if over else "wood",
                line="wrong" if over else "outline",
            )
        )
    low = -(len(rows) - 1) * pitch - 0.8
    shapes.append(Line(((unit, low), (unit, 2.6)), "outline"))
    shapes.append(Text((unit, 2.6), "1: all that is allowed", "small", "middle", shift=(0, 3)))
    for i, (what, ratio) in enumerate(rows):
        y = -i * pitch + 0.85
        shapes.append(Text((0, y), what, "text", "end", shift=(-6, -3)))
        shown = f"{ratio:.2f}" if ratio < 99 else "no value"
        end = max(min(ratio, SHOWN_TO) * unit, 0.05)
        beside = (unit if end < unit < end + 5 else end, y)
        shapes.append(Text(beside, shown + (" over" if ratio > 1 else ""), "strong", "start", shift=(5, -3), halo=True))
    alt = "Greatest use of what is allowed: " + "; ".join(f"{what} {in_words(ratio)}" for what, ratio in rows) + "."
    return fitted(shapes, width, alt, height=26.0 * len(rows) + 40)


def bent_shape(
    title: str, points: Sequence[tuple[float, float]], supports: Sequence[float], units: Writer, width: float = WIDTH
) -> Scene:
    """A slat or line as it bends, drawn many times too large, over what holds it up.

    Args:
        title: what bends and when, for the alt text.
        points: (place, sag) along it [in].
        supports: where it is held up [in].
        units: the plan's units.
        width: of the drawing [pt].
    """
    (start, _), (end, _) = points[0], points[-1]
    largest = max(SHOWN_SAG, max(abs(sag) for _, sag in points))
    size = (end - start) / 8 / largest
    at, sag = max(points, key=lambda p: p[1])
    foot = (end - start) / 60
    role: LineRole = "new"
    shapes: list[Shape] = [
        Line(((start, 0.0), (end, 0.0)), "hidden"),
        Line(tuple((x, -s * size) for x, s in points), role),
    ]
    for x in supports:
        low = -_at(points, x) * size
        left, right = (x - foot, low - 2 * foot), (x + foot, low - 2 * foot)
        shapes.append(Line((left, (x, low), right, left), "outline"))
    shown = units.calculated(round(sag, 2 if sag >= 0.01 else 3))
    if sag > 0.0005:
        shapes.append(Text((at, -sag * size), shown, "strong", "middle", shift=(0, -12), halo=True))
    alt = f"{title}: goes down {shown}; drawn {round(size)} times too large."
    return fitted(shapes, width, alt, height=120)


def _at(points: Sequence[tuple[float, float]], x: float) -> float:
    """The sag at a place between the points [in]."""
    for (a, p), (b, q) in pairwise(points):
        if a <= x <= b:
            return p + (q - p) * (x - a) / max(b - a, 1e-9)
    return points[0][1] if x < points[0][0] else points[-1][1]
