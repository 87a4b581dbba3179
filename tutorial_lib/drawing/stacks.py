"""Labels about a drawing: in the corners it leaves empty or beside it, each with a line to what it names."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from math import hypot
from typing import Literal

from tutorial_lib.drawing.ink import Frame, crosses
from tutorial_lib.drawing.lettering import CAP_HEIGHT, text_width
from tutorial_lib.drawing.scene import Line, Mark, Shape, Style, Text
from tutorial_lib.drawing.solids import Flat
from tutorial_lib.records import dataclass

LINE = 12.0  # [pt] from one label to the next
GAP = 9.0  # [pt] labels keep this far off the drawing
AIR = 1.5  # [pt] above and below words that no line runs through
OPEN = 3.0  # [pt] between words and their line
UNDER = (10.0, 6.0)  # [pt] where a line starts that can't start at the open end: along the words, and off their middle
PAST = 6.0  # [pt] that words stick out past those nearer the drawing, where their line has to pass them
ORDERS = 24  # orders of labels that are tried: all of four


@dataclass(frozen=True)
class Label:
    """Words with a line to one of some places on the drawing, the one that is nearest."""

    text: str
    spots: tuple[Flat, ...]
    strong: bool = False


@dataclass(frozen=True, kw_only=True)
class Stood:
    """Where a label's words stand [in]: the end they are held at, and the frame about them."""

    label: Label
    at: Flat
    anchor: Literal["start", "end"]
    frame: Frame


@dataclass(frozen=True, kw_only=True)
class Led:
    """A label with its line."""

    stood: Stood
    line: tuple[Flat, ...]

    def shapes(self) -> Iterator[Shape]:
        """Its words, its line, the dot on what it names."""
        stood = self.stood
        yield Text(stood.at, stood.label.text, "strong" if stood.label.strong else "text", stood.anchor)
        yield Line(self.line, "thin")
        yield Mark(self.line[-1], "dot", 2.6)


def struck(led: Sequence[Led]) -> int:
    """How often a line runs through words."""
    return sum(_runs_through(one.line, other.stood.frame) for one in led for other in led)


def _runs_through(line: Sequence[Flat], frame: Frame) -> bool:
    return any(crosses(part, frame) for part in itertools.pairwise(line))


@dataclass(frozen=True)
class Around:
    """A drawing that labels stand about: its points [in], its scale [pt per in], its look."""

    points: Sequence[Flat]
    scale: float
    style: Style

    def wide(self, label: Label) -> float:
        """How wide a label's words are [in]."""
        return text_width(label.text, self.style.text, bold=label.strong, face=self.style.face) / self.scale

    def frame(self, label: Label, end: Flat, anchor: Literal["start", "end"]) -> Frame:
        """The frame about words that are held at their end [in]."""
        wide = self.wide(label)
        high = (self.style.text * CAP_HEIGHT / 2 + AIR) / self.scale
        left = end[0] - wide if anchor == "end" else end[0]
        return (left, end[1] - high, left + wide, end[1] + high)


@dataclass(frozen=True)
class Stack:
    """Labels one above the other: in the upper right corner, or down from the lower left one."""

    around: Around
    side: float  # where words end, or begin in the lower corner [in]
    upper: bool

    @cached_property
    def hull(self) -> list[Flat]:
        """The upper or lower side of the drawing's outline, from left to right."""
        return _hull(self.around.points, self.upper)

    def led(self, labels: Sequence[Label]) -> Sequence[Led]:
        """The labels in the order of their places, or in another one, or with lines that go round nearer words."""
        turn = 1 if self.upper else -1
        ordered = sorted(labels, key=lambda label: min(turn * spot[1] for spot in label.spots))
        orders = list(itertools.islice(itertools.permutations(ordered), ORDERS))
        return fewest_struck(self._led(order, bent) for bent in (False, True) for order in orders)

    def _led(self, ordered: Sequence[Label], bent: bool) -> list[Led]:
        stood = list(self._stood(ordered, bent))
        return [Led(stood=one, line=self._line(one, stood, bent)) for one in stood]

    def _stood(self, ordered: Sequence[Label], bent: bool) -> Iterator[Stood]:
        """Each label clear of the drawing and beyond the one before; its open end too, where lines go round."""
        turn, side, scale = 1 if self.upper else -1, -1 if self.upper else 1, self.around.scale
        anchor: Literal["start", "end"] = "end" if self.upper else "start"
        y = past = None
        for label in ordered:
            left, _, right, _ = self.around.frame(label, (self.side, 0.0), anchor)
            edge = turn * (turn * _edge(self.hull, (left, right), self.upper) + GAP / scale)
            y = edge if y is None else turn * max(turn * edge, turn * y + LINE / scale)
            end = left if self.upper else right
            further = 0.0 if past is None or not bent else max(0.0, side * (past - end) + PAST / scale)
            past = end + side * further
            at = (self.side + side * further, y)
            yield Stood(label=label, at=at, anchor=anchor, frame=self.around.frame(label, at, anchor))

    def _line(self, stood: Stood, all_: Sequence[Stood], bent: bool) -> tuple[Flat, ...]:
        """From the words' open end, or from under them to places that all lie there: the shortest through no words."""
        side, scale = -1 if self.upper else 1, self.around.scale
        left, _, right, _ = stood.frame
        end = ((left if self.upper else right) + side * OPEN / scale, stood.at[1])
        along, off = (size / scale for size in UNDER)
        under = (end[0] - side * along, end[1] + side * off)
        spots = _nearest(stood.label.spots, end)
        clear = [(end, spot) for spot in spots if (spot[0] - end[0]) * side >= 0]
        lines: list[tuple[Flat, ...]] = [*clear, *((under, spot) for spot in spots)]
        if bent:
            lines += [(end, (end[0], all_[0].at[1] + side * off), spot) for spot in spots]
        return _free(lines, [other.frame for other in all_])


