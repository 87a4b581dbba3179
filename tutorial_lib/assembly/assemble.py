"""The assembly of a bed: steps in order, weights, squaring, alternatives, and what the boards do afterwards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.assembly.bench import bench_first, prepared
from tutorial_lib.assembly.doorway import SPARE, longest_round, passes
from tutorial_lib.assembly.knock_down import USUAL_DOOR, KnockDown, knock_down
from tutorial_lib.assembly.lifting import Turn
from tutorial_lib.assembly.movement import Movement, movement
from tutorial_lib.assembly.order import Access, Before, Operation, Order, first_lock, operations, precedence, sequence
from tutorial_lib.assembly.refusals import refused, unreachable
from tutorial_lib.assembly.squaring import Squaring
from tutorial_lib.assembly.steps import Step, Steps
from tutorial_lib.assembly.wording import numbered
from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build
from tutorial_lib.design.weights import total, weights
from tutorial_lib.findings import Finding
from tutorial_lib.measures import Writer
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Alternative:
    """Another way to go about it."""

    title: str
    what: str
    turns: int


@dataclass(frozen=True, kw_only=True)
class Assembly:
    """How the bed is put together."""

    steps: tuple[Step, ...]
    order: Order
    operations: tuple[Operation, ...]
    before: tuple[Before, ...]
    weights: dict[str, float]  # [lb] of every piece
    made: tuple[str, ...]  # labels of the pieces that are made
    frame_weight: float  # of the bed without slats [lb]
    squaring: Squaring
    movement: Movement
    apart: KnockDown | None  # where it was asked for
    alternatives: tuple[Alternative, ...]
    findings: tuple[Finding, ...]

    @property
    def weight(self) -> float:
        """The whole bed without its mattress [lb], or what is made for one that stands; screws not counted."""
        return sum(self.weights[label] for label in self.made)

    @property
    def lift(self) -> Turn | None:
        """The heaviest turn, None when nothing is turned."""
        return max((step.turn for step in self.steps if step.turn), key=lambda turn: turn.share, default=None)

    @property
    def turns(self) -> int:
        """How often the frame is turned over."""
        return self.order.turns

    @property
    def people(self) -> int:
        """The most people any step takes."""
        return max(step.people for step in self.steps)

    def refuse(self, order: Sequence[str]) -> tuple[Finding, ...]:
        """Why another order of the operations can't be worked; empty when it can."""
        return refused(self.operations, self.before, order)


def assemble(build: Build, fastenings: Sequence[Fastening], access: Access, w: Writer) -> Assembly:
    """Work out the assembly of a build.

    Args:
        build: placed pieces and joints.
        fastenings: the fasteners of every joint that has some.
        access: whether a driver reaches a fastening past obstacles.
        w: what writes it.
    """
    each = weights(build)
    found, before, order, dropped = _ordered(build, fastenings, access)
    wide, long = build.overall
    square = Squaring(wide, long - build.behind, *build.between_corners)
    asked = build.options.room.knock_down and not build.bed_stands
    apart = knock_down(build, fastenings, each) if asked else None
    steps = Steps(build, order, access, w, each, square, apart).all()
    moves = movement(build)
    findings = (
        *(unreachable(demand) for demand in dropped),
        *_crowded(build, found, access),
        *_heavy(build, steps, w),
        *(() if build.bed_stands else _of_whole_bed(build, found, apart, w)),
    )
    return Assembly(
        steps=steps,
        order=order,
        operations=found,
        before=before,
        weights=each,
        made=tuple(piece.label for part in build.made for piece in part.pieces),
        frame_weight=total((label for label, piece in build.pieces.items() if piece.use != "slat"), each),
        squaring=square,
        movement=moves,
        apart=apart,
        alternatives=tuple(_alternatives(build, found, before, order, w)),
        findings=findings,
    )


def _of_whole_bed(build: Build, found: Sequence[Operation], apart: KnockDown | None, w: Writer) -> Iterator[Finding]:
    """What is asked of a bed that is put together whole."""
    yield from _door(build, w) if apart is None else _door_apart(build, apart, w)
    yield from _stairs(build, w)
    yield from _loose(build, found)


def _ordered(
    build: Build, fastenings: Sequence[Fastening], access: Access
) -> tuple[tuple[Operation, ...], tuple[Before, ...], Order, tuple[Before, ...]]:
    """Operations, demands, order, and the demands no order meets; hidden work is done on the bench first."""
    found = prepared(build, operations(build, fastenings))
    before = precedence(build, found, access)
    order, dropped = sequence(found, before)
    while (changed := bench_first(build, found, dropped)) is not None:
        found, before = changed, precedence(build, changed, access)
        order, dropped = sequence(found, before)
    return found, before, order, dropped


def _crowded(build: Build, found: Sequence[Operation], access: Access) -> Iterator[Finding]:
    """Screws with pieces in their way that come in with them."""
    for operation in found:
        if operation.prepares and operation.group not in ("end", "panel slats", "panel"):
            continue  # each leg is made up alone on the bench
        screws = [f for f in operation.fastenings if f.joint.kind != "flange"]  # its tube is turned in afterwards
        lock = first_lock(build, screws, operation.enters, access)
        if lock is not None:
            fastening, piece, room = lock
            yield unreachable(
                Before(
                    first=operation.key, then=operation.key, why="", joint=fastening.joint.label, piece=piece, room=room
                )
            )


