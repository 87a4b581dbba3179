"""Why an order of the work can't be worked, and screws that no order leaves room for, as findings."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.assembly.order import Before, Operation
from tutorial_lib.findings import Finding

LONG_BIT_FROM = Fraction(3)  # [in] free for the bit; then a longer bit does


def refused(found: Sequence[Operation], before: Sequence[Before], order: Sequence[str]) -> tuple[Finding, ...]:
    """Why an order can't be worked: pieces that are not there yet, screws that would be locked away.

    Args:
        found: the operations.
        before: what precedes what.
        order: keys of the operations in the order asked for; those left out come last.
    """
    keys = [*order, *(o.key for o in found if o.key not in order)]
    place = {key: i for i, key in enumerate(keys)}
    return tuple(
        finding(demand)
        for demand in before
        if demand.first in place and demand.then in place and place[demand.first] > place[demand.then]
    )


def finding(demand: Before) -> Finding:
    """A demand that an order breaks, as a finding."""
    first, then = (NOUNS.get(key, key) for key in (demand.first, demand.then))
    if demand.piece:
        return Finding(
            rule="locked away",
            severity="stop",
            what=f"With {demand.piece} in place no driver reaches the screws of {demand.joint}.",
            remedy=f"Do the {first} before the {then}.",
        )
    return Finding(
        rule="order",
        severity="stop",
        what=f"{then[:1].upper()}{then[1:]} before {first}: {demand.why}.",
        remedy=f"Do the {first} before the {then}.",
    )


def unreachable(demand: Before) -> Finding:
    """Screws that no order leaves room for: a piece in the way has to be there first."""
    if demand.room >= LONG_BIT_FROM:
        return Finding(
            rule="driver room",
            severity="caution",
            what=f"{demand.piece} stands beside the screws of {demand.joint}: the driver's body meets it.",
            remedy="Use a long bit or a right-angle driver, or set the screws further from it.",
        )
    return Finding(
        rule="locked away",
        severity="stop",
        what=f"No driver reaches the screws of {demand.joint}: {demand.piece} has to be on before them, and is in "
        "the way.",
        remedy="Drive them from the other side, or move them.",
    )


NOUNS = {
    "ply": "leg boards",
    "post": "corner blocks",
    "end": "head and foot ends",
    "panel": "headboard's boards",
    "panel slats": "headboard's slats",
    "headboard": "headboard",
    "corner": "corners",
    "cleat": "cleats",
    "runner": "runners",
    "block": "blocks under the centre lines",
    "line": "centre lines",
    "plinth": "plinth boards",
    "leg": "legs",
    "slat": "slats",
    "leg from above": "legs that are screwed from above",
}
