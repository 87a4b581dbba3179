"""What must hold for every bed that design accepts, whatever was chosen.

By hand, over many beds: ``python -m tests.soundness 2000`` prints each failure and how often each kind was seen;
``python -m tests.soundness 200 600`` tries 200 seeds from 600 on, ``... 200 600 posts`` the same beds on corner posts.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from tests.assembly import doable
from tests.builds import options, raw, raw_on_posts, raw_with_headboard
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.design.model import LATER, SIDES, Box, Build
from tutorial_lib.drilling.bed import Drilling
from tutorial_lib.drilling.schedule import Hole
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import Plan, plan

# Rules about places. In these beds the places were left open, so that the program chose them: none may trip.
OF_PLACES = frozenset((
    "hole outside the part", "fasteners meet", "screw in the seam", "screw over a leg", "screws too close",
    "end distance", "edge distance", "fastener distance", "loose piece", "slat end",
    "head under a slat", "screw penetration", "screw tip", "bolt length", "screw length", "pilot bit", "recess",
    "locked away", "order", "driver room", "closing chain", "screws in a wide slat",
))  # fmt: skip
# Legs are made up on the bench; a headboard is at the head alone.
ONE_END = ("ply", "batten", "panel", "panel_slat", "upright")
SMALLEST_WOOD = Fraction(1, 16)  # [in] between a hole and the side of its piece


def failures(seed: int) -> Iterator[str]:
    """What is wrong with one bed; nothing when it is refused or sound."""
    try:
        made = plan(options(seed))
        made.drilling  # noqa: B018  refused or not
    except InputError:
        return
    yield from failures_of(seed, made)


def failures_with_headboard(seed: int) -> Iterator[str]:
    """The same of the bed with a headboard bolted on, which leaves every fastener that was there in its place."""
    try:
        bare, made = plan(options(seed)), plan(from_raw(raw_with_headboard(seed)))
        made.drilling, bare.drilling  # noqa: B018  refused or not
    except InputError:
        return
    yield from failures_of(seed, made)
    if "thickness" in raw(seed)["mattress"]:  # else the recess may follow the thickness
        there = {(f.joint.label, f.driven) for f in bare.drilling.fastenings}
        kept = {(f.joint.label, f.driven) for f in made.drilling.fastenings}
        for label, _ in there - kept:
            yield f"headboard: {label} moved"


def failures_of_later_headboard(seed: int) -> Iterator[str]:
    """The same headboard for a bed that stands: as cut, bored and bolted as with a new bed, and nothing else."""
    tables = raw_with_headboard(seed)
    try:
        whole = plan(from_raw(tables))
        whole.drilling  # noqa: B018  refused or not
    except InputError:
        return
    later = plan(from_raw(tables | {"headboard": tables["headboard"] | {"bed": "stands"}}))
    if whole.drilling.fastenings != later.drilling.fastenings:
        yield "later: a fastener is another"
    mine, theirs = facts_of(later), facts_of(whole)
    yield from (f"later: {key} differs" for key in mine
                if key.startswith(("headboard", "upright.", "panel")) and mine[key].value != theirs[key].value
                and "per_board" not in key)  # fmt: skip
    uses = {later.build.part(piece.name).use for board in later.cutting.plan.boards for piece in board.pieces}
    yield from (f"later: a {use} is cut" for use in uses - set(LATER))
    steps = {label for step in later.assembly.steps for label in (*step.new, *step.made)}
    yield from (f"later: {label} is put together" for label in steps if later.build.pieces[label].use not in LATER)
    yield from (f"later: {text}" for text in cut(later))


def failures_on_posts(seed: int) -> Iterator[str]:
    """The same of the bed on corner posts."""
    try:
        made = plan(from_raw(raw_on_posts(seed)))
        made.drilling  # noqa: B018  refused or not
    except InputError:
        return
    yield from failures_of(seed, made)


def failures_of(seed: int, made: Plan) -> Iterator[str]:
    """What is wrong with a bed that can be built."""
    build = made.build
    yield from closes(build)
    yield from overlaps(build)
    yield from joined(made)
    yield from holes(made.drilling)
    yield from chosen(made)
    yield from turned(made)
    yield from mirrored(seed, build)
    yield from cut(made)
    yield from doable.failures(made)


def closes(build: Build) -> Iterator[str]:
    """Opening and rails make the outside; slats and gaps make the opening; every slat has two seats."""
    thick = build.part("side_rail").section.thickness
    if any(inside + 2 * thick != outside for inside, outside in zip(build.opening, build.outside, strict=True)):
        yield "closes: opening and rails"
    row = build.slats
    if row.marks[-1] + row.width + row.edge != row.opening:
        yield "closes: slats"
    joints = (*build.joints_of("slat"), *(build.joints_of("slat_line") if build.options.slats.halves else ()))
    for slat in build.part("slat").pieces:
        ends = {j.contact.centre[1] < slat.box.centre[1] for j in joints if j.near == slat.label}
        if len(ends) != 2:
            yield f"closes: {slat.label} has {len(ends)} seats"


def overlaps(build: Build) -> Iterator[str]:
    """No two pieces share space."""
    for a, b in combinations(build.pieces.values(), 2):
        if a.box.overlaps(b.box):
            yield f"overlap: {a.label} and {b.label}"


def _standing(build: Build) -> set[str]:
    """Every board of the legs that stand on the floor."""
    floor = build.heights.leveller  # a headboard's uprights stand on the floor itself
    low = {piece.label for piece in build.pieces.values() if piece.axis == 2 and piece.box.lo[2] <= floor}
    return low | {label for leg in build.legs if low & set(leg.pieces) for label in leg.pieces}


def _reached(build: Build) -> set[str]:
    """What leads to those over joints."""
    reached, grown = _standing(build), True
    while grown:
        fresh = [{j.near, j.far} for j in build.joints if len({j.near, j.far} & reached) == 1]
        reached, grown = reached.union(*fresh), bool(fresh)
    return reached


def joined(made: Plan) -> Iterator[str]:
    """Every piece leads to a leg that stands on the floor, over joints; and is held by more than its own weight."""
    build, drilling = made.build, made.drilling
    reached = _reached(build)
    spots = {job.joint: len(job.spots) for job in drilling.jobs}
    held = _standing(build) if build.options.tubes else set()
    if build.options.slats.hold != "screws":  # they lie there, tied to each other or loose
        held |= {piece.label for piece in build.part("slat").pieces}
    for joint in build.joints:
        if joint.fastener in ("bracket", "glue") or spots.get(joint, 0):
            held |= {joint.near, joint.far, *joint.beyond}
        if joint.fastener in ("screw", "bolt") and not spots.get(joint, 0):
            yield f"joined: {joint.kind} {joint.label} has no fastener"
    if any(finding.rule == "rail and leg apart" for finding in build.findings):
        return  # said already: the lap is too short for a fastener
    for label in build.pieces:
        if label not in reached:
            yield f"joined: {label} leads to no leg"
        if label not in held:
            yield f"joined: {label} is fastened to nothing"


def holes(drilling: Drilling) -> Iterator[str]:
    """Every hole lies in its piece with wood around it, and a blind one ends inside."""
    for group in drilling.schedule:
        for hole in group.holes:
            fault = _outside(group.piece.box, hole)
            if fault:
                yield f"hole: {hole.table} {hole.purpose} in {group.piece.label} {fault}"


def _outside(box: Box, hole: Hole) -> str:
    half = hole.diameter / 2 + SMALLEST_WOOD
    for axis in (0, 1, 2):
        if axis != hole.axis and not box.lo[axis] + half <= hole.at[axis] <= box.hi[axis] - half:
            return f"leaves its side at {[str(x) for x in hole.at]}"
    deep = box.size[hole.axis]
    return "comes through" if hole.depth is not None and not 0 < hole.depth < deep else ""


def chosen(made: Plan) -> Iterator[str]:
    """No rule about places trips where the program chose them."""
    rooms = (made.build, made.drilling, made.cutting, made.assembly)  # strength has no rule about places
    for finding in (finding for room in rooms for finding in room.findings):
        stated = finding.rule == "recess" and _recess_follows(made)
        if finding.rule in OF_PLACES and finding.severity != "note" and not stated:
            yield f"chosen: {finding.severity} {finding.rule} {','.join(finding.parts)}: {finding.what} {finding.value}"


def _recess_follows(made: Plan) -> bool:
    """True where the recess was stated or the lumber leaves no other."""
    options, build = made.options, made.build
    cleats = [piece.box.lo[2] for part in build.parts if part.use == "cleat" for piece in part.pieces]
    level = bool(cleats) and min(cleats) == build.heights.rail_bottom
    return options.support.kind == "runners" or options.support.recess is not None or level


def _lines(drilling: Drilling) -> set[tuple[Fraction, ...]]:
    """Ends of the fasteners that have a partner: lines stand on the tape's marks, legs are made up on the bench."""
    build = drilling.build
    central = _central(build) | {p.label for p in build.pieces.values() if p.box.centre[0] * 2 == build.outside[1]}
    return {
        (*line.head, *line.tip)
        for made in drilling.fastenings
        if made.joint.kind not in ONE_END and not central & {made.joint.near, made.joint.far}
        for line in made.driven
    }


