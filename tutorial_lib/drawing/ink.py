"""What is laid on paper, in points: strokes, discs and words, and the paper they are laid on."""

from __future__ import annotations

from dataclasses import KW_ONLY, field
from functools import cached_property
from typing import Literal

from tutorial_lib.drawing.lettering import CAP_HEIGHT, Face, text_width
from tutorial_lib.drawing.scene import FillRole, LineRole, Point, Style
from tutorial_lib.records import dataclass

XY = tuple[float, float]
Frame = tuple[float, float, float, float]


@dataclass(frozen=True)
class Stroke:
    """A line or closed shape in points."""

    points: tuple[XY, ...]
    line: LineRole
    fill: FillRole = "none"
    closed: bool = False


@dataclass(frozen=True)
class Disc:
    """A circle in points."""

    centre: XY
    radius: float
    line: LineRole
    fill: FillRole = "none"


@dataclass(frozen=True)
class Words:
    """One line of words; ``at`` is the anchor on the middle of the capitals' height."""

    at: XY
    text: str
    size: float
    anchor: Literal["start", "middle", "end"]
    rotate: int
    _: KW_ONLY
    bold: bool
    colour: str
    halo: bool
    face: Face = "screen"
    lies: Literal["", "x", "y", "side"] = ""  # along an axis of an isometric floor, or on the near side

    @cached_property
    def frame(self) -> Frame:
        """Left, bottom, right, top of the words [pt]."""
        width = text_width(self.text, self.size, self.bold, self.face)
        high = self.size * CAP_HEIGHT / 2 + 0.6
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        x, y = self.at
        if self.lies:
            half, rise = width / 2 * 0.87, width / 4 + high
            return (x - half, y - rise, x + half, y + rise)
        if self.rotate:
            return (x - high, y - before, x + high, y - before + width)
        return (x - before, y - high, x - before + width, y + high)


Ink = Stroke | Disc | Words


@dataclass
class Paper:
    """What has been laid so far, and the drawing's scale and style."""

    scale: float
    style: Style
    inks: list[Ink] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    extensions: list[tuple[XY, XY]] = field(default_factory=list)  # lines of dimensions, which no words stand on

    def at(self, point: Point) -> XY:
        """A place of the real thing on paper [pt]."""
        return (float(point[0]) * self.scale, float(point[1]) * self.scale)

    def stroke(self, *points: XY, line: LineRole = "thin", fill: FillRole = "none", closed: bool = False) -> None:
        """Lays a line or closed shape."""
        self.inks.append(Stroke(points, line, fill, closed))

    def write(self, words: Words) -> None:
        """Lays words."""
        self.words.append(words)

    def free(self, words: Words) -> bool:
        """True if the words would lie on no other words."""
        return not any(overlap(words.frame, other.frame) for other in self.words)

    def clear(self, words: Words) -> bool:
        """True if no extension line laid so far would run through the words."""
        return not any(crosses(line, words.frame) for line in self.extensions)


def overlap(a: Frame, b: Frame) -> bool:
    """True if two frames share more than an edge."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def crosses(line: tuple[XY, XY], frame: Frame) -> bool:
    """True if a straight line runs through a frame.

    >>> crosses(((0.0, 0.0), (9.0, 9.0)), (2.0, 1.0, 4.0, 5.0)), crosses(((0.0, 0.0), (9.0, 9.0)), (2.0, 5.0, 4.0, 7.0))
    (True, False)
    """
    first, last = 0.0, 1.0  # the share of the line that lies in the frame, side by side (Liang and Barsky)
    for axis in (0, 1):
        start, run = line[0][axis], line[1][axis] - line[0][axis]
        low, high = frame[axis] - start, frame[axis + 2] - start
        if not run and not low < 0 < high:
            return False
        if run:
            ends = sorted((low / run, high / run))
            first, last = max(first, ends[0]), min(last, ends[1])
    return first < last


def words(
    text: str,
    at: XY,
    style: Style,
    *,
    role: str = "text",
    anchor: str = "middle",
    rotate: int = 0,
    colour: str = "ink",
    halo: bool = False,
    lies: str = "",
) -> Words:
    """Words in a text role at a place on paper [pt]."""
    size = {"title": style.title, "small": style.small, "strong small": style.small}.get(role, style.text)
    shade = style.new if colour == "new" else style.ink
    return Words(
        at, text, size, anchor, rotate,  # type: ignore[arg-type]
        bold=role in ("title", "strong", "strong small"), colour=shade, halo=halo, face=style.face,
        lies=lies,  # type: ignore[arg-type]
    )  # fmt: skip
