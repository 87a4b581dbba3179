"""How near a fastener comes to an end, an edge or its neighbour: stated, a caution; forced by the wood, a note."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from tutorial_lib.design.model import Build, Piece
from tutorial_lib.drilling.screws import HELD, figure
from tutorial_lib.findings import Finding, Severity

if TYPE_CHECKING:
    from tutorial_lib.drilling.step import Job

COMMENTARY = "NDS Commentary Table C12.1.5.7, pre-bored"
BOLTED = "NDS 2018 Tables 12.5.1A to C"
SCREW_END, SCREW_EDGE = 5.0, 2.5  # diameters, pre-bored
BOLT_END, BOLT_EDGE = 4.0, 1.5  # diameters
SCREW_ROW = 5.0  # diameters between screws of one row, load across the grain, pre-bored
Where = Literal["end", "edge"]
WHERES: tuple[Where, ...] = ("end", "edge")
Write = Callable[[Fraction], str]


@dataclass(frozen=True)
class Near:
    """The least distance found for one kind of joint, against its limit."""

    distance: Fraction  # [in]
    limit: float  # [in]
    piece: str  # name of the part it lies in
    stated: bool


def distances(build: Build, table: str, name: str, jobs: list[Job], write: Write) -> Iterator[Finding]:
    """Findings on end distance, edge distance and spacing for one kind of joint.

    Args:
        build: the bed.
        table: the table of the build file.
        name: the joint in words, "cleat".
        jobs: the joints of that kind.
        write: how a length is written, with its unit.
    """
    loaded = [job for job in jobs if job.loaded]
    for where in WHERES:
        found = [near for job in loaded for near in _nearest(build, job, where)]
        worst = min((near for near in found if float(near.distance) < near.limit), key=_share, default=None)
        if worst:
            yield _too_near(build, table, name, where, worst, write, bolt=loaded[0].joint.fastener == "bolt")
    yield from _crowded(build, table, name, loaded, write)
    if jobs and not jobs[0].loaded:
        yield from _held(build, table, jobs[0], write)


def _share(near: Near) -> float:
    return float(near.distance) / near.limit


def _nearest(build: Build, job: Job, where: Where) -> Iterator[Near]:
    """Distances of every fastener from the ends, or from the edges, of both pieces [in]."""
    bolt, d = job.joint.fastener == "bolt", job.fastener.diameter
    times = (BOLT_END if bolt else SCREW_END) if where == "end" else (BOLT_EDGE if bolt else SCREW_EDGE)
    for label in (job.joint.near, job.joint.far):
        piece = build.pieces[label]
        if piece.shape != "box":
            continue
        across = [a for a in (0, 1, 2) if a != job.joint.axis and (a == piece.axis) == (where == "end")]
        for spot in job.spots:
            for axis in across:
                room = min(spot.at[axis] - piece.box.lo[axis], piece.box.hi[axis] - spot.at[axis])
                yield Near(room, times * d, build.part_of(label).name, spot.stated)


def _too_near(build: Build, table: str, name: str, where: str, near: Near, write: Write, bolt: bool) -> Finding:
    severity: Severity = "caution" if near.stated else "note"
    limit = figure(near.limit, build.options.build.units)
    kind = "bolt" if bolt else "screw"
    what = f"The {name} {kind} nearest an {where} of the {near.piece} sits {write(near.distance)} from it"
    if bolt:
        return Finding(
            f"{where} distance",
            severity,
            f"{what}: it holds the leg in place and counts for less than its full value.",
            write(near.distance),
            limit,
            BOLTED,
            "",
            (table,),
        )
    remedy = (
        f"Move it in from the {where}." if near.stated else "The wood leaves no more room: bore the pilot, go slowly."
    )
    return Finding(
        f"{where} distance",
        severity,
        f"{what}: pre-drill, or it splits.",
        write(near.distance),
        limit,
        COMMENTARY,
        remedy,
        (table,),
    )


def _crowded(build: Build, table: str, name: str, jobs: list[Job], write: Write) -> Iterator[Finding]:
    """Screws of one row nearer than 5 diameters along the grain."""
    for job in jobs:
        piece: Piece = build.pieces[job.joint.near]
        if job.joint.kind not in ("cleat", "runner") or piece.axis == job.joint.axis:
            continue
        steps = [b - a for a, b in pairwise(sorted(spot.at[piece.axis] for spot in job.spots))]
        least = SCREW_ROW * job.fastener.diameter
        if steps and float(min(steps)) < least:
            yield Finding(
                "screws too close",
                "caution",
                f"The {name} screws stand so close that the wood splits between them.",
                write(min(steps)),
                figure(least, build.options.build.units),
                COMMENTARY,
                "Space them wider.",
                (table,),
            )
            return


def _held(build: Build, table: str, job: Job, write: Write) -> Iterator[Finding]:
    """A screw that only holds a slat down wants half an inch to the slat's end."""
    slat = build.pieces[job.joint.near]
    if job.joint.kind != "slat" or not job.spots:
        return
    at = job.spots[0].at[slat.axis]
    end = min(at - slat.box.lo[slat.axis], slat.box.hi[slat.axis] - at)
    if end < HELD:
        yield Finding(
            "end distance",
            "caution",
            "The slat's screw is so near its end that the slat splits.",
            write(end),
            write(HELD),
            "common practice, no source",
            "Move it in.",
            (table,),
        )
