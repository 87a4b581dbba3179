"""The design's views as Scenes: slat plan, leg map, elevations, section.

Plans are drawn with the head on the left and the left side rail at the bottom; elevations stand on the floor.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.design.model import SIDES, Box, Build, Leg, Piece
from tutorial_lib.design.on_top import mattress_place
from tutorial_lib.design.storage import box_places
from tutorial_lib.design.zero import leg_mark, leg_zero, leg_zero_short, marked, reach
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import (
    Anchor,
    Dimension,
    FillRole,
    Line,
    LineRole,
    Rect,
    Running,
    Scene,
    Shape,
    Text,
)
from tutorial_lib.measures import writer

WIDTH = 520.0  # [pt] paper width of a view that fills the line
TALLEST = 285.0  # [pt] so that two plans share a page
RAILS = ("side_rail", "end_rail")
ENDS: dict[bool, Anchor] = {False: "start", True: "end"}  # of a label behind its leg, and before it
POSTS = ("post", "post_2", "headboard", "headboard_slat", "upright")


def units_of(build: Build) -> str:
    """ "in" or "mm", as the build file says."""
    return build.options.build.units


def size_text(build: Build, x: Fraction) -> str:
    """A length as the drawing writes it, with its unit."""
    return writer(units_of(build)).length(x)


def mark_text(build: Build, x: Fraction) -> str:
    """A running mark: the bare figure, as on the tape."""
    return writer(units_of(build)).mark(x)


def plan_rect(piece: Piece, fill: FillRole = "wood", line: LineRole = "outline") -> Rect:
    """A piece seen from above."""
    (x, y, _), (dx, dy, _) = piece.box.lo, piece.box.size
    return Rect(x, y, dx, dy, fill, line=line)


def pieces_of(build: Build, *parts: str) -> list[Piece]:
    """All pieces of some parts, in build order."""
    return [piece for part in build.parts if part.key in parts for piece in part.pieces]


def slat_plan(build: Build, before: Build | None = None, width: float = WIDTH, height: float = TALLEST) -> Scene:
    """The deck from above, with running marks to the near edge of every slat from the inner face of the head rail.

    Args:
        build: the bed.
        before: the same bed before a change; a slat that has no slat at its place there is set off as new.
        width: paper width [pt].
        height: greatest paper height [pt].
    """
    row = build.slats
    wide = build.outside[0]
    (start, end), (near, far) = reach(build)
    shapes: list[Shape] = [plan_rect(piece) for piece in pieces_of(build, *RAILS, *POSTS)]
    shapes += _slats(build, before)
    shapes += [Line(_axis(line.x, line.y), "centre") for line in build.lines if line.central]
    shapes += [
        Text((slat[0].box.centre[0], wide * 3 / 20), str(i), "small", halo=True, optional=True)
        for i, slat in enumerate(build.slat_rows, 1)
    ]
    shapes.append(Running((row.start, Fraction(0)), row.marks, tuple(mark_text(build, m) for m in row.marks), -16.0))
    shapes += _gap_dimension(build, wide)
    shapes += [
        Dimension((start, far), (end, far), 46, size_text(build, build.overall[1])),
        Dimension((end, near), (end, far), 24, size_text(build, build.overall[0])),
        Text((start, wide / 2), "HEAD", "small", rotate=90, shift=(-9, 0)),
    ]
    alt = (
        f"Slat plan from above, head on the left: {row.count} slats {size_text(build, row.width)} wide, gaps "
        f"{size_text(build, row.gap)}; near edges from the head rail's inner face at "
        f"{', '.join(mark_text(build, m) for m in row.marks)} {units_of(build)}."
    )
    return fitted(shapes, width, alt, height=height)


def _slats(build: Build, before: Build | None) -> Iterator[Shape]:
    """The slats from above; one that had no equal at its place before is set off as new."""
    old = {(p.box.lo[0], p.box.size) for p in pieces_of(before, "slat")} if before else None
    for piece in pieces_of(build, "slat"):
        new = old is not None and (piece.box.lo[0], piece.box.size) not in old
        yield plan_rect(piece, "new" if new else "wood", "new" if new else "outline")


def _axis(x: tuple[Fraction, Fraction], y: Fraction) -> tuple[tuple[Fraction, Fraction], ...]:
    return (x[0] - 2, y), (x[1] + 2, y)


def _gap_dimension(build: Build, wide: Fraction) -> list[Shape]:
    row = build.slats
    if row.count < 2 or row.gap <= 0:
        return []
    left = row.start + row.marks[1] - row.gap
    told = size_text(build, row.gap)
    exact = row.gap % writer(units_of(build)).grid == 0
    words = f"{told} gap, every one" if exact else f"gaps of about {told}: the marks decide"
    return [Dimension((left, wide), (left + row.gap, wide), 20, words)]


def leg_map(build: Build, before: Build | None = None, width: float = WIDTH) -> Scene:
    """Where every leg stands, from above: its label, near edges from the head end, set-backs."""
    wide, ((start, end), (_, far)) = build.outside[0], reach(build)
    members = (build.pieces[label] for line in build.lines for label in line.members)
    shapes: list[Shape] = [plan_rect(piece, "none", "thin") for piece in pieces_of(build, *RAILS)]
    shapes += [plan_rect(piece, "wood", "thin") for piece in members if piece.part not in RAILS]
    shapes += _boxes(build, (0, 1))
    shapes += [plan_rect(piece, "wood", "thin") for piece in pieces_of(build, "plinth_side", "plinth_end")]
    shapes += _legs(build, before)
    shapes += _leg_marks(build)
    shapes += [
        Dimension((start, far), (end, far), 32, size_text(build, build.overall[1])),
        Text((start, wide / 2), "HEAD", "small", rotate=90, shift=(-9, 0)),
    ]
    legs = [leg for leg in build.legs if not leg.post]
    names = ", ".join(f"{leg.label} at {mark_text(build, leg_mark(build, leg))}" for leg in legs)
    alt = (
        f"Leg map from above, head on the left: {len(build.legs)} legs; near edges from "
        f"{leg_zero_short(build)}: {names}."
    )
    return fitted(shapes, width, alt, height=TALLEST)


def _boxes(build: Build, axes: tuple[int, int]) -> list[Shape]:
    """Storage boxes as hidden outlines, seen along the axis left out; those behind others are not drawn again."""
    across, up = axes
    seen = dict.fromkeys(((box.lo[across], box.lo[up]), (box.size[across], box.size[up])) for box in box_places(build))
    shapes: list[Shape] = []
    for (x, y), (wide, high) in seen:
        shapes.append(Rect(x, y, wide, high, "none", line="hidden"))
        shapes.append(Text((x + wide / 2, y + high / 2), "box", "small", halo=True, optional=True))
    return shapes


def _legs(build: Build, before: Build | None) -> Iterator[Shape]:
    """The legs from above; one that had no equal at its place before is set off as new."""
    old = {(leg.x, leg.y, leg.size) for leg in before.legs} if before else None
    foot = {leg.line: leg for leg in sorted(build.legs, key=lambda leg: leg.x)}
    for leg in build.legs:
        yield from _leg(leg, old is not None and (leg.x, leg.y, leg.size) not in old, leg is foot[leg.line])


def _leg(leg: Leg, new: bool, last: bool) -> Iterator[Shape]:
    """A leg, its label behind it; the last one's, clear of the measures at the foot, before it."""
    (dx, dy), way = leg.size, -1 if last else 1
    at, anchor = (leg.x + way * dx / 2, leg.y), ENDS[last]
    fill: FillRole = "new" if new else "end grain"
    yield Rect(leg.x - dx / 2, leg.y - dy / 2, dx, dy, fill, line="new" if new else "outline")
    yield Text(at, leg.label, "strong", anchor, shift=(4 * way, 0), halo=True, colour="new" if new else "ink")


