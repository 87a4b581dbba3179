"""For one joint: which fastener, how long, with which bits, how many and where."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from tutorial_lib.design.end_distances import THICK
from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Box, Build, Joint, JointKind, Leg, Piece
from tutorial_lib.design.screw_options import ScrewOptions
from tutorial_lib.drilling import bed_bolts, bits, blocks, placing, screws
from tutorial_lib.drilling.access import BIT_LENGTH
from tutorial_lib.drilling.clashes import SEAM_ROOM
from tutorial_lib.drilling.demand import Demand, Holding, least_count, widest
from tutorial_lib.drilling.job import BitSet, Job, fastening, seams_of
from tutorial_lib.drilling.keeping import distances, up_to
from tutorial_lib.drilling.over_legs import clear_of_legs, taken
from tutorial_lib.drilling.sizes import ScrewSize
from tutorial_lib.measures import Units
from tutorial_lib.records import dataclass
from tutorial_lib.tables import species

PLATE_EDGE = Fraction(5, 8)  # [in] of a flange's screws from its edges (common practice, no source)
SUNK = Fraction(1, 4)  # [in] that a head goes under the back of a headboard where no length fits else (our choice)
BY_LOAD = ("leg", "line_leg", "post", "block")  # small joints whose count follows the load where it was left open


@dataclass(frozen=True)
class Loads:
    """What the joints carry and what a fastener is worth; without them screws follow common practice."""

    demand: Demand | None = None
    holding: Holding | None = None


def job_for(build: Build, joint: Joint, loads: Loads) -> Job:
    """The joint's fastener and its places, not yet moved out of each other's way."""
    if joint.kind == "bed_bolt":
        return bed_bolts.job_for(build, joint)
    table = screws.table_of(build, joint)
    options = screws.options_for(build.options.screws, table)
    found: Job | None = None
    for gauge in _gauges(build, options, table):
        job = _job(build, joint, loads, options, gauge)
        if job.choice.fits and len(job.spots) >= job.needed:
            return job
        found = found if found is not None and (found.choice.fits or not job.choice.fits) else job
    assert found is not None
    return found if found.choice.fits else _sunk(build, joint, loads, options, found)


def _sunk(build: Build, joint: Joint, loads: Loads, options: ScrewOptions, found: Job) -> Job:
    """A headboard's screw with its head let in, from behind where nobody sees it, if that makes one fit."""
    left_open = options.gauge is None and not options.lengths and not options.head_depth
    if joint.kind not in screws.PANEL or not left_open:
        return found
    deeper = options.model_copy(update={"head_depth": SUNK})
    tried = (_job(build, joint, loads, deeper, gauge) for gauge in _gauges(build, options, found.table))
    return next((job for job in tried if job.choice.fits), found)


def _gauges(build: Build, options: ScrewOptions, table: str) -> tuple[str | None, ...]:
    """Gauges to try: the stated one, or the usual one of this joint and then the others."""
    if options.kind != "wood screw" or options.gauge is not None:
        return (None,)
    units = build.options.build.units
    first = screws.DEFAULT_GAUGE[table][units]
    return (first, *(gauge for gauge in screws.OPEN_GAUGES[units] if gauge != first))


def _job(build: Build, joint: Joint, loads: Loads, options: ScrewOptions, gauge: str | None) -> Job:
    table, units = screws.table_of(build, joint), build.options.build.units
    stack = _stack(build, joint, options)
    size = screws.size_for(options, table, gauge, units)
    choice = _length(options, size, stack)
    chosen = screws.fastener(options, size, choice.length)
    gravity = _gravity(build, joint.far)
    bare = Fastening(
        joint=joint,
        fastener=chosen,
        driven=(),
        head_depth=options.head_depth,
        near_thickness=stack.near - joint.play,
        penetration=stack.far if chosen.kind == "carriage bolt" else stack.penetration(choice.length),
        pilot=0.0,
    )
    long = joint.kind in ("cleat", "runner")
    job = Job(
        joint=joint,
        table=table,
        options=options,
        fastener=chosen,
        choice=choice,
        stack=stack,
        least=screws.least_penetration(chosen.kind, chosen.diameter, size.tip if size else 0.0),
        gravity=gravity,
        bits=_bits(joint, options, chosen, gravity, units),
        spots=(),
        widest=widest(loads.demand, loads.holding, bare, gravity) if long else float("inf"),
        needed=_needed(build, joint, loads, options, bare, gravity),
        taken=taken(build, joint),
    )
    placed = replace(job, spots=tuple(_spots(build, job, size)))
    return _upright(build, placed, loads, size) if job.needed and loads.demand is not None else placed