def _heavy(build: Build, steps: Sequence[Step], w: Writer) -> Iterator[Finding]:
    helpers = build.options.room.helpers
    for step in steps:
        if step.turn is None:
            continue
        if step.turn.people > helpers:
            yield Finding(
                rule="lifting",
                severity="caution",
                what=f"Step {step.number} takes {numbered(step.turn.people)}: the hands carry "
                f"{w.weight(step.turn.share)}.",
                value=w.weight(step.turn.share / helpers) + " each",
                limit=w.weight(step.turn.limit),
                whose="NIOSH revised lifting equation",
                remedy=f"Get {numbered(step.turn.people - helpers)} more to help; "
                f"the plan counts on {numbered(helpers)}.",
            )


def _door(build: Build, w: Writer) -> Iterator[Finding]:
    room = build.options.room
    if room.door_width is None:
        return
    height = room.door_height if room.door_height is not None else Fraction(80)
    size = module(build)
    way = passes(size, room.door_width, height)
    door, told = w.size(room.door_width, height), w.size(*size)
    if way is None:
        yield Finding(
            rule="door",
            severity="caution",
            what="The frame with its legs does not go through the door.",
            value=told,
            limit=door,
            whose="the room",
            remedy="Put it together in the bedroom, or carry the rails and legs in apart.",
        )
    else:
        carried = "flat" if 2 in (way[1],) else "on its side"
        yield Finding(
            rule="door",
            severity="note",
            what=f"The frame with its legs goes through the door, {carried}.",
            value=told,
            limit=door,
            whose="the room",
        )


def _door_apart(build: Build, apart: KnockDown, w: Writer) -> Iterator[Finding]:
    """Whether all that stays together goes through the door; a narrow one where none is stated."""
    room = build.options.room
    width, height = room.door_width or USUAL_DOOR[0], room.door_height or USUAL_DOOR[1]
    stuck = [module for module in apart.modules if passes(module.size, width, height) is None]
    largest = (stuck or apart.modules)[0]
    seen = Finding(
        rule="door, taken apart",
        severity="note",
        what=f"Taken apart, all of it goes through the door; the {largest.name} is the largest of it.",
        value=w.size(*sorted(largest.size, reverse=True)),
        limit=w.size(width, height),
        whose="the room" if room.door_width else "our choice: a narrow inner door",
    )
    if stuck:
        what = f"Taken apart, the {largest.name} does not go through the door."
        remedy = "Put that part together in the bedroom, or open its screws too."
        seen = replace(seen, severity="caution", what=what, remedy=remedy)
    yield seen


def _stairs(build: Build, w: Writer) -> Iterator[Finding]:
    """Whether the frame, carried on its side, turns the corner at the foot or head of the stairs."""
    room = build.options.room
    if room.stair_width is None:
        return
    length, width, height = module(build)
    landing = room.landing if room.landing is not None else room.stair_width
    reach = longest_round(float(room.stair_width), float(landing), float(height + 2 * SPARE))
    tall = room.stair_headroom is not None and width + 2 * SPARE > room.stair_headroom
    told, limit = w.length(length), w.length(Fraction(int(reach)))
    if reach < float(length) or tall:
        what = "is too high on its side for the stairs" if tall else "does not turn the corner of the stairs"
        yield Finding(
            rule="stairs",
            severity="caution",
            what=f"The frame with its legs {what}.",
            value=told,
            limit=limit,
            whose="the room",
            remedy="Carry the rails and legs up apart and put the bed together in its room.",
        )
    else:
        yield Finding(
            rule="stairs",
            severity="note",
            what="The frame with its legs goes up the stairs on its side.",
            value=told,
            limit=limit,
            whose="the room",
        )


def module(build: Build) -> tuple[Fraction, Fraction, Fraction]:
    """Length, width and height of the frame with its legs, without slats or mattress [in]."""
    boxes = [piece.box for piece in build.pieces.values()]
    top, low = max(box.hi[2] for box in boxes), min(box.lo[2] for box in boxes)
    return build.overall[1], build.overall[0], top - low


def _loose(build: Build, found: Sequence[Operation]) -> Iterator[Finding]:
    """Pieces that no joint brings in."""
    entered = {label for operation in found for label in operation.enters}
    for label in build.pieces:
        if label not in entered:
            yield Finding(
                rule="loose piece",
                severity="stop",
                what=f"{label} is joined to nothing.",
                parts=(build.pieces[label].part,),
                remedy="Move it so that it touches what should carry it.",
            )


def _alternatives(
    build: Build, found: Sequence[Operation], before: Sequence[Before], order: Order, w: Writer
) -> Iterator[Alternative]:
    """Ways to get by with fewer turns, each tried."""
    if not order.turns:
        return
    strict, _ = sequence(found, before, strict=True)
    height = w.length(build.heights.rail_bottom)
    if strict.turns < order.turns:
        yield Alternative(
            "Upright on trestles",
            f"Stand the frame on trestles {height} high, top edges up, and fit the "
            "legs from below: nothing is turned over, but someone holds each leg while it is fixed.",
            strict.turns,
        )
