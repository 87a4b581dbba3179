"""Operations changed: hidden work moved to the bench, or freed of how the frame has to lie."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from tutorial_lib.assembly.order import Before, Operation, Stance, with_mates
from tutorial_lib.design.model import Build


def bench_first(build: Build, found: Sequence[Operation], dropped: Sequence[Before]) -> tuple[Operation, ...] | None:
    """The operations with legs or cleats screwed to their carriers first, if in the frame no driver reaches them.

    A rail that stands on a runner hides the screws that go through the runner into a leg below; so they come first,
    and the runner enters the frame with its legs. None when nothing is gained.
    """
    hidden = {demand.first for demand in dropped if demand.piece and demand.first.startswith(("leg", "cleat"))}
    moved = next((o for o in found if o.key in hidden and not o.prepares), None)
    if moved is None:
        return None
    carriers = {label: _carrier(build, moved, label) for label in moved.enters}
    on_bench = replace(moved, enters=(*moved.needs, *moved.enters), needs=(), prepares=True)
    others = [_with_newcomers(o, carriers) for o in found if o is not moved]
    first = next(i for i, o in enumerate(others) if not o.prepares)
    return (*others[:first], on_bench, *others[first:])


def _carrier(build: Build, moved: Operation, label: str) -> str:
    """The piece that a newcomer is screwed to; for a board of a leg, that of the whole leg."""
    boards = with_mates(build, label)
    for joint in moved.joints:
        ends = [end for end in (joint.near, joint.far) if end not in boards]
        if len(ends) == 1 and joint.fastener != "bearing":
            return ends[0]
    return ""


def _with_newcomers(operation: Operation, carriers: Mapping[str, str]) -> Operation:
    """An operation whose newcomers bring what is screwed to them already."""
    if operation.prepares:
        return operation
    brought = tuple(leg for leg, carrier in carriers.items() if carrier in operation.enters)
    needs = tuple(label for label in operation.needs if label not in brought)
    return replace(operation, enters=(*operation.enters, *brought), needs=needs)


def swapped(operation: Operation, stance: Stance) -> Operation:
    """The same operation with another demand on how the frame lies."""
    return replace(operation, stance=stance, likes=stance)
