"""How near a fastener comes to an end, an edge or its neighbour.

Thin screws: under the commentary's distances a stated place is a caution, one forced by the wood a note. From 1/4 in on
the standard has distances of its own: under the least is a stop; between least and full a fastener's value is lower,
which the strength check counts and tells.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, product
from math import ceil
from typing import Literal

from tutorial_lib.design.end_distances import ROW, THICK, end_wanted, rows_aside
from tutorial_lib.design.model import Build, Piece, Point
from tutorial_lib.drilling.job import Job, left_open
from tutorial_lib.drilling.screws import HELD
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

STANDARD = "NDS 2018 Tables 12.5.1A to D"
THICK_EDGE, THICK_LOADED = 1.5, 4.0  # diameters at least, from 1/4 in on: unloaded edge, loaded edge
COMMENTARY = "NDS Commentary Table C12.1.5.7, pre-bored"
SCREW_END, SCREW_EDGE = 5.0, 2.5  # diameters, pre-bored
LEAST_EDGE = 1.5  # diameters; less is a stop (our choice)
SCREW_ROW = 5.0  # diameters between screws of one row, load across the grain, pre-bored
SCREW_ROWS = 2.5  # diameters across the grain between two rows; nearer ones are of one row
Where = Literal["end", "edge"]
WHERES: tuple[Where, ...] = ("end", "edge")


@dataclass(frozen=True)
class Near:
    """The least distance found for one kind of joint, against its limit."""

    distance: Fraction  # [in]
    diameter: float  # [in]
    times: float  # diameters asked for
    piece: str  # name of the part it lies in
    stated: bool

    @property
    def share(self) -> float:
        """The distance against what is asked for."""
        return float(self.distance) / (self.times * self.diameter)


def distances(build: Build, table: str, name: str, jobs: list[Job]) -> Iterator[Finding]:
    """Findings on end distance, edge distance and spacing for one kind of joint.

    Args:
        build: the bed.
        table: the table of the build file.
        name: the joint in words, "cleat".
        jobs: the joints of that kind.
    """
    thin, thick = _loaded(jobs)
    for where in WHERES:
        found = [near for job in thin for near in _nearest(build, job, where)]
        worst = min(found, key=lambda near: near.share, default=None)
        if worst and worst.share < 1 - 1e-9:
            yield _too_near(build, table, name, where, worst)
    yield from _crowded(build, table, name, thin)
    yield from _thick(build, table, name, thick)
    if jobs and not jobs[0].loaded:
        yield from _held(build, table, jobs)


def _loaded(jobs: Sequence[Job]) -> tuple[list[Job], list[Job]]:
    """Those that are loaded: with thin screws, and with fasteners for which the standard has distances."""
    loaded = [job for job in jobs if job.loaded]
    thick = [job for job in loaded if job.fastener.diameter >= THICK]
    return [job for job in loaded if job.fastener.diameter < THICK], thick


def _nearest(build: Build, job: Job, where: Where) -> Iterator[Near]:
    """Distances of every fastener from the ends, or from the edges, of both pieces [in]."""
    times = SCREW_END if where == "end" else SCREW_EDGE
    for label in (job.joint.near, job.joint.far):
        piece = build.pieces[label]
        if piece.shape != "box":
            continue
        across = [a for a in (0, 1, 2) if a != job.joint.axis and (a == piece.axis) == (where == "end")]
        for spot in job.spots:
            for axis in across:
                room = min(spot.at[axis] - piece.box.lo[axis], piece.box.hi[axis] - spot.at[axis])
                yield Near(room, job.fastener.diameter, times, build.part_of(label).name, spot.stated)


def _too_near(build: Build, table: str, name: str, where: Where, near: Near) -> Finding:
    w = writer(build.options.build.units)
    what = f"The {name} screw nearest an {where} of the {near.piece} sits {w.length(near.distance, 32)} from it"
    moved = f"Move it in from the {where}." if near.stated else ""
    asked = Finding(
        rule=f"{where} distance",
        severity="caution" if near.stated else "note",
        what=f"{what}: pre-drill, or it splits.",
        value=w.length(near.distance, 32),
        limit=w.calculated(near.times * near.diameter),
        whose=COMMENTARY,
        remedy=moved or "The wood leaves no more room: bore the pilot, go slowly.",
        parts=(table,),
        remedies=_moved_in(build, table, near) if near.stated and where == "end" else (),
    )
    if where == "end" or float(near.distance) >= LEAST_EDGE * near.diameter - 1e-9:
        return asked
    limit, remedy = w.calculated(LEAST_EDGE * near.diameter), moved or "Take a thinner screw."
    return replace(asked, severity="stop", what=f"{what}: it splits.", limit=limit, whose="our choice", remedy=remedy)


def _moved_in(build: Build, table: str, near: Near) -> tuple[Remedy, ...]:
    """The stated inset at the distance asked for, on the tape's marks."""
    if getattr(build.options.screws, table).inset is None:
        return ()
    grid, w = build.grid, writer(build.options.build.units)
    inset = w.length(ceil(near.times * near.diameter / float(grid)) * grid)
    return (Remedy(f"Set the first {table} screw {inset} from the end", ((f"screws.{table}.inset", inset),)),)


