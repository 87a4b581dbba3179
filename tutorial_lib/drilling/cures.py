"""Fasteners that meet, and the smallest move that frees them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.design.model import Axis, Point
from tutorial_lib.drilling.clashes import Clash, Placed
from tutorial_lib.drilling.placing import Spot
from tutorial_lib.drilling.screws import figure
from tutorial_lib.findings import Finding

if TYPE_CHECKING:
    from tutorial_lib.drilling.step import Drilling, Job

EDGE = Fraction(3, 8)  # [in] a move ends at least so far inside the shared face
STEPS = 32  # eighths that are tried
Write = Callable[[Fraction], str]
WAYS = {0: ("toward the foot", "toward the head"), 1: ("to the right", "to the left"), 2: ("up", "down")}


def clash_findings(drilling: Drilling, write: Write) -> Iterator[Finding]:
    """One stop for each pair of joint kinds whose fasteners meet, with the worst pair and its cure.

    Args:
        drilling: the bed as drilled.
        write: how a length is written, with its unit.
    """
    tables = {job.joint.label: job.table for job in drilling.jobs}
    units = drilling.jobs[0].stack.units if drilling.jobs else "in"
    groups: dict[tuple[str, str], list[Clash]] = {}
    for clash in drilling.clashes:
        pair = (tables[clash.first.rsplit(",", 1)[0]], tables[clash.second.rsplit(",", 1)[0]])
        groups.setdefault(pair, []).append(clash)
    for pair, found in groups.items():
        worst = min(found, key=lambda clash: clash.distance)
        more = f" ({len(found)} such pairs)" if len(found) > 1 else ""
        yield Finding(
            "fasteners meet",
            "stop",
            f"Too near each other: {worst.first}, and {worst.second}{more}.",
            figure(worst.distance, units),
            figure(worst.limit, units),
            "our choice: half of both shanks and 1/4 in of wood",
            cure(drilling, worst, write),
            pair,
        )


def cure(drilling: Drilling, clash: Clash, write: Write) -> str:
    """The smallest move, in eighths, that frees the second (else the first) of two clashing fasteners, in words."""
    from tutorial_lib.drilling.step import shanks

    every = [(shank, job, spot) for job in drilling.jobs for shank, spot in zip(shanks(job), job.spots, strict=True)]
    for name in (clash.second, clash.first):
        shank, job, spot = next(entry for entry in every if entry[0].name == name)
        others = Placed(s for s, _, _ in every if s.name != name)
        for axis, by in _moves(job, spot):
            if not others.meets(replace(shank, head=_moved(shank.head, axis, by), tip=_moved(shank.tip, axis, by))):
                return f"Move {name} by {write(abs(by))} {WAYS[axis][by < 0]}."
    return "No move within 4 in cures it: change the count, the inset or the screw."


def _moves(job: Job, spot: Spot) -> Iterator[tuple[Axis, Fraction]]:
    box = job.joint.contact
    for i in range(1, STEPS + 1):
        for by in (Fraction(i, 8), Fraction(-i, 8)):
            for axis in spot.slides:
                if box.lo[axis] + EDGE <= spot.at[axis] + by <= box.hi[axis] - EDGE:
                    yield axis, by


def _moved(point: Point, axis: Axis, by: Fraction) -> Point:
    x, y, z = (value + by if k == axis else value for k, value in enumerate(point))
    return (x, y, z)
