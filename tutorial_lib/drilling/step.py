"""The drilling step: a build and its loads in, fasteners in place, holes, clashes and quantities out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import chain
from math import ceil, floor

from tutorial_lib.design.fasteners import Driven, Fastener, Fastening
from tutorial_lib.design.model import Box, Build, Joint, JointKind, Piece, Point
from tutorial_lib.design.options import ScrewOptions
from tutorial_lib.drilling import bits, placing, screws
from tutorial_lib.drilling.access import DriverRoom, reach
from tutorial_lib.drilling.clashes import SEAM_ROOM, Clash, Placed, Shank, clashes, seam_distance
from tutorial_lib.drilling.demand import Demand, Holding, widest
from tutorial_lib.drilling.quantities import Buy, Hardware, buys, hardware
from tutorial_lib.drilling.schedule import PieceHoles, schedule
from tutorial_lib.drilling.sizes import ScrewSize
from tutorial_lib.findings import Finding
from tutorial_lib.tables import species

# Those that can't give way are placed before those that can: a corner screw finds another height, a slat screw a place.
PLACE_ORDER = ("leg", "line_leg", "line_end", "runner", "cleat", "flange", "corner", "ply", "slat_line", "slat")


@dataclass(frozen=True)
class BitSet:
    """The bits for one kind of joint."""

    pilot: bits.Bit
    clearance: bits.Bit
    countersink: bits.Bit | None
    stated: Fraction | None = None  # pilot bit stated in the build file [in]

    @property
    def pilot_used(self) -> Fraction:
        """The pilot bit that is taken [in]: the stated one, else the nearest."""
        return self.stated if self.stated is not None else self.pilot.inch


@dataclass(frozen=True)
class Job:
    """One joint with its fastener chosen, before and after its holes are placed."""

    joint: Joint
    table: str
    options: ScrewOptions
    fastener: Fastener
    choice: screws.Choice
    stack: screws.Stack
    least: float  # [in] least penetration
    gravity: float
    bits: BitSet
    spots: tuple[placing.Spot, ...]
    widest: float  # [in] the spacing the load allows
    moved: tuple[tuple[int, Point, Point], ...] = ()  # hole, from, to

    @property
    def loaded(self) -> bool:
        """True when its screws carry load, False when they only hold a slat in place."""
        return not self.stack.holds_down


@dataclass(frozen=True)
class Drilling:
    """All fasteners and holes of a bed."""

    build: Build
    fastenings: tuple[Fastening, ...]
    jobs: tuple[Job, ...]
    clashes: tuple[Clash, ...]
    buys: tuple[Buy, ...]
    hardware: tuple[Hardware, ...]
    hidden: Mapping[JointKind, tuple[int, tuple[str, ...]]]  # how many can't be retightened, and what covers them
    findings: tuple[Finding, ...]

    @cached_property
    def schedule(self) -> tuple[PieceHoles, ...]:
        """Every hole of every piece, pieces drilled alike together; worked out when first asked for."""
        return schedule(self.build, self.jobs)

    def of(self, table: str) -> tuple[Job, ...]:
        """The jobs of one table of the build file ("cleat", "slat" …)."""
        return tuple(job for job in self.jobs if job.table == table)

    def fastenings_of(self, table: str) -> tuple[Fastening, ...]:
        """The fastenings of one table of the build file."""
        return tuple(f for f, job in zip(self.fastenings, self.jobs, strict=True) if job.table == table)


def drill(build: Build, demand: Demand | None = None, holding: Holding | None = None) -> Drilling:
    """Chooses, checks and places every fastener, and works out the holes for them.

    Args:
        build: the bed.
        demand: loads on joints; without it screws are spaced by common practice.
        holding: a fastener's worth at duration factor 1 [lb].

    Raises:
        InputError: a gauge, shank or species that the tables don't have, or a structural screw without its data.
    """
    from tutorial_lib.drilling.rules import judge

    jobs = _placed(
        build, [_job(build, joint, demand, holding) for joint in build.joints if joint.fastener in ("screw", "bolt")]
    )
    fastenings = tuple(_fastening(job) for job in jobs)
    found = tuple(clashes([shank for job in jobs for shank in shanks(job)]))
    made = Drilling(
        build,
        fastenings,
        tuple(jobs),
        found,
        buys(fastenings),
        hardware(build, fastenings),
        _hidden(build, fastenings),
        (),
    )
    return replace(made, findings=tuple(judge(build, made)))


def _gravity(build: Build, label: str) -> float:
    section = build.section_of(label)
    name = section.species or build.options.wood.species
    return species(name, "wood.species").gravity


def _job(build: Build, joint: Joint, demand: Demand | None, holding: Holding | None) -> Job:
    table = screws.TABLE_OF[joint.kind]
    options = screws.options_for(build.options.screws, joint.kind)
    near = build.pieces[joint.near].box.size[joint.axis]
    behind = (build.pieces[label] for label in (joint.far, *joint.beyond))
    far = sum((piece.box.size[joint.axis] for piece in behind), Fraction(0))
    stack = screws.Stack(
        near + joint.play, far, options.head_depth, joint.kind in screws.HOLDS_DOWN, build.options.build.units
    )
    size, choice = _choose(options, table, stack)
    chosen = screws.fastener(options, size, choice.length)
    gravity = _gravity(build, joint.far)
    tip = size.tip if size else 0.0
    least = screws.least_penetration(chosen.kind, chosen.diameter, tip)
    bare = Fastening(
        joint=joint,
        fastener=chosen,
        driven=(),
        head_depth=options.head_depth,
        near_thickness=near,
        penetration=stack.penetration(choice.length),
        pilot=0.0,
    )
    room = widest(demand, holding, bare, gravity) if joint.kind in ("cleat", "runner") else float("inf")
    spots = _spots(build, joint, options, chosen, room)
    return Job(
        joint,
        table,
        options,
        chosen,
        choice,
        stack,
        least,
        gravity,
        _bits(joint, options, chosen, gravity),
        spots,
        room,
    )


def _choose(options: ScrewOptions, table: str, stack: screws.Stack) -> tuple[ScrewSize | None, screws.Choice]:
    """The size and length: as stated, or the first gauge that has a length to fit."""
    best: tuple[ScrewSize | None, screws.Choice] | None = None
    open_gauge = options.kind == "wood screw" and options.gauge is None
    first = screws.DEFAULT_GAUGE[table]
    gauges: tuple[str | None, ...] = (first, *(g for g in screws.OPEN_GAUGES if g != first)) if open_gauge else (None,)
    for gauge in gauges:
        size = screws.size_for(options, table, gauge)
        choice = _length(options, size, stack)
        if choice.fits:
            return size, choice
        best = best or (size, choice)
    assert best is not None
    return best


def _length(options: ScrewOptions, size: ScrewSize | None, stack: screws.Stack) -> screws.Choice:
    sold = size.lengths if size else ()
    if size is not None and options.kind == "carriage bolt":
        grip = stack.near + stack.far
        if options.length is None:
            return screws.bolt_length(sold, grip, size.washer, size.nut)
        return screws.check_bolt(options.length, sold, grip, size.washer, size.nut)
    diameter = size.diameter if size else float(options.diameter or 0)
    least = screws.least_penetration(options.kind, diameter, size.tip if size else 0.0)
    if options.length is not None:
        return screws.check_length(options.length, sold, stack, least)
    return screws.choose_length(sold, stack, least)


def _bits(joint: Joint, options: ScrewOptions, chosen: Fastener, gravity: float) -> BitSet:
    if chosen.kind == "carriage bolt":
        hole = bits.bolt_hole(chosen.diameter)
        return BitSet(hole, hole, None, options.pilot)
    use: bits.Use = (
        "hold down"
        if joint.kind in screws.HOLDS_DOWN
        else "withdrawal"
        if joint.kind in ("runner", "flange")
        else "lateral"
    )
    pilot = (
        bits.lag_pilot(chosen.diameter, gravity)
        if chosen.kind == "lag screw"
        else bits.pilot(chosen.root, gravity, use, joint.end_grain)
    )
    sink = None if chosen.kind == "lag screw" else bits.countersink(chosen.head)
    return BitSet(pilot, bits.clearance(chosen.diameter), sink, options.pilot)


def up_to_eighth(x: float) -> Fraction:
    """The next 1/8 in up [in]."""
    return Fraction(ceil(round(x * 8, 6)), 8)


def _spots(
    build: Build, joint: Joint, options: ScrewOptions, chosen: Fastener, room: float
) -> tuple[placing.Spot, ...]:
    near = build.pieces[joint.near]
    d = chosen.diameter
    greatest = (
        min(placing.OPEN_SPACING, max(up_to_eighth(10 * d), Fraction(floor(room * 8), 8)))
        if room < 1000
        else placing.OPEN_SPACING
    )
    wish = placing.Wish(
        options.count, options.inset, options.spacing, up_to_eighth(10 * d), up_to_eighth(2.5 * d), greatest
    )
    grid = build.grid
    if joint.kind == "slat":
        return tuple(placing.slat_end(joint, near, wish, _end_shift(build, near, options), grid))
    if joint.kind == "slat_line":
        return tuple(placing.slat_middle(joint))
    if joint.kind == "corner":
        return tuple(placing.corner(joint, options.count, grid))
    if joint.kind == "flange":
        return tuple(placing.square(joint, Fraction(5, 8)))
    if max(joint.contact.size) >= placing.ROW_FROM and joint.contact.size[near.axis] == max(joint.contact.size):
        return tuple(placing.row(joint, near, wish, grid, _turned(build, near)))
    return tuple(
        placing.group(
            joint,
            _group_count(build, joint, options),
            up_to_eighth(1.5 * d if joint.fastener == "bolt" else 2.5 * d),
            grid,
            _turned(build, build.pieces[joint.far]),
        )
    )


def _turned(build: Build, piece: Piece) -> bool:
    """True on the bed's right side, which is drilled as the left side turned round."""
    return piece.box.centre[1] > build.outside[0] / 2


