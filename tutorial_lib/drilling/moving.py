"""Holes whose place was left open, moved out of the way of those that can't give way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import chain

from tutorial_lib.design.end_distances import THICK
from tutorial_lib.design.model import Box, Build, Piece, Point
from tutorial_lib.design.room import standing_below
from tutorial_lib.drilling import placing
from tutorial_lib.drilling.access import DriverRoom, reach
from tutorial_lib.drilling.clashes import SEAM_ROOM, Placed, seam_distance
from tutorial_lib.drilling.job import Job, driven, fastening, seams_of, shank
from tutorial_lib.drilling.keeping import distances

# Those that can't give way are placed before those that can: a corner screw finds another height, a slat screw a place.
PLACE_ORDER = (
    "bed_bolt", "post", "block", "leg", "line_leg", "line_end", "runner", "cleat", "flange", "corner", "ply",
    "plinth", "slat_line", "slat", "panel", "panel_slat", "batten", "upright",
)  # fmt: skip


def placed(build: Build, jobs: Sequence[Job]) -> list[Job]:
    """The jobs with their open holes clear of those placed before: stated ones first of all."""
    those = Placed(shank(job, spot, n) for job in jobs for n, spot in enumerate(job.spots, 1) if spot.stated)
    order = sorted(range(len(jobs)), key=lambda i: (PLACE_ORDER.index(jobs[i].joint.kind), i))
    done = list(jobs)
    for i in order:
        done[i] = _moved(build, jobs[i], those)
    return done


def _moved(build: Build, job: Job, those: Placed) -> Job:
    middle = (build.outside[1] / 2, build.outside[0] / 2)
    moving, done = _Moving(build, job, middle), dict[int, placing.Spot]()
    for i in range(len(job.spots)) if moving.thin else _outermost_first(job, middle):
        spot = job.spots[i]
        if not spot.stated:
            others = [(job.spots[k], now) for k, now in done.items()]
            at = moving.place(spot, i + 1, those, others)
            spot = spot if at == spot.at else replace(spot, at=at)
            those.add(shank(job, spot, i + 1))
        done[i] = spot
    spots = tuple(done[i] for i in sorted(done))
    pairs = enumerate(zip(job.spots, spots, strict=True), 1)
    return replace(job, spots=spots, moved=tuple((n, was.at, now.at) for n, (was, now) in pairs if was.at != now.at))


class _Moving:
    """Where the fasteners of one joint may be moved to."""

    def __init__(self, build: Build, job: Job, middle: tuple[Fraction, Fraction]) -> None:
        self.build, self.job, self.middle = build, job, middle
        self.thin = job.fastener.diameter < THICK
        self.obstacles = _obstacles(build, job)
        self.seams = [] if job.joint.kind == "ply" else seams_of(build, job.joint)
        pieces = [build.pieces[label] for label in (job.joint.near, job.joint.far)]
        kept = distances(build, job.fastener.diameter, job.loaded_across)
        self.free, self.least = _Room(job, pieces, kept), _Room(job, pieces, replace(kept, end=kept.end / 2))

    def place(
        self, spot: placing.Spot, number: int, those: Placed, others: Sequence[tuple[placing.Spot, placing.Spot]]
    ) -> Point:
        """The first place that is clear of all those there are and that a driver reaches; its own where none is."""
        tries = chain((spot.at,), _slides(spot, self.free, self.middle), _slides(spot, self.least, self.middle))
        clear = (p for p in tries if _fits(self.job, replace(spot, at=p), number, those, self.seams))
        if not self.thin:
            clear = (p for p in clear if _keeps(p, spot.at, others, self.free.room))
        return _first_reached(self.build, self.job, clear, self.obstacles) or spot.at


@dataclass(frozen=True)
class _Room:
    """A joint's room with some distances kept, worked out when a place in it is asked for: most never move."""

    job: Job
    pieces: Sequence[Piece]
    kept: placing.Distances

    @cached_property
    def room(self) -> placing.Room:
        """Where its fasteners may stand."""
        return placing.room(self.job.joint, self.pieces, self.kept)


def _slides(spot: placing.Spot, free: _Room, middle: tuple[Fraction, Fraction]) -> Iterator[Point]:
    yield from placing.slides_of(spot, free.room, middle)


def _outermost_first(job: Job, middle: tuple[Fraction, Fraction]) -> list[int]:
    """A joint's fasteners from the bed's outside inward, so that all its corners are drilled alike."""
    off = [sum(abs(spot.at[axis] - middle[axis]) for axis in (0, 1)) for spot in job.spots]
    return sorted(range(len(off)), key=lambda i: -off[i])


def _keeps(at: Point, was: Point, done: Iterable[tuple[placing.Spot, placing.Spot]], free: placing.Room) -> bool:
    """True if a moved fastener is as far from the joint's others as rows and rows aside want, where it was before.

    Args:
        at: the place tried.
        was: its first place.
        done: the others placed before it: where each was first, and where it is.
        free: the joint's room, with the distances.
    """

    def apart(a: Point, b: Point) -> bool:
        return any(abs(a[axis] - b[axis]) >= free.apart[axis] for axis in free.apart)

    return all(apart(at, now.at) or not apart(was, first.at) for first, now in done)


def _first_reached(build: Build, job: Job, fitting: Iterable[Point], obstacles: list[Box]) -> Point | None:
    """The first of these places that a driver reaches, the first of all when it reaches none."""
    first = None
    for place in fitting:
        if _reached(build, job, place, obstacles):
            return place
        first = first or place
    return first


def _obstacles(build: Build, job: Job) -> list[Box]:
    """What stands there for good while a slat or runner is screwed: the rails, or the legs below."""
    if job.joint.kind in ("slat", "slat_line"):
        return [piece.box for use in ("side_rail", "end_rail") for piece in build.part(use).pieces]
    if job.joint.kind == "runner":
        return standing_below(build.pieces.values())
    return []


def _reached(build: Build, job: Job, at: Point, obstacles: list[Box]) -> bool:
    if not obstacles:
        return True
    one = fastening(replace(job, spots=(placing.Spot(at, False, ()),)))
    room = DriverRoom(build.options.driver.length, build.options.driver.radius)
    return all(found.free for found in reach(one, obstacles, room))


def _fits(job: Job, spot: placing.Spot, number: int, those: Placed, seams: list[Box]) -> bool:
    if those.meets(shank(job, spot, number)):
        return False
    line = driven(job, spot.at, False) if seams else None
    return line is None or all(seam_distance(line, seam) >= float(SEAM_ROOM) - 1e-9 for seam in seams)