def _leg_marks(build: Build) -> Iterator[Shape]:
    """Running marks of the legs, how far the left side's are set back, how far apart the outer lines are."""
    sides = marked(build, "left")
    if sides:
        yield from _running_marks(build, sides)
        yield from _set_backs(build, sides[-1])
    ys, long = sorted({leg.y for leg in build.legs}), build.outside[1]
    if len(ys) > 1:
        words = f"{size_text(build, ys[-1] - ys[0])} centres"
        yield Dimension((long, ys[0]), (long, ys[-1]), 44, words, along="y")


def _running_marks(build: Build, sides: Sequence[Leg]) -> Iterator[Shape]:
    """Of the left side's legs below, of the centre lines' above, where they differ."""
    zero, marks = Fraction(0), tuple(leg_mark(build, leg) for leg in sides)
    yield Running((leg_zero(build), zero), marks, tuple(mark_text(build, m) for m in marks), -16.0)
    middle = tuple(sorted({leg.near_edge for leg in build.legs if leg.line not in SIDES}))
    if middle and middle != marks:
        yield Running((zero, build.outside[0]), middle, tuple(mark_text(build, m) for m in middle), 14.0)


def _set_backs(build: Build, last: Leg) -> Iterator[Shape]:
    """How far the left side's last leg stands back from the side and the foot; between posts it is at the rail."""
    zero, long = Fraction(0), build.outside[1]
    side, foot = last.y - last.size[1] / 2, long - last.near_edge - last.size[0]
    if build.options.frame.posts:
        return
    if side > 0:
        yield Dimension((long, zero), (long, side), 20, size_text(build, side), along="y")
    if foot > 0:
        yield Dimension((long - foot, zero), (long, zero), -42, size_text(build, foot), along="x")


