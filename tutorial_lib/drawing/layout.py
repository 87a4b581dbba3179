"""Lays a Scene on paper: every shape becomes strokes, discs and words in points (y up), words never over words."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import hypot

from tutorial_lib.drawing import dimensions
from tutorial_lib.drawing.ink import XY, Disc, Frame, Ink, Paper, Words, words
from tutorial_lib.drawing.scene import (
    STYLE,
    Arrow,
    Balloon,
    Circle,
    Dimension,
    FillRole,
    Leader,
    Line,
    LineRole,
    Mark,
    Polygon,
    Rect,
    Running,
    Scene,
    Shape,
    Style,
    Text,
    real_points,
)

GROWS = (Rect, Polygon, Line)  # nothing is laid around these on paper
LAST: deque[tuple[Scene, tuple[list[Ink], Frame]]] = deque(maxlen=4)  # a drawing is measured, then written


def lay(scene: Scene) -> tuple[list[Ink], Frame]:
    """Everything on the drawing in points, words last, and its extent without margin; to be read, not changed."""
    found = next((laid for known, laid in LAST if known is scene), None)
    if found is None:
        LAST.append((scene, found := _laid(scene)))
    return found


def _laid(scene: Scene) -> tuple[list[Ink], Frame]:
    paper = Paper(scene.scale, scene.style)
    for shape in sorted(scene.shapes, key=lambda s: isinstance(s, Text) and s.optional):
        _place(shape, paper)
    inks: list[Ink] = [*paper.inks, *paper.words]
    frames = [_frame(ink) for ink in inks] or [(0.0, 0.0, 1.0, 1.0)]
    return inks, (
        min(f[0] for f in frames),
        min(f[1] for f in frames),
        max(f[2] for f in frames),
        max(f[3] for f in frames),
    )


def extent(scene: Scene) -> Frame:
    """Left, bottom, right, top of the laid drawing [pt]."""
    return lay(scene)[1]


def _frame(ink: Ink) -> Frame:
    if isinstance(ink, Words):
        return ink.frame
    if isinstance(ink, Disc):
        (x, y), r = ink.centre, ink.radius
        return (x - r, y - r, x + r, y + r)
    xs, ys = [p[0] for p in ink.points], [p[1] for p in ink.points]
    return (min(xs), min(ys), max(xs), max(ys))


def _place(shape: Shape, paper: Paper) -> None:
    if isinstance(shape, Text):
        _text(shape, paper)
    elif isinstance(shape, Dimension):
        dimensions.dimension(shape, paper)
    elif isinstance(shape, Running):
        dimensions.running(shape, paper)
    elif isinstance(shape, Arrow):
        _arrow(shape, paper)
    elif isinstance(shape, Balloon):
        _balloon(shape, paper)
    elif isinstance(shape, Leader):
        _leader(shape, paper)
    else:
        _outline(shape, paper)


def _outline(shape: Rect | Polygon | Line | Circle | Mark, paper: Paper) -> None:
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
    else:
        _mark(shape, paper)


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
    if mark.sign == "datum":
        dimensions.datum((x, y), r, paper)
    elif mark.sign == "cross":
        paper.stroke((x - r, y), (x + r, y), line=mark.line)
        paper.stroke((x, y - r), (x, y + r), line=mark.line)
    elif mark.sign == "no":
        paper.stroke((x - r, y - r), (x + r, y + r), line=mark.line)
        paper.stroke((x - r, y + r), (x + r, y - r), line=mark.line)
    else:
        paper.inks.append(Disc((x, y), r, mark.line, "ink" if mark.sign == "dot" else "paper"))


def _text(text: Text, paper: Paper) -> None:
    x, y = paper.at(text.at)
    places = [
        words(text.text, (x + dx, y + dy), paper.style, role=text.role, anchor=text.anchor, rotate=text.rotate,
              colour=text.colour, halo=text.halo, lies=text.lies)
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


def _balloon(balloon: Balloon, paper: Paper) -> None:
    (x, y), (dx, dy) = paper.at(balloon.at), balloon.reach
    if dx or dy:
        paper.stroke((x, y), (x + dx, y + dy))
        paper.inks.append(Disc((x, y), 1.4, "none", "ink"))
    paper.inks.append(Disc((x + dx, y + dy), paper.style.title * 0.82, "outline", "paper"))
    paper.write(words(balloon.letter, (x + dx, y + dy), paper.style, role="title"))


def _leader(leader: Leader, paper: Paper) -> None:
    (x, y), (dx, dy) = paper.at(leader.at), leader.reach
    side = 1 if dx >= 0 else -1
    paper.stroke((x, y), (x + dx, y + dy), (x + dx + 4 * side, y + dy))
    paper.inks.append(Disc((x, y), 1.3, "none", "ink"))
    paper.write(
        words(
            leader.text,
            (x + dx + 6 * side, y + dy),
            paper.style,
            role=leader.role,
            anchor="start" if side > 0 else "end",
            colour=leader.colour,
            halo=True,
        )
    )


def fitted(
    shapes: Iterable[Shape],
    width: float,
    alt: str,
    *,
    height: float | None = None,
    largest: float = 72.0,
    style: Style = STYLE,
) -> Scene:
    """The scene at the largest scale that fits a width (and height), dimensions and texts included.

    Args:
        shapes: what to draw [in].
        width: paper width [pt].
        alt: words that say what the drawing shows.
        height: greatest paper height [pt].
        largest: greatest scale [pt per in].
        style: the look.
    """
    kept = tuple(shapes)
    scene = Scene(kept, 1.0, alt, style=style)
    plain, labelled = _apart(kept, scene)
    wide, high = _real_size(kept)
    scale = min(largest, width / wide if wide else largest)
    for _ in range(4):  # text does not grow with the scale, so a few rounds settle it
        x0, y0, x1, y1 = _around(plain, replace(labelled, scale=scale))
        spare_x = width - 2 * scene.margin - ((x1 - x0) - wide * scale)
        room = [spare_x / wide] if wide else [largest]
        if height is not None and high:
            room.append((height - 2 * scene.margin - ((y1 - y0) - high * scale)) / high)
        before, scale = scale, max(min(largest, *room), 0.05)
        if abs(scale - before) < 0.002 * scale:
            break
    return replace(scene, scale=scale)


def _apart(shapes: Sequence[Shape], scene: Scene) -> tuple[Frame | None, Scene]:
    """What only grows with the scale, as its frame at scale 1 (None if there is nothing), and all the rest."""
    rest = replace(scene, shapes=tuple(shape for shape in shapes if not isinstance(shape, GROWS)))
    return _real_frame([shape for shape in shapes if isinstance(shape, GROWS)]), rest


def _around(plain: Frame | None, rest: Scene) -> Frame:
    """Left, bottom, right, top [pt] of a frame at a scene's scale, and the scene."""
    if plain is None:
        return extent(rest)
    left, bottom, right, top = (side * rest.scale for side in plain)
    if not rest.shapes:
        return left, bottom, right, top
    x0, y0, x1, y1 = extent(rest)
    return min(left, x0), min(bottom, y0), max(right, x1), max(top, y1)


def _real_size(shapes: Sequence[Shape]) -> tuple[float, float]:
    left, bottom, right, top = _real_frame(shapes) or (0.0, 0.0, 0.0, 0.0)
    return right - left, top - bottom


def _real_frame(shapes: Sequence[Shape]) -> Frame | None:
    """Left, bottom, right, top of the real things drawn [in]; None of nothing."""
    points = [p for shape in shapes for p in real_points(shape)]
    if not points:
        return None
    xs, ys = [float(p[0]) for p in points], [float(p[1]) for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def left_out(scene: Scene) -> list[str]:
    """Words of a drawing that found no room on it: they have to stand beside it."""
    laid = [ink.text for ink in lay(scene)[0] if isinstance(ink, Words)]
    missing = []
    for text in scene.texts():
        if text in laid:
            laid.remove(text)
        else:
            missing.append(text)
    return missing
