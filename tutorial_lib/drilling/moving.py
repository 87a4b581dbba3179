"""Holes whose place was left open, moved out of the way of those that can't give way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import chain

from tutorial_lib.design.model import Box, Build
from tutorial_lib.drilling import placing
from tutorial_lib.drilling.choosing import distances, turned
from tutorial_lib.drilling.clashes import SEAM_ROOM, Placed, seam_distance
from tutorial_lib.drilling.job import Job, driven, seams_of, shank

# Those that can't give way are placed before those that can: a corner screw finds another height, a slat screw a place.
PLACE_ORDER = ("leg", "line_leg", "line_end", "runner", "cleat", "flange", "corner", "ply", "slat_line", "slat")


def placed(build: Build, jobs: Sequence[Job]) -> list[Job]:
    """The jobs with their open holes clear of those placed before: stated ones first of all."""
    those = Placed(shank(job, spot, n) for job in jobs for n, spot in enumerate(job.spots, 1) if spot.stated)
    order = sorted(range(len(jobs)), key=lambda i: (PLACE_ORDER.index(jobs[i].joint.kind), i))
    done = list(jobs)
    for i in order:
        done[i] = _moved(build, jobs[i], those)
    return done


def _moved(build: Build, job: Job, those: Placed) -> Job:
    spots, moves = [], []
    other_way = turned(build, build.pieces[job.joint.far])
    seams = [] if job.joint.kind == "ply" else seams_of(build, job.joint)
    pieces = [build.pieces[label] for label in (job.joint.near, job.joint.far)]
    free = placing.room(job.joint, pieces, distances(build, job.fastener.diameter))
    for number, spot in enumerate(job.spots, 1):
        at = spot.at
        if not spot.stated:
            tries = chain((spot.at,), placing.slides_of(spot, free, other_way, job.taken))
            at = next((p for p in tries if _fits(job, replace(spot, at=p), number, those, seams)), spot.at)
            those.add(shank(job, replace(spot, at=at), number))
        if at != spot.at:
            moves.append((number, spot.at, at))
        spots.append(replace(spot, at=at))
    return replace(job, spots=tuple(spots), moved=tuple(moves))


def _fits(job: Job, spot: placing.Spot, number: int, those: Placed, seams: list[Box]) -> bool:
    if those.meets(shank(job, spot, number)):
        return False
    line = driven(job, spot.at, False)
    return all(seam_distance(line, seam) >= float(SEAM_ROOM) - 1e-9 for seam in seams)