def _seen(piece: Piece, across: int, fill: FillRole, line: LineRole) -> Rect:
    lo, size = piece.box.lo, piece.box.size
    return Rect(lo[across], lo[2], size[across], size[2], fill, line=line)


HEIGHTS = ("slats", "rail", "mattress")


def side_elevation(build: Build, width: float = WIDTH, heights: Sequence[str] = HEIGHTS) -> Scene:
    """The bed from its left side: rail, legs, what is hidden dashed, heights above the floor, all or some."""
    rail = [p for p in pieces_of(build, "side_rail") if p.box.lo[1] == 0]
    return _elevation(build, 0, rail, "Side elevation", width, heights)


def end_elevation(build: Build, width: float = 330.0) -> Scene:
    """The bed from the foot."""
    far = max(p.box.hi[0] for p in pieces_of(build, *RAILS))
    rail = [p for p in pieces_of(build, *RAILS) if p.box.hi[0] == far]
    return _elevation(build, 1, rail, "End elevation", width)


def _elevation(
    build: Build, across: int, rails: list[Piece], name: str, width: float, heights: Sequence[str] = HEIGHTS
) -> Scene:
    """``across`` is the axis that lies across the paper: 0 from the side, 1 from the foot."""
    (start, span), zero = reach(build)[across], Fraction(0)
    below, hidden = _supports(build)
    slats = pieces_of(build, "slat")[slice(None) if across == 0 else slice(-1, None)]
    shapes: list[Shape] = [
        *_background(build, across),
        *_legs_in_view(build, across),
        *(_seen(p, across, "wood", "outline") for p in (*below, *_plinth_in_view(build, across), *rails)),
        *(_seen(p, across, "none", "hidden") for p in (*hidden, *slats)),
        Line(((start - span / 30, zero), (span + span / 30, zero)), "outline"),
        *_height_dimensions(build, start, span, heights),
        Dimension((start, zero), (span, zero), -22, size_text(build, span - start), along="x"),
    ]
    return fitted(shapes, width, f"{name}, heights above the floor: {', '.join(_heights_told(build))}.")


def _heights_told(build: Build) -> Iterator[str]:
    high = build.heights
    yield f"rail top {size_text(build, high.rail_top)}"
    yield f"slat top {size_text(build, high.slat_top)}"
    yield f"underside {size_text(build, high.underside)}"
    if high.sleeping is not None:
        yield f"mattress top {size_text(build, high.sleeping)}"