def _group_count(build: Build, joint: Joint, options: ScrewOptions) -> int:
    """Fasteners on a small face: those of one leg are shared out over its boards."""
    count = options.count or (max(2, ceil(max(joint.contact.size) / 6)) if joint.kind == "ply" else 2)
    if joint.kind not in ("leg", "line_leg"):
        return count
    leg = next((leg for leg in build.legs if joint.far in leg.pieces), None)
    alike = [
        j for j in build.joints if leg and j.kind == joint.kind and j.far in leg.pieces and j.fastener == joint.fastener
    ]
    share, rest = divmod(count, max(1, len(alike)))
    return max(1, share + (1 if alike.index(joint) < rest else 0)) if alike else count


def _end_shift(build: Build, slat: Piece, options: ScrewOptions) -> Fraction | None:
    """The stated shift of an end slat's screws, toward the middle of the bed; None for the others."""
    if options.end_slat_shift is None:
        return None
    starts = [piece.box.lo[0] for piece in build.part("slat").pieces]
    if slat.box.lo[0] == min(starts):
        return options.end_slat_shift
    return -options.end_slat_shift if slat.box.lo[0] == max(starts) else None


def driven(job: Job, at: Point, stated: bool) -> Driven:
    """A fastener through one place of the shared face, head depth and length counted [in]."""
    axis, sign = job.joint.axis, job.joint.sign
    sunk = Fraction(0) if job.fastener.kind == "carriage bolt" else job.stack.head_depth
    level = at[axis] - sign * (job.stack.near - job.joint.play - sunk)
    head, tip = list(at), list(at)
    head[axis], tip[axis] = level, level + sign * job.fastener.length
    return Driven((head[0], head[1], head[2]), (tip[0], tip[1], tip[2]), stated)


