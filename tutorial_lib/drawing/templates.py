"""Full-size drawings for the bench: drilling templates of a piece's ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.drawing.holes import edge_on_top, face_size, first_datum
from tutorial_lib.drawing.scene import Circle, Line, Scene, Shape, Text
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


def served(end: End) -> Iterator[Hole]:
    """The holes that one paper gives: those on it, and those of the other end where it serves that too."""
    yield from end.holes
    far = None if end.far else end_of(end.group, end.face, far=True)
    if far is not None and alike(end, far):
        yield from far.holes
