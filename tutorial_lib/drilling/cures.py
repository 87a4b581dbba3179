"""Fasteners that meet, and the smallest move that frees them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.design.model import Axis, Point
from tutorial_lib.drilling.clashes import WOOD_BETWEEN, Clash, Placed
from tutorial_lib.drilling.job import Job, shanks
from tutorial_lib.drilling.placing import Spot
from tutorial_lib.drilling.screws import TABLE_OF
from tutorial_lib.findings import Finding
from tutorial_lib.measures import Writer

EDGE = Fraction(3, 8)  # [in] a move ends at least so far inside the shared face
STEP, STEPS = Fraction(1, 8), 32  # [in] moves that are tried
WAYS = {0: ("toward the foot", "toward the head"), 1: ("to the right", "to the left"), 2: ("up", "down")}


def clash_findings(jobs: Sequence[Job], clashes: Sequence[Clash], w: Writer) -> Iterator[Finding]:
    """One stop for each pair of joint kinds whose fasteners meet, with the worst pair and its cure.

    Args:
        jobs: the bed's joints as drilled.
        clashes: the pairs that meet.
        w: the plan's writer.
    """
    groups: dict[tuple[str, ...], list[Clash]] = {}
    for clash in clashes:
        pair = tuple(TABLE_OF[shank.joint.kind] for shank in (clash.first, clash.second) if shank.joint)
        groups.setdefault(pair, []).append(clash)
    for pair, found in groups.items():
        worst = min(found, key=lambda clash: clash.near)
        more = f" ({len(found)} such pairs)" if len(found) > 1 else ""
        yield Finding(
            rule="fasteners meet",
            severity="stop",
            what=f"Two screws nearly meet in the wood: {worst.first.name}, and {worst.second.name}{more}.",
            value=w.calculated(worst.distance),
            limit=w.calculated(worst.limit),
            whose=f"our choice: half of both shanks and {w.length(WOOD_BETWEEN)} of wood",
            remedy=cure(jobs, worst, w),
            parts=pair,
        )


def cure(jobs: Sequence[Job], clash: Clash, w: Writer) -> str:
    """The smallest move, in eighths, that frees the second (else the first) of two clashing fasteners, in words."""
    every = [(shank, job, spot) for job in jobs for shank, spot in zip(shanks(job), job.spots, strict=True)]
    for wanted in (clash.second, clash.first):
        shank, job, spot = next(entry for entry in every if entry[0] == wanted)
        others = Placed(s.row for s, _, _ in every if s != wanted)
        for axis, by in _moves(job, spot):
            moved = replace(shank, head=_moved(shank.head, axis, by), tip=_moved(shank.tip, axis, by))
            if others.takes(moved.row):
                return f"Move {shank.name} by {w.length(abs(by))} {WAYS[axis][by < 0]}."
    return f"No move within {w.length(STEPS * STEP)} cures it: change the count, the inset or the screw."


def _moves(job: Job, spot: Spot) -> Iterator[tuple[Axis, Fraction]]:
    box = job.joint.contact
    for i in range(1, STEPS + 1):
        for by in (STEP * i, -STEP * i):
            for axis in spot.slides:
                if box.lo[axis] + EDGE <= spot.at[axis] + by <= box.hi[axis] - EDGE:
                    yield axis, by


def _moved(point: Point, axis: Axis, by: Fraction) -> Point:
    x, y, z = (value + by if k == axis else value for k, value in enumerate(point))
    return (x, y, z)