def shanks(job: Job) -> list[Shank]:
    """The job's fasteners as the clash check sees them."""
    word = "bolt" if job.fastener.kind == "carriage bolt" else "screw"
    return [_shank(job, spot, f"{job.joint.label}, {word} {i}") for i, spot in enumerate(job.spots, 1)]


def _shank(job: Job, spot: placing.Spot, name: str = "") -> Shank:
    line = driven(job, spot.at, spot.stated)
    return Shank(line.head, line.tip, job.fastener.diameter, name)


def _placed(build: Build, jobs: list[Job]) -> list[Job]:
    """Moves holes whose place was left open out of the way of those placed before: stated ones first of all."""
    placed = Placed(_shank(job, spot) for job in jobs for spot in job.spots if spot.stated)
    order = sorted(range(len(jobs)), key=lambda i: (PLACE_ORDER.index(jobs[i].joint.kind), i))
    done = list(jobs)
    for i in order:
        done[i] = _moved(build, jobs[i], placed)
    return done


def _moved(build: Build, job: Job, placed: Placed) -> Job:
    spots, moves = [], []
    turned = _turned(build, build.pieces[job.joint.far])
    seams = [] if job.joint.kind == "ply" else seams_of(build, job.joint)
    edge = up_to_eighth(2.5 * job.fastener.diameter)
    for number, spot in enumerate(job.spots, 1):
        if spot.stated:
            spots.append(spot)
            continue
        at = next(
            (
                place
                for place in chain((spot.at,), placing.slides_of(spot, job.joint.contact, edge, turned))
                if _fits(job, replace(spot, at=place), placed, seams)
            ),
            spot.at,
        )
        if at != spot.at:
            moves.append((number, spot.at, at))
        spots.append(replace(spot, at=at))
        placed.add(_shank(job, spots[-1]))
    return replace(job, spots=tuple(spots), moved=tuple(moves))


