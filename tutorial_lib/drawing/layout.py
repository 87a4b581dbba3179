"""Lays a Scene on paper: every shape becomes strokes, discs and words in points (y up), words never over words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import hypot
from typing import Literal

from tutorial_lib.drawing import dimensions
from tutorial_lib.drawing.lettering import CAP_HEIGHT, text_width
from tutorial_lib.drawing.scene import (
    Arrow,
    Circle,
    Dimension,
    FillRole,
    Leader,
    Line,
    LineRole,
    Mark,
    Point,
    Polygon,
    Rect,
    Running,
    Scene,
    Shape,
    Style,
    Text,
)

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
    bold: bool
    colour: str
    halo: bool

    @property
    def frame(self) -> Frame:
        """Left, bottom, right, top of the words [pt]."""
        width = text_width(self.text, self.size, self.bold)
        high = self.size * CAP_HEIGHT / 2 + 0.6
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        x, y = self.at
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
        return not any(_overlap(words.frame, other.frame) for other in self.words)


def lay(scene: Scene) -> tuple[list[Ink], Frame]:
    """Everything on the drawing in points, words last, and its extent without margin."""
    paper = Paper(scene.scale, scene.style)
    for shape in sorted(scene.shapes, key=lambda s: isinstance(s, Text) and s.optional):
        _place(shape, paper)
    inks: list[Ink] = [*paper.inks, *paper.words]
    frames = [_frame(ink) for ink in inks] or [(0.0, 0.0, 1.0, 1.0)]
    return inks, (min(f[0] for f in frames), min(f[1] for f in frames),
                  max(f[2] for f in frames), max(f[3] for f in frames))


def extent(scene: Scene) -> Frame:
    """Left, bottom, right, top of the laid drawing [pt]."""
    return lay(scene)[1]


def overlapping_words(scene: Scene) -> list[tuple[str, str]]:
    """Pairs of words that lie on each other: always empty in a good drawing."""
    words = [ink for ink in lay(scene)[0] if isinstance(ink, Words)]
    return [(a.text, b.text) for i, a in enumerate(words) for b in words[i + 1:] if _overlap(a.frame, b.frame)]


def _overlap(a: Frame, b: Frame) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _frame(ink: Ink) -> Frame:
    if isinstance(ink, Words):
        return ink.frame
    if isinstance(ink, Disc):
        (x, y), r = ink.centre, ink.radius
        return (x - r, y - r, x + r, y + r)
    xs, ys = [p[0] for p in ink.points], [p[1] for p in ink.points]
    return (min(xs), min(ys), max(xs), max(ys))


def _place(shape: Shape, paper: Paper) -> None:
    if isinstance(shape, Rect):
        x0, y0 = paper.at((shape.x, shape.y))
        x1, y1 = paper.at((shape.x + shape.width, shape.y + shape.height))
        _closed(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), shape.fill, shape.line, paper)
    elif isinstance(shape, Polygon):
        _closed(tuple(map(paper.at, shape.points)), shape.fill, shape.line, paper)
    elif isinstance(shape, Line):
        paper.stroke(*map(paper.at, shape.points), line=shape.line)
    elif isinstance(shape, Circle):
        radius = max(float(shape.radius) * paper.scale, shape.least)
        paper.inks.append(Disc(paper.at(shape.centre), radius, shape.line, shape.fill))
    elif isinstance(shape, Mark):
        _mark(shape, paper)
    elif isinstance(shape, Text):
        _text(shape, paper)
    elif isinstance(shape, Dimension):
        dimensions.dimension(shape, paper)
    elif isinstance(shape, Running):
        dimensions.running(shape, paper)
    elif isinstance(shape, Arrow):
        _arrow(shape, paper)
    else:
        _leader(shape, paper)


def _closed(points: tuple[XY, ...], fill: FillRole, line: LineRole, paper: Paper) -> None:
    paper.stroke(*points, line=line, fill=fill, closed=True)
    if fill in ("end grain", "wrong"):
        for a, b in _hatch(points, 5.0 if fill == "end grain" else 3.5):
            paper.stroke(a, b, line="thin" if fill == "end grain" else "wrong")


def _hatch(points: tuple[XY, ...], step: float) -> Iterator[tuple[XY, XY]]:
    """Lines at 45 degrees inside a closed shape (even-odd), every ``step`` points."""
    across = [y - x for x, y in points]
    level = (int(min(across) // (step * 1.414)) + 1) * step * 1.414
    while level < max(across):
        hits = []
        for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
            a, b = y0 - x0 - level, y1 - x1 - level
            if (a < 0) != (b < 0):
                t = a / (a - b)
                hits.append((x0 + t * (x1 - x0), y0 + t * (y1 - y0)))
        hits.sort()
        yield from zip(hits[::2], hits[1::2], strict=False)
        level += step * 1.414


def _mark(mark: Mark, paper: Paper) -> None:
    (x, y), r = paper.at(mark.at), mark.size / 2
    if mark.sign == "cross":
        paper.stroke((x - r, y), (x + r, y), line=mark.line)
        paper.stroke((x, y - r), (x, y + r), line=mark.line)
    elif mark.sign == "no":
        paper.stroke((x - r, y - r), (x + r, y + r), line=mark.line)
        paper.stroke((x - r, y + r), (x + r, y - r), line=mark.line)
    else:
        paper.inks.append(Disc((x, y), r, mark.line, "ink" if mark.sign == "dot" else "paper"))


def words(text: str, at: XY, style: Style, *, role: str = "text", anchor: str = "middle", rotate: int = 0,
          colour: str = "ink", halo: bool = False) -> Words:
    """Words in a text role at a place on paper [pt]."""
    size = {"title": style.title, "small": style.small}.get(role, style.text)
    shade = {"new": style.new, "wrong": style.wrong}.get(colour, style.ink)
    return Words(at, text, size, anchor, rotate, role in ("title", "strong"), shade, halo)  # type: ignore[arg-type]


def _text(text: Text, paper: Paper) -> None:
    x, y = paper.at(text.at)
    places = [
        words(text.text, (x + dx, y + dy), paper.style, role=text.role, anchor=text.anchor, rotate=text.rotate,
              colour=text.colour, halo=text.halo)
        for dx, dy in (text.shift, *text.tries)
    ]  # fmt: skip
    free = next((place for place in places if paper.free(place)), None)
    if free or not text.optional:
        paper.write(free or places[0])


def _arrow(arrow: Arrow, paper: Paper) -> None:
    p, q = paper.at(arrow.p), paper.at(arrow.q)
    paper.stroke(p, q, line=arrow.line)
    length = hypot(q[0] - p[0], q[1] - p[1]) or 1.0
    way = ((q[0] - p[0]) / length, (q[1] - p[1]) / length)
    dimensions.head(q, way, paper)
    if arrow.both:
        dimensions.head(p, (-way[0], -way[1]), paper)


def _leader(leader: Leader, paper: Paper) -> None:
    (x, y), (dx, dy) = paper.at(leader.at), leader.reach
    side = 1 if dx >= 0 else -1
    paper.stroke((x, y), (x + dx, y + dy), (x + dx + 4 * side, y + dy))
    paper.inks.append(Disc((x, y), 1.3, "none", "ink"))
    paper.write(words(leader.text, (x + dx + 6 * side, y + dy), paper.style, role=leader.role,
                      anchor="start" if side > 0 else "end", colour=leader.colour, halo=True))
