"""Screws and bits: what holds each joint, which bits it takes, and the joint cut through."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING

from tutorial_lib.drawing import holes as draw
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.lists.names import name_of
from tutorial_lib.measures import mm
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, cautions, drawn

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build
    from tutorial_lib.drilling.job import Job

HIGH, LOW, MANY = 118.0, 100.0, 6  # [pt] of a drawing; of each of more than so many
ACROSS = 5  # most drawings in a row
NEAR_END = {False: Fraction(4), True: mm(100)}  # [in] within this of an end, by metric or not, a pilot is bored;
# common practice, no source


def leaves(book: Book) -> Iterator[Leaf]:
    """The page of joints; none where nothing is screwed."""
    jobs = [alike[0] for alike in kinds(book)]
    if not jobs:
        return
    across = max(2, ceil(len(jobs) / max(2, ceil(len(jobs) / ACROSS))))  # two rows, more of very many
    wide = (book.width - 14 * (across - 1)) / across
    yield Leaf("joints", {
        "rows": list(_rows(book)),
        "across": across,
        "care": f"Bore the pilot within {book.w.length(NEAR_END[book.w.metric])} of any end, or the wood splits.",
        "close": len(jobs) > MANY,
        "sections": [_cut(book, job, wide, LOW if len(jobs) > MANY else HIGH) for job in jobs],
        "cautions": cautions(book.plan.drilling.findings),
    }, joined=True)  # fmt: skip


def kinds(book: Book) -> list[list[Job]]:
    """The joints by name, boards and fastener."""
    found: dict[tuple[object, ...], list[Job]] = {}
    for job in book.plan.drilling.jobs:
        found.setdefault((told(book.plan.build, job), job.stack, job.fastener), []).append(job)
    return list(found.values())


def told(build: Build, job: Job) -> str:
    """A joint's name."""
    return name_of(build, job.joint, job.table)


def _cut(book: Book, job: Job, width: float, height: float) -> Data:
    """The joint cut through, and what its fastener goes through."""
    build, scene = book.plan.build, draw.joint_section(book.plan.build, job, named=False)
    near, far = (draw.piece_name(build, label) for label in (job.joint.near, job.joint.far))
    return {
        "name": told(build, job), "through": f"through {near} {'and' if job.bolted else 'into'} {far}",
        "also": book.also_drawn(scene),
        "picture": drawn(fitted(scene.shapes, width, scene.alt, height=height, largest=36.0, style=PAPER)),
    }  # fmt: skip


def _rows(book: Book) -> Iterator[Data]:
    for alike in kinds(book):
        job = alike[0]
        counts = sorted({len(j.spots) for j in alike})
        plate = book.plan.build.pieces[job.joint.near].shape == "plate"  # of steel: it has its holes
        sink = None if plate else job.bits.countersink
        yield {
            "joint": told(book.plan.build, job), "fastener": job.fastener.told(book.w),
            "each": str(counts[0]) if len(counts) == 1 else f"{counts[0]} to {counts[-1]}",
            "all": str(sum(len(j.spots) for j in alike)),
            "pilot": [] if job.is_bolt else book.bit(job.bits.pilot_used),
            "clear": [] if plate else book.bit(job.bits.clearance.size),
            "sink": book.bit(sink.size) if sink else [],
        }  # fmt: skip
