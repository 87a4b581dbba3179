"""Facts of screws, bolts and holes: how many, how long, where, and with which bit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from tutorial_lib.drilling import bed_bolts
from tutorial_lib.facts import posts
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller
from tutorial_lib.measures import read_length
from tutorial_lib.tables import screw

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Leg
    from tutorial_lib.drilling.job import Job
    from tutorial_lib.plan import Plan

Jobs = Sequence["Job"]

ROWS = ("cleat", "runner")
OF_LEGS = ("leg", "ply", "flange")
SCREWS = {
    "cleat": "cleat screw",
    "runner": "runner screw",
    "runner_end": "runner end screw",
    "corner": "corner screw",
    "block": "block-to-rail screw",
    "batten": "batten screw",
    "upright": "headboard upright screw",
    "panel": "headboard screw",
    "panel_slat": "headboard slat screw",
    "post": "block-to-post screw",
    "slat": "slat screw",
    "leg": "leg screw",
    "ply": "leg board screw",
    "line": "centre line screw",
    "flange": "flange screw",
    "plinth": "plinth screw",
}
HOLDERS = {
    "corner": "corner", "block": "corner block, into its rail", "post": "corner block, into its post",
    "batten": "batten", "upright": "headboard's uprights", "panel": "board's end",
    "panel_slat": "end of a headboard's slat",
    "runner_end": "runner end", "leg": "leg", "ply": "leg", "line": "joint of a centre line", "flange": "flange",
    "plinth": "joint of the plinth",
}  # fmt: skip
ALSO = {  # what a gauge is said of, where the table is no part
    "block": ("corner block", "block"), "post": ("corner block", "post"), "upright": ("headboard upright",),
    "panel": ("headboard",), "panel_slat": ("headboard slat",), "ply": ("leg",), "line": ("centre line",),
    "plinth": ("plinth",),
}  # fmt: skip
BRACKETS = {  # by the kind of joint they hold
    "line_end": ("line_end.bracket_count", "brackets or hangers, centre line to end rail"),
    "line_leg": ("line_leg.bracket_count", "brackets, centre line to its leg"),
    "post": ("post.hook_count", "pairs of bed-rail hooks and plates, rail to post"),
    "leg": ("leg.bracket_count", "brackets, rail to the leg under it"),
}


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the drilling room."""
    tell, build = Teller(plan.options), plan.build
    for table in dict.fromkeys(job.table for job in plan.drilling.jobs):
        jobs = plan.drilling.of(table)
        if table == bed_bolts.TABLE:
            yield from posts.bed_bolts_of(tell, jobs)
        elif jobs[0].fastener.kind == "carriage bolt":
            yield from _bolts(tell, build, table, jobs)
        else:
            yield from _screws(tell, build, table, jobs)
    if not build.bed_stands:
        yield from _of_all_legs(tell, build, [job for job in plan.drilling.jobs if job.table in OF_LEGS])
        yield from _brackets(tell, build)


def _brackets(tell: Teller, build: Build) -> Iterator[Fact]:
    """Brackets, hangers and hooks, by the kind of joint they hold."""
    counts = Counter(joint.kind for joint in build.joints if joint.fastener == "bracket")
    for kind, (key, what) in BRACKETS.items():
        if counts[kind]:  # type: ignore[index]  # only those kinds of joint can have one
            yield tell.count(key, counts[kind], "part_count", what, "one a joint")  # type: ignore[index]


def _screws(tell: Teller, build: Build, table: str, jobs: Jobs) -> Iterator[Fact]:
    """One table of the build file: length, counts, places, bits."""
    job, name = jobs[0], SCREWS[table]
    yield tell.length(f"{table}.screw_length", job.fastener.length, "screw_length", name, _why_length(tell, job))
    yield from _either(tell, table, name, jobs)
    if job.fastener.gauge:
        yield _thick(tell, table, job)
    if table in ROWS:
        yield from _row(tell, build, table, jobs)
    elif table == "slat":
        yield from _slat(tell, build, jobs)
    else:
        yield from _each(tell, build, table, jobs)
    total = sum(len(j.spots) for j in jobs)
    yield tell.count(f"{table}.screw_total", total, "screw_count", f"{name}s in all", _sum(jobs))
    yield from _bits(tell, table, job)


def _thick(tell: Teller, table: str, job: Job) -> Fact:
    """How thick a wood screw is, as it is sold: by its gauge, or by its diameter in the metric series."""
    row, key, name = screw(job.fastener.gauge), f"{table}.screw_gauge", SCREWS[table]
    why, said = "stated" if job.options.gauge else "our choice", (*tell.words(table), *ALSO.get(table, ()))
    if row.number is None:
        return tell.length(key, read_length(row.gauge), "gauge", f"diameter of the {name}s", why, said=said)
    return tell.bare(key, row.number, "gauge", "gauge", f"gauge of the {name}s", why, said=said)


