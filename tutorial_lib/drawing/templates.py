"""Full-size drawings for the bench: drilling templates of a piece's ends, story sticks in strips, bars to prove the
scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from tutorial_lib.drawing.holes import WORD, edge_on_top, face_size, first_datum
from tutorial_lib.drawing.scene import Circle, Line, Mark, Rect, Scene, Shape, Text
from tutorial_lib.drawing.views import mark_text, units_of
from tutorial_lib.measures import mm, writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build
    from tutorial_lib.drilling.schedule import Hole, PieceHoles
    from tutorial_lib.plan import Plan

FULL = 72.0  # [pt per in] full size
WHOLE = Fraction(7)  # [in] pieces up to this long fit the paper whole
LAST = Fraction(25, 4)  # [in] no hole of an end's template lies further in
MARGIN = Fraction(3, 4)  # [in] of paper past the last hole
LEAST = Fraction(2)  # [in] of paper to line up
TOGETHER = Fraction(3)  # [in] holes of one joint nearer than this are on one template, or on none
STRIP = Fraction(13, 2)  # [in] of the story stick on one strip
WORDS = Fraction(5, 4)  # [in] that a mark's words take
HIGH = Fraction(7, 8)  # [in] of a strip
SHORT_STRIP = Fraction(3)  # [in] a shorter strip has one line of words over it
FAR = {"head end": "foot end", "left end": "right end", "top end": "bottom end"}
STICKS = ("cleat", "runner", "centre_runner", "centre_beam")  # parts that slats lie on


@dataclass(frozen=True, kw_only=True)
class End:
    """One end of a drilled face on paper: how much of it, and the holes on that paper, all that lie within it."""

    group: PieceHoles
    face: str
    far: bool  # measured from the other end
    cut: Fraction  # [in] length of the paper
    holes: tuple[Hole, ...]

    @property
    def name(self) -> str:
        """The end as one says it."""
        datum = first_datum(self.group, self.face)
        return FAR[datum] if self.far else datum

    def along(self, hole: Hole) -> Fraction:
        """Distance of a hole from this end [in]."""
        return face_size(self.group, self.face)[0] - hole.u if self.far else hole.u


def check_bar() -> Scene:
    """A 4 in and a 100 mm bar to lay a ruler on."""
    shapes: list[Shape] = [
        Rect(0, 0, 4, Fraction(1, 4)),
        *(Line(((i, 0), (i, Fraction(1, 4)))) for i in range(1, 4)),
        Rect(0, Fraction(-5, 8), mm(100), Fraction(1, 4)),
        *(Line(((mm(10 * i), Fraction(-5, 8)), (mm(10 * i), Fraction(-3, 8)))) for i in range(1, 10)),
        Text((4, Fraction(1, 8)), "4 in: measure before use", "small", "start", shift=(6, -2.5)),
        Text((mm(100), Fraction(-1, 2)), "100 mm: or measure this one", "small", "start", shift=(10, -2.5)),
    ]
    return Scene(tuple(shapes), FULL, "Check bars, 4 in and 100 mm long, to prove the print is full size")


def end_of(group: PieceHoles, face: str, far: bool = False) -> End | None:
    """The paper for one end of a face; None where no hole is near that end."""
    long, _ = face_size(group, face)
    away = {hole: long - hole.u if far else hole.u for hole in group.on(face)}
    if long <= WHOLE:
        return None if far else End(group=group, face=face, far=far, cut=long, holes=group.on(face))
    kept, rest = _near_holes(away)
    if not kept:
        return None
    cut = _cut_past(away[kept[-1]], [away[hole] for hole in rest])
    return End(group=group, face=face, far=far, cut=min(cut, long), holes=tuple(kept))


def _near_holes(away: dict[Hole, Fraction]) -> tuple[list[Hole], list[Hole]]:
    """The holes that come on an end's paper, by how far away they are, and the rest; no joint is torn apart."""
    inward = sorted(away, key=lambda hole: away[hole])
    kept = [hole for hole in inward if away[hole] <= LAST]
    rest = inward[len(kept) :]
    while kept and rest and _together(kept, rest[0], away):
        rest.insert(0, kept.pop())
    return kept, rest


def _cut_past(last: Fraction, rest: Sequence[Fraction]) -> Fraction:
    """Where the paper ends past its last hole, short of the next one [in]."""
    cut = max(LEAST, last + MARGIN)
    return (last + rest[0]) / 2 if rest and rest[0] <= cut else cut