def _central(build: Build) -> set[str]:
    """Pieces of the centre lines, which stand on the tape's marks and so not always in the very middle."""
    found = {label for line in build.lines if line.central for label in line.members}
    found |= {label for leg in build.legs if leg.line not in SIDES for label in leg.pieces}
    return found | {piece.label for part in build.parts if part.use == "beam_block" for piece in part.pieces}


def turned(made: Plan) -> Iterator[str]:
    """A bed without gaps in its legs is the same turned half round, screws and all."""
    legs = made.options.legs
    if legs.omit or made.options.storage.width or (legs.kind == "corner L" and legs.per_side % 2):
        return  # an L in the very middle looks one way, legs that make room for boxes stand alike on both sides
    width, length = made.build.outside
    lines = _lines(made.drilling)
    other = {
        (length - a, width - b, c, length - d, width - e, f)
        for a, b, c, d, e, f in lines
    }  # fmt: skip
    if lines != other:
        off = next(iter(lines - other))
        where = next(f.joint for f in made.drilling.fastenings for d in f.driven if (*d.head, *d.tip) == off)
        yield f"turned: {where.kind} {where.label}: {len(lines - other)} screws have no partner"


def mirrored(seed: int, build: Build) -> Iterator[str]:
    """The same bed with a right leg left out in place of a left one is its mirror image."""
    tables = raw(seed)
    omit = tables["legs"].get("omit")
    if not omit or build.options.frame.posts or build.options.headboard.kind != "none":
        return
    tables["legs"]["omit"] = [name.translate(str.maketrans("LR", "RL")) for name in omit]
    width, other = build.outside[0], plan(from_raw(tables))
    central = _central(build)
    ours = {(p.box.lo, p.box.hi) for p in build.pieces.values() if p.label not in central}
    theirs = {
        ((p.box.lo[0], width - p.box.hi[1], p.box.lo[2]), (p.box.hi[0], width - p.box.lo[1], p.box.hi[2]))
        for p in other.build.pieces.values()
        if p.label not in central
    }
    if ours != theirs:
        yield "mirrored: pieces differ"
    counts = [Counter((j.kind, j.fastener) for j in bed.joints) for bed in (build, other.build)]
    if counts[0] != counts[1]:
        yield "mirrored: joints differ"


