"""The hole schedule: every hole of every piece from one datum end and one datum edge, pieces drilled alike together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from tutorial_lib.design.labels import in_runs
from tutorial_lib.design.model import Axis, Box, Build, Part, Piece, Point
from tutorial_lib.drilling import bed_bolts, bits
from tutorial_lib.drilling.bits import named
from tutorial_lib.drilling.job import Job
from tutorial_lib.records import dataclass

ROW_FOR_STICK = 5  # holes in one line that are worth a story stick (common practice, no source)
GANG_FROM = 3  # pieces drilled alike that are worth clamping together


@dataclass(frozen=True, kw_only=True)
class Hole:
    """One hole in one piece, as it stands in the bed and as it is marked out."""

    at: Point  # [in] mouth of the hole
    axis: Axis
    into: Literal[1, -1]  # direction from the mouth into the wood
    diameter: Fraction  # [in] bit
    bit: str  # the bit as one asks for it, "long 1/8 in" where an ordinary one doesn't bore so deep
    depth: Fraction | None  # [in]; None goes through
    countersink: Fraction | None  # [in] width of the sink
    head_depth: Fraction  # [in] head below the surface
    purpose: str  # clearance, pilot, bolt
    table: str  # for which joint
    u: Fraction  # [in] from the datum end
    v: Fraction  # [in] from the datum edge
    face: str  # "outside face", "top" …
    end_face: bool  # bored into the end of its piece


@dataclass(frozen=True, kw_only=True)
class PieceHoles:
    """Pieces that are drilled alike, and their holes."""

    part: str
    name: str
    piece: Piece  # the one drawn
    pieces: tuple[str, ...]
    which: str  # those in words, many in a row by the first and the last
    turned: str  # how others of them stand in the bed: "cleat right: turned half round, its top still up"
    mirrored: str  # label of the group's mirror image, or ""
    holes: tuple[Hole, ...]
    datum_end: str
    datum_edges: dict[str, str]  # face: edge
    there: tuple[Hole, ...] = ()  # bored before, with a screw in most of them

    @property
    def faces(self) -> tuple[str, ...]:
        """Faces that have holes, in order."""
        return tuple(dict.fromkeys(hole.face for hole in self.holes))

    def on(self, face: str) -> tuple[Hole, ...]:
        """Holes of one face, from the datum end."""
        return tuple(sorted((h for h in self.holes if h.face == face), key=lambda h: (h.u, h.v)))

    def datum(self, face: str) -> str:
        """What the distances along a face are measured from: its end, on an end face the side, edge or top."""
        hole = self.on(face)[0]
        if not hole.end_face:
            return self.datum_end
        return {0: "head side", 1: "outside", 2: "top"}[next(i for i in (0, 1, 2) if i != hole.axis)]

    @property
    def method(self) -> str:
        """How the marks are carried over: gang-marked, by story stick, or measured."""
        flat = [hole.face for hole in self.holes if not hole.end_face]
        longest = max((flat.count(face) for face in set(flat)), default=0)
        if longest >= ROW_FOR_STICK:
            return "story stick"
        if len(self.pieces) >= GANG_FROM:
            return "clamp together and square across"
        return "measure each"


def schedule(build: Build, jobs: Iterable[Job]) -> tuple[PieceHoles, ...]:
    """All holes that are bored, grouped by pieces that are drilled alike; with those that are there already."""
    jobs, groups = tuple(jobs), []
    holes = _by_piece(build, [job for job in jobs if build.makes(job.joint)])
    there = _by_piece(build, [job for job in jobs if not build.makes(job.joint)])
    for part in build.parts:
        groups += _groups(build, part.key, [p for p in part.pieces if p.label in holes], holes)
    return tuple(replace(g, there=tuple(there.get(g.piece.label, ()))) for g in groups)


def _by_piece(build: Build, jobs: Iterable[Job]) -> dict[str, list[Hole]]:
    """Holes by the label of the piece that they are in."""
    found: dict[str, list[Hole]] = {}
    for job in jobs:
        for label, hole in _holes(build, job):
            found.setdefault(label, []).append(hole)
    return found


def _holes(build: Build, job: Job) -> Iterable[tuple[str, Hole]]:
    near, far = build.pieces[job.joint.near], build.pieces[job.joint.far]
    for spot in job.spots:
        if near.shape == "box":
            yield near.label, _hole(build, near, spot.at, job, _near_bore(job))
        for behind in (far, *(build.pieces[label] for label in job.joint.beyond)):
            if behind.shape == "box":
                yield behind.label, _hole(build, behind, spot.at, job, _far_bore(job))
    if job.table == bed_bolts.TABLE:
        for cross in bed_bolts.crosses(build, job):
            yield far.label, _across(build, far, job, cross)


@dataclass(frozen=True)
class _Bore:
    """What is bored, wherever it is."""

    diameter: Fraction
    depth: Fraction | None
    countersink: Fraction | None
    head_depth: Fraction
    purpose: str


def _near_bore(job: Job) -> _Bore:
    sink = job.bits.countersink.size if job.bits.countersink else None
    purpose = "bolt" if job.is_bolt else "clearance"
    return _Bore(job.bits.clearance.size, None, sink, job.stack.head_depth, purpose)


def _far_bore(job: Job) -> _Bore:
    if job.bolted:
        return _Bore(job.bits.clearance.size, None, None, Fraction(0), "bolt")
    if job.is_bolt:  # a blind hole, a little longer than the bolt
        return _Bore(job.bits.clearance.size, job.stack.far, None, Fraction(0), "bolt")
    deep = min(job.stack.penetration(job.fastener.length), job.stack.far)
    return _Bore(job.bits.pilot_used, deep, None, Fraction(0), "pilot")


def _at(point: Point, axis: int, level: Point) -> Point:
    x, y, z = (level[i] if i == axis else point[i] for i in range(3))
    return (x, y, z)


def _hole(build: Build, piece: Piece, place: Point, job: Job, bore: _Bore) -> Hole:
    axis, into = job.joint.axis, job.joint.sign
    at = _at(place, axis, piece.box.lo if into > 0 else piece.box.hi)
    u, v, _ = marked(build, piece, at, axis)
    deep = piece.box.size[axis] if bore.depth is None else bore.depth
    return Hole(
        at=at,
        axis=axis,
        into=into,
        diameter=bore.diameter,
        bit=named(bore.diameter, deep, build.options.build.units),
        depth=bore.depth,
        countersink=bore.countersink,
        head_depth=bore.head_depth,
        purpose=bore.purpose,
        table=job.table,
        u=u,
        v=v,
        face=face_name(build, piece, axis, -into),
        end_face=axis == piece.axis,
    )


def _across(build: Build, piece: Piece, job: Job, cross: bed_bolts.Cross) -> Hole:
    """The hole of a barrel nut, with its bit."""
    u, v, _ = marked(build, piece, cross.at, cross.axis)
    bit = bits.at_least(float(cross.width), build.options.build.units)
    return Hole(
        at=cross.at, axis=cross.axis, into=cross.into, diameter=bit,
        bit=bits.named(bit, cross.depth, build.options.build.units), depth=cross.depth, countersink=None,
        head_depth=Fraction(0), purpose="barrel nut", table=job.table, u=u, v=v,
        face=face_name(build, piece, cross.axis, -cross.into), end_face=False,
    )  # fmt: skip


def face_name(build: Build, piece: Piece, axis: int, way: int) -> str:
    """A face of a piece as a person in the shop calls it, by where it looks in the bed."""
    if axis == piece.axis:
        return (("head end", "foot end"), ("left end", "right end"), ("bottom end", "top end"))[axis][way > 0]
    if axis == 2:
        return ("underside", "top")[way > 0]
    middle, centre = build.outside[1 - axis] / 2, piece.box.centre[axis]
    if centre == middle:
        return (("head face", "foot face"), ("left face", "right face"))[axis][way > 0]
    if axis == 0 and piece.axis != 1:
        return ("head face", "foot face")[way > 0]
    outward = -1 if centre < middle else 1
    return "outside face" if way == outward else "inside face"


def marked(build: Build, piece: Piece, at: Point, axis: int) -> tuple[Fraction, Fraction, str]:
    """Distance from the datum end and from the datum edge [in], and the edge's name.

    Datum end: head end, left end, or the top of an upright piece. Datum edge: the top edge, for a flat piece the
    edge that looks outward or headward. On an end face u runs across from the outside or head edge.
    """
    box = piece.box
    if axis == piece.axis:
        a, b = (i for i in (0, 1, 2) if i != axis)
        first, _ = _from_edge(build, box, at, a)
        second, edge = _from_edge(build, box, at, b)
        return first, second, edge
    along = piece.axis
    u = box.hi[2] - at[2] if along == 2 else at[along] - box.lo[along]
    across = next(i for i in (0, 1, 2) if i not in (axis, along))
    v, edge = _from_edge(build, box, at, across)
    return u, v, edge


def _from_edge(build: Build, box: Box, at: Point, axis: int) -> tuple[Fraction, str]:
    if axis == 2:
        return box.hi[2] - at[2], "top edge"
    if axis == 1:
        middle = build.outside[0] / 2
        if box.centre[1] == middle:
            return at[1] - box.lo[1], "left edge"
        outside_low = box.centre[1] < middle
        return (at[1] - box.lo[1] if outside_low else box.hi[1] - at[1]), "outside edge"
    return at[0] - box.lo[0], "head-side edge"


DATUM_END = {0: "head end", 1: "left end", 2: "top end"}
Key = tuple[tuple[int, int, Fraction, Fraction, Fraction, Fraction, Fraction], ...]
TURNS: tuple[tuple[int, ...], ...] = ((), (0, 1), (0, 2), (1, 2))
OWN = ("side_rail", "end_rail")  # each rail has its own table, from its own datum end, even where it is another turned
MIRRORS: tuple[tuple[int, ...], ...] = ((0,), (1,), (2,), (0, 1, 2))


def _key(piece: Piece, holes: Sequence[Hole], flips: tuple[int, ...]) -> Key:
    """The holes as they are bored, seen from the piece turned (two flips) or mirrored (one or three)."""
    size = piece.box.size
    rows = []
    for hole in holes:
        at = [hole.at[i] - piece.box.lo[i] for i in range(3)]
        for i in flips:
            at[i] = size[i] - at[i]
        into = -hole.into if hole.axis in flips else hole.into
        deep = Fraction(-1) if hole.depth is None else hole.depth
        rows.append((hole.axis, into, *at, hole.diameter, deep))
    return tuple(sorted(rows))  # type: ignore[arg-type]


def turn_words(axis: int, flips: tuple[int, ...]) -> str:
    """How a piece that lies along an axis is turned when it is seen reversed along two of them.

    >>> turn_words(0, (0, 1)), turn_words(0, (0, 2)), turn_words(0, (1, 2))
    ('turned half round, its top still up', 'turned end for end, its top down', 'rolled over, its top down')
    """
    if 2 not in flips:
        return "turned half round, its top still up"
    return "turned end for end, its top down" if axis in flips else "rolled over, its top down"


def _turned(part: Part, members: Sequence[tuple[Piece, tuple[int, ...]]]) -> str:
    """Which pieces stand turned in the bed, and how."""
    ways: dict[str, list[str]] = {}
    for piece, flips in members:
        if flips:
            ways.setdefault(turn_words(piece.axis, flips), []).append(piece.label)
    every = [piece.label for piece in part.pieces]
    return "; ".join(f"{in_runs(every, labels)}: {way}" for way, labels in ways.items())


def _groups(build: Build, key: str, pieces: list[Piece], holes: dict[str, list[Hole]]) -> list[PieceHoles]:
    found: dict[tuple[Point, int, Key], list[tuple[Piece, tuple[int, ...]]]] = {}
    for piece in pieces:
        turns = TURNS[:1] if piece.use in OWN else TURNS
        mine = [(piece.box.size, piece.axis, _key(piece, holes[piece.label], turn)) for turn in turns]
        match = next((i for i, entry in enumerate(mine) if entry in found), None)
        if match is None:
            found[mine[0]] = [(piece, ())]
        else:
            found[mine[match]].append((piece, turns[match]))
    firsts = {entry: members[0][0] for entry, members in found.items()}
    return [_group(build, key, members, holes, _mirror(members[0][0], holes, firsts)) for members in found.values()]


def _mirror(piece: Piece, holes: dict[str, list[Hole]], firsts: dict[tuple[Point, int, Key], Piece]) -> str:
    for flips in MIRRORS:
        other = firsts.get((piece.box.size, piece.axis, _key(piece, holes[piece.label], flips)))
        if other is not None and other.label != piece.label:
            return other.label
    return ""


def _group(
    build: Build, key: str, members: list[tuple[Piece, tuple[int, ...]]], holes: dict[str, list[Hole]], mirrored: str
) -> PieceHoles:
    piece = members[0][0]
    edges = {hole.face: marked(build, piece, hole.at, hole.axis)[2] for hole in holes[piece.label]}
    return PieceHoles(
        part=key,
        name=build.part(key).name,
        piece=piece,
        pieces=tuple(p.label for p, _ in members),
        which=in_runs([p.label for p in build.part(key).pieces], [p.label for p, _ in members]),
        turned=_turned(build.part(key), members),
        mirrored=mirrored,
        holes=tuple(sorted(holes[piece.label], key=lambda h: (h.face, h.u, h.v))),
        datum_end=DATUM_END[piece.axis],
        datum_edges=edges,
    )
