"""Facts of screws, bolts and holes: how many, how long, where, and with which bit."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact, Value
from tutorial_lib.facts.words import said_as
from tutorial_lib.measures import writer

if TYPE_CHECKING:
    from tutorial_lib.drilling.bed import Drilling
    from tutorial_lib.drilling.job import Job
    from tutorial_lib.plan import Plan

ROWS = ("cleat", "runner")
SCREWS = {
    "cleat": "cleat screw",
    "runner": "runner screw",
    "corner": "corner screw",
    "slat": "slat screw",
    "leg": "leg screw",
    "ply": "leg board screw",
    "line": "centre line screw",
    "flange": "flange screw",
}


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the drilling room."""
    told = _Told(plan, plan.drilling)
    for table in dict.fromkeys(job.table for job in plan.drilling.jobs):
        jobs = plan.drilling.of(table)
        if jobs[0].fastener.kind == "carriage bolt":
            yield from told.bolts(jobs)
        else:
            yield from told.screws(table, jobs)
    yield from told.hardware()


class _Told:
    def __init__(self, plan: Plan, drilling: Drilling) -> None:
        self.build, self.drilling = plan.build, drilling
        self.writer = writer(plan.options.build.units)

    def w(self, x: Fraction) -> str:
        """A length as the person's tape shows it, for the working."""
        return self.writer.length(x, 64)

    def fact(self, key: str, value: Value, kind: str, what: str, working: str, unit: str = "in") -> Fact:
        return Fact(key, value, unit, kind, what, said_as(self.build.options.names, key.split(".")[0]), working)

    def count(self, key: str, value: int, what: str, working: str, kind: str = "screw_count") -> Fact:
        return self.fact(key, value, kind, what, working, "count")

    def screws(self, table: str, jobs: tuple[Job, ...]) -> Iterator[Fact]:
        """One table of the build file: length, counts, places, bits."""
        job, name = jobs[0], SCREWS[table]
        yield self.fact(f"{table}.screw_length", job.fastener.length, "screw_length", name, self._why_length(job))
        total = sum(len(j.spots) for j in jobs)
        if table in ROWS:
            yield from self._row(table, jobs)
        elif table == "slat":
            yield from self._slat(jobs)
        else:
            yield from self._each(table, jobs)
        yield self.count(f"{table}.screw_total", total, f"{name}s in all", self._sum(jobs))
        yield from self._bits(table, job)

    def _why_length(self, job: Job) -> str:
        stated = "stated; " if job.choice.stated else "the shortest sold that fits; "
        got = job.stack.penetration(job.fastener.length)
        depth = f" + {self.w(job.stack.head_depth)} recess" if job.stack.head_depth else ""
        return (
            f"{stated}{self.w(job.fastener.length)}{depth} − {self.w(job.stack.near)} of wood under the head "
            f"= {self.w(got)} into the second piece, {self.w(job.stack.far - got)} left beyond the tip"
        )

    def _sum(self, jobs: tuple[Job, ...]) -> str:
        each: dict[int, int] = {}
        for job in jobs:
            each[len(job.spots)] = each.get(len(job.spots), 0) + 1
        return " + ".join(f"{joints} joints × {count}" for count, joints in each.items())

    def _row(self, table: str, jobs: tuple[Job, ...]) -> Iterator[Fact]:
        """Rows along a cleat or runner; the pieces of one part are drilled alike."""
        near = jobs[0].joint.near
        mine = [job for job in jobs if job.joint.near == near]
        piece = self.build.pieces[near]
        row = max(mine, key=lambda job: len(job.spots))
        places = sorted(spot.at[piece.axis] for spot in row.spots)
        steps = [b - a for a, b in pairwise(places)]
        how = "stated" if row.options.spacing is not None else "evened out"
        if steps:
            step = row.options.spacing if row.options.spacing is not None else max(steps)
            yield self.fact(f"{table}.screw_spacing", step, "spacing", f"spacing of the {table} screws", how)
        inset = (
            row.options.inset
            if row.options.inset is not None
            else min(places[0] - piece.box.lo[piece.axis], piece.box.hi[piece.axis] - places[-1])
        )
        yield self.fact(
            f"{table}.screw_inset",
            inset,
            "distance",
            f"first {table} screw from the end",
            "stated" if row.options.inset is not None else "10 diameters or more from the end",
        )
        yield self.count(
            f"{table}.screws_each",
            sum(len(job.spots) for job in mine),
            f"screws in one {table}",
            f"from {self.w(inset)} to {self.w(places[-1] - piece.box.lo[piece.axis])}: {len(row.spots)}"
            + (f", and {sum(len(j.spots) for j in mine) - len(row.spots)} in the end rails" if len(mine) > 1 else ""),
        )

    def _slat(self, jobs: tuple[Job, ...]) -> Iterator[Fact]:
        ends = [job for job in jobs if job.joint.kind == "slat"]
        if not ends:
            return
        first = ends[0]
        slat = self.build.pieces[first.joint.near]
        per_slat = [job for job in jobs if job.joint.near == slat.label]
        at = first.spots[0].at[slat.axis]
        inset = min(at - slat.box.lo[slat.axis], slat.box.hi[slat.axis] - at)
        stated = first.options.inset is not None
        yield self.fact(
            "slat.hole_inset",
            inset,
            "distance",
            "slat hole from slat end",
            "stated" if stated else "the middle of the slat's bearing",
        )
        yield self.count(
            "slat.screws_per_end",
            len(first.spots),
            "screws in one slat end",
            "stated" if first.options.count else "one up to 4 in wide, then two",
        )
        yield self.count(
            "slat.screws_each",
            sum(len(job.spots) for job in per_slat),
            "screws in one slat",
            self._sum(tuple(per_slat)),
        )
        if first.options.end_slat_shift:
            yield self.fact(
                "slat.end_shift",
                first.options.end_slat_shift,
                "distance",
                "end slats' screws off the slat's centre line",
                "stated: clear of the first cleat screw",
            )

    def _each(self, table: str, jobs: tuple[Job, ...]) -> Iterator[Fact]:
        where = {"corner": "corner", "leg": "leg", "ply": "leg", "line": "joint of a centre line", "flange": "flange"}[
            table
        ]
        groups = len(self.build.legs) if table in ("leg", "ply") else len(jobs)
        mine = [job for job in jobs if table not in ("leg", "ply") or self._leg(job) == self._leg(jobs[0])]
        count = sum(len(job.spots) for job in (mine if table in ("leg", "ply") else jobs[:1]))
        yield self.count(
            f"{table}.screws_each", count, f"screws in one {where}", f"{groups} alike" if groups > 1 else "one"
        )

    def _leg(self, job: Job) -> str:
        return next((leg.label for leg in self.build.legs if job.joint.far in leg.pieces), "")

    def bolts(self, jobs: tuple[Job, ...]) -> Iterator[Fact]:
        """Carriage bolts of the legs."""
        job = jobs[0]
        grip = job.stack.near + job.stack.far
        yield self.count(
            "leg.bolts_each",
            len(job.spots),
            "carriage bolts in one leg",
            "stated" if job.options.count else "two a leg",
            "bolt_count",
        )
        yield self.count(
            "leg.bolt_total", sum(len(j.spots) for j in jobs), "carriage bolts in all", self._sum(jobs), "bolt_count"
        )
        how = "stated" if job.choice.stated else f"the shortest sold over {self.w(grip)} of wood, washer and nut"
        yield self.fact("bolt.length", job.fastener.length, "bolt_length", "carriage bolt", how)
        yield self.fact(
            "bolt.diameter",
            job.fastener.shank,
            "diameter",
            "carriage bolt",
            "stated" if job.options.diameter else "our choice",
        )
        yield self.fact(
            "bolt.hole", job.bits.clearance.size, "diameter", "hole for a carriage bolt", job.bits.clearance.rule
        )

    def _bits(self, table: str, job: Job) -> Iterator[Fact]:
        bits = job.bits
        key = "pilot.diameter" if table in ROWS else f"{table}.pilot_diameter"
        working = f"{self.writer.calculated(bits.pilot.wanted)} wanted: {bits.pilot.rule}"
        yield self.fact(
            key,
            bits.pilot_used,
            "diameter",
            f"pilot bit for the {SCREWS[table]}",
            f"stated; {working}" if bits.stated is not None else working,
        )
        yield self.fact(
            f"{table}.clearance_diameter",
            bits.clearance.size,
            "diameter",
            f"clearance bit for the {SCREWS[table]}",
            bits.clearance.rule,
        )
        if bits.countersink:
            yield self.fact(
                f"{table}.countersink_diameter",
                bits.countersink.size,
                "diameter",
                f"countersink for the {SCREWS[table]}",
                bits.countersink.rule,
            )

    def hardware(self) -> Iterator[Fact]:
        """Brackets by the piece."""
        for item in self.drilling.hardware:
            if "bracket" in item.name:
                key = "line_end.bracket_count" if "end rail" in item.where else "line_leg.bracket_count"
                yield self.count(key, item.count, f"{item.name}, {item.where}", "one a joint", "part_count")