@dataclass(frozen=True)
class Short:
    """A distance of a thick fastener under the least."""

    what: str
    distance: Fraction  # [in]
    least: float  # [in]


def _thick(build: Build, table: str, name: str, jobs: list[Job]) -> Iterator[Finding]:
    """Bolts, lags and thick screws under the standard's least distances."""
    w = writer(build.options.build.units)
    short = [s for job in jobs for s in _distances_of(build, job) if float(s.distance) < s.least - 1e-9]
    worst = min(short, key=lambda s: float(s.distance) / s.least, default=None)
    if worst:
        yield Finding(
            rule="fastener distance",
            severity="stop",
            what=f"A {name} fastener stands too near {worst.what}: the wood shears or splits.",
            value=w.length(worst.distance, 32),
            limit=f"at least {w.calculated(worst.least)}",
            whose=STANDARD,
            remedy="Use a thinner fastener, fewer of them, or a longer lap.",
            parts=(table,),
            remedies=(*left_open(jobs[0], "count"), *left_open(jobs[0], "diameter", "length", "count")),
        )


def _distances_of(build: Build, job: Job) -> Iterator[Short]:
    d = job.fastener.diameter
    for label in (job.joint.near, job.joint.far, *job.joint.beyond):
        piece = build.pieces[label]
        if piece.shape != "box":
            continue
        name = build.part_of(label).name
        for spot, axis in product(job.spots, (0, 1, 2)):
            if axis == job.joint.axis:
                continue
            low, high = spot.at[axis] - piece.box.lo[axis], piece.box.hi[axis] - spot.at[axis]
            if axis == piece.axis:
                yield Short(f"an end of the {name}", low, end_wanted(build, piece, True).least * d)
                yield Short(f"an end of the {name}", high, end_wanted(build, piece, False).least * d)
            else:
                yield Short(f"an edge of the {name}", min(low, high), THICK_EDGE * d)
        yield from _loaded_edge(job, piece, name)
    for a, b in combinations(job.spots, 2):
        yield from _neighbours(job, a.at, b.at)


def _neighbours(job: Job, a: Point, b: Point) -> Iterator[Short]:
    """Two fasteners of one row, one above the other; or of two rows side by side, in wood loaded across its grain."""
    d = job.fastener.diameter
    apart = [abs(x - y) for x, y in zip(a, b, strict=True)]
    level = max(apart[0], apart[1])
    if job.joint.axis == 2 or float(level) < d:
        yield Short("its neighbour", max(apart), ROW.least * d)
    else:
        yield Short("its neighbour's row", level, rows_aside(job.loaded_across, d) * d)


def _loaded_edge(job: Job, piece: Piece, name: str) -> Iterator[Short]:
    """The edge toward which the load presses a level piece onto its fastener: a hung rail's or cleat's top edge."""
    if job.joint.axis == 2 or piece.axis == 2 or job.joint.kind not in ("leg", "cleat"):
        return
    hangs = piece.label == job.joint.near  # the near piece hangs on its fasteners, the far one is pressed down by them
    for spot in job.spots:
        edge = piece.box.hi[2] - spot.at[2] if hangs else spot.at[2] - piece.box.lo[2]
        where = f"the {'top' if hangs else 'lower'} edge of the {name}"
        yield Short(where, edge, THICK_LOADED * job.fastener.diameter)


def _crowded(build: Build, table: str, name: str, jobs: list[Job]) -> Iterator[Finding]:
    """Screws of one row nearer than 5 diameters along the grain; those beside one another are rows aside."""
    w = writer(build.options.build.units)
    for job in jobs:
        along = build.pieces[job.joint.near].axis
        if job.joint.kind not in ("cleat", "runner") or along == job.joint.axis:
            continue
        across = next(axis for axis in (0, 1, 2) if axis not in (along, job.joint.axis))
        d = job.fastener.diameter
        steps = [
            abs(a.at[along] - b.at[along])
            for a, b in combinations(job.spots, 2)
            if float(abs(a.at[across] - b.at[across])) < SCREW_ROWS * d
        ]
        if steps and float(min(steps)) < SCREW_ROW * d:
            yield Finding(
                rule="screws too close",
                severity="caution",
                what=f"The {name} screws stand so close that the wood splits between them.",
                value=w.length(min(steps), 32),
                limit=w.calculated(SCREW_ROW * d),
                whose=COMMENTARY,
                remedy="Space them wider.",
                parts=(table,),
                remedies=left_open(job, "spacing", "count"),
            )
            return


def _held(build: Build, table: str, jobs: list[Job]) -> Iterator[Finding]:
    """A screw that only holds a slat down wants half an inch to the slat's end."""
    w = writer(build.options.build.units)
    for job in jobs:
        slat = build.pieces[job.joint.near]
        ends = [
            min(spot.at[slat.axis] - slat.box.lo[slat.axis], slat.box.hi[slat.axis] - spot.at[slat.axis])
            for spot in job.spots
        ]
        if job.joint.kind == "slat" and ends and min(ends) < HELD:
            yield Finding(
                rule="end distance",
                severity="caution",
                what="The slat's screw is so near its end that the slat splits.",
                value=w.length(min(ends), 32),
                limit=w.length(HELD),
                whose="common practice, no source",
                remedy="Move it in.",
                parts=(table,),
                remedies=left_open(job, "inset"),
            )
            return
