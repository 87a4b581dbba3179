"""What is made up on the bench: legs onto the runners or cleats that carry them, cleats onto their rails.

A leg whose screws go down into its top is never held loose under an upright frame: it goes onto its carrier on the
bench, and both enter the frame with it upside down. Cleats go onto the rails on the bench, from a spacer.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from tutorial_lib.assembly.order import ON_BENCH, Before, Operation, Stance, joined, stance_of, with_mates
from tutorial_lib.assembly.ranks import rank
from tutorial_lib.design.model import Build, Joint

# Order of the work on the bench.
FIRST = {"ply": 0, "post": 0, "end": 1, "panel slats": 1, "panel": 1, "leg": 1, "cleat": 2}


def prepared(build: Build, found: Sequence[Operation]) -> tuple[Operation, ...]:
    """The operations with all that belongs on the bench done there."""
    out = tuple(part for operation in found for part in parted(build, operation))
    for belongs in (hangs_loose, is_cleats):
        moved = next((o for o in out if belongs(build, o)), None)
        out = out if moved is None else on_bench(build, out, moved)
    return out


def is_cleats(_: Build, operation: Operation) -> bool:
    """Whether cleats are screwed to their rails."""
    return operation.group == "cleat" and not operation.prepares


def hangs_loose(build: Build, operation: Operation) -> bool:
    """Whether legs come new under an upright frame, with their screws driven from above."""
    legs = any(build.pieces[label].axis == 2 for label in operation.enters)
    above = any(stance_of(joint) == "upright" for joint in operation.joints)
    return operation.group == "leg" and above and operation.stance == "upright" and legs and not operation.prepares


def parted(build: Build, operation: Operation) -> tuple[Operation, ...]:
    """Legs that are screwed from above apart from those that can be fitted in the frame."""
    if not hangs_loose(build, operation):
        return (operation,)
    above = set(joined(j for j in operation.joints if stance_of(j) == "upright"))
    loose = {label for leg in build.legs if above & set(leg.pieces) for label in leg.boards}
    first, rest = (_only(operation, loose, mine) for mine in (True, False))
    if not rest.enters:
        return (operation,)
    ways: tuple[Stance, Stance] = ("upright", "upright") if build.options.frame.posts else ("either", "upside down")
    return (replace(first, key="leg on the bench"), replace(rest, stance=ways[0], likes=ways[1]))


def _only(operation: Operation, legs: set[str], mine: bool) -> Operation:
    """An operation with only the joints of these legs, or without them."""
    joints = tuple(j for j in operation.joints if bool(legs & {j.near, j.far}) == mine)
    labels = joined(joints)
    return replace(
        operation,
        joints=joints,
        fastenings=tuple(f for f in operation.fastenings if f.joint in joints),
        enters=tuple(label for label in operation.enters if (label in legs) == mine),
        needs=tuple(label for label in operation.needs if label in labels),
    )


def bench_first(build: Build, found: Sequence[Operation], dropped: Sequence[Before]) -> tuple[Operation, ...] | None:
    """The operations with legs or cleats screwed to their carriers first, if in the frame no driver reaches them.

    A rail that stands on a runner hides the screws that go through the runner into a leg below; so they come first,
    and the runner enters the frame with its legs. None when nothing is gained.
    """
    hidden = {demand.first for demand in dropped if demand.piece}
    moved = next((o for o in found if o.key in hidden and o.group in ("leg", "cleat") and not o.prepares), None)
    return None if moved is None else on_bench(build, found, moved)


def on_bench(build: Build, found: Sequence[Operation], moved: Operation) -> tuple[Operation, ...]:
    """The operations with one of them done on the bench; its newcomers enter the frame with their carriers."""
    carriers = _carriers(build, [moved, *(o for o in found if o.prepares and o.group not in ON_BENCH)])
    bench, rests = _at_bench(moved, carriers)
    others = [_with_newcomers(build, o, carriers, rests) for o in found if o is not moved]
    return _bench_work_first((*others, bench))


def _at_bench(moved: Operation, carriers: Mapping[str, str]) -> tuple[Operation, tuple[Joint, ...]]:
    """An operation as it is done on the bench with its carriers, and its joints that are left for the frame."""
    held = {carriers.get(label) for label in moved.enters}
    made = tuple(dict.fromkeys((*(label for label in moved.needs if label in held), *moved.enters)))
    mine = tuple(j for j in moved.joints if {j.near, j.far} <= set(made))
    rests = tuple(j for j in moved.joints if j not in mine)
    return replace(moved, joints=mine, enters=made, needs=(), prepares=True), rests


def _bench_work_first(found: Sequence[Operation]) -> tuple[Operation, ...]:
    on_it = sorted((o for o in found if o.prepares), key=lambda o: FIRST[o.group])
    return (*on_it, *(o for o in found if not o.prepares))


def _carriers(build: Build, work: Sequence[Operation]) -> dict[str, str]:
    """What each newcomer of some work on the bench is screwed to there."""
    return {label: carrier for o in work for label in o.enters if (carrier := _carrier(build, o, label))}


def _carrier(build: Build, moved: Operation, label: str) -> str:
    """The piece that a newcomer is screwed to; for a board of a leg, that of the whole leg."""
    boards = with_mates(build, label)
    for joint in moved.joints:
        ends = [end for end in (joint.near, joint.far) if end not in boards]
        if len(ends) != 1 or joint.fastener == "bearing":
            continue
        if rank(build.pieces[ends[0]].use) < rank(build.pieces[label].use):
            return ends[0]
    return ""


def _with_newcomers(
    build: Build, operation: Operation, carriers: Mapping[str, str], rests: Sequence[Joint]
) -> Operation:
    """An operation whose newcomers bring what is screwed to them already, and rest on what that rests on."""
    if operation.prepares:
        return operation
    brought = tuple(label for label in carriers if _enters_with(label, carriers, operation.enters))
    if not brought:
        return operation
    enters = tuple(dict.fromkeys((*operation.enters, *brought)))
    needs = tuple(label for label in operation.needs if label not in enters)
    here = {*enters, *operation.needs}
    met = tuple(j for j in rests if {j.near, j.far} <= here and {j.near, j.far} & set(brought))
    stance = _stance_with(build, operation, brought)
    return replace(operation, joints=(*operation.joints, *met), enters=enters, needs=needs, stance=stance)


def _stance_with(build: Build, operation: Operation, brought: Sequence[str]) -> Stance:
    """How the frame lies for an operation: what comes with its legs on is let down upside down."""
    legs = any(build.pieces[label].axis == 2 for label in brought)
    return "upside down" if legs and operation.stance == "either" else operation.stance


def _enters_with(label: str, carriers: Mapping[str, str], entering: Sequence[str]) -> bool:
    """Whether a piece hangs on one that enters, over what it is screwed to."""
    while label in carriers:
        label = carriers[label]
        if label in entering:
            return True
    return False