def _either(tell: Teller, table: str, name: str, jobs: Jobs) -> Iterator[Fact]:
    """The second of two lengths that were stated, where the wood takes it too."""
    other, job = jobs[0].options.or_length, jobs[0]
    if other is not None and other != job.fastener.length and all(mine.takes(other) for mine in jobs):
        yield tell.length(f"{table}.other_screw_length", other, "screw_length", f"{name}, the other length that does",
                          "stated; the wood takes both")  # fmt: skip


def _why_length(tell: Teller, job: Job) -> str:
    got = job.stack.penetration(job.fastener.length)
    stated = "stated; " if job.choice.stated else "the shortest sold that fits; "
    depth = f" + {_w(tell, job.stack.head_depth)} recess" if job.stack.head_depth else ""
    return (
        f"{stated}{_w(tell, job.fastener.length)}{depth} − {_w(tell, job.stack.near)} of wood under the head "
        f"= {_w(tell, got)} into the second piece, {_w(tell, job.stack.far - got)} left beyond the tip"
    )


def _w(tell: Teller, x: Fraction) -> str:
    """A length as finely as the working needs it."""
    return tell.w.length(x, 64)


def _sum(jobs: Jobs) -> str:
    each = Counter(len(job.spots) for job in jobs)
    return " + ".join(f"{joints} joints × {count}" for count, joints in each.items())


def _row(tell: Teller, build: Build, table: str, jobs: Jobs) -> Iterator[Fact]:
    """Rows along a cleat or runner; the pieces of one part are drilled alike."""
    piece = build.pieces[jobs[0].joint.near]
    mine = [job for job in jobs if job.joint.near == piece.label]
    row = max(mine, key=lambda job: len(job.spots))
    places = sorted(spot.at[piece.axis] for spot in row.spots)
    steps = [b - a for a, b in pairwise(places)]
    low, high = piece.box.lo[piece.axis], piece.box.hi[piece.axis]
    stated = row.options.spacing
    if steps:
        yield tell.length(f"{table}.screw_spacing", max(steps) if stated is None else stated, "spacing",
                          f"spacing of the {table} screws", "evened out" if stated is None else "stated")  # fmt: skip
    inset = row.options.inset if row.options.inset is not None else min(places[0] - low, high - places[-1])
    how = "stated" if row.options.inset is not None else "10 diameters or more from the end"
    yield tell.length(f"{table}.screw_inset", inset, "distance", f"first {table} screw from the end", how)
    yield from _row_edge(tell, build, table, row)
    count, others = sum(len(job.spots) for job in mine), [job for job in mine if job is not row]
    ends = f", and {count - len(row.spots)} in the end rails" if others else ""
    yield tell.count(f"{table}.screws_each", count, "screw_count", f"screws in one {table}",
                     f"from {_w(tell, inset)} to {_w(tell, places[-1] - low)}: {len(row.spots)}{ends}")  # fmt: skip
    lines = {j.joint.near for j in jobs if build.pieces[j.joint.near].use == "centre_runner"}
    each = {sum(len(j.spots) for j in jobs if j.joint.near == label) for label in lines}
    if len(each) == 1 and build.pieces[row.joint.near].label not in lines:
        yield tell.count("centre_runner.screws_each", each.pop(), "screw_count", "screws up through one centre line",
                         f"{len(lines)} alike" if len(lines) > 1 else "one")  # fmt: skip
    at_ends = {len(job.spots) for job in others if build.pieces[job.joint.far].use == "end_rail"}
    if len(at_ends) == 1:
        yield tell.count(f"{table}.screws_per_end", at_ends.pop(), "screw_count", f"screws in one {table} end",
                         "into the end rail above")  # fmt: skip


def _row_edge(tell: Teller, build: Build, table: str, row: Job) -> Iterator[Fact]:
    """How far the row runs from the long edge of its piece, the nearer one."""
    piece = build.pieces[row.joint.near]
    across = next(axis for axis in range(3) if axis not in (piece.axis, row.joint.axis))
    at = {spot.at[across] for spot in row.spots}
    if len(at) == 1:
        place = at.pop()
        edge = min(place - piece.box.lo[across], piece.box.hi[across] - place)
        yield tell.length(f"{table}.screw_edge", edge, "distance", f"row of {table} screws from the {table}'s edge",
                          "the line that all its screws stand on")  # fmt: skip


def _slat(tell: Teller, build: Build, jobs: Jobs) -> Iterator[Fact]:
    ends = [job for job in jobs if job.joint.kind == "slat"]
    if not ends:
        return
    first = ends[0]
    slat = build.pieces[first.joint.near]
    per_slat = [job for job in jobs if job.joint.near == slat.label]
    at = first.spots[0].at[slat.axis]
    yield tell.length("slat.hole_inset", min(at - slat.box.lo[slat.axis], slat.box.hi[slat.axis] - at), "distance",
                      "slat hole from slat end",
                      "the middle of the slat's bearing" if first.options.inset is None else "stated")  # fmt: skip
    how = "stated" if first.options.count else f"one up to {tell.w.length(Fraction(4))} wide, then two"
    yield tell.count("slat.screws_per_end", len(first.spots), "screw_count", "screws in one slat end", how)
    yield tell.count("slat.screws_each", sum(len(job.spots) for job in per_slat), "screw_count", "screws in one slat",
                     _sum(per_slat))  # fmt: skip
    if first.options.end_slat_shift:
        what = "end slats' screws off the slat's centre line"
        yield tell.length("slat.end_shift", first.options.end_slat_shift, "distance", what,
                          "stated: clear of the first cleat screw")  # fmt: skip


