"""Drawings for drilling: each drilled face with running marks, joint sections with the screw in them, and a side view
that shows where fasteners come near each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.design.model import Build, Piece
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import (
    Circle,
    Dimension,
    Line,
    LineRole,
    Mark,
    Polygon,
    Rect,
    Running,
    Scene,
    Shape,
    Text,
)
from tutorial_lib.drawing.views import WIDTH, mark_text, units_of
from tutorial_lib.drilling import bed_bolts
from tutorial_lib.drilling.schedule import marked
from tutorial_lib.measures import writer

if TYPE_CHECKING:
    from tutorial_lib.design.fasteners import Driven
    from tutorial_lib.drilling.bed import Drilling
    from tutorial_lib.drilling.job import Job
    from tutorial_lib.drilling.schedule import Hole, PieceHoles

WORD = {
    "corner": "corner",
    "block": "block's rail",
    "post": "post",
    "bed_bolt": "rail's end",
    "batten": "batten",
    "panel": "headboard",
    "panel_slat": "headboard slat",
    "upright": "upright",
    "cleat": "cleat",
    "runner": "runner",
    "runner_end": "runner end",
    "slat": "slat",
    "leg": "leg",
    "ply": "leg's boards",
    "line": "centre line",
    "flange": "flange",
    "plinth": "plinth",
}
HALF, WHOLE = Fraction(5, 4), Fraction(5)  # [in] half the height of a section; thicker pieces are broken off
BELOW = Fraction(4)  # [in] of the legs that a side view shows below the rail
SHORT = Fraction(20)  # [in] pieces up to this long are drawn larger, with their edge distances


def face_size(group: PieceHoles, face: str) -> tuple[Fraction, Fraction]:
    """Length and height of a face as it is drawn [in]."""
    hole = group.on(face)[0]
    size = group.piece.box.size
    if hole.end_face:
        a, b = (i for i in (0, 1, 2) if i != hole.axis)
        return size[a], size[b]
    across = next(i for i in (0, 1, 2) if i not in (hole.axis, group.piece.axis))
    return size[group.piece.axis], size[across]


def edge_on_top(build: Build, group: PieceHoles, face: str) -> bool:
    """Whether the datum edge lies on top when a person looks at the face with the datum end on the left.

    Where it doesn't, the face is drawn with the datum edge below, as it then lies on the bench: never in the mirror.
    """
    piece, hole = group.piece, group.on(face)[0]
    along = piece.axis if not hole.end_face else next(i for i in (0, 1, 2) if i != hole.axis)
    across = next(i for i in (0, 1, 2) if i not in (hole.axis, along))
    right, down = _way(build, piece, along, hole.end_face), _way(build, piece, across, True)
    handed = 1 if (across - along) % 3 == 1 else -1  # along, across and the axis in this order
    return right * -down * handed == -hole.into


def _way(build: Build, piece: Piece, axis: int, from_edge: bool) -> int:
    """The direction in which a distance grows: down from a top, inward from an outside edge, else along the axis."""
    if axis == 2:
        return -1
    if axis == 1 and from_edge:
        return 1 if piece.box.centre[1] <= build.outside[0] / 2 else -1
    return 1


def first_datum(group: PieceHoles, face: str) -> str:
    """What the distances along a face are measured from."""
    return group.datum(face)


def face_drawing(build: Build, group: PieceHoles, face: str, width: float = WIDTH) -> Scene:
    """One drilled face as it is seen with its datum end on the left: running marks, distances from the datum edge.

    Marks that are too close for their words leave some out; the table beside has them all.
    """
    long, high = face_size(group, face)
    holes, top = group.on(face), edge_on_top(build, group, face)
    shapes: list[Shape] = [Rect(0, 0, long, high, fill="end grain" if holes[0].end_face else "wood")]
    shapes += [Circle((h.u, high - h.v if top else h.v), h.diameter / 2, fill="paper", least=1.6) for h in holes]
    shapes += _there(build, group, holes[0], high, top)
    places = sorted({h.u for h in holes})
    marks = list(dict.fromkeys((*places, long)))
    shapes.append(Running((Fraction(0), high), tuple(marks), tuple(mark_text(build, x) for x in marks), 14))
    shapes += _edge_distances(build, holes, long, high, top, width)
    small = long <= SHORT
    count = "1 hole" if len(holes) == 1 else f"{len(holes)} holes"
    alt = f"{group.name}, {face}: {count}, measured from the {first_datum(group, face)}"
    return fitted(shapes, width * (0.5 if small else 1.0), alt, height=170 if small else None, largest=26.0)


def _there(build: Build, group: PieceHoles, seen: Hole, high: Fraction, top: bool) -> Iterator[Shape]:
    """Holes that are there already, dashed, as they lie behind this face: to be kept clear of."""
    piece, axis = group.piece, seen.axis
    for hole in group.there:
        deep = piece.box.size[hole.axis] if hole.depth is None else hole.depth
        tip = [x + (hole.into * deep if i == hole.axis else 0) for i, x in enumerate(hole.at)]
        ends = [marked(build, piece, spot, axis)[:2] for spot in (hole.at, (tip[0], tip[1], tip[2]))]
        first, last = ((u, high - v if top else v) for u, v in ends)
        if first == last:
            yield Circle(first, hole.diameter / 2, line="hidden", least=1.6)
        else:
            yield Line((first, last), line="hidden")


def _edge_distances(
    build: Build, holes: Iterable[Hole], long: Fraction, high: Fraction, top: bool, width: float
) -> list[Shape]:
    """Distances from the datum edge, on a piece tall enough on paper; else they stand in the table beside."""
    if high * min(Fraction(26), Fraction(width - 40) / long) < 26:
        return []
    edge = high if top else Fraction(0)
    return [
        Dimension((long, edge), (long, high - v if top else v), 16 + 20 * i, mark_text(build, v), along="y")
        for i, v in enumerate(sorted({h.v for h in holes})[:4])
    ]


def holes_in_words(build: Build, holes: Iterable[Hole]) -> str:
    """What is bored, kind by kind: "for the corner: 1/4 in through, 17/32 in countersink; for the leg: ..."."""
    return "; ".join(dict.fromkeys(f"for the {WORD[hole.table]}: {hole_text(build, hole)}" for hole in holes))


def hole_text(build: Build, hole: Hole) -> str:
    """What is bored: "13/64 in through, 3/8 in countersink"."""
    w = writer(units_of(build))
    depth = "through" if hole.depth is None else f"{w.length(hole.depth)} deep"
    sink = f", {w.bit(hole.countersink)} countersink" if hole.countersink else ""
    recess = f", head {w.length(hole.head_depth)} under" if hole.head_depth else ""
    return f"{hole.bit} {depth}{sink}{recess}"


def joint_section(build: Build, job: Job, width: float = 330.0, named: bool = True) -> Scene:
    """A cut along one fastener: head, shank, thread and tip in the two pieces, with what is left beyond the tip; the
    pieces named or not."""
    w = writer(units_of(build))
    t1, bolt = job.stack.near, job.fastener.kind == "carriage bolt"
    second = job.stack.far if bolt else job.stack.penetration(job.fastener.length)
    start = Fraction(0) if bolt else job.stack.head_depth
    tip = start + job.fastener.length
    shapes = [*_boards(job), *(_names(build, job) if named else ()), *_drawn(job, start, tip)]
    left = job.stack.far - second
    if job.stack.far <= WHOLE and not bolt and left > 0:  # the farthest row first: nearer figures keep off its lines
        ends = (t1 + second, -HALF), (t1 + job.stack.far, -HALF)
        shapes.append(Dimension(*ends, -46, f"{w.length(left)} left"))
    shapes.append(Dimension((t1, -HALF), (t1 + second, -HALF), -31, w.length(second)))
    shapes.append(Dimension((Fraction(0), -HALF), (t1, -HALF), -16, w.length(t1)))
    gauge = job.fastener.gauge
    size = w.screw(gauge, job.fastener.length) if gauge else w.stated(job.fastener.length)
    shapes.append(Dimension((start, HALF), (tip, HALF), 18, size))
    alt = (f"Section through a {WORD[job.table]} {'bolt' if job.is_bolt else 'screw'}: {w.length(t1)} under the head, "
           f"{w.length(second)} into the second piece")  # fmt: skip
    return fitted(shapes, width, alt, height=210, largest=60.0)


def _drawn(job: Job, start: Fraction, tip: Fraction) -> Iterable[Shape]:
    """The fastener, by its kind."""
    if job.fastener.kind == "carriage bolt":
        return _bolt(job, tip)
    return _bed_bolt(job, tip) if job.is_bolt else _screw(job, start, tip)


def _far_drawn(job: Job) -> Fraction:
    """How much of the far piece is drawn [in]: one thicker than WHOLE is broken off past the tip."""
    return job.stack.far if job.stack.far <= WHOLE else job.stack.penetration(job.fastener.length) + HALF


def _names(build: Build, job: Job) -> Iterator[Shape]:
    t1 = job.stack.near
    for x, label in ((t1 / 2, job.joint.near), (t1 + _far_drawn(job) / 2, job.joint.far)):
        yield Text((x, HALF), piece_name(build, label), "small", shift=(0, -9), optional=True)


def _boards(job: Job) -> list[Shape]:
    """The two pieces."""
    t1, t2, whole = job.stack.near, _far_drawn(job), job.stack.far <= WHOLE
    shapes: list[Shape] = [
        Rect(0, -HALF, t1, 2 * HALF, fill="wood"),
        Rect(t1, -HALF, t2, 2 * HALF, fill="wood", line="outline" if whole else "none"),
    ]
    if not whole:
        shapes.append(Line(((t1 + t2, HALF), (t1, HALF), (t1, -HALF), (t1 + t2, -HALF)), line="outline"))
        shapes.append(Line(((t1 + t2, HALF), (t1 + t2, -HALF)), line="hidden"))
    return shapes


def piece_name(build: Build, label: str) -> str:
    """What a piece is: the name of its part."""
    return build.part_of(label).name


def _screw(job: Job, start: Fraction, tip: Fraction) -> Iterator[Shape]:
    """A countersunk screw lying along x: cone of the head, shank, thread, point."""
    f = job.fastener
    line: LineRole = "outline" if job.choice.fits else "wrong"
    head, shank, root = f.head / 2, f.diameter / 2, f.root / 2
    x0, x1 = float(start), float(tip)
    cone = min((head - shank), 0.25 * (x1 - x0))
    thread = max(x0 + cone, x1 - float(f.thread))
    point = x1 - f.diameter
    yield Polygon(
        (
            (x0, head),
            (x0 + cone, shank),
            (thread, shank),
            (thread, root),
            (point, root),
            (x1, 0),
            (point, -root),
            (thread, -root),
            (thread, -shank),
            (x0 + cone, -shank),
            (x0, -head),
        ),
        fill="metal",
        line=line,
    )
    step = max(0.07, float(f.length) / 34)
    x = thread + step
    while x < point:
        yield Line(((x, -shank), (x + step / 2, shank)), line="thin")
        x += step
    yield Line(((x0 - 0.5, 0), (x1 + 0.5, 0)), line="centre")


def _bolt(job: Job, tip: Fraction) -> list[Shape]:
    f, grip = job.fastener, job.stack.near + job.stack.far
    head, shank = f.head / 2, f.diameter / 2
    g, end = float(grip), float(tip)
    dome = tuple((-0.21 * (1 - (i / 4) ** 2), head * i / 4) for i in range(-4, 5))
    return [
        Polygon(dome, fill="metal"),
        Rect(0, -shank, end, 2 * shank, fill="metal"),
        Rect(g, -0.5, 0.08, 1.0, fill="metal"),
        Rect(g + 0.08, -0.3, 0.34, 0.6, fill="metal"),
        Line(((-0.5, 0), (end + 0.4, 0)), line="centre"),
    ]


def _bed_bolt(job: Job, tip: Fraction) -> list[Shape]:
    """A hex bolt from the post into the rail's end, its barrel nut seen from the end."""
    f, nut = job.fastener, bed_bolts.nut_of(job)
    shank, end, middle = f.diameter / 2, float(tip), float(job.stack.near + bed_bolts.FROM_END)
    return [
        Rect(-0.08, -f.head / 2, 0.08, f.head, fill="metal"),
        Rect(-0.32, -f.diameter * 0.75, 0.24, f.diameter * 1.5, fill="metal"),
        Circle((middle, 0), nut.width / 2, fill="metal"),
        Rect(0, -shank, end, 2 * shank, fill="metal"),
        Line(((-0.6, 0), (end + 0.4, 0)), line="centre"),
    ]


