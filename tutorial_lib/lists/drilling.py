"""Holes and fasteners as lists."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.lists.names import joint_name, name_of
from tutorial_lib.lists.table import Cell, Column, List, bit, exact, made, mark
from tutorial_lib.measures import writer

if TYPE_CHECKING:
    from tutorial_lib.drilling.job import Job
    from tutorial_lib.plan import Plan


def holes(plan: Plan) -> List:
    """Every hole of every piece, from which end and edge; pieces drilled alike together."""
    w = writer(plan.options.build.units)
    columns = (
        "pieces", "part", "face", Column("along", w.units), "from the", Column("across", w.units), "from its",
        "for", "hole", Column("bit", w.units), Column("depth", w.units), Column("countersink", w.units), "done",
    )  # fmt: skip
    return made("holes", "Holes", columns, _holes(plan))


def _holes(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    w = writer(plan.options.build.units)
    for group in plan.drilling.schedule:
        for face in group.faces:
            for hole in group.on(face):
                depth: Cell = "through" if hole.depth is None else mark(w, hole.depth)
                sink = None if hole.countersink is None else bit(w, hole.countersink)
                yield (
                    ", ".join(group.pieces), group.name, face, mark(w, hole.u), group.datum(face),
                    mark(w, hole.v), group.datum_edges[face], joint_name(hole.table), hole.purpose,
                    bit(w, hole.diameter), depth, sink, "",
                )  # fmt: skip


def fasteners(plan: Plan) -> List:
    """Every kind of screw and bolt: what it joins, how many, and its bits."""
    w = writer(plan.options.build.units)
    groups: dict[tuple[object, ...], list[Job]] = {}
    for job in plan.drilling.jobs:
        groups.setdefault((name_of(plan.build, job.joint, job.table), job.fastener, job.stack), []).append(job)
    columns = (
        "joint", "fastener", Column("length", w.units), "joints", "in each", "in all", Column("pilot", w.units),
        Column("clearance", w.units), Column("countersink", w.units),
    )  # fmt: skip
    rows = []
    for jobs in groups.values():
        job = jobs[0]
        each = ", ".join(str(n) for n in sorted(Counter(len(j.spots) for j in jobs)))
        bolt, plate = job.is_bolt, plan.build.pieces[job.joint.near].shape == "plate"  # of steel: it has its holes
        rows.append((
            name_of(plan.build, job.joint, job.table), job.fastener.told(w), exact(w, job.fastener.length), len(jobs),
            each,
            sum(len(j.spots) for j in jobs), None if bolt else bit(w, job.bits.pilot_used),
            None if plate else bit(w, job.bits.clearance.size),
            bit(w, job.bits.countersink.size) if job.bits.countersink and not plate else None,
        ))  # fmt: skip
    return made("fasteners", "Screws and bolts", columns, rows)