def _upright(build: Build, job: Job, loads: Loads, size: ScrewSize | None) -> Job:
    """Two more at a time, as far as the wood has room, until they hold the bed upright too."""
    while loads.demand is not None and not loads.demand.upright(fastening(job)):
        more = replace(job, needed=len(job.spots) + 2)
        more = replace(more, spots=tuple(_spots(build, more, size)))
        if len(more.spots) <= len(job.spots):
            return job
        job = more
    return job


def _stack(build: Build, joint: Joint, options: ScrewOptions) -> screws.Stack:
    near = build.pieces[joint.near].box.size[joint.axis]
    behind = (build.pieces[label] for label in (joint.far, *joint.beyond))
    far = sum((piece.box.size[joint.axis] for piece in behind), Fraction(0))
    holds, held = joint.kind in screws.HOLDS_DOWN, screws.HELD_BOARD if joint.kind in screws.PANEL else screws.HELD
    return screws.Stack(near + joint.play, far, options.head_depth, holds, build.options.build.units, held=held)


def _gravity(build: Build, label: str) -> float:
    section = build.section_of(label)
    name = section.species or build.options.wood.species
    return species(name, "wood.species").gravity


def _needed(build: Build, joint: Joint, loads: Loads, options: ScrewOptions, bare: Fastening, gravity: float) -> int:
    """How many this joint's load asks for, its leg's share where a leg has several such joints; 0 when stated."""
    if joint.kind not in BY_LOAD or options.count is not None:
        return 0
    alike = _alike(build, joint)
    return ceil(least_count(loads.demand, loads.holding, bare, gravity) / len(alike))


def _alike(build: Build, joint: Joint) -> list[Joint]:
    """The joints of one leg that are fastened the same way, among which its fasteners are shared out."""
    leg = _leg_of(build, joint)
    if leg is None:
        return [joint]
    kind = (joint.kind, joint.fastener, joint.axis)
    mine = [j for j in build.joints if (j.kind, j.fastener, j.axis) == kind and j.far in leg.pieces]
    return [j for j in mine if joint.axis == 2 or j.near == joint.near]


def _leg_of(build: Build, joint: Joint) -> Leg | None:
    """The leg whose piece lies behind the joint."""
    return next((leg for leg in build.legs if joint.far in leg.pieces), None)


def _length(options: ScrewOptions, size: ScrewSize | None, stack: screws.Stack) -> screws.Choice:
    if size is not None and options.kind == "carriage bolt":
        return _bolt_length(options, size, stack)
    sold = size.lengths if size else ()
    diameter = size.diameter if size else float(options.diameter or 0)
    least = screws.least_penetration(options.kind, diameter, size.tip if size else 0.0)
    judged = [screws.check_length(length, sold, stack, least) for length in options.lengths]
    return _first_that_fits(judged) if judged else screws.choose_length(sold, stack, least)


def _bolt_length(options: ScrewOptions, size: ScrewSize, stack: screws.Stack) -> screws.Choice:
    sold, grip = size.lengths, stack.near + stack.far
    if options.length is None:
        return screws.bolt_length(sold, grip, size.washer, size.nut, stack.units)
    return _first_that_fits(
        [screws.check_bolt(x, sold, grip, size.washer, size.nut, stack.units) for x in options.lengths]
    )