def near_misses(build: Build, drilling: Drilling, width: float = WIDTH) -> Scene:
    """The left side from inside, its fasteners as they lie: dots end on, lines along; those that meet are crossed."""
    return _side(build, drilling, (Fraction(0), build.outside[1]), width, "The left side from inside")


def closest_place(build: Build, drilling: Drilling, width: float = WIDTH) -> Scene:
    """The first 16 in of the left side at the head, enlarged."""
    span = (Fraction(0), min(Fraction(16), build.outside[1]))
    high = build.heights.rail_top + BELOW  # of a headboard no more: it would make the rest small
    return _side(build, drilling, span, width * 0.7, "The head end, enlarged", 165, high)


def _side(
    build: Build, drilling: Drilling, span: tuple[Fraction, Fraction], width: float, name: str, tall: float = 250,
    high: Fraction | None = None,
) -> Scene:  # fmt: skip
    pieces = list(_pieces(build, span, high))
    shapes: list[Shape] = [*pieces]
    bad = {shank.name for clash in drilling.clashes for shank in (clash.first, clash.second)}
    shown = 0
    for fastening in drilling.fastenings:
        word = "bolt" if fastening.fastener.kind in ("carriage bolt", "hex bolt") else "screw"
        for i, line in enumerate(fastening.driven, 1):
            if _in_side_view(build, line, span) and (high is None or max(line.head[2], line.tip[2]) <= high):
                wrong = f"{fastening.joint.label}, {word} {i}" in bad
                shapes += _from_inside(line, fastening.fastener.diameter / 2, wrong)
                shown += wrong
    words = f"{shown} fasteners meet" if shown else "no two fasteners meet"
    top = max(piece.y + piece.height for piece in pieces)
    shapes.append(Text((span[0], top), f"{name}: {words}", "small", "start", shift=(0, 7)))
    return fitted(shapes, width, f"{name}, with every fastener; {words}", height=tall, largest=34.0)


