"""Dimension lines by the usual drawing practice: extension lines with a gap, arrowheads, text above and along the line.

ASME Y14.5 and Y14.2 practice, ISO 129-1:2018 5.7 for the text: read from the bottom or the right.
"""

from __future__ import annotations

from tutorial_lib.drawing.ink import XY, Disc, Paper, words
from tutorial_lib.drawing.lettering import text_width
from tutorial_lib.drawing.scene import Dimension, LineRole, Running


def head(tip: XY, way: XY, paper: Paper, line: LineRole = "thin") -> None:
    """A filled arrowhead three times as long as wide, its tip at a place [pt], pointing along ``way``."""
    long, half = paper.style.arrow, paper.style.arrow / 6
    (x, y), (ux, uy) = tip, way
    back = (x - ux * long, y - uy * long)
    paper.stroke(tip, (back[0] - uy * half, back[1] + ux * half), (back[0] + uy * half, back[1] - ux * half),
                 line="none", fill="new" if line == "new" else "ink", closed=True)


def dimension(dim: Dimension, paper: Paper) -> None:
    """Lays a dimension: two extension lines, the dimension line and its text."""
    (px, py), (qx, qy) = paper.at(dim.p), paper.at(dim.q)
    along = dim.along or ("x" if abs(qx - px) >= abs(qy - py) else "y")
    if along == "y":  # worked as if lying, then turned: (a, b) = (y, x)
        px, py, qx, qy = py, px, qy, qx
    if qx < px:
        px, py, qx, qy = qx, qy, px, py
    outer = (max(py, qy) if dim.offset >= 0 else min(py, qy)) + dim.offset
    _extension(px, py, outer, along, paper)
    _extension(qx, qy, outer, along, paper)
    _line(px, qx, outer, dim, along, paper)


def _turn(a: float, b: float, along: str) -> XY:
    return (a, b) if along == "x" else (b, a)


def _extension(a: float, b: float, outer: float, along: str, paper: Paper) -> None:
    side = 1 if outer >= b else -1
    start, end = b + side * paper.style.gap, outer + side * paper.style.past
    if (end - start) * side > 0:
        paper.stroke(_turn(a, start, along), _turn(a, end, along))


def _line(p: float, q: float, outer: float, dim: Dimension, along: str, paper: Paper) -> None:
    style = paper.style
    role: LineRole = "new" if dim.changed else "thin"
    wide = text_width(dim.text, style.text, dim.changed)
    inside = q - p >= 2.6 * style.arrow  # else the arrows stand outside and point in
    reach = 0.0 if inside else 2 * style.arrow
    paper.stroke(_turn(p - reach, outer, along), _turn(q + reach, outer, along), line=role)
    way = 1 if inside else -1
    head(_turn(p, outer, along), _turn(-way, 0, along), paper, role)
    head(_turn(q, outer, along), _turn(way, 0, along), paper, role)
    lift = style.text * 0.35 + 3.0
    over = -lift if along == "y" else lift  # upright text stands left of its line: read from the right
    beside = wide > q - p - 4
    at = _turn(q + reach + 2, outer, along) if beside and not inside else _turn((p + q) / 2, outer + over, along)
    if beside and inside:
        at = _turn(q + 3, outer + over, along)
    paper.write(words(dim.text, at, style, role="strong" if dim.changed else "text",
                      anchor="start" if beside else "middle", rotate=90 if along == "y" else 0,
                      colour="new" if dim.changed else "ink"))


def running(run: Running, paper: Paper) -> None:
    """Lays running marks: datum ring, one line, an arrow at each mark and the text past the line, along its mark."""
    start = paper.at(run.start)
    a0, b0 = start if run.along == "x" else (start[1], start[0])
    side = 1 if run.offset >= 0 else -1
    outer = b0 + run.offset
    places = [a0 + float(mark) * paper.scale for mark in run.marks]
    role: LineRole = "new" if run.changed else "thin"
    if places:
        paper.stroke(_turn(a0, outer, run.along), _turn(max(places), outer, run.along), line=role)
    _extension(a0, b0, outer, run.along, paper)
    paper.inks.append(Disc(_turn(a0, outer, run.along), 2.2, "thin", "paper"))
    shown = _readable(places, paper.style.small * 1.15)
    for i, (place, text) in enumerate(zip(places, run.texts, strict=True)):
        if place > a0 + 0.01:
            _extension(place, b0, outer, run.along, paper)
            if _clear(places, i, a0) >= paper.style.arrow:
                head(_turn(place, outer, run.along), _turn(1, 0, run.along), paper, role)
        if i in shown:
            anchor = "start" if side > 0 else "end"
            paper.write(words(text, _turn(place, outer + side * (paper.style.past + 2), run.along), paper.style,
                              role="small", anchor=anchor, rotate=90 if run.along == "x" else 0,
                              colour="new" if run.changed else "ink"))


def _clear(places: list[float], i: int, datum: float) -> float:
    return places[i] - (places[i - 1] if i else datum)


def _readable(places: list[float], pitch: float) -> set[int]:
    """Which marks get their text: all, or as many as have room, the last always."""
    kept: list[int] = []
    for i, place in enumerate(places):
        if not kept or place - places[kept[-1]] >= pitch:
            kept.append(i)
    last = len(places) - 1
    if places and last not in kept:
        kept = [i for i in kept if places[last] - places[i] >= pitch] + [last]
    return set(kept)