def _together(kept: list[Hole], following: Hole, away: dict[Hole, Fraction]) -> bool:
    """Whether the next hole is one of a joint's whose others would be on the paper without it."""
    return any(hole.table == following.table and away[following] - away[hole] <= TOGETHER for hole in kept)


def template(build: Build, end: End) -> Scene:
    """One end of a drilled face at full size, as it is seen when the end named lies on the left."""
    _, high = face_size(end.group, end.face)
    long, cut = face_size(end.group, end.face)[0], end.cut
    top = edge_on_top(build, end.group, end.face) != end.far
    shapes: list[Shape] = [
        Line(((cut, high), (0, high), (0, 0), (cut, 0), *(((cut, high),) if cut == long else ())), line="outline")
    ]
    if cut != long:
        shapes.append(Line(((cut, 0), (cut, high)), line="hidden"))
    for hole in end.holes:
        shapes += _cross(hole, end.along(hole), high - hole.v if top else hole.v)
    shapes += [
        Text((0, high), end.name, "strong", "start", shift=(0, 6)),
        Text((cut, high if top else 0), end.group.datum_edges[end.face], "small", "end",
             shift=(0, 6 if top else -12)),
    ]  # fmt: skip
    count = "1 hole" if len(end.holes) == 1 else f"{len(end.holes)} holes"
    return Scene(tuple(shapes), FULL, f"Full-size template: {end.group.name}, {end.face}, {end.name}, {count}")


def _cross(hole: Hole, x: Fraction, y: Fraction) -> list[Shape]:
    arm = Fraction(1, 4)
    return [
        Circle((x, y), hole.diameter / 2),
        Line(((x - arm, y), (x + arm, y))),
        Line(((x, y - arm), (x, y + arm))),
        Text((x, y), hole.bit, "small", shift=(0, -25), tries=((0, 25),), halo=True),
    ]


def ends(plan: Plan) -> Iterator[End]:
    """The ends that get a template: those with holes near, the far one where it isn't the near one turned over.

    Parts that slats lie on have a story stick instead, and so has a lone hole of a piece that has one.
    """
    for group in plan.drilling.schedule:
        if group.part not in STICKS:
            for face in group.faces:
                yield from (end for end in _both_ends(group, face) if _worth(end))


def _both_ends(group: PieceHoles, face: str) -> Iterator[End]:
    """The ends of a face that no other end's paper serves."""
    near, far = end_of(group, face), end_of(group, face, far=True)
    if near and not _twin(group, face):
        yield near
    if far and not (near and alike(near, far)):
        yield far


def _worth(end: End) -> bool:
    return len(end.holes) > 1 or end.group.method != "story stick"


def alike(near: End, far: End) -> bool:
    """True if the far end is drilled as the near one, seen in a mirror: the same paper, face down, serves it."""
    ours = {(near.along(hole), hole.v, hole.diameter) for hole in near.holes}
    return ours == {(far.along(hole), hole.v, hole.diameter) for hole in far.holes}


def _twin(group: PieceHoles, face: str) -> bool:
    """True for the second of two end faces drilled alike: the first one's paper, face down, serves it."""
    return face != _first_alike(group, face)


def _first_alike(group: PieceHoles, face: str) -> str:
    def print_of(name: str) -> set[tuple[Fraction, Fraction, Fraction]]:
        return {(hole.u, hole.v, hole.diameter) for hole in group.on(name)}

    if not group.on(face)[0].end_face:
        return face
    return next(name for name in group.faces if group.on(name)[0].end_face and print_of(name) == print_of(face))


def other_ends(group: PieceHoles, face: str) -> tuple[str, ...]:
    """End faces that the paper of this one serves too."""
    return tuple(name for name in group.faces if name != face and _first_alike(group, name) == face)


def sticks(plan: Plan) -> list[PieceHoles]:
    """Pieces that get a story stick: those with rows of holes, and those with a hole on no template."""
    on_paper = {(id(end.group), hole) for end in ends(plan) for hole in _served(end)}
    return [
        group for group in plan.drilling.schedule
        if group.method == "story stick"
        or any((id(group), hole) not in on_paper for hole in group.holes if not hole.end_face)
    ]  # fmt: skip