def _each(tell: Teller, build: Build, table: str, jobs: Jobs) -> Iterator[Fact]:
    if table in ("leg", "ply"):
        what = "screws in one {}" if table == "leg" else "screws that hold one {}'s boards together"
        yield from _each_leg(tell, build, f"{table}.screws_each", "screw_count", what, jobs)
        return
    groups = len(jobs)
    yield tell.count(f"{table}.screws_each", len(jobs[0].spots), "screw_count", f"screws in one {HOLDERS[table]}",
                     f"{groups} alike" if groups > 1 else "one")  # fmt: skip


def _each_leg(tell: Teller, build: Build, key: str, kind: str, what: str, jobs: Jobs) -> Iterator[Fact]:
    """How many one leg takes; corner legs, which may be fastened to two rails, apart where they take more."""
    counts: dict[bool, set[int]] = {}
    held = 0
    for leg in build.legs:
        mine = _into(leg, jobs)
        if mine:
            held += 1
            counts.setdefault(leg.corner, set()).add(sum(len(job.spots) for job in mine))
    alike = set.union(*counts.values())
    if len(alike) == 1:
        yield tell.count(key, alike.pop(), kind, what.format("leg"), f"{held} legs alike" if held > 1 else "one")
        return
    for corner, each in sorted(counts.items()):
        name, own = ("corner leg", f"corner_{key}") if corner else ("middle leg", f"mid_{key}")
        if len(each) == 1:
            yield tell.count(own, each.pop(), kind, what.format(name), "to each rail beside it, together")


def _into(leg: Leg, jobs: Jobs) -> list[Job]:
    """What fastens one leg."""
    return [job for job in jobs if job.joint.far in leg.pieces]


def _of_all_legs(tell: Teller, build: Build, jobs: Jobs) -> Iterator[Fact]:
    """What holds the legs, of whatever kind: told apart where it is not what one table says already."""
    screws = [job for job in jobs if job.fastener.kind != "carriage bolt"]
    if len({job.table for job in screws}) < 2:
        return
    total = sum(len(job.spots) for job in screws)
    each = Counter(job.table for job in screws)
    working = " + ".join(f"{sum(len(j.spots) for j in screws if j.table == table)} {SCREWS[table]}s" for table in each)
    yield tell.count("legs.screws", total, "screw_count", "screws of all legs", working, said=tell.words("leg"))


def _bolts(tell: Teller, build: Build, table: str, jobs: Jobs) -> Iterator[Fact]:
    """Carriage bolts of one table of the build file; those of the legs under names of their own."""
    job, legs = jobs[0], table == "leg"
    name = "carriage bolt" if legs else f"carriage bolt of the {HOLDERS.get(table, table)}"
    if legs:
        yield from _each_leg(tell, build, "leg.bolts_each", "bolt_count", "carriage bolts in one {}", jobs)
    total, several = sum(len(j.spots) for j in jobs), name.replace("bolt", "bolts", 1)
    yield tell.count(f"{table}.bolt_total", total, "bolt_count", f"{several} in all", _sum(jobs))
    grip = _w(tell, job.stack.near + job.stack.far)
    how = "stated" if job.choice.stated else f"the shortest sold over {grip} of wood, washer and nut"
    own = "bolt." if legs else f"{table}.bolt_"
    yield tell.length(f"{own}length", job.fastener.length, "bolt_length", name, how)
    yield tell.length(f"{own}diameter", job.fastener.shank, "diameter", name,
                      "stated" if job.options.diameter else "our choice")  # fmt: skip
    hole = job.bits.clearance
    yield tell.length(f"{own}hole", hole.size, "diameter", f"hole for a {name}", hole.rule)


def _bits(tell: Teller, table: str, job: Job) -> Iterator[Fact]:
    bits, name = job.bits, SCREWS[table]
    key = "pilot.diameter" if table in ROWS else f"{table}.pilot_diameter"
    working = f"{tell.w.calculated(bits.pilot.wanted)} wanted: {bits.pilot.rule}"
    yield tell.length(key, bits.pilot_used, "diameter", f"pilot bit for the {name}",
                      working if bits.stated is None else f"stated; {working}")  # fmt: skip
    if table == "flange":
        return  # its steel plate has its holes
    yield tell.length(f"{table}.clearance_diameter", bits.clearance.size, "diameter", f"clearance bit for the {name}",
                      bits.clearance.rule)  # fmt: skip
    if bits.countersink:
        yield tell.length(f"{table}.countersink_diameter", bits.countersink.size, "diameter",
                          f"countersink for the {name}", bits.countersink.rule)  # fmt: skip
