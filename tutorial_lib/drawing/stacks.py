"""Labels of a drawing in stacks that keep clear of it, each with a line to what it names, never through words."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import hypot

from tutorial_lib.drawing.ink import Frame, crosses
from tutorial_lib.drawing.lettering import CAP_HEIGHT, text_width
from tutorial_lib.drawing.scene import Line, Mark, Shape, Style, Text
from tutorial_lib.drawing.solids import Flat

LINE = 12.0  # [pt] from one label to the next
GAP = 9.0  # [pt] labels keep this far off the drawing
OPEN = 3.0  # [pt] between words and their line
UNDER = (10.0, 6.0)  # [pt] where a line starts that can't start at the open end: along the words, and off their middle
ORDERS = 24  # orders of labels that are tried: all of four


@dataclass(frozen=True)
class Label:
    """Words with a line to one of some places on the drawing, the one that is nearest."""

    text: str
    spots: tuple[Flat, ...]
    strong: bool = False


@dataclass(frozen=True)
class Stood:
    """Where a label's words stand: their outer end and the frame about them [in]."""

    label: Label
    at: Flat
    frame: Frame


@dataclass(frozen=True, kw_only=True)
class Led:
    """A label with its line."""

    stood: Stood
    line: tuple[Flat, Flat]


@dataclass(frozen=True)
class Stack:
    """Labels one above the other: in the upper right corner, or down from the lower left one."""

    points: Sequence[Flat]  # of the drawing [in]
    scale: float  # [pt per in]
    side: float  # where words end, or begin in the lower corner [in]
    upper: bool
    style: Style

    @cached_property
    def hull(self) -> list[Flat]:
        """The upper or lower side of the drawing's outline, from left to right."""
        return _hull(self.points, self.upper)

    def of(self, labels: Sequence[Label]) -> Iterator[Shape]:
        """The labels in the order of their places, or in another one where a line would run through words."""
        turn = 1 if self.upper else -1
        ordered = sorted(labels, key=lambda label: min(turn * spot[1] for spot in label.spots))
        ways = map(self._led, itertools.islice(itertools.permutations(ordered), ORDERS))
        for led in fewest_crossed(ways):
            label = led.stood.label
            role, anchor = "strong" if label.strong else "text", "end" if self.upper else "start"
            yield Text(led.stood.at, label.text, role, anchor)  # type: ignore[arg-type]
            yield Line(led.line, "thin")
            yield Mark(led.line[1], "dot", 2.6)

    def _led(self, ordered: Sequence[Label]) -> list[Led]:
        stood = list(self._stood(ordered))
        return [Led(stood=one, line=self._line(one, [other.frame for other in stood])) for one in stood]

    def _stood(self, ordered: Sequence[Label]) -> Iterator[Stood]:
        """Each label clear of the drawing and beyond the one before."""
        turn = 1 if self.upper else -1
        high = self.style.text * CAP_HEIGHT / 2 / self.scale
        y = None
        for label in ordered:
            wide = text_width(label.text, self.style.text, bold=label.strong, face=self.style.face) / self.scale
            left = self.side - wide if self.upper else self.side
            edge = turn * (turn * _edge(self.hull, (left, left + wide), self.upper) + GAP / self.scale)
            y = edge if y is None else turn * max(turn * edge, turn * y + LINE / self.scale)
            yield Stood(label, (self.side, y), (left, y - high, left + wide, y + high))

    def _line(self, stood: Stood, words: Sequence[Frame]) -> tuple[Flat, Flat]:
        """From the words' open end, or from under them to places that all lie there: the shortest through no words."""
        side = -1 if self.upper else 1
        left, _, right, _ = stood.frame
        end = ((left if self.upper else right) + side * OPEN / self.scale, stood.at[1])
        along, off = (size / self.scale for size in UNDER)
        under = (end[0] - side * along, end[1] + side * off)
        spots = sorted(stood.label.spots, key=lambda spot: hypot(spot[0] - end[0], spot[1] - end[1]))
        clear = [(end, spot) for spot in spots if (spot[0] - end[0]) * side >= 0]
        lines = [*clear, *((under, spot) for spot in spots)]
        return next((line for line in lines if not any(crosses(line, frame) for frame in words)), lines[0])


def fewest_crossed(ways: Iterable[Sequence[Led]]) -> Sequence[Led]:
    """The first way whose lines run through no words, or through the fewest."""
    best, fewest = None, 0
    for way in ways:
        crossed = sum(crosses(one.line, other.stood.frame) for one in way for other in way)
        if best is None or crossed < fewest:
            best, fewest = way, crossed
        if not fewest:
            break
    return best or ()


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
