"""The order of the work: operations from the joints, what must come before what, and as few turns as can be.

An operation drives all fasteners of one group of joints. It needs the pieces that its newcomers are joined to, and it
must come before any piece that would stand in its driver's way. Screws driven upward are driven with the frame upside
down, those driven downward with it upright.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import permutations
from typing import Literal, Protocol

from tutorial_lib.assembly.ranks import rank
from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import SIDES, Box, Build, Joint
from tutorial_lib.records import dataclass

Way = Literal["upright", "upside down"]
Stance = Literal["upright", "upside down", "either"]
TURNED: dict[Way, Way] = {"upright": "upside down", "upside down": "upright"}
GROUPS = {
    "ply": "ply",
    "corner": "corner",
    "block": "corner",
    "bed_bolt": "corner",
    "batten": "post",
    "panel": "panel",
    "panel_slat": "panel slats",
    "upright": "headboard",
    "post": "corner",
    "cleat": "cleat",
    "runner": "runner",
    "line_end": "line",
    "leg": "leg",
    "flange": "leg",
    "line_leg": "leg",
    "plinth": "plinth",
    "slat": "slat",
    "slat_line": "slat",
}
ORDER = (
    "ply", "post", "end", "panel slats", "panel", "corner", "cleat", "runner", "block", "line", "leg", "plinth",
    "headboard", "slat",
)  # fmt: skip
ON_BENCH = ("ply", "post", "end", "panel slats", "panel")  # groups that are made up before they come to the frame
PANEL = ("headboard", "headboard_slat")
LIKES: dict[str, Stance] = {"leg": "upside down", "plinth": "upside down", "slat": "upright"}


class Reached(Protocol):
    """What is asked of the answer for one fastener."""

    @property
    def free(self) -> bool:
        """True if a driver fits."""
        ...

    @property
    def room(self) -> Fraction | None:
        """Free length before what is in the way [in], None when nothing is."""
        ...


class Access(Protocol):
    """For every fastener of a joint, whether a driver fits past the obstacles."""

    def __call__(self, fastening: Fastening, obstacles: Sequence[Box], /) -> Sequence[Reached]: ...


@dataclass(frozen=True, kw_only=True)
class Operation:
    """All joints of one group, made in one go."""

    key: str  # "corner", "leg", "leg from above" …
    group: str  # of :data:`ORDER`: "corner", "cleat", "leg" …
    joints: tuple[Joint, ...]
    fastenings: tuple[Fastening, ...]
    enters: tuple[str, ...]  # labels of pieces new to the frame
    needs: tuple[str, ...]  # labels of pieces that are there already
    stance: Stance  # as its screws demand
    likes: Stance  # as it is easiest, screws or not
    prepares: bool = False  # made up on the bench, not in the frame

    def way(self, strict: bool) -> Stance:
        """How the frame lies: as the screws demand, or also as is easiest."""
        return self.stance if strict or self.stance != "either" else self.likes


@dataclass(frozen=True, kw_only=True)
class Before:
    """One operation comes before another, and why."""

    first: str
    then: str
    why: str
    joint: str = ""  # the joint that would be locked away
    piece: str = ""  # the piece that would lock it
    room: Fraction = Fraction(0)  # [in] free before that piece


@dataclass(frozen=True)
class Order:
    """Operations in order, each with the way the frame lies."""

    operations: tuple[tuple[Operation, Way], ...]

    @property
    def turns(self) -> int:
        """How often the frame is turned over, to stand upright in the end."""
        ways: list[Way] = [way for operation, way in self.operations if not operation.prepares]
        return sum(a != b for a, b in zip(ways, [*ways[1:], "upright"], strict=True))


def operations(build: Build, fastenings: Iterable[Fastening]) -> tuple[Operation, ...]:
    """The operations of a build, in the usual order of the job."""
    by_joint: dict[Joint, list[Fastening]] = {}
    for fastening in fastenings:
        by_joint.setdefault(fastening.joint, []).append(fastening)
    found: list[Operation] = []
    placed: set[str] = set()
    for group in ORDER:
        joints = [joint for joint in build.joints if group_of(build, joint) == group]
        for stance, key, mine in _by_stance(group, joints):
            operation = _operation(build, (key, group), mine, stance, by_joint, placed)
            if not operation.prepares:
                placed |= set(operation.enters)
            found.append(operation)
    return tuple(operation for operation in found if any(map(build.makes, operation.joints)))


def group_of(build: Build, joint: Joint) -> str:
    """The group of joints made in one go; a block goes on its end rail before the line that lies on it."""
    if build.pieces[joint.near].part == "beam_block" and joint.kind == "line_end" and joint.axis == 0:
        return "block"
    far = build.pieces[joint.far].use
    if joint.kind == "post" and far == "post":
        return "post"
    return "end" if joint.kind in ("block", "post", "bed_bolt") and far == "end_rail" else GROUPS[joint.kind]


def _by_stance(group: str, joints: list[Joint]) -> Iterable[tuple[Stance, str, list[Joint]]]:
    """The joints of a group by how the frame has to lie; those that don't mind go with the others."""
    ways = {way: [j for j in joints if stance_of(j) == way] for way in ("upside down", "upright", "either")}
    asked = [way for way in ("upside down", "upright") if ways[way]]
    if not joints:
        return []
    if len(asked) < 2:
        only: Stance = "either" if not asked else "upright" if asked[0] == "upright" else "upside down"
        return [(only, group, joints)]
    return [
        ("upside down", group, ways["upside down"] + ways["either"]),
        ("upright", f"{group} from above", ways["upright"]),
    ]


