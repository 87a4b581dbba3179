"""Holes whose place was left open, moved out of the way of those that can't give way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from itertools import chain

from tutorial_lib.design.end_distances import THICK
from tutorial_lib.design.model import Box, Build, Floats, Point
from tutorial_lib.design.room import standing_below
from tutorial_lib.drilling import placing
from tutorial_lib.drilling.access import DriverRoom, Solid, in_the_way
from tutorial_lib.drilling.clashes import SEAM_ROOM, Placed, seam_distance
from tutorial_lib.drilling.job import Job, driven, seams_of
from tutorial_lib.drilling.keeping import distances
from tutorial_lib.drilling.sliding import slides_of

# Those that can't give way are placed before those that can: a corner screw finds another height, a slat screw a place.
PLACE_ORDER = (
    "bed_bolt", "post", "block", "leg", "line_leg", "line_end", "runner", "cleat", "flange", "corner", "ply",
    "plinth", "slat_line", "slat", "panel", "panel_slat", "batten", "upright",
)  # fmt: skip
SAME = 1e-9  # [in] what floats may differ by


def placed(build: Build, jobs: Sequence[Job]) -> list[Job]:
    """The jobs with their open holes clear of those placed before: stated ones first of all."""
    those = Placed(job.row(spot.at) for job in jobs for spot in job.spots if spot.stated)
    order = sorted(range(len(jobs)), key=lambda i: (PLACE_ORDER.index(jobs[i].joint.kind), i))
    done, driver = list(jobs), DriverRoom(build.options.driver.length, build.options.driver.radius)
    for i in order:
        done[i] = _moved(build, jobs[i], those, driver)
    return done


def _moved(build: Build, job: Job, those: Placed, driver: DriverRoom) -> Job:
    middle = (build.outside[1] / 2, build.outside[0] / 2)
    moving, done = _Moving(build, job, middle, driver), dict[int, placing.Spot]()
    for i in _outermost_first(job, middle):
        spot = job.spots[i]
        if not spot.stated:
            at = moving.place(spot, those)
            spot = spot if at is spot.at or at == spot.at else replace(spot, at=at)
            those.add(job.row(at))
        done[i] = spot
        moving.placed.append((_floats(job.spots[i].at), _floats(spot.at), spot is not job.spots[i]))
    spots = tuple(done[i] for i in sorted(done))
    pairs = enumerate(zip(job.spots, spots, strict=True), 1)
    moved = tuple((n, was.at, now.at) for n, (was, now) in pairs if was is not now)
    return replace(job, spots=spots, moved=moved) if moved else job


class _Moving:
    """Where the fasteners of one joint may be moved to."""

    def __init__(self, build: Build, job: Job, middle: tuple[Fraction, Fraction], driver: DriverRoom) -> None:
        self.build, self.job, self.middle, self.driver = build, job, middle, driver
        self.obstacles = _obstacles(build, job)
        self.seams = [] if job.joint.kind == "ply" else seams_of(build, job.joint)
        self.placed: list[tuple[Floats, Floats, bool]] = []  # where each was first, where it is, and if it was moved

    @cached_property
    def free(self) -> placing.Room:
        """Where its fasteners may stand, all distances kept."""
        return self._room(self._kept)

    @cached_property
    def _least(self) -> placing.Room:
        return self._room(replace(self._kept, end=self._kept.end / 2))

    @cached_property
    def _kept(self) -> placing.Distances:
        return distances(self.build, self.job.fastener.diameter, self.job.loaded_across)

    def _room(self, kept: placing.Distances) -> placing.Room:
        pieces = [self.build.pieces[label] for label in (self.job.joint.near, self.job.joint.far)]
        return placing.room(self.job.joint, pieces, kept)

    @cached_property
    def _apart(self) -> tuple[tuple[int, float], ...]:
        return tuple((axis, float(least) - SAME) for axis, least in self.free.apart.items())

    def _slides(self, spot: placing.Spot) -> Iterator[Point]:
        """Where else it may stand; rooms are worked out when a place in them is asked for: most never move."""
        yield from slides_of(spot, self.free, self.middle)
        yield from slides_of(spot, self._least, self.middle, but_for=self.free)

    def place(self, spot: placing.Spot, those: Placed) -> Point:
        """The first place that is clear of all those there are and that a driver reaches; its own where none is.

        A thin screw rather stands nearer to its own row than in another's way.
        """
        fitting: list[Point] = []
        at = self._first_reached(p for p in self._fitting(spot, those, fitting) if self._keeps(p, spot.at))
        thin = self.job.fastener.diameter < THICK
        return at or (self._first_reached(fitting) if thin else None) or spot.at

    def _fitting(self, spot: placing.Spot, those: Placed, found: list[Point]) -> Iterator[Point]:
        """Its own place and those beside it that are clear of all fasteners there are, noted as they are found."""
        for place in chain((spot.at,), self._slides(spot)):
            if _fits(self.job, place, those, self.seams):
                found.append(place)
                yield place

    def _first_reached(self, fitting: Iterable[Point]) -> Point | None:
        """The first of these places that a driver reaches, the first of all when it reaches none."""
        first = None
        for place in fitting:
            if self._reached(place):
                return place
            first = first or place
        return first

    def _keeps(self, at: Point, was: Point) -> bool:
        """True if a moved fastener is as far from the joint's others as rows and rows aside want, where it was before.

        Args:
            at: the place tried.
            was: its first place.
        """
        still, new, old = at is was, _floats(at), _floats(was)
        return all(
            (still and not moved) or self._far(new, now) or not self._far(old, first)
            for first, now, moved in self.placed
        )

    def _far(self, a: Floats, b: Floats) -> bool:
        return any(abs(a[axis] - b[axis]) >= least for axis, least in self._apart)

    def _reached(self, at: Point) -> bool:
        kind = self.job.fastener.kind
        return not self.obstacles or in_the_way(self.job.line(at), kind, self.obstacles, self.driver) is None


def _floats(at: Point) -> Floats:
    return float(at[0]), float(at[1]), float(at[2])


def _outermost_first(job: Job, middle: tuple[Fraction, Fraction]) -> list[int]:
    """A joint's fasteners from the bed's outside inward, so that all its corners are drilled alike."""
    off = [sum(abs(spot.at[axis] - middle[axis]) for axis in (0, 1)) for spot in job.spots]
    return sorted(range(len(off)), key=lambda i: -off[i])


def _obstacles(build: Build, job: Job) -> list[Solid]:
    """What stands there for good while a slat or runner is screwed: the rails, or the legs below."""
    if job.joint.kind in ("slat", "slat_line"):
        return [piece.box.floats for use in ("side_rail", "end_rail") for piece in build.part(use).pieces]
    if job.joint.kind == "runner":
        return [box.floats for box in standing_below(build.pieces.values())]
    return []


def _fits(job: Job, at: Point, those: Placed, seams: list[Box]) -> bool:
    if not those.takes(job.row(at)):
        return False
    line = driven(job, at, False) if seams else None
    return line is None or all(seam_distance(line, seam) >= float(SEAM_ROOM) - 1e-9 for seam in seams)