def _served(end: End) -> Iterator[Hole]:
    """The holes that one paper gives: those on it, and those of the other end where it serves that too."""
    yield from end.holes
    far = None if end.far else end_of(end.group, end.face, far=True)
    if far is not None and alike(end, far):
        yield from far.holes


def stick_marks(plan: Plan, group: PieceHoles) -> list[tuple[Fraction, str, bool]]:
    """Marks of one story stick from the datum end [in], their words, and whether they are holes (else slat edges)."""
    piece = group.piece
    marks = [
        (hole.u, f"{WORD[hole.table]} hole", True)
        for face in group.faces
        for hole in group.on(face)
        if not hole.end_face
    ]
    if piece.axis == 0 and group.part in STICKS:
        slats = plan.build.slats
        offset = slats.start - piece.box.lo[0]
        marks += [
            (offset + at, f"slat {i}", False) for i, at in enumerate(slats.marks, 1) if 0 <= offset + at <= piece.length
        ]
    return sorted(set(marks))


def strips(plan: Plan, group: PieceHoles) -> list[Scene]:
    """The story stick cut into strips of one length that are taped end to end at their numbered lines."""
    length, marks = group.piece.length, stick_marks(plan, group)
    count = int(-(-length // STRIP))
    step = mm(5) if units_of(plan.build) == "mm" else Fraction(1, 4)
    each = -(-length / count // step) * step
    return [_strip(plan.build, marks, (each * i, min(each * (i + 1), length)), i, count) for i in range(count)]


def _strip(
    build: Build, marks: list[tuple[Fraction, str, bool]], reach: tuple[Fraction, Fraction], i: int, count: int
) -> Scene:
    start, end = reach
    last_one = i == count - 1
    w = writer(units_of(build))
    shapes: list[Shape] = [Rect(0, 0, end - start, HIGH)]
    here = [mark for mark in marks if start <= mark[0] < end or (mark[0] == end and last_one)]
    for is_hole in (True, False):
        shapes += _stick_marks(build, [mark[:2] for mark in here if mark[2] == is_hole], reach, is_hole)
    first = f"{'the datum end' if i == 0 else f'join {i}'}, {w.length(start)}"
    last = f"{'the far end' if last_one else f'join {i + 1}'}, {w.length(end)}"
    shapes += _over_strip(end - start, first, last)
    return Scene(tuple(shapes), FULL, f"Story stick strip {i + 1} of {count}")


def _over_strip(long: Fraction, first: str, last: str) -> Iterator[Shape]:
    """What is told of a strip's two ends, in one line of words where it is short."""
    if long < SHORT_STRIP:
        yield Text((0, HIGH), f"{first}, to {last}", "small", "start", shift=(0, 5))
    else:
        yield Text((0, HIGH), first, "small", "start", shift=(0, 5))
        yield Text((long, HIGH), last, "small", "end", shift=(0, 5))


def _stick_marks(
    build: Build, marks: list[tuple[Fraction, str]], reach: tuple[Fraction, Fraction], is_hole: bool
) -> Iterator[Shape]:
    """The holes of a strip, or its slat edges; the words of each toward the side that has room."""
    start, end = reach
    sides = [start, *(at for at, _ in marks), end]
    for j, (at, what) in enumerate(marks):
        left = sides[j + 2] - at < WORDS < at - sides[j]
        yield from _stick_mark(at - start, f"{what}: {mark_text(build, at)}", is_hole, left)


def _stick_mark(x: Fraction, words: str, is_hole: bool, left: bool) -> list[Shape]:
    """One mark: a cross for a hole, a tick for a slat's near edge, its words on the side that has room."""
    anchor: Literal["start", "end"] = "end" if left else "start"
    way = -1 if left else 1
    if is_hole:
        y = HIGH * 2 / 3
        tries = tuple((8.0 * way, dy) for dy in (8, -14, 18, -25, -36))
        return [
            Line(((x, HIGH), (x, y)), line="outline"),
            Mark((x, y), "cross", 9.0),
            Text((x, y), words, "small", anchor, shift=(8.0 * way, -3), tries=tries, halo=True),
        ]
    return [
        Line(((x, 0), (x, HIGH / 3)), line="outline"),
        Text((x, 0), words, "small", anchor, shift=(4.0 * way, 6), tries=((4.0 * way, 16),), halo=True),
    ]