def _in_side_view(build: Build, line: Driven, span: tuple[Fraction, Fraction]) -> bool:
    """Whether a fastener is of the left side, within a stretch of it, and not down in a leg."""
    (x0, y0, z0), (x1, y1, z1) = line.head, line.tip
    within = span[0] <= min(x0, x1) and max(x0, x1) <= span[1]
    return within and min(y0, y1) <= 5 and max(z0, z1) >= build.heights.rail_bottom - BELOW


def _from_inside(line: Driven, radius: float, wrong: bool) -> Iterator[Shape]:
    """A fastener seen from inside the bed: a dot end on, else a line; crossed where it meets another."""
    (x0, _, z0), (x1, _, z1) = line.head, line.tip
    role: LineRole = "wrong" if wrong else "outline"
    if (x0, z0) == (x1, z1):
        yield Circle((x0, z0), radius, fill="wrong" if wrong else "metal", line=role, least=1.4)
    else:
        yield Line(((x0, z0), (x1, z1)), line=role)
    if wrong:
        yield Mark((x0, z0), "no", 9.0, "wrong")


def _pieces(build: Build, span: tuple[Fraction, Fraction], high: Fraction | None) -> Iterator[Rect]:
    """Outlines of what stands along the left side, cut off at the ends of the view."""
    low = build.heights.rail_bottom - BELOW
    for piece in build.pieces.values():
        box = piece.box
        if box.lo[1] > 4 or box.hi[0] <= span[0] or box.lo[0] >= span[1]:
            continue
        x0, x1 = max(box.lo[0], span[0]), min(box.hi[0], span[1])
        z0, z1 = max(box.lo[2], low), box.hi[2] if high is None else min(box.hi[2], high)
        if z1 > z0:
            yield Rect(
                x0,
                z0,
                x1 - x0,
                z1 - z0,
                fill="wood" if piece.part == "side_rail" else "none",
                line="outline" if piece.part == "side_rail" else "thin",
            )
