"""What the drilling rules find: penetration, tips, distances, clashes, seams, spacing, wood and access."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from tutorial_lib.design.model import APART, Box, Build, JointKind, Point
from tutorial_lib.drilling import bits, screws
from tutorial_lib.drilling.clashes import SEAM_ROOM, Clash, seam_distance
from tutorial_lib.drilling.cures import clash_findings
from tutorial_lib.drilling.distances import distances
from tutorial_lib.drilling.job import Job, left_open, seams_of
from tutorial_lib.drilling.sizes import by_shank, screw_sizes
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.measures import writer

NAMES = {
    "corner": "corner", "block": "corner block", "post": "post", "bed_bolt": "bed bolt", "batten": "batten",
    "panel": "headboard", "panel_slat": "headboard slat",
    "upright": "upright",
    "cleat": "cleat",
    "runner": "runner",
    "runner_end": "runner end",
    "slat": "slat",
    "leg": "leg",
    "ply": "leg board",
    "line": "centre line",
    "flange": "flange",
    "plinth": "plinth",
}  # fmt: skip


def judge(
    build: Build, jobs: Sequence[Job], clashes: Sequence[Clash], hidden: Mapping[JointKind, tuple[int, tuple[str, ...]]]
) -> Iterator[Finding]:
    """Everything the rules have to say, one finding per rule and kind of joint.

    Args:
        build: the bed.
        jobs: its joints, fasteners in place.
        clashes: pairs of fasteners that meet.
        hidden: fasteners that can't be retightened, by kind of joint, and what covers them.
    """
    for job in _one_of_each(jobs):
        yield from _screw(build, job)
        yield from _wood(build, job)
        yield from _of_two(build, job)
    yield from _into_end_grain(jobs)
    yield from _less_than_full(build, jobs)
    yield from _inside(build, jobs)
    for table in dict.fromkeys(job.table for job in jobs):
        mine = [job for job in jobs if job.table == table]
        yield from distances(build, table, NAMES[table], mine)
        yield from _moves(build, table, mine)
    yield from _over_legs(build, jobs)
    yield from clash_findings(jobs, clashes, writer(build.options.build.units))
    yield from _seams(build, jobs)
    yield from _proud(build, jobs)
    yield from _cup(build, jobs)
    yield from _hidden(hidden)


def _one_of_each(jobs: Sequence[Job]) -> list[Job]:
    return list({(job.table, job.stack, job.fastener): job for job in jobs}.values())


def _figure(build: Build, x: float | Fraction) -> str:
    return writer(build.options.build.units).calculated(x)


def _length(build: Build, x: Fraction) -> str:
    return writer(build.options.build.units).length(x, 32)


def _screw(build: Build, job: Job) -> Iterator[Finding]:
    if job.bolted:
        yield from _bolt(build, job)
        return
    yield from _reaches(build, job)
    yield from _tip(build, job)
    yield from _shelf(build, job)


def _bolt(build: Build, job: Job) -> Iterator[Finding]:
    if job.choice.fits:
        return
    grip = _figure(build, job.stack.near + job.stack.far)
    what = f"The {NAMES[job.table]} bolt, {_length(build, job.fastener.length)} long, is too short for washer and nut."
    yield Finding(
        rule="bolt length",
        severity="stop",
        what=what,
        value=_figure(build, job.fastener.length),
        limit=f"{grip} of wood, washer and nut",
        whose="our choice",
        remedy="Take a longer bolt or thinner wood.",
        parts=(job.table,),
        remedies=left_open(job, "length"),
    )


def _reaches(build: Build, job: Job) -> Iterator[Finding]:
    name, got = NAMES[job.table], job.stack.penetration(job.fastener.length)
    wanted = float(job.stack.held) if job.stack.holds_down else job.least
    if float(got) < wanted:
        whose = "common practice, no source" if job.stack.holds_down else "NDS 2018 12.1.5.6"
        long = _length(build, job.fastener.length)
        ends = f"gets only {_length(build, got)} into" if got > 0 else "doesn't reach"
        what = f"The {name} screw, {long} long, {ends} the wood behind that it has to hold in."
        yield Finding(
            rule="screw penetration",
            severity="stop",
            what=what,
            value=_figure(build, got),
            limit=f"at least {_figure(build, wanted)}",
            whose=whose, remedy="Take a longer screw, or one size thinner.", parts=(job.table,),
            remedies=(*left_open(job, "length"), *left_open(job, "length", "gauge", "pilot")),
        )  # fmt: skip


def _of_two(build: Build, job: Job) -> Iterator[Finding]:
    """Of two lengths that were stated, the one that is used, and whether the other would do."""
    rest = [length for length in job.options.lengths if length != job.fastener.length]
    if not rest or not job.choice.fits:
        return
    name, other, used = NAMES[job.table], _length(build, rest[0]), _length(build, job.fastener.length)
    does = job.takes(rest[0])
    why = "would do too" if does else " and ".join(screws.faults_of(rest[0], job.stack, job.least)) or "is too short"
    yield Finding(
        rule="two lengths",
        severity="note",
        what=f"Of the two lengths stated for the {name} screws {used} is used; {other} {why}.",
        whose="" if does else "NDS 2018 12.1.5.6 and our choice",
        parts=(job.table,),
    )


def _named(tables: Iterable[str]) -> tuple[tuple[str, ...], str]:
    """Tables of the build file, and their joints in words: "cleat, leg and centre line"."""
    found = tuple(dict.fromkeys(tables))
    return found, _listed([NAMES[table] for table in found])


def _listed(words: Iterable[str]) -> str:
    """ "a, b and c", each once."""
    *most, last = dict.fromkeys(words) or [""]
    return f"{', '.join(most)} and {last}" if most else last


def _into_end_grain(jobs: Sequence[Job]) -> Iterator[Finding]:
    tables, names = _named(job.table for job in jobs if not job.bolted and job.joint.end_grain and job.joint.bears)
    if tables:
        yield Finding(
            rule="end grain",
            severity="note",
            what=f"The {names} screws end in end grain: they hold sideways at a reduced value and count for nothing "
            "in a straight pull.",
            whose="NDS 2018 12.2.2.3 and 12.5.2.2",
            parts=tables,
        )


def _less_than_full(build: Build, jobs: Sequence[Job]) -> Iterator[Finding]:
    """Screws shallower than for the full tabled value, but deep enough to be counted; the shallowest by its figures."""
    short = [job for job in jobs if not job.is_bolt and job.loaded and not job.joint.end_grain
             and job.least <= float(job.stack.penetration(job.fastener.length)) < _full(job)]  # fmt: skip
    tables, names = _named(job.table for job in short)
    if tables:
        worst = min(short, key=lambda job: float(job.stack.penetration(job.fastener.length)) / _full(job))
        yield Finding(
            rule="screw penetration",
            severity="note",
            what=f"The {names} screws hold a little less than with more wood behind them; their figures count what "
            "they reach.",
            value=_figure(build, worst.stack.penetration(worst.fastener.length)),
            limit=f"{_figure(build, _full(worst))} for the full value",
            whose="NDS 2018 12.3.5.3 and Table 12L, note 3",
            parts=tables,
        )


def _full(job: Job) -> float:
    """Penetration for the full tabled value [in]."""
    return screws.full_penetration(job.fastener.kind, job.fastener.diameter)


def _tip(build: Build, job: Job) -> Iterator[Finding]:
    left = job.stack.far - job.stack.penetration(job.fastener.length)
    if left < screws.INSIDE:
        ends = f"ends {_length(build, left)} under the far face" if left > 0 else "comes out on the far side"
        what = f"The {NAMES[job.table]} screw, {_length(build, job.fastener.length)} long, {ends}."
        yield Finding(rule="screw tip", severity="stop", what=what, value=f"{_figure(build, left)} left",
                      limit=f"at least {_length(build, screws.INSIDE)} of wood before the tip",
                      whose="our choice", remedy="Take a shorter screw.", parts=(job.table,),
                      remedies=(*left_open(job, "length"), *left_open(job, "length", "gauge", "pilot")))  # fmt: skip


def _shelf(build: Build, job: Job) -> Iterator[Finding]:
    if job.fastener.kind == "structural screw" or not job.choice.stated:
        return
    gauge = screw_sizes().get((job.fastener.kind, job.fastener.gauge.lstrip("#")))
    size = gauge or by_shank(job.fastener.kind, job.fastener.diameter)
    if size is None:
        return
    longest = max(size.lengths)
    if job.fastener.length > longest:
        yield Finding(
            rule="screw length",
            severity="stop",
            what=f"No {job.fastener.gauge or size.size} {job.fastener.kind} {_length(build, job.fastener.length)} long "
            "is sold, as far as our list goes.",
            value=_figure(build, job.fastener.length),
            limit=f"{_length(build, longest)} is the longest",
            whose="common practice, no source",
            remedy="State another size, or a structural screw with its own data.",
            parts=(job.table,), remedies=left_open(job, "length"),
        )  # fmt: skip


def _wood(build: Build, job: Job) -> Iterator[Finding]:
    name = NAMES[job.table]
    if not bits.covered(job.gravity):
        yield Finding(
            rule="wood too light or dense for the rules",
            severity="stop",
            what=f"The standard's screw rules don't cover this wood ({name}).",
            value=f"G {job.gravity}",
            limit=f"{bits.LOWEST_GRAVITY} to {bits.HIGHEST_GRAVITY}",
            whose="NDS 2018 Table 12.2",
            remedy="Choose a wood in between, or fasten by the screw maker's report.",
            parts=(job.table,),
        )
    stated = job.bits.stated
    if stated is None or job.bolted:
        return
    if float(stated) > job.fastener.root:
        yield Finding(
            rule="pilot bit",
            severity="caution",
            what=f"The {name}'s pilot is wider than the screw's root: the thread bites little.",
            value=_length(build, stated),
            limit=_figure(build, job.fastener.root),
            whose="root of the screw",
            remedy="Take a smaller bit.",
            parts=(job.table,),
            remedies=left_open(job, "pilot"),
        )


def _inside(build: Build, jobs: Sequence[Job]) -> Iterator[Finding]:
    """Holes that leave their pieces: an axis outside the face, or nearer its edge than half a shank."""
    out: dict[str, list[str]] = {}
    first: dict[str, Job] = {}
    for job in jobs:
        for i, spot in enumerate(job.spots, 1):
            for label in (job.joint.near, job.joint.far, *job.joint.beyond):
                if not _in_face(build, label, job, spot.at):
                    out.setdefault(job.table, []).append(f"number {i} of {job.joint.label} lies outside {label}")
                    first.setdefault(job.table, job)
    for table, which in out.items():
        more = f" ({len(which)} in all)" if len(which) > 1 else ""
        yield Finding(
            rule="hole outside the part",
            severity="stop",
            what=f"{NAMES[table].capitalize()} hole {which[0]}{more}.",
            remedy=f"State another inset, spacing or shift for screws.{table}.",
            parts=(table,),
            remedies=left_open(first[table], "inset", "spacing", "end_slat_shift"),
        )


def _in_face(build: Build, label: str, job: Job, at: tuple[Fraction, Fraction, Fraction]) -> bool:
    box, near = build.pieces[label].box, job.fastener.diameter / 2 + APART
    lo, hi = box.floats
    if all(lo[a] + near <= float(at[a]) <= hi[a] - near for a in (0, 1, 2) if a != job.joint.axis):
        return True  # well inside, as most are; the edge is judged exactly
    half = Fraction(job.fastener.diameter) / 2
    return all(box.lo[a] + half <= at[a] <= box.hi[a] - half for a in (0, 1, 2) if a != job.joint.axis)


def _over_legs(build: Build, jobs: Sequence[Job]) -> Iterator[Finding]:
    """Stated places where a leg leaves no room for the driver, with the nearest place that does."""
    for job in jobs:
        axis = build.pieces[job.joint.near].axis
        start = build.pieces[job.joint.near].box.lo[axis]
        for number, spot in enumerate(job.spots, 1):
            block = next(((lo, hi) for lo, hi in job.taken if lo < spot.at[axis] < hi), None)
            if block is None:
                continue
            free = min(block, key=lambda x: abs(x - spot.at[axis]))
            yield Finding(
                rule="screw over a leg",
                severity="stop",
                what=f"Screw {number} of {job.joint.label} stands where a leg leaves a driver no room.",
                value=_length(build, spot.at[axis] - start),
                remedy=f"The nearest free place is {_length(build, free - start)} from the head end: leave "
                f"screws.{job.table}.inset and spacing open, or change them.",
                parts=(job.table,),
                remedies=left_open(job, "inset", "spacing"),
            )
            return


def _moves(build: Build, table: str, jobs: list[Job]) -> Iterator[Finding]:
    moves = [(job, *move) for job in jobs for move in job.moved]
    if not moves:
        return
    job, number, was, now = moves[0]
    by = max(abs(a - b) for a, b in zip(was, now, strict=True))
    yield Finding(
        rule="screw moved",
        severity="note",
        what=f"{len(moves)} of the {NAMES[table]} fasteners moved to clear others; the first is number "
        f"{number} of {job.joint.label}.",
        value=_length(build, by),
        parts=(table,),
    )


def _seams(build: Build, jobs: Sequence[Job]) -> Iterator[Finding]:
    near: dict[str, tuple[float, str, int]] = {}
    for job in jobs:
        seams = [] if job.joint.kind == "ply" else seams_of(build, job.joint)
        for room in (seam_distance(line, seam) for line in job.driven for seam in seams):
            if room < float(SEAM_ROOM) - 1e-9:
                worst, label, count = near.get(job.table, (9.0, "", 0))
                near[job.table] = (min(worst, room), label or job.joint.label, count + 1)
    for table, (room, label, count) in near.items():
        yield Finding(
            rule="screw in the seam",
            severity="stop",
            what=f"{count} {NAMES[table]} fasteners run along the seam of a leg's boards, first {label}.",
            value=_figure(build, room),
            limit=_length(build, SEAM_ROOM),
            whose="our choice",
            remedy="Move them to the middle of a board.",
            parts=(table,),
        )


def _proud(build: Build, jobs: Sequence[Job]) -> Iterator[Finding]:
    slats = build.part("slat").pieces if build.has("slat") else ()
    for job in jobs:
        if job.fastener.kind not in ("lag screw", "carriage bolt") or job.joint.axis != 2:
            continue
        heads = [line.head for line in job.driven]
        if any(_lies_on(slat.box, head, Fraction(job.fastener.head) / 2) for slat in slats for head in heads):
            yield Finding(
                rule="head under a slat",
                severity="stop",
                what=f"A {job.fastener.kind}'s head stands up under a slat ({job.joint.label}): the slat rocks.",
                remedy="Use a flat-head screw there, or move it between two slats.",
                parts=(job.table,),
                remedies=(Remedy("Take flat-head screws there", ((f"screws.{job.table}", None),)),),
            )
            return


def _lies_on(slat: Box, head: Point, half: Fraction) -> bool:
    """True where a slat lies on a head, half as wide as is said."""
    return slat.lo[2] == head[2] and all(slat.lo[i] - half < head[i] < slat.hi[i] + half for i in (0, 1))


def _cup(build: Build, jobs: Sequence[Job]) -> Iterator[Finding]:
    for job in jobs:
        if job.joint.kind == "slat":
            wide = build.section_of(job.joint.near).width
            covered = job.joint.contact.size[0]  # an end that lies partly on a leg, partly on a cleat rests on both
            if min(wide, covered) >= 4 and len(job.spots) < 2:
                yield Finding(
                    rule="screws in a wide slat",
                    severity="caution",
                    what="One screw an end lets a slat this wide cup.",
                    value=_length(build, wide),
                    limit="two screws from 4 in on",
                    whose="common practice, no source",
                    remedy="Use two screws an end.",
                    parts=("slat",),
                    remedies=(Remedy.setting("Put two screws in each slat end", screws__slat__count=2),),
                )
                return


def _hidden(hidden: Mapping[JointKind, tuple[int, tuple[str, ...]]]) -> Iterator[Finding]:
    counts: dict[str, int] = {}
    for kind, (count, _) in hidden.items():
        name = NAMES[screws.TABLE_OF[kind]]
        counts[name] = counts.get(name, 0) + count
    if counts:
        told = _listed(f"{count} {name}" for name, count in counts.items())
        covers = dict.fromkeys(cover for _, covers in hidden.values() for cover in covers)
        yield Finding(
            rule="hidden screws",
            severity="note",
            what=f"{told} fasteners can't be retightened in the finished bed: {_listed(covers)} in the way of the "
            "driver.",
            remedy="Tighten them well before they are covered.",
            parts=tuple(dict.fromkeys(screws.TABLE_OF[kind] for kind in hidden)),
        )
