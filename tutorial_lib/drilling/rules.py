"""What the drilling rules find: penetration, tips, distances, clashes, seams, spacing, wood and access."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import floor
from typing import TYPE_CHECKING

from tutorial_lib.design.model import Build
from tutorial_lib.drilling import bits, screws
from tutorial_lib.drilling.clashes import SEAM_ROOM, seam_distance
from tutorial_lib.drilling.cures import clash_findings
from tutorial_lib.drilling.distances import distances
from tutorial_lib.findings import Finding
from tutorial_lib.measures import write_length

if TYPE_CHECKING:
    from tutorial_lib.drilling.step import Drilling, Job

NAMES = {
    "corner": "corner",
    "cleat": "cleat",
    "runner": "runner",
    "slat": "slat",
    "leg": "leg",
    "ply": "leg board",
    "line": "centre line",
    "flange": "flange",
}


def judge(build: Build, drilling: Drilling) -> Iterator[Finding]:
    """Everything the rules have to say, one finding per rule and kind of joint."""
    for job in _one_of_each(drilling.jobs):
        yield from _screw(build, job)
        yield from _wood(build, job)
    yield from _inside(build, drilling)
    for table in dict.fromkeys(job.table for job in drilling.jobs):
        jobs = [job for job in drilling.jobs if job.table == table]
        yield from distances(build, table, NAMES[table], jobs, lambda x: _length(build, x))
        yield from _spacing(build, table, jobs)
        yield from _moves(build, table, jobs)
    yield from clash_findings(drilling, lambda x: _length(build, x))
    yield from _seams(build, drilling)
    yield from _proud(build, drilling)
    yield from _cup(build, drilling)
    yield from _hidden(drilling)


def _one_of_each(jobs: tuple[Job, ...]) -> list[Job]:
    return list({(job.table, job.stack, job.fastener): job for job in jobs}.values())


def _figure(build: Build, x: float | Fraction) -> str:
    return screws.figure(x, build.options.build.units)


def _length(build: Build, x: Fraction) -> str:
    return write_length(x, build.options.build.units, 32)


def _screw(build: Build, job: Job) -> Iterator[Finding]:
    if job.fastener.kind == "carriage bolt":
        yield from _bolt(build, job)
        return
    yield from _reaches(build, job)
    yield from _tip(build, job)
    yield from _shelf(build, job)
    if job.joint.end_grain and job.joint.bears:
        what = (
            f"The {NAMES[job.table]} screws end in end grain: they hold sideways at a reduced value and count for "
            "nothing in a straight pull."
        )
        yield Finding("end grain", "note", what, whose="NDS 2018 12.2.2.3 and 12.5.2.2", parts=(job.table,))


def _bolt(build: Build, job: Job) -> Iterator[Finding]:
    if job.choice.fits:
        return
    grip = _figure(build, job.stack.near + job.stack.far)
    what = f"The {NAMES[job.table]} bolt is too short for washer and nut."
    yield Finding("bolt length", "stop", what, _figure(build, job.fastener.length), f"{grip} of wood, washer and nut",
                  "our choice", "Take a longer bolt or thinner wood.", (job.table,))  # fmt: skip


def _reaches(build: Build, job: Job) -> Iterator[Finding]:
    name, got = NAMES[job.table], job.stack.penetration(job.fastener.length)
    wanted = float(screws.HELD) if job.stack.holds_down else job.least
    full = screws.full_penetration(job.fastener.kind, job.fastener.diameter)
    if float(got) < wanted:
        whose = "common practice, no source" if job.stack.holds_down else "NDS 2018 12.1.5.6"
        what = f"The {name} screw reaches too little into the second piece."
        yield Finding("screw penetration", "stop", what, _figure(build, got), f"at least {_figure(build, wanted)}",
                      whose, "Take a longer screw, or one size thinner.", (job.table,))  # fmt: skip
    elif job.loaded and not job.joint.end_grain and float(got) < full:
        what = f"The {name} screw holds {float(got) / full:.0%} of its full value."
        yield Finding("screw penetration", "note", what, _figure(build, got),
                      f"{_figure(build, full)} for the full value",
                      "NDS 2018 Table 12L, note 3", "", (job.table,))  # fmt: skip


def _tip(build: Build, job: Job) -> Iterator[Finding]:
    left = job.stack.far - job.stack.penetration(job.fastener.length)
    if left < screws.INSIDE:
        what = f"The {NAMES[job.table]} screw's tip is too near the far face or comes through it."
        yield Finding("screw tip", "stop", what, f"{_figure(build, left)} left",
                      f"at least {_figure(build, screws.INSIDE)}",
                      "our choice", "Take a shorter screw.", (job.table,))  # fmt: skip


def _shelf(build: Build, job: Job) -> Iterator[Finding]:
    if job.fastener.kind == "structural screw" or not job.choice.stated:
        return
    from tutorial_lib.drilling.sizes import screw_sizes

    size = job.fastener.gauge.lstrip("#") or str(Fraction(job.fastener.diameter).limit_denominator(16))
    sold = screw_sizes()[job.fastener.kind, size].lengths
    longest = max(sold)
    if job.fastener.length > longest:
        yield Finding(
            "screw length",
            "stop",
            f"No {job.fastener.kind} {job.fastener.gauge or size} of this length is sold, as far as our list goes.",
            _figure(build, job.fastener.length),
            f"{_figure(build, longest)}",
            "common practice, no source",
            "State another size, or a structural screw with its own data.",
            (job.table,),
        )


def _wood(build: Build, job: Job) -> Iterator[Finding]:
    name = NAMES[job.table]
    if not bits.covered(job.gravity):
        yield Finding(
            "wood too light or dense for the rules",
            "stop",
            f"The standard's screw rules don't cover this wood ({name}).",
            f"G {job.gravity}",
            f"{bits.LOWEST_GRAVITY} to {bits.HIGHEST_GRAVITY}",
            "NDS 2018 Table 12.2",
            "Choose a wood in between, or fasten by the screw maker's report.",
            (job.table,),
        )
    stated = job.bits.stated
    if stated is None or job.fastener.kind == "carriage bolt":
        return
    if float(stated) > job.fastener.root:
        yield Finding(
            "pilot bit",
            "caution",
            f"The {name}'s pilot is wider than the screw's root: the thread bites little.",
            _length(build, stated),
            _figure(build, job.fastener.root),
            "root of the screw",
            "Take a smaller bit.",
            (job.table,),
        )


def _inside(build: Build, drilling: Drilling) -> Iterator[Finding]:
    """Holes that leave their pieces: an axis outside the face, or nearer its edge than half a shank."""
    out: dict[str, list[str]] = {}
    for fastening, job in zip(drilling.fastenings, drilling.jobs, strict=True):
        for i, line in enumerate(fastening.driven, 1):
            for label in (job.joint.near, job.joint.far):
                if not _in_face(build, label, job, line.head):
                    out.setdefault(job.table, []).append(f"number {i} of {job.joint.label} lies outside {label}")
    for table, which in out.items():
        more = f" ({len(which)} in all)" if len(which) > 1 else ""
        yield Finding(
            "hole outside the part",
            "stop",
            f"{NAMES[table].capitalize()} hole {which[0]}{more}.",
            remedy=f"State another inset, spacing or shift for screws.{table}.",
            parts=(table,),
        )


def _in_face(build: Build, label: str, job: Job, at: tuple[Fraction, Fraction, Fraction]) -> bool:
    box, half = build.pieces[label].box, Fraction(job.fastener.diameter) / 2
    return all(box.lo[a] + half <= at[a] <= box.hi[a] - half for a in (0, 1, 2) if a != job.joint.axis)


def _spacing(build: Build, table: str, jobs: list[Job]) -> Iterator[Finding]:
    for job in jobs:
        piece = build.pieces[job.joint.near]
        places = sorted(spot.at[piece.axis] for spot in job.spots)
        steps = [b - a for a, b in pairwise(places)]
        if job.joint.kind in ("cleat", "runner") and steps and float(max(steps)) > job.widest + 1e-9:
            stated = job.options.spacing is not None or job.options.count is not None
            yield Finding(
                "screw spacing",
                "caution",
                f"The {NAMES[table]} screws stand wider than the load asks, their value taken in "
                "proportion to their penetration.",
                _length(build, max(steps)),
                _figure(build, round(job.widest, 1)),
                "calculated, not tested; NDS 2018 Table 12L, note 3",
                f"Space them {_figure(build, floor(job.widest * 2) / 2)} or less."
                if stated
                else "Take a stronger screw.",
                (table,),
            )
            return


def _moves(build: Build, table: str, jobs: list[Job]) -> Iterator[Finding]:
    moves = [(job, *move) for job in jobs for move in job.moved]
    if not moves:
        return
    job, number, was, now = moves[0]
    by = max(abs(a - b) for a, b in zip(was, now, strict=True))
    yield Finding(
        "screw moved",
        "note",
        f"{len(moves)} of the {NAMES[table]} fasteners moved to clear others; the first is number "
        f"{number} of {job.joint.label}.",
        _length(build, by),
        parts=(table,),
    )


def _seams(build: Build, drilling: Drilling) -> Iterator[Finding]:
    from tutorial_lib.drilling.step import seams_of

    near: dict[str, tuple[float, str, int]] = {}
    for fastening, job in zip(drilling.fastenings, drilling.jobs, strict=True):
        seams = [] if job.joint.kind == "ply" else seams_of(build, job.joint)
        for room in (seam_distance(line, seam) for line in fastening.driven for seam in seams):
            if room < float(SEAM_ROOM) - 1e-9:
                worst, label, count = near.get(job.table, (9.0, "", 0))
                near[job.table] = (min(worst, room), label or job.joint.label, count + 1)
    for table, (room, label, count) in near.items():
        yield Finding(
            "screw in the seam",
            "stop",
            f"{count} {NAMES[table]} fasteners run along the seam of a leg's boards, first {label}.",
            _figure(build, room),
            _length(build, SEAM_ROOM),
            "our choice",
            "Move them to the middle of a board.",
            (table,),
        )


def _proud(build: Build, drilling: Drilling) -> Iterator[Finding]:
    slats = build.part("slat").pieces if build.has("slat") else ()
    for fastening, job in zip(drilling.fastenings, drilling.jobs, strict=True):
        if job.fastener.kind not in ("lag screw", "carriage bolt") or job.joint.axis != 2 or job.joint.sign > 0:
            continue
        half = Fraction(job.fastener.head) / 2
        heads = [line.head for line in fastening.driven]
        if any(
            s.box.lo[2] == h[2] and all(s.box.lo[i] - half < h[i] < s.box.hi[i] + half for i in (0, 1))
            for s in slats
            for h in heads
        ):
            yield Finding(
                "head under a slat",
                "stop",
                f"A {job.fastener.kind}'s head stands up under a slat ({job.joint.label}): the slat rocks.",
                remedy="Use a flat-head screw there, or move it between two slats.",
                parts=(job.table,),
            )
            return


def _cup(build: Build, drilling: Drilling) -> Iterator[Finding]:
    for job in drilling.jobs:
        if job.joint.kind == "slat":
            wide = build.section_of(job.joint.near).width
            if wide >= 4 and len(job.spots) < 2:
                yield Finding(
                    "screws in a wide slat",
                    "caution",
                    "One screw an end lets a slat this wide cup.",
                    _length(build, wide),
                    "two screws from 4 in on",
                    "common practice, no source",
                    "Use two screws an end.",
                    ("slat",),
                )
            return


def _hidden(drilling: Drilling) -> Iterator[Finding]:
    for kind, (count, covers) in drilling.hidden.items():
        name = NAMES[screws.TABLE_OF[kind]]
        yield Finding(
            "hidden screws",
            "note",
            f"{count} {name} fasteners can't be retightened in the finished bed: "
            f"{' and '.join(covers)} in the way of the driver.",
            remedy="Tighten them well before they are covered.",
            parts=(screws.TABLE_OF[kind],),
        )