def _fits(job: Job, spot: placing.Spot, placed: Placed, seams: list[Box]) -> bool:
    if placed.meets(_shank(job, spot)):
        return False
    line = driven(job, spot.at, False)
    return all(seam_distance(line, seam) >= float(SEAM_ROOM) - 1e-9 for seam in seams)


def seams_of(build: Build, joint: Joint) -> list[Box]:
    """The seams between a leg's boards that a joint's fasteners run along; those that cross a seam are no matter."""
    legs = [leg for leg in build.legs if joint.far in leg.pieces or joint.near in leg.pieces]
    return [
        j.contact for j in build.joints_of("ply") if j.axis != joint.axis and any(j.near in leg.pieces for leg in legs)
    ]


def _fastening(job: Job) -> Fastening:
    bolt = job.fastener.kind == "carriage bolt"
    return Fastening(
        joint=job.joint,
        fastener=job.fastener,
        driven=tuple(driven(job, spot.at, spot.stated) for spot in job.spots),
        head_depth=Fraction(0) if bolt else job.stack.head_depth,
        near_thickness=job.stack.near - job.joint.play,
        penetration=job.stack.far if bolt else job.stack.penetration(job.fastener.length),
        pilot=float(job.bits.pilot_used),
    )


def _hidden(build: Build, fastenings: tuple[Fastening, ...]) -> dict[JointKind, tuple[int, tuple[str, ...]]]:
    """Fasteners that no driver reaches in the finished bed, by kind of joint, and the parts that cover them."""
    room = DriverRoom(build.options.driver.length, build.options.driver.radius)
    counts: dict[JointKind, int] = {}
    covers: dict[JointKind, set[str]] = {}
    for fastening in fastenings:
        others = [p for p in build.pieces.values() if p.label not in (fastening.joint.near, fastening.joint.far)]
        for index in _blockers(fastening, others, room):
            counts[fastening.joint.kind] = counts.get(fastening.joint.kind, 0) + 1
            covers.setdefault(fastening.joint.kind, set()).add(build.part_of(others[index].label).name)
    return {kind: (count, tuple(sorted(covers[kind]))) for kind, count in counts.items()}


def _blockers(fastening: Fastening, others: list[Piece], room: DriverRoom) -> Iterator[int]:
    for found in reach(fastening, [piece.box for piece in others], room):
        if found.blocked_by is not None:
            yield found.blocked_by