def _first_that_fits(judged: Sequence[screws.Choice]) -> screws.Choice:
    """The first length that fits, or the first of all."""
    return next((choice for choice in judged if choice.fits), judged[0])


def _bits(joint: Joint, options: ScrewOptions, chosen: Fastener, gravity: float, units: Units) -> BitSet:
    if chosen.kind == "carriage bolt":
        hole = bits.bolt_hole(chosen.diameter, units)
        return BitSet(hole, hole, None, options.pilot)
    use: bits.Use = (
        "hold down"
        if joint.kind in screws.HOLDS_DOWN
        else "withdrawal"
        if joint.kind in ("runner", "flange")
        else "lateral"
    )
    lag = chosen.kind == "lag screw"
    pilot = bits.lag_pilot(chosen.diameter, gravity, units) if lag else bits.pilot(chosen.root, gravity, use, units)
    sink = None if lag else bits.countersink(chosen.head, units)
    return BitSet(pilot, bits.clearance(chosen.diameter, units), sink, options.pilot)


def _wish(build: Build, job: Job) -> placing.Wish:
    d, options = job.fastener.diameter, job.options
    greatest = placing.OPEN_SPACING
    if job.widest < 1000:
        allowed = Fraction(floor(job.widest * 8), 8)
        greatest = min(greatest, max(up_to(10 * d, build.grid), allowed))
    return placing.Wish(
        count=options.count,
        inset=options.inset,
        spacing=options.spacing,
        end_distance=up_to(10 * d, build.grid),
        edge=up_to(2.5 * d, build.grid),
        greatest=greatest,
        seat=_seat(build, job.joint),
        deep=build.heights.recess > BIT_LENGTH,
        taken=job.taken,
    )


def _seat(build: Build, joint: Joint) -> Fraction:
    """What a slat's end bears on along its length [in]; on a leg's board less, to keep its screw off the seam."""
    line, play = build.lines[0], build.options.slats.play
    seat = line.seat[1] - line.seat[0] - play
    if build.pieces[joint.far].axis == 2 and seams_of(build, joint):
        off_seam = build.pieces[joint.far].box.size[1] - SEAM_ROOM - play
        return min(seat, 2 * floor(off_seam / build.grid) * build.grid)
    return seat


def _spots(build: Build, job: Job, size: ScrewSize | None) -> list[placing.Spot]:
    joint, near, grid = job.joint, build.pieces[job.joint.near], build.grid
    if joint.kind in BY_KIND:
        return BY_KIND[joint.kind](build, job)
    if max(joint.contact.size) >= placing.ROW_FROM and joint.contact.size[near.axis] == max(joint.contact.size):
        return placing.row(joint, near, _wish(build, job), grid, turned(build, near))
    if joint.kind == "ply":
        count = job.options.count or max(2, ceil(max(joint.contact.size) / 6))
        edge = up_to(2.5 * job.fastener.diameter, grid)
        return placing.group(joint, count, edge, grid, turned(build, build.pieces[joint.far]))
    return _on_small_face(build, job, size)


def _at_slat_end(build: Build, job: Job) -> list[placing.Spot]:
    slat = build.pieces[job.joint.near]
    return placing.slat_end(job.joint, slat, _wish(build, job), _end_shift(build, slat, job.options), build.grid)


def _in_block(build: Build, job: Job) -> list[placing.Spot]:
    kept = distances(build, job.fastener.diameter)
    return blocks.spots(build, job.joint, job.options.count or max(2, job.needed), kept)


BY_KIND: dict[JointKind, Callable[[Build, Job], list[placing.Spot]]] = {
    "slat": _at_slat_end,
    "slat_line": lambda _, job: placing.slat_middle(job.joint),
    "corner": lambda build, job: placing.corner(job.joint, job.options.count, build.grid),
    "flange": lambda build, job: placing.on_plate(job.joint, build.pieces[job.joint.near].box, PLATE_EDGE),
    "block": _in_block,
    "post": _in_block,
}


