"""Dimension lines by the usual drawing practice: extension lines with a gap, arrowheads, level figures in a gap of the
line, so that no one turns their head.

ASME Y14.5 and Y14.2 practice (figures read from the bottom).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import cos, pi, sin

from tutorial_lib.drawing.ink import XY, Disc, Paper, Words, overlap, words
from tutorial_lib.drawing.lettering import text_width
from tutorial_lib.drawing.scene import Dimension, LineRole, Running

LEVELS = 3  # rows of figures under running marks before one is left out
PLACES = (0.5, 0.35, 0.65, 0.25, 0.75)  # of a dimension line, where its figure may stand


def head(tip: XY, way: XY, paper: Paper, line: LineRole = "thin") -> None:
    """A filled arrowhead three times as long as wide, its tip at a place [pt], pointing along ``way``."""
    long, half = paper.style.arrow, paper.style.arrow / 6
    (x, y), (ux, uy) = tip, way
    back = (x - ux * long, y - uy * long)
    paper.stroke(
        tip,
        (back[0] - uy * half, back[1] + ux * half),
        (back[0] + uy * half, back[1] - ux * half),
        line="none",
        fill="new" if line == "new" else "ink",
        closed=True,
    )


def datum(at: XY, radius: float, paper: Paper) -> None:
    """The sign of a zero point: a ring with two opposite quarters filled."""
    (x, y), turns = at, [pi / 2 * i / 8 for i in range(9)]
    paper.inks.append(Disc(at, radius, "outline", "paper"))
    for side in (1, -1):
        arc = tuple((x + side * radius * cos(t), y + side * radius * sin(t)) for t in turns)
        paper.stroke(at, *arc, line="none", fill="ink", closed=True)


def dimension(dim: Dimension, paper: Paper) -> None:
    """Lays a dimension: two extension lines, the dimension line and its text."""
    (px, py), (qx, qy) = paper.at(dim.p), paper.at(dim.q)
    along = dim.along or ("x" if abs(qx - px) >= abs(qy - py) else "y")
    if along == "y":  # worked as if lying, then turned: (a, b) = (y, x)
        px, py, qx, qy = py, px, qy, qx
    if qx < px:
        px, py, qx, qy = qx, qy, px, py
    part = max(py, qy) if dim.offset >= 0 else min(py, qy)
    outer = part + dim.offset
    own = [line for a, b in ((px, py), (qx, qy)) for line in _extension(a, b, outer, along, paper)]
    _line(px, qx, part, outer, dim, along, paper)
    paper.extensions += own


def _turn(a: float, b: float, along: str) -> XY:
    return (a, b) if along == "x" else (b, a)


def _extension(a: float, b: float, outer: float, along: str, paper: Paper) -> Iterator[tuple[XY, XY]]:
    side = 1 if outer >= b else -1
    start, end = b + side * paper.style.gap, outer + side * paper.style.past
    if (end - start) * side > 0:
        line = _turn(a, start, along), _turn(a, end, along)
        paper.stroke(*line)
        yield line


def _line(p: float, q: float, part: float, outer: float, dim: Dimension, along: str, paper: Paper) -> None:
    style = paper.style
    role: LineRole = "new" if dim.changed else "thin"
    inside = q - p >= 2.6 * style.arrow  # else the arrows stand outside and point in
    reach = 0.0 if inside else 2 * style.arrow
    figure = _figure(p, q, part, outer, reach, dim, along, paper)
    paper.write(figure)
    for a, b in _broken(p - reach, q + reach, outer, figure, along):
        paper.stroke(_turn(a, outer, along), _turn(b, outer, along), line=role)
    way = 1 if inside else -1
    head(_turn(p, outer, along), _turn(-way, 0, along), paper, role)
    head(_turn(q, outer, along), _turn(way, 0, along), paper, role)


def _broken(a: float, b: float, outer: float, figure: Words, along: str) -> Iterator[XY]:
    """The stretches of a line that its figure leaves."""
    x0, y0, x1, y1 = figure.frame
    low, high, near, far = (x0, x1, y0, y1) if along == "x" else (y0, y1, x0, x1)
    if not near <= outer <= far or high <= a or low >= b:
        yield (a, b)
        return
    room = 3.0 if along == "x" else 1.5
    yield from ((c, d) for c, d in ((a, low - room), (high + room, b)) if d > c)


def _figure(p: float, q: float, part: float, outer: float, reach: float, dim: Dimension, along: str,
            paper: Paper) -> Words:  # fmt: skip
    """The figure in the line where it has room, else beside it: the first place clear of words, of the part and of
    other extension lines."""
    style = paper.style
    bold = dim.changed or style.face == "paper"
    role = "strong" if bold else "text"
    wide = text_width(dim.text, style.text, bold, style.face)
    line, long = (outer, wide + 6) if along == "x" else (_clear_of(part, outer, wide), style.text * 1.4)
    inside = [(_turn(at, line, along), "middle") for at in _within(p, q, long, style.arrow)]
    places = [*inside, *_beside(p, q, outer, reach, along, style.text)]
    tried = [words(dim.text, at, style, role=role, anchor=anchor, colour="new" if dim.changed else "ink", halo=True)
             for at, anchor in places]  # fmt: skip
    free = [one for one in tried if paper.free(one)]
    return next((one for one in free if paper.clear(one)), (free or tried)[0])


def _within(p: float, q: float, long: float, arrow: float) -> list[float]:
    """Where the middle of a figure may stand in its line; nowhere if the line has no room for it."""
    if q - p < long + 1.5 * arrow:
        return []
    spare = max((q - p - long) / 2 - arrow, 0.0)
    return [(p + q) / 2 + min(max((t - 0.5) * (q - p), -spare), spare) for t in PLACES]


def _clear_of(part: float, outer: float, wide: float) -> float:
    """Where the middle of level words stands in an upright line, beside the part that the line measures."""
    least = wide / 2 + 3
    return max(outer, part + least) if outer >= part else min(outer, part - least)


def _beside(p: float, q: float, outer: float, reach: float, along: str, size: float) -> list[tuple[XY, str]]:
    middle, lift = (p + q) / 2, size * 0.35 + 3.0
    if along == "x":
        return [((q + reach + 3, outer), "start"), ((p - reach - 3, outer), "end"), ((middle, outer + lift), "middle"),
                ((middle, outer - lift), "middle")]  # fmt: skip
    return [((outer + 4, middle), "start"), ((outer - 4, middle), "end"), ((outer, q + reach + lift), "middle"),
            ((outer, p - reach - lift), "middle")]  # fmt: skip


def running(run: Running, paper: Paper) -> None:
    """Lays running marks: the zero sign, one line, a dot at each mark and its figure past the line, level."""
    start, style = paper.at(run.start), paper.style
    a0, b0 = start if run.along == "x" else (start[1], start[0])
    outer = b0 + run.offset
    places = [a0 + float(mark) * paper.scale for mark in run.marks]
    role: LineRole = "new" if run.changed else "thin"
    if places:
        paper.stroke(_turn(a0, outer, run.along), _turn(max(places), outer, run.along), line=role)
    paper.extensions += _extension(a0, b0, outer, run.along, paper)
    for place in places:
        if place > a0 + 0.01:
            paper.extensions += _extension(place, b0, outer, run.along, paper)
            paper.inks.append(Disc(_turn(place, outer, run.along), 1.3, "none", "new" if run.changed else "ink"))
    datum(_turn(a0, outer, run.along), style.text * 0.5, paper)
    side = 1 if run.offset >= 0 else -1
    for figure, place in _figures(run, places, outer, side, paper):
        paper.write(figure)
        _lead(figure, place, outer + side * style.past, run.along, paper)


def _lead(figure: Words, place: float, start: float, along: str, paper: Paper) -> None:
    """A line on to a figure that stands in a farther row."""
    if along == "x" and abs(figure.at[1] - start) > paper.style.text * 1.5:
        end = figure.at[1] + (paper.style.text * 0.45) * (1 if start > figure.at[1] else -1)
        paper.stroke((place, start), (place, end), line="hair")


def _figures(run: Running, places: Sequence[float], outer: float, side: int,
             paper: Paper) -> Iterator[tuple[Words, float]]:  # fmt: skip
    """The figures that have room, the last one always: level, in up to three rows, pairs turned outward."""
    laid: dict[int, Words] = {}
    last = len(places) - 1
    for i in (last, *range(last)) if places else ():
        options = list(_options(run, places, i, outer, side, paper))
        free = next((one for one in options if _clear(one, laid.values()) and paper.free(one)), None)
        if free is not None or i == last:
            laid[i] = free or options[0]
    yield from ((laid[i], places[i]) for i in sorted(laid))


def _clear(one: Words, laid: Iterable[Words]) -> bool:
    x0, y0, x1, y1 = one.frame
    wide = (x0 - 2, y0, x1 + 2, y1)
    return not any(overlap(wide, other.frame) for other in laid)


def _options(run: Running, places: Sequence[float], i: int, outer: float, side: int,
             paper: Paper) -> Iterator[Words]:  # fmt: skip
    """Where the figure of a mark may stand: in the middle, turned away from a close neighbour, or in a farther row."""
    style, place = paper.style, places[i]
    bold = style.face == "paper"
    wide = text_width(run.texts[i], style.small, bold, style.face)
    turned = list(_turned(places, i, wide))
    for row in range(LEVELS):
        far = outer + side * (style.past + 2 + style.small * (0.5 + 1.15 * row))
        for anchor, shift in turned if run.along == "x" else [("start" if side > 0 else "end", 0.0)]:
            at = (place + shift, far) if run.along == "x" else (far, place)
            yield words(
                run.texts[i],
                at,
                style,
                role="strong small" if bold else "small",
                anchor=anchor,
                halo=True,
                colour="new" if run.changed else "ink",
            )


def _turned(places: Sequence[float], i: int, wide: float) -> Iterator[tuple[str, float]]:
    before = i > 0 and places[i] - places[i - 1] < wide + 2
    after = i + 1 < len(places) and places[i + 1] - places[i] < wide + 2
    if before != after:  # one of a close pair
        yield ("start", -3.0) if before else ("end", 3.0)
    yield ("middle", 0.0)
