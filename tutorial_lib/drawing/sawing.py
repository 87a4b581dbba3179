"""For the store and the saw: boards end on, boards as they lie at the saw with their running marks, where the blade
goes."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import sin

from tutorial_lib.cutting.boards import Board, Layout
from tutorial_lib.cutting.saw import SawCut, saw_cuts
from tutorial_lib.drawing.cut_layout import alt
from tutorial_lib.drawing.lettering import text_width
from tutorial_lib.drawing.scene import PAPER, Line, Polygon, Rect, Running, Scene, Shape, Text
from tutorial_lib.drawing.wood import rings
from tutorial_lib.measures import Writer

SAW = replace(PAPER, small=11.5)  # marks are read standing at the saw
APART = 2.4  # [pt] pieces are drawn apart at the saw cuts by this much at least
LEAST = 5.0  # [pt] of a board's width
SLANT = 0.45  # of the true depth, drawn up and to the right


def end_on(thickness: Fraction, width: Fraction, scale: float) -> Scene:
    """A board seen end on, with its rings.

    Args:
        thickness: [in].
        width: [in].
        scale: [pt per in].
    """
    wide, high = float(width), float(thickness)
    runs = rings(wide, high, f"{wide} {high}", max(0.25, high / 6))
    shapes: list[Shape] = [Rect(0, 0, wide, high, "end", line="none"), *(Line(run, "grain") for run in runs)]
    shapes.append(Rect(0, 0, wide, high))
    return Scene(tuple(shapes), scale, "a board seen end on", margin=1.0, style=PAPER)


def board(layout: Layout, number: int, longest: Fraction, size: tuple[Fraction, Fraction],
          name: Callable[[str], tuple[str, str]], w: Writer, width: float) -> Scene:  # fmt: skip
    """A board at the saw: its squared end at the tape's hook, pieces apart at their cuts, running marks under it.

    Args:
        layout: the board and how many are cut so.
        number: its number in the plan.
        longest: length of the plan's longest board [in], so that all are drawn to one scale.
        size: thickness and width of the section [in].
        name: a part's letter and name by its key.
        w: writes the marks.
        width: of the longest board on paper [pt].
    """
    cut, cuts = layout.board, saw_cuts(layout.board)
    scale = width / float(longest)
    high = max(float(size[1]) * scale, LEAST) / scale
    deep = min(max(float(size[0]) * SLANT, 2.0 / scale), high)
    shapes: list[Shape] = []
    for at, piece in enumerate(cuts):
        start, end = _drawn(cuts, at, cut, scale)
        shapes += _plank(start, end, high, deep, f"{number} {piece.number}", scale)
        words = _fitting(name(piece.piece.name), end - start, scale)
        shapes.append(Text(((start + end) / 2 + deep / 2, high + deep), words, shift=(0, 7)))
    shapes += _rest(cut, cuts, high, scale, w)
    marks = tuple(piece.mark for piece in cuts)
    shapes.append(Running((0, 0), marks, tuple(w.mark(x) for x in marks), -7.0))
    told = alt(layout, number, lambda key: name(key)[1], w.units)
    return Scene(tuple(shapes), scale, told, margin=3.0, style=SAW)


def _drawn(cuts: Sequence[SawCut], at: int, board: Board, scale: float) -> tuple[float, float]:
    """Where a piece is drawn from and to [in]: the kerf before it at least so wide that it can be seen."""
    gap = max(float(board.kerf), APART / scale)
    start = float(cuts[at - 1].mark) + gap if at else 0.0
    return start, float(cuts[at].mark)


def _plank(x0: float, x1: float, high: float, deep: float, seed: str, scale: float) -> Iterator[Shape]:
    yield Polygon(((x0, high), (x1, high), (x1 + deep, high + deep), (x0 + deep, high + deep)), "wood", "thin")
    yield Polygon(((x1, 0), (x1 + deep, deep), (x1 + deep, high + deep), (x1, high)), "end", "thin")
    yield Polygon(((x0, 0), (x1, 0), (x1, high), (x0, high)), "wood side", "outline")
    draw = random.Random(seed)
    for _ in range(2 if high * scale > 10 else 0):
        a, v = x0 + (x1 - x0) * draw.uniform(0.05, 0.4), high * draw.uniform(0.2, 0.8)
        yield Line(tuple((a + (x1 - x0) * 0.06 * t, v + 0.05 * high * sin(t * 0.8)) for t in range(9)), "grain")


def _fitting(name: tuple[str, str], room: float, scale: float) -> str:
    """The letter and name of a piece, or its letter alone where there is no room."""
    words = " ".join(name)
    return words if text_width(words, SAW.text, face="paper") < room * scale - 4 else name[0]


def _rest(board: Board, cuts: Sequence[SawCut], high: float, scale: float, w: Writer) -> Iterator[Shape]:
    """What is left over: dashed, with its length where it fits."""
    if board.offcut <= 0 or not cuts:
        return
    end = float(board.length - board.trim)
    start = min(float(cuts[-1].mark) + max(float(board.kerf), APART / scale), end)
    if (end - start) * scale < 3:
        return
    yield Rect(start, 0, end - start, high, "none", line="hidden")
    for words in (f"left {w.mark(board.offcut)}", w.mark(board.offcut)):
        if text_width(words, SAW.text, face="paper") < (end - start) * scale - 8:
            inside = high * scale > SAW.text + 3
            yield Text(((start + end) / 2, high / 2 if inside else high), words, shift=(0, 0) if inside else (0, 9))
            return


def blade(kerf: str) -> Scene:
    """The pencil line, the blade on its far side, the waste beyond.

    Args:
        kerf: the saw's cut as it is told.
    """
    shapes: list[Shape] = [
        Rect(0, 0, 96, 34, "wood side", line="none"),
        Line(((0, 34), (96, 34), (96, 0), (0, 0)), "outline"),
        Line(((162, 34), (104, 34), (104, 0), (162, 0)), "hidden"),
        Rect(96, -9, 8, 52, "paper", line="thin"),
        *(Line(((96.5, 4 + 6 * k), (103.5, 8 + 6 * k))) for k in range(5)),
        Line(((100, 43), (100, 54), (112, 54))),
        Text((115, 54), f"blade, {kerf}", anchor="start"),
        Line(((128, 11), (140, 23)), "outline"),
        Line(((140, 11), (128, 23)), "outline"),
        Text((134, -12), "waste: mark X"),
        Text((48, 17), "your piece", "strong"),
        Line(((96, 0), (96, -24)), "outline"),
        Text((92, -20), "pencil line, the mark", anchor="end"),
    ]
    return Scene(tuple(shapes), 1.0, "The blade goes on the far side of the pencil line", style=PAPER)