def _on_small_face(build: Build, job: Job, size: ScrewSize | None) -> list[placing.Spot]:
    """Even rows inside all distances, as many as stated, or as the load asks and the face holds."""
    joint = job.joint
    pieces = [build.pieces[label] for label in (joint.near, joint.far)]
    kept = distances(build, job.fastener.diameter, job.loaded_across)
    free = placing.room(joint, pieces, kept)
    if job.bolted and size is not None:
        free = _clear_of_boards(build, job, free, Fraction(size.washer_width) / 2)
    if joint.kind == "runner":
        return clear_of_legs(build, job, free)
    for seam in seams_of(build, joint):
        free = _off_seam(joint, free, seam)
    count = _share(build, job, free)
    return placing.pattern(joint, free, count, build.grid, high=job.fastener.diameter >= THICK)


def _share(build: Build, job: Job, free: placing.Room) -> int:
    """Fasteners on this face: those stated for a leg are shared out over its boards."""
    stated = job.options.count
    if job.joint.kind not in BY_LOAD:
        return stated or min(2, max(1, free.most))
    alike = _alike(build, job.joint)
    if stated is not None:
        share, rest = divmod(stated, len(alike))
        return max(1, share + (1 if alike.index(job.joint) < rest else 0))
    wanted = max(job.needed, ceil(2 / len(alike)))
    return max(1, min(wanted, free.most))


def _clear_of_boards(build: Build, job: Job, free: placing.Room, half: Fraction) -> placing.Room:
    """The room left where the nut's washer [in, half its width] lies on the leg beside its other board."""
    far = build.pieces[job.joint.far].box
    for other in _boards_beside(build, job.joint):
        for axis in (axis for axis in free.lo if axis != 2 and other.size[axis] < far.size[axis]):
            lo, hi = free.lo[axis], free.hi[axis]
            if other.lo[axis] == far.lo[axis]:
                lo = max(lo, other.hi[axis] + half)
            else:
                hi = min(hi, other.lo[axis] - half)
            if lo <= hi:
                return replace(free, lo=free.lo | {axis: lo}, hi=free.hi | {axis: hi})
    return free


def _boards_beside(build: Build, joint: Joint) -> list[Box]:
    """A leg's boards that touch the one behind the joint, those that its bolts go through left out."""
    leg, far = _leg_of(build, joint), build.pieces[joint.far].box
    others = [
        build.pieces[label].box for label in (leg.boards if leg else ()) if label not in (joint.far, *joint.beyond)
    ]
    return [other for other in others if other.contact(far) is not None]


def _off_seam(joint: Joint, free: placing.Room, seam: Box) -> placing.Room:
    """The room left when fasteners that run along a leg's seam stand off it."""
    for axis in free.lo:
        if seam.lo[axis] != seam.hi[axis]:
            continue
        lo, hi = free.lo[axis], free.hi[axis]
        if joint.contact.centre[axis] >= seam.lo[axis]:
            lo = max(lo, seam.lo[axis] + SEAM_ROOM)
        else:
            hi = min(hi, seam.lo[axis] - SEAM_ROOM)
        if lo <= hi:
            return replace(free, lo=free.lo | {axis: lo}, hi=free.hi | {axis: hi})
    return free


def turned(build: Build, piece: Piece) -> bool:
    """True on the bed's right side, which is drilled as the left side turned round."""
    return piece.box.centre[1] > build.outside[0] / 2


def _end_shift(build: Build, slat: Piece, options: ScrewOptions) -> Fraction | None:
    """The stated shift of an end slat's screws, toward the middle of the bed; None for the others."""
    if options.end_slat_shift is None:
        return None
    if slat in build.slat_rows[0]:
        return options.end_slat_shift
    return -options.end_slat_shift if slat in build.slat_rows[-1] else None
