"""Screws from below through a runner, where a leg may leave a driver no room."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import product
from math import floor

from tutorial_lib.design.model import Axis, Box, Build, Joint
from tutorial_lib.design.room import EDGE, standing_below, stands_clear
from tutorial_lib.drilling import placing
from tutorial_lib.drilling.job import Job
from tutorial_lib.drilling.keeping import up_to


def clear_of_legs(build: Build, job: Job, free: placing.Room) -> list[placing.Spot]:
    """Up into an end rail where it lies on a runner: one or two screws that stand clear of the legs below."""
    joint, radius, grid = job.joint, build.options.driver.radius, build.grid
    flat, up = placing.rows_along(joint)
    face = joint.contact
    legs = _near(build, face)
    for (low, high), level in product(*_rows_to_try(job, free, grid)):
        places = [low + grid * i for i in range(floor((high - low) / grid) + 1)]
        xy = [(place, level) if flat == 0 else (level, place) for place in places]
        clear = [place for place, (x, y) in zip(places, xy, strict=True) if stands_clear(x, y, legs, radius)]
        if clear:
            wanted = _ends(build, face, flat, clear, free.apart[flat])[: job.options.count or 2]
            return [placing.spot(joint, {flat: place, up: level}, (flat, up)) for place in wanted]
    return []


def _near(build: Build, face: Box) -> list[Box]:
    """Legs below that a driver on the face may meet."""
    radius = build.options.driver.radius
    return [leg for leg in standing_below(build.pieces.values()) if max(face.gap(leg, 0), face.gap(leg, 1)) < radius]


def _rows_to_try(
    job: Job, free: placing.Room, grid: Fraction
) -> tuple[list[tuple[Fraction, Fraction]], list[Fraction]]:
    """From where to where along a face, and at which levels across it, the best first [in]."""
    flat, up = placing.rows_along(job.joint)
    face, kept = job.joint.contact, 2.5 * job.fastener.diameter
    edges = [up_to(kept, grid), *([EDGE] if float(EDGE) >= kept else [])]  # that of the design where marks leave none
    spans = [(free.lo[flat], free.hi[flat]), *((face.lo[flat] + edge, face.hi[flat] - edge) for edge in edges)]
    return spans, list(dict.fromkeys(level for edge in edges for level in _levels(free, job.joint, up, edge, grid)))


def _ends(build: Build, face: Box, flat: Axis, clear: Sequence[Fraction], apart: Fraction) -> list[Fraction]:
    """The outermost places where they are far enough apart, else the one nearest the middle."""
    if clear[-1] - clear[0] >= apart:
        return [clear[0], clear[-1]]
    middles = (face.centre[flat], build.outside[1 - flat] / 2)
    return [min(clear, key=lambda place: [abs(place - middle) for middle in middles])]


def _levels(free: placing.Room, joint: Joint, axis: Axis, edge: Fraction, grid: Fraction) -> list[Fraction]:
    """Places across the face, the best one first, then all that keep the edges."""
    best, face = (free.lo[axis] + free.hi[axis]) / 2, joint.contact
    lo, hi = face.lo[axis] + edge, face.hi[axis] - edge
    others = [lo + grid * i for i in range(floor((hi - lo) / grid) + 1)] if hi >= lo else [face.centre[axis]]
    return [best, *sorted(others, key=lambda place: abs(place - best))]


def taken(build: Build, joint: Joint) -> tuple[tuple[Fraction, Fraction], ...]:
    """Stretches along a runner [in] where a leg below it leaves a driver no room to screw up into the rail."""
    if joint.kind != "runner" or max(joint.contact.size) < placing.ROW_FROM:
        return ()
    radius, y, axis = build.options.driver.radius, joint.contact.centre[1], build.pieces[joint.near].axis
    out = []
    for leg in standing_below(build.pieces.values()):
        if max(leg.lo[1] - y, y - leg.hi[1], Fraction(0)) < radius:
            out.append((leg.lo[axis] - radius, leg.hi[axis] + radius))
    return tuple(sorted(out))