def _background(build: Build, across: int) -> Iterator[Shape]:
    """What stands behind the frame and on it: storage boxes from the side, a headboard from the foot, the mattress."""
    if across == 1:
        boards = (piece for piece in build.pieces.values() if piece.use in ("headboard", "headboard_slat"))
        yield from (_seen(piece, across, "wood", "thin") for piece in boards)
    yield from _mattress(build, across)
    if across == 0:
        yield from _boxes(build, (0, 2))


def _supports(build: Build) -> tuple[list[Piece], list[Piece]]:
    """What the slats lie on: below the rails, and behind them."""
    low = build.heights.rail_bottom
    inside = [p for p in build.pieces.values() if p.part in ("cleat", "centre_beam", "centre_runner", "runner")]
    return [p for p in inside if p.box.hi[2] <= low], [p for p in inside if p.box.hi[2] > low]


def _plinth_in_view(build: Build, across: int) -> list[Piece]:
    """The board of a plinth that is seen from the left side, or from the foot."""
    boards = pieces_of(build, "plinth_side" if across == 0 else "plinth_end")
    return boards[:1] if across == 0 else boards[-1:]


def _legs_in_view(build: Build, across: int) -> Iterator[Shape]:
    legs = {label for leg in build.legs for label in leg.pieces if _in_view(build, leg, across)}
    for piece in build.pieces.values():
        if piece.label in legs:
            yield _seen(piece, across, "metal" if piece.shape != "box" else "wood", "outline")


def _in_view(build: Build, leg: Leg, across: int) -> bool:
    if across == 0:
        return leg.line == "left"
    return leg.x == max(other.x for other in build.legs if other.line == leg.line)


def _mattress(build: Build, across: int) -> list[Shape]:
    high = build.heights
    if high.sleeping is None:
        return []
    start, end = mattress_place(build)[across]
    return [
        Rect(start, high.slat_top, end - start, high.sleeping - high.slat_top, "none", line="hidden"),
        Text(((start + end) / 2, (high.rail_top + high.sleeping) / 2), "mattress", "small", halo=True),
    ]


def _height_dimensions(build: Build, start: Fraction, span: Fraction, named: Sequence[str]) -> list[Shape]:
    """Heights on the right, nearest the bed the lowest; on the left what is clear under the bed."""
    high, zero = build.heights, Fraction(0)
    levels = {"slats": high.slat_top, "rail": high.rail_top, "mattress": high.sleeping}
    wanted = {level: name for name, level in levels.items() if name in named and level is not None}
    shapes: list[Shape] = []
    for i, (level, name) in enumerate(sorted(wanted.items())):
        shapes.append(Dimension((span, zero), (span, level), 22 + 40 * i, f"{name} {size_text(build, level)}", "y"))
    shapes.append(Dimension((start, zero), (start, high.underside), -32, f"{size_text(build, high.underside)}", "y"))
    return shapes


def section(build: Build, width: float = 300.0) -> Scene:
    """A cut across the left side through rail, support and a slat, seen toward the foot; end grain hatched."""
    slat = _clear_slat(build)
    cut, reach = slat.box.centre[0], _reach(build)
    shapes: list[Shape] = []
    for piece in build.pieces.values():
        lo, hi = piece.box.lo, piece.box.hi
        if lo[0] <= cut <= hi[0] and lo[1] < reach:
            right, low = min(hi[1], reach), max(lo[2], _floor(build))
            fill: FillRole = "end grain" if piece.axis == 0 else "wood"
            shapes.append(Rect(lo[1], low, right - lo[1], hi[2] - low, fill))
    shapes += _legs_behind(build, cut, reach)
    shapes += _section_dimensions(build, slat, reach, cut)
    high = build.heights
    alt = (
        f"Section through rail, support and slat: slats lie {size_text(build, high.recess)} below the rail's top, "
        f"slat {size_text(build, slat.box.size[2])} thick."
    )
    return fitted(shapes, width, alt, height=260.0, largest=26.0)


