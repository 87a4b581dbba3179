"""Boards as they lie at the saw: one wood tint, the tape along the lower edge, cuts numbered in their order."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from tutorial_lib.cutting.boards import Board, Layout
from tutorial_lib.cutting.marking import Method, Row
from tutorial_lib.cutting.saw import SawCut, saw_cuts
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import STYLE, Line, Rect, Running, Scene, Shape, Text
from tutorial_lib.measures import mm, writer

WIDTH = 500.0  # [pt] the longest board on paper
HIGH = 19.0  # [pt] a board's height on paper, room for its pieces' names
CHARACTER = 0.5  # of the type size: mean width of a letter


def cut_layout(
    layout: Layout, number: int, longest: Fraction, names: Callable[[str], str] = str, units: str = "in"
) -> Scene:
    """One board with its cuts, at the scale of the longest board of the plan.

    Args:
        layout: the board and how many are cut so.
        number: its number in the plan.
        longest: length of the plan's longest board [in], so that all boards are drawn to one scale.
        names: a piece's name in words.
        units: of the marks.
    """
    board = layout.board
    scale = WIDTH / float(longest)
    high = Fraction(round(HIGH / scale * 64), 64)
    cuts = saw_cuts(board)
    shapes: list[Shape] = [Rect(0, 0, board.length, high, fill="wood"), _title(layout, number, high, units)]
    for cut in cuts:
        shapes += _piece(cut, board, high, names, units, scale)
    shapes += _rest(board, cuts, high, units, scale)
    shapes += _square(board, high)
    marks = tuple(cut.mark for cut in cuts)
    shapes.append(Running((board.trim, 0), marks, tuple(_short(cut.mark, units) for cut in cuts), -7.0))
    return Scene(tuple(shapes), scale, alt(layout, number, names, units))


def _short(x: Fraction, units: str) -> str:
    return writer(units).mark(x)


def _title(layout: Layout, number: int, high: Fraction, units: str) -> Text:
    boards = "1 board" if layout.count == 1 else f"{layout.count} boards, all cut alike"
    section = f"{layout.board.section} " if layout.board.section else ""
    return Text((0, high), f"{number}.  {section}{layout.board.stock}: {boards}", "strong", "start", shift=(0, 20))


def _square(board: Board, high: Fraction) -> list[Shape]:
    """The squaring cut, where there is a trim."""
    if not board.trim:
        return []
    return [
        Line(((board.trim, 0), (board.trim, high)), "outline"),
        Text((board.trim, high), "square", "small", "start", shift=(0, 5)),
    ]


def _piece(
    cut: SawCut, board: Board, high: Fraction, names: Callable[[str], str], units: str, scale: float
) -> list[Shape]:
    """A piece's words and the kerf beyond it with the cut's number."""
    start, end = board.trim + cut.start, board.trim + cut.mark
    room = float(end - start) * scale - 6
    shapes: list[Shape] = []
    length = _short(cut.piece.length, units)
    for words in (f"{names(cut.piece.name)}  {length}", names(cut.piece.name), length):
        if len(words) * CHARACTER * STYLE.text <= room:
            shapes.append(Text(((start + end) / 2, high / 2), words, shift=(0, -STYLE.text * 0.35)))
            break
    if cut.needed:
        kerf = min(max(board.kerf, Fraction(1, 64)), board.length - end)
        shapes.append(Rect(end, 0, kerf, high, fill="ink", line="outline"))
        shapes.append(Text((end + kerf / 2, high), str(cut.number), "text", shift=(0, 5)))
    return shapes


def _rest(board: Board, cuts: Sequence[SawCut], high: Fraction, units: str, scale: float) -> list[Shape]:
    """What is left over, on white with a broken outline."""
    if board.offcut <= 0 or not cuts:
        return []
    start = board.length - board.offcut
    shapes: list[Shape] = [Rect(start, 0, board.offcut, high, fill="paper", line="hidden")]
    for words in (f"left over {_short(board.offcut, units)}", f"left {_short(board.offcut, units)}"):
        if len(words) * CHARACTER * STYLE.small + 6 <= float(board.offcut) * scale:
            shapes.append(Text((start + board.offcut / 2, high / 2), words, "small", shift=(0, -STYLE.small * 0.35)))
            break
    return shapes


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
    return [(place, _short(place, units)) for place in places]


def _span(method: Method) -> tuple[float, float]:
    """Where 18 of 20 beds lie."""
    found = sorted(method.sample)
    return found[len(found) // 20], found[-len(found) // 20 - 1]


def _odds(share: float) -> str:
    """A share as people say it: "1 in 8"; below one in a thousand the trials are too few to tell."""
    if share < 0.001:
        return "under 1 in 1,000"
    return f"1 in {max(round(1 / share), 1):,}"
