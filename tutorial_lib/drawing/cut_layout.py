"""A board's cuts in words, and how ways of marking compare."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from tutorial_lib.cutting.boards import Layout
from tutorial_lib.cutting.marking import Method, Row
from tutorial_lib.cutting.saw import saw_cuts
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import Line, Rect, Scene, Shape, Text
from tutorial_lib.measures import mm, writer


def alt(layout: Layout, number: int, names: Callable[[str], str], units: str) -> str:
    """The layout in words."""
    board = layout.board
    pieces = ", ".join(
        f"{names(c.piece.name)} {writer(units).length(c.piece.length)} at {writer(units).length(c.mark)}"
        for c in saw_cuts(board)
    )
    left = f"; {writer(units).length(board.offcut)} left over" if board.offcut else ""
    times = "once" if layout.count == 1 else f"{layout.count} times"
    return f"Board {number}, {board.section} {board.stock}, cut {times}: {pieces}{left}."


def marking_plot(methods: Sequence[Method], row: Row, units: str = "in", width: float = 460.0) -> Scene:
    """How far the last gap strays by each marking method: a bar from the 1st to the 19th of 20 beds.

    One line a method, the ideal gap and the limit as upright lines; beds over the limit told in words.
    """
    pitch, half = Fraction(1, 2), Fraction(1, 12)
    shapes: list[Shape] = []
    spans = [_span(m) for m in methods]
    low = min(row.gap - 0.3, *(s[0] for s in spans))
    high = max(row.limit + 0.1, *(s[1] for s in spans))
    top = pitch * len(methods)
    for x, words in ((row.gap, "as planned"), (row.limit, "gap limit")):
        shapes.append(Line(((x * 4, 0), (x * 4, top)), "centre" if x == row.gap else "wrong"))
        shapes.append(Text((x * 4, top), words, "small", "end", shift=(-2, 4)))
    for i, (method, (left, right)) in enumerate(zip(methods, spans, strict=True)):
        y = top - pitch * i - pitch / 2
        shapes.append(Rect(left * 4, y - half, (right - left) * 4, 2 * half, fill="wood"))
        shapes.append(Text((low * 4, y), method.name, "text", "end", shift=(-10, -3)))
        shapes.append(Text((high * 4, y), _odds(method.over), "text", "start", shift=(10, -3)))
    words = "; ".join(f"{m.name}: {_odds(m.over)} beds over the limit" for m in methods)
    shapes.append(Text((high * 4, top), "beds over it", "small", "start", shift=(10, 4)))
    for mark, text in _ticks(low, high, units):
        shapes.append(Line(((mark * 4, 0), (mark * 4, Fraction(-1, 16))), "thin"))
        shapes.append(Text((mark * 4, 0), text, "small", shift=(0, -14)))
    shapes.append(Line(((low * 4, 0), (high * 4, 0)), "thin"))
    shapes.append(Text(((low + high) * 2, 0), f"gap ({units}), 18 of 20 beds", "small", shift=(0, -25)))
    return fitted(shapes, width, f"Marking methods compared. {words}.")


def _ticks(low: float, high: float, units: str) -> list[tuple[Fraction, str]]:
    """Places on the gap's axis [in] with their figures: every 1/4 in or 10 mm."""
    step = Fraction(1, 4) if units == "in" else mm(10)
    places = [n * step for n in range(int(low / step) + 1, int(high / step) + 1)]
    return [(place, writer(units).mark(place)) for place in places]


def _span(method: Method) -> tuple[float, float]:
    """Where 18 of 20 beds lie."""
    found = sorted(method.sample)
    return found[len(found) // 20], found[-len(found) // 20 - 1]


def _odds(share: float) -> str:
    """A share as people say it: "1 in 8"; below one in a thousand the trials are too few to tell."""
    if share < 0.001:
        return "under 1 in 1,000"
    return f"1 in {max(round(1 / share), 1):,}"