def cut(made: Plan) -> Iterator[str]:
    """Every wooden piece is cut from some board, and from one long enough, or named as too long."""
    wanted = Counter(
        piece.length for part in made.build.made if not part.section.steel for piece in part.pieces
    )  # fmt: skip
    got = Counter(piece.length for section in made.cutting.plan.sections for board in section.boards
                  for piece in board.pieces)  # fmt: skip
    missing = wanted - got
    if missing and not made.cutting.left_out:
        yield f"cut: {sum(missing.values())} pieces are cut from nothing"


def tried(seed: int, posts: bool = False) -> list[str] | None:
    """The failures of one bed by hand, where a fault of the program is a failure; None when the bed is refused."""
    try:
        made = plan(from_raw(raw_on_posts(seed)) if posts else options(seed))
        made.drilling  # noqa: B018  refused or not
        return list(failures_of(seed, made))
    except InputError:
        return None
    except Exception as error:  # a fault of the program is what is looked for
        return [f"crash: {type(error).__name__} {error}"]


def main(count: int, first: int = 0, posts: bool = False) -> None:
    """Tries many beds: prints each failure as it is found, then how often each kind was seen."""
    kinds: Counter[str] = Counter()
    refused = failed = 0
    for seed in range(first, first + count):
        found = tried(seed, posts)
        refused += found is None
        failed += bool(found)
        for text in found or ():
            print(f"seed {seed}: {text}", flush=True)
            kinds[" ".join("#" if any(c.isdigit() for c in word) else word for word in text.split())] += 1
    for kind, number in kinds.most_common():
        print(f"{number:5d}  {kind}")
    print(f"seeds {first} to {first + count - 1}: {count - refused} beds, {refused} refused, {failed} with failures")


if __name__ == "__main__":
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    main(*(numbers or [100]), posts="posts" in sys.argv)
