"""A drawing as data: shapes in inches of the real thing, styled by role, laid on paper by `lettering` and `layout`.

y points up, as in an elevation. Offsets, text sizes and line weights are paper points (1/72 in) and do not
grow with the scale.

>>> from tutorial_lib.drawing.layout import fitted
>>> from tutorial_lib.drawing.svg import svg
>>> slat = [Rect(0, 0, 38, 4, fill="wood"), Dimension((0, 0), (38, 0), -24, "38 in")]
>>> scene = fitted(slat, 300, "A slat, 38 in long")
>>> svg(scene).startswith("<svg")
True
"""

from __future__ import annotations

from dataclasses import KW_ONLY
from fractions import Fraction
from typing import Literal

from tutorial_lib.drawing.lettering import Face
from tutorial_lib.records import dataclass

Number = Fraction | float | int
Point = tuple[Number, Number]
LineRole = Literal["outline", "thin", "hair", "grain", "clear", "hidden", "centre", "new", "wrong", "none"]
FillRole = Literal[
    "none", "wood", "wood side", "wood front", "end", "end grain", "new", "wrong", "metal", "paper", "ink"
]
TextRole = Literal["title", "text", "small", "strong", "strong small"]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, kw_only=True)
class Style:
    """The look of all drawings: Okabe-Ito colours, lines of two weights, one typeface."""

    thick: float = 1.2  # [pt]; thick to thin is 2:1 or more, ISO 128-2 (from memory)
    thin: float = 0.5
    hair: float = 0.35  # grain of the wood, which carries no meaning
    clear: float = 2.4  # white about what stands before something else
    text: float = 8.5  # [pt]
    small: float = 7.5
    title: float = 10.5
    ink: str = "#000000"
    new: str = "#0072B2"  # blue: what has just changed
    wrong: str = "#D55E00"  # vermillion: what is wrong
    wood: str = "#FBF4E4"
    wood_side: str = "#F5E8CC"  # the same wood in less light
    wood_front: str = "#EBD8B2"
    end_grain: str = "#E6CFA3"
    grain: str = "#CDB485"
    metal: str = "#D9D9D9"
    new_tint: str = "#CFE6F5"
    wrong_tint: str = "#FBDCC8"
    font: str = "Liberation Sans, Arial, Helvetica, sans-serif"
    gap: float = 4.25  # [pt] extension line's gap, 1.5 mm: ASME Y14.5 practice
    past: float = 6.0  # [pt] extension line past the dimension line
    arrow: float = 7.0  # [pt] arrowhead length, three times its width: ASME Y14.2
    face: Face = "screen"


STYLE = Style()
PAPER = Style(text=9.0, small=8.5, title=11.0, font="Saltmarsh Sans, Liberation Sans", arrow=6.0, gap=3.0, past=4.0,
              face="paper")  # fmt: skip


@dataclass(frozen=True)
class Rect:
    """A rectangle by its lowest corner and size."""

    x: Number
    y: Number
    width: Number
    height: Number
    fill: FillRole = "none"
    _: KW_ONLY
    line: LineRole = "outline"


@dataclass(frozen=True)
class Polygon:
    """A closed shape."""

    points: tuple[Point, ...]
    fill: FillRole = "none"
    line: LineRole = "outline"


@dataclass(frozen=True)
class Line:
    """An open line through points. Role "centre" is the axis line (long-dash-dot)."""

    points: tuple[Point, ...]
    line: LineRole = "thin"


@dataclass(frozen=True)
class Circle:
    """A circle with a real radius; never drawn smaller than ``least`` points."""

    centre: Point
    radius: Number
    fill: FillRole = "none"
    line: LineRole = "outline"
    least: float = 0.0


@dataclass(frozen=True)
class Mark:
    """A small sign of fixed paper size: a cross (pencil mark), a dot, a hole, a "no" cross, or a zero point.

    A zero point ("datum") is a ring with two opposite quarters filled; it stands wherever the tape is hooked.
    """

    at: Point
    sign: Literal["cross", "dot", "ring", "no", "datum"] = "cross"
    size: float = 5.0  # [pt]
    line: LineRole = "outline"