def stance_of(joint: Joint) -> Stance:
    """How the frame lies while this joint is screwed: screws driven upward want it upside down."""
    if joint.axis != 2 or joint.fastener in ("bracket", "bearing", "glue"):
        return "either"
    return "upside down" if joint.sign > 0 else "upright"


def _operation(
    build: Build,
    called: tuple[str, str],
    joints: list[Joint],
    stance: Stance,
    by_joint: Mapping[Joint, list[Fastening]],
    placed: set[str],
) -> Operation:
    key, group = called
    labels = joined(joints)
    enters = labels if group in ON_BENCH else _entering(build, group, joints, placed)
    return Operation(
        key=key,
        group=group,
        joints=tuple(joints),
        fastenings=tuple(f for joint in joints for f in by_joint.get(joint, ())),
        enters=enters,
        needs=tuple(label for label in labels if label not in enters),
        stance="upright" if stance == "either" and _stands(build, group) else stance,
        likes=LIKES.get(group, "either"),
        prepares=group in ON_BENCH,
    )


def joined(joints: Iterable[Joint]) -> tuple[str, ...]:
    """The pieces that some joints hold together, in the joints' order."""
    return tuple(dict.fromkeys(label for joint in joints for label in (joint.near, joint.far)))


def _stands(build: Build, group: str) -> bool:
    """Whether the frame stands on its posts, as it does from the first corner on, and is never turned."""
    return group not in ON_BENCH and (build.options.frame.posts or group == "headboard")


OF_ENDS = ("end_rail", "corner_block", "batten", *PANEL)


def _entering(build: Build, group: str, joints: Iterable[Joint], placed: set[str]) -> tuple[str, ...]:
    """The pieces that a group of joints brings into the frame, whole legs, with what was made up on them."""
    new = dict.fromkeys(label for joint in joints for label in _newcomers(build, joint))
    whole = [mate for label in new for mate in with_mates(build, label)]
    if group == "corner" and build.options.frame.posts:  # the two ends come made up
        whole += _used_as(build, *OF_ENDS)
    if group == "headboard":
        whole += _used_as(build, *PANEL)
    return tuple(dict.fromkeys(label for label in whole if label not in placed))


def _used_as(build: Build, *uses: str) -> list[str]:
    return [label for label, piece in build.pieces.items() if piece.use in uses]


def _newcomers(build: Build, joint: Joint) -> tuple[str, ...]:
    near, far = (rank(build.pieces[label].use) for label in (joint.near, joint.far))
    if near == far:
        return (joint.near, joint.far)
    return (joint.near,) if near > far else (joint.far,)


def with_mates(build: Build, label: str) -> tuple[str, ...]:
    """All boards of the leg that a piece belongs to, or the piece alone."""
    return next((leg.boards for leg in build.legs if label in leg.boards), (label,))


def precedence(build: Build, found: Sequence[Operation], access: Access) -> tuple[Before, ...]:
    """What must come before what: the pieces an operation builds on, and the pieces that would lock its screws away."""
    return (*_builds_on(found), *_stands_first(build, found), *_headboard_last(found), *_locks(build, found, access))


def _builds_on(found: Sequence[Operation]) -> Iterable[Before]:
    for operation in found:
        for other in found:
            shared = set(other.enters) & (set(operation.enters) if other.prepares else set(operation.needs))
            later = not operation.prepares or (other.prepares and found.index(other) < found.index(operation))
            if other is not operation and shared and later:
                yield Before(first=other.key, then=operation.key, why=f"{sorted(shared)[0]} has to be there first")


def _stands_first(build: Build, found: Sequence[Operation]) -> Iterable[Before]:
    """A centre line that is let down into the upright frame with its legs on comes when the frame stands on its own."""
    sides = {label for leg in build.legs if leg.line in SIDES for label in leg.pieces}
    for operation, other in permutations(_in_frame(found), 2):
        if operation.stance == "upright" and _brings_legs(build, operation) and sides & set(other.enters):
            yield Before(first=other.key, then=operation.key, why="the frame has to stand on its legs first")