def _clear_slat(build: Build) -> Piece:
    """The second slat, or the first from there on that lies on its support alone, over no leg of the left side."""
    legs = [build.pieces[label].box for leg in build.legs if leg.line == "left" for label in leg.pieces]
    rows = [row[0] for row in build.slat_rows]
    cuts = ((slat, slat.box.centre[0]) for slat in rows[1:])
    clear = (slat for slat, x in cuts if not any(box.lo[0] <= x <= box.hi[0] for box in legs))
    return next(clear, rows[min(1, len(rows) - 1)])


def _reach(build: Build) -> Fraction:
    """How far in from the side the section is drawn [in]: past the seat, and a little more."""
    left = next(line for line in build.lines if line.name == "left")
    inner = max([left.seat[1], *(build.pieces[m].box.hi[1] for m in left.members)])
    return inner + 4


def _floor(build: Build) -> Fraction:
    """Lowest level drawn [in]: a little under the lowest of rail and support; legs are broken off there."""
    left = next(line for line in build.lines if line.name == "left")
    return min([build.heights.rail_bottom, *(build.pieces[m].box.lo[2] for m in left.members)]) - 2


def _legs_behind(build: Build, cut: Fraction, reach: Fraction) -> list[Shape]:
    behind = sorted((leg for leg in build.legs if leg.line == "left" and leg.x > cut), key=lambda leg: leg.x)
    shapes: list[Shape] = []
    for label in behind[0].pieces if behind else ():
        box = build.pieces[label].box
        low = max(box.lo[2], _floor(build))
        width = min(box.hi[1], reach) - box.lo[1]
        shapes.insert(0, Rect(box.lo[1], low, width, box.hi[2] - low, "none", line="hidden"))
    return shapes


def _section_dimensions(build: Build, slat: Piece, reach: Fraction, cut: Fraction) -> list[Shape]:
    rail = next(p for p in pieces_of(build, "side_rail") if p.box.lo[1] == 0).box
    zero, recess, play = Fraction(0), build.heights.recess, slat.box.lo[1] - rail.hi[1]
    out: list[Shape] = [
        Dimension((zero, rail.lo[2]), (zero, rail.hi[2]), -22, size_text(build, rail.size[2]), "y"),
        Dimension((reach, slat.box.lo[2]), (reach, slat.box.hi[2]), 18, size_text(build, slat.box.size[2]), "y"),
        Text((reach, slat.box.centre[2]), "slat", "text", "end", shift=(-6, 0), halo=True),
        Text((rail.centre[1], rail.centre[2]), "rail", "text", rotate=90, halo=True),
        Dimension((zero, rail.hi[2]), (rail.hi[1], rail.hi[2]), 16, size_text(build, rail.size[1]), "x"),
    ]
    if recess > 0:
        words = f"recess {size_text(build, recess)}"
        out.append(Dimension((reach, slat.box.hi[2]), (reach, rail.hi[2]), 44, words, "y"))
    out += _support_told(build, rail, cut)
    if 0 < play < 1:
        words = f"{size_text(build, play)} play"
        out.append(Dimension((rail.hi[1], rail.hi[2]), (slat.box.lo[1], rail.hi[2]), 34, words, "x"))
    return out


def _support_told(build: Build, rail: Box, cut: Fraction) -> Iterator[Shape]:
    """The name of the cleat or runner that is cut, and how far under the rail's top it is."""
    left = next(line for line in build.lines if line.name == "left")
    members = (build.pieces[label] for label in left.members)
    cut_through = (piece for piece in members if piece.box.lo[0] <= cut <= piece.box.hi[0])
    support = next((piece for piece in cut_through if piece.use in ("cleat", "runner")), None)
    if support is None:
        return
    yield Text((support.box.centre[1], support.box.centre[2]), support.use, "text", halo=True)
    top, zero = support.box.hi[2], Fraction(0)
    if top < rail.hi[2]:
        yield Dimension((zero, top), (zero, rail.hi[2]), -44, size_text(build, rail.hi[2] - top), "y")