@dataclass(frozen=True)
class Text:
    """Words at a point, moved by ``shift`` paper points.

    With ``optional`` the words are left out where they would lie on other words; ``tries`` are further shifts
    to try first. ``halo`` clears the lines behind them.
    """

    at: Point
    text: str
    role: TextRole = "text"
    anchor: Anchor = "middle"
    rotate: Literal[0, 90] = 0
    _: KW_ONLY
    shift: tuple[float, float] = (0.0, 0.0)
    optional: bool = False
    tries: tuple[tuple[float, float], ...] = ()
    halo: bool = False
    colour: Literal["ink", "new"] = "ink"  # what is wrong is marked, its words stay as easy to read
    lies: Literal["", "x", "y", "side"] = ""  # on an isometric floor along an axis, or upright on the near side


@dataclass(frozen=True)
class Balloon:
    """A part's letter in a ring, with a line to the part; ``reach`` is the way from the part to the ring, in points."""

    at: Point
    letter: str
    reach: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Dimension:
    """A dimension line from p to q, ``offset`` points outside them: above (+) or below (-), right (+) or left (-).

    ``along`` says what is measured; left out it is the longer of the two.
    """

    p: Point
    q: Point
    offset: float
    text: str
    along: Literal["x", "y"] | None = None
    _: KW_ONLY
    changed: bool = False


@dataclass(frozen=True)
class Running:
    """Running marks along one edge, all from one end: a line with a datum ring at ``start`` and a text at each mark.

    The edge runs from ``start`` along x or y; ``offset`` puts the line outside it, in points.
    Where the marks stand closer than their texts, texts are left out and the last stays.
    """

    start: Point
    marks: tuple[Number, ...]
    texts: tuple[str, ...]
    offset: float
    along: Literal["x", "y"] = "x"
    _: KW_ONLY
    changed: bool = False


@dataclass(frozen=True)
class Arrow:
    """A line with a head at its end, or at both."""

    p: Point
    q: Point
    both: bool = False
    line: LineRole = "thin"


@dataclass(frozen=True)
class Leader:
    """A thin line from a place on the part to words beside it; ``reach`` is the way from the place, in points."""

    at: Point
    reach: tuple[float, float]
    text: str
    role: TextRole = "text"
    colour: Literal["ink", "new"] = "ink"


Shape = Rect | Polygon | Line | Circle | Mark | Text | Balloon | Dimension | Running | Arrow | Leader


@dataclass(frozen=True)
class Scene:
    """Shapes, the scale they are laid at, and the words for who can't see them."""

    shapes: tuple[Shape, ...]
    scale: float  # [pt per in of the real thing]; 72 is full size
    alt: str
    margin: float = 4.0  # [pt]
    style: Style = STYLE

    def texts(self) -> list[str]:
        """All words on the drawing, in order."""
        out: list[str] = []
        for shape in self.shapes:
            if isinstance(shape, Running):
                out += shape.texts
            elif isinstance(shape, Text | Dimension | Leader):
                out.append(shape.text)
            elif isinstance(shape, Balloon):
                out.append(shape.letter)
        return out


def real_points(shape: Shape) -> tuple[Point, ...]:
    """The points of a shape in the real thing [in], without what is laid around it on paper."""
    if isinstance(shape, Rect):
        return (shape.x, shape.y), (shape.x + shape.width, shape.y + shape.height)
    if isinstance(shape, Polygon | Line):
        return shape.points
    if isinstance(shape, Circle):
        (x, y), r = shape.centre, shape.radius
        return (x - r, y - r), (x + r, y + r)
    if isinstance(shape, Dimension | Arrow):
        return shape.p, shape.q
    if isinstance(shape, Running):
        x, y = shape.start
        return shape.start, *(((x + m, y) if shape.along == "x" else (x, y + m)) for m in shape.marks)
    return (shape.at,)