def _brings_legs(build: Build, operation: Operation) -> bool:
    feet = {label for leg in build.legs if not leg.post for label in leg.pieces}
    return bool(feet & set(operation.enters))


def _in_frame(found: Iterable[Operation]) -> list[Operation]:
    """What is done in the frame, not on the bench."""
    return [operation for operation in found if not operation.prepares]


def _headboard_last(found: Sequence[Operation]) -> Iterable[Before]:
    """A headboard is bolted to a bed that stands and is turned no more; slats may come later."""
    others = [o.key for o in found if not o.prepares and o.group not in ("headboard", "slat")]
    for operation in found:
        for key in others if operation.group == "headboard" else ():
            yield Before(first=key, then=operation.key, why="the bed has to stand on its legs first")


def _locks(build: Build, found: Sequence[Operation], access: Access) -> Iterable[Before]:
    for operation, other in permutations(_in_frame(found), 2):
        lock = first_lock(build, operation.fastenings, other.enters, access)
        if lock:
            fastening, piece, room = lock
            yield Before(
                first=operation.key,
                then=other.key,
                why=f"{piece} would stand before the screws of {fastening.joint.label}",
                joint=fastening.joint.label,
                piece=piece,
                room=room,
            )


Lock = tuple[Fastening, str, Fraction]


def first_lock(build: Build, fastenings: Iterable[Fastening], pieces: Iterable[str], access: Access) -> Lock | None:
    """The first fastening that one of these pieces keeps a driver from, with that piece."""
    return next(iter(locks(build, fastenings, tuple(pieces), access)), None)


def locks(build: Build, fastenings: Iterable[Fastening], pieces: Sequence[str], access: Access) -> Iterable[Lock]:
    """Every fastening that these pieces keep a driver from, with the first piece that does and the room before it."""
    for fastening in fastenings:
        own = {fastening.joint.near, fastening.joint.far, *fastening.joint.beyond}
        others = [label for label in pieces if label not in own]
        if not others or not _cramped(build, fastening, others, access):
            continue
        for label in others:
            if rooms := _cramped(build, fastening, [label], access):
                yield fastening, label, min(rooms)
                break


def _cramped(build: Build, fastening: Fastening, labels: Sequence[str], access: Access) -> list[Fraction]:
    """The rooms that some pieces leave before a joint's fasteners, where they are too short for a driver [in]."""
    reached = access(fastening, [build.pieces[label].box for label in labels])
    return [one.room or Fraction(0) for one in reached if not one.free]


def sequence(
    found: Sequence[Operation], before: Sequence[Before], strict: bool = False
) -> tuple[Order, tuple[Before, ...]]:
    """The order with the fewest turns; equal ones in the order of the job, so that it is always the same.

    Doing all that can be done before each turn gives the fewest turns there can be. Both ways to begin are tried.

    Args:
        found: the operations.
        before: what precedes what.
        strict: turn only where screws demand it.

    Returns:
        the order, and the demands that contradict each other and had to be dropped.
    """
    kept, dropped = _without_circles(found, before)
    tries = [_drain(found, kept, start, strict) for start in ("upside down", "upright")]
    return min(tries, key=lambda order: order.turns), dropped


def _drain(found: Sequence[Operation], before: Sequence[Before], start: Way, strict: bool) -> Order:
    """All operations in an order that begins one way and does all that can be done before each turn."""
    order = [(operation, _bench_way(operation)) for operation in found if operation.prepares]
    done = {operation.key for operation, _ in order}
    left, way = _in_frame(found), start
    while left:
        lies_well = (o for o in left if o.way(strict) in (way, "either"))
        ready = next((o for o in lies_well if _may_come(o, before, done)), None)
        if ready is None:
            way = TURNED[way]
            continue
        order.append((ready, way))
        done.add(ready.key)
        left.remove(ready)
    return Order(tuple(order))


def _bench_way(operation: Operation) -> Way:
    return "upside down" if operation.stance == "upside down" else "upright"


def _may_come(operation: Operation, before: Iterable[Before], done: set[str]) -> bool:
    """Whether all that has to come before an operation is done."""
    return all(demand.first in done for demand in before if demand.then == operation.key)


def _without_circles(
    found: Sequence[Operation], before: Sequence[Before]
) -> tuple[tuple[Before, ...], tuple[Before, ...]]:
    """The demands that can all be met; those about locked screws give way to those about pieces."""
    kept: list[Before] = []
    dropped: list[Before] = []
    for demand in sorted(before, key=lambda b: bool(b.piece)):
        (dropped if _leads(kept, demand.then, demand.first) else kept).append(demand)
    return tuple(kept), tuple(dropped)


def _leads(demands: Sequence[Before], start: str, goal: str) -> bool:
    reached, todo = {start}, [start]
    while todo:
        here = todo.pop()
        for demand in demands:
            if demand.first == here and demand.then not in reached:
                reached.add(demand.then)
                todo.append(demand.then)
    return goal in reached