@dataclass(frozen=True)
class Column:
    """Labels beside the drawing, at its left or its right, each at the level of what it names or next to it."""

    around: Around
    right: bool

    def led(self, labels: Sequence[Label]) -> Sequence[Led]:
        """The labels from top to bottom; all words end where the lines start."""
        stood = list(self._stood(labels))
        side = 1 if self.right else -1
        found = []
        for one in stood:
            start = (one.at[0] - side * OPEN / self.around.scale, one.at[1])
            lines = [(start, spot) for spot in _nearest(one.label.spots, start)]
            found.append(Led(stood=one, line=_free(lines, [other.frame for other in stood])))
        return found

    def _stood(self, labels: Sequence[Label]) -> Iterator[Stood]:
        side, scale = 1 if self.right else -1, self.around.scale
        x = max(side * p[0] for p in self.around.points) * side + side * GAP / scale
        level = {label: max(label.spots, key=lambda spot: side * spot[0])[1] for label in labels}
        ordered = sorted(labels, key=lambda label: -level[label])
        ys: list[float] = []
        for label in ordered:
            ys.append(min([level[label], *(y - LINE / scale for y in ys[-1:])]))
        foot = min(p[1] for p in self.around.points) + LINE / 2 / scale
        anchor: Literal["start", "end"] = "start" if self.right else "end"
        for below, (label, y) in enumerate(zip(reversed(ordered), reversed(ys), strict=True)):
            at = (x, max(y, foot + below * LINE / scale))
            yield Stood(label=label, at=at, anchor=anchor, frame=self.around.frame(label, at, anchor))


def fewest_struck(ways: Iterable[Sequence[Led]]) -> Sequence[Led]:
    """The first way whose lines run through no words, or through the fewest."""
    best, fewest = None, 0
    for way in ways:
        found = struck(way)
        if best is None or found < fewest:
            best, fewest = way, found
        if not fewest:
            break
    return best or ()


def _nearest(spots: Iterable[Flat], to: Flat) -> list[Flat]:
    return sorted(spots, key=lambda spot: hypot(spot[0] - to[0], spot[1] - to[1]))


def _free(lines: Sequence[tuple[Flat, ...]], words: Sequence[Frame]) -> tuple[Flat, ...]:
    """The first line that runs through no words, or the first."""
    return next((line for line in lines if not any(_runs_through(line, frame) for frame in words)), lines[0])


def _edge(hull: Sequence[Flat], reach: Flat, upper: bool) -> float:
    """How far up (or down) the drawing comes over a stretch of paper, by the straight sides of its outline."""
    xs = [*reach, *(p[0] for p in hull if reach[0] < p[0] < reach[1])]
    levels = [_level(hull, min(max(x, hull[0][0]), hull[-1][0])) for x in xs]
    return max(levels) if upper else min(levels)


def _hull(points: Sequence[Flat], upper: bool) -> list[Flat]:
    """Upper or lower side of the convex outline, from left to right."""
    sign = 1 if upper else -1
    hull: list[Flat] = []
    for p in sorted(set(points), key=lambda q: (q[0], -sign * q[1])):
        while len(hull) >= 2 and sign * _cross(hull[-2], hull[-1], p) >= 0:
            hull.pop()
        hull.append(p)
    return hull


def _cross(o: Flat, a: Flat, b: Flat) -> float:
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])


def _level(hull: Sequence[Flat], x: float) -> float:
    for (x0, y0), (x1, y1) in itertools.pairwise(hull):
        if x0 <= x <= x1:
            return y0 if x1 == x0 else y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return hull[-1][1]
