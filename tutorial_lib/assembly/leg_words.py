"""What is said of legs that are fitted in the frame: some are met at their tops, some only hold a rail beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tutorial_lib.assembly.order import Operation
from tutorial_lib.assembly.words import WORDS, Wording
from tutorial_lib.design.model import SIDES, Build, Joint, Leg
from tutorial_lib.measures import Writer


def of_legs(build: Build, operation: Operation, w: Writer) -> Wording:
    """The words for a step that fits legs.

    Args:
        build: the bed.
        operation: the work; its legs enter the frame with it.
        w: what writes its lengths.
    """
    legs = [leg for leg in build.legs if not set(leg.pieces).isdisjoint(operation.enters)]
    met = {label for joint in _joints(build) if joint.axis == 2 for label in (joint.near, joint.far)}
    beside = [leg for leg in legs if met.isdisjoint(leg.pieces)]
    if not beside:
        return WORDS["leg"]
    if len(beside) == len(legs):
        look, wrong = _level(build, beside, "The legs' tops", w), _alone(build, beside, "these legs")
        return replace(WORDS["leg"], look=(look,), wrong=(wrong,))
    above, others = _named([leg for leg in legs if leg not in beside]), _named(beside)
    return replace(
        WORDS["leg"],
        look=(f"{above}: tight against what is above, no gap at the top.", _level(build, beside, f"{others}: tops", w)),
        wrong=(
            f"{above}: without a touch at the top it hangs on its fasteners alone.",
            _alone(build, beside, f"{others[:1].lower()}{others[1:]}"),
        ),
    )


def sides_of_plies(build: Build) -> Iterator[str]:
    """Which board of a leg is which: their holes differ, and a leg of a side is no leg of the other.

    Args:
        build: a bed with legs of two boards.
    """
    made = [leg for leg in build.legs if len(_plies(build, leg)) > 1]
    sides, middle = ([leg for leg in made if (leg.line in SIDES) is side] for side in (True, False))
    if sides and build.options.legs.kind == "corner L":
        yield (
            "Of a side leg's boards, ply a lies along the side rail with its face outward; ply b stands square behind "
            f"it, flush with the edge nearer the end of the bed{_halfway(build, sides)}."
        )
    elif sides:
        yield "Of a side leg's boards, ply a goes on the side that looks out of the bed, ply b on the inner side."
    if middle:
        yield "Of a centre leg's boards, ply a goes on the bed's left, ply b on its right."


def _plies(build: Build, leg: Leg) -> list[str]:
    return [label for label in leg.pieces if build.pieces[label].shape == "box"]


def _halfway(build: Build, legs: Sequence[Leg]) -> str:
    """A leg right in the middle has its second board toward the head."""
    middle = [leg for leg in legs if leg.x * 2 == build.outside[1]]
    return "; in a middle leg, nearer the head" if middle else ""


def _joints(build: Build) -> Iterator[Joint]:
    """All that holds legs to what is above or beside them."""
    for kind in ("leg", "line_leg", "flange"):
        yield from build.joints_of(kind)


def _named(legs: Sequence[Leg]) -> str:
    return f"Legs {', '.join(leg.label for leg in legs)}" if len(legs) > 1 else f"Leg {legs[0].label}"


def _level(build: Build, legs: Sequence[Leg], tops: str, w: Writer) -> str:
    """Where the tops of legs stand that have nothing on them but slats, or nothing at all."""
    top = build.pieces[legs[0].pieces[0]].box.hi[2]
    cleats = [piece.box for piece in build.pieces.values() if piece.use == "cleat"]
    faces = [
        *((box.hi[2], "the cleats' tops") for box in cleats),
        *((box.lo[2], "the cleats' undersides") for box in cleats),
    ]
    level = next((f"level with {face}" for height, face in faces if height == top), "")
    drop = build.heights.rail_top - top
    below = f"{w.length(drop)} below the rails' top edges" if drop else ""
    return f"{tops} {', '.join(filter(None, (level, below)))}."


def _alone(build: Build, legs: Sequence[Leg], which: str) -> str:
    """What holds the rails on such legs."""
    pieces = {label for leg in legs for label in leg.pieces}
    held = {j.fastener for j in _joints(build) if j.axis != 2 and not pieces.isdisjoint((j.near, j.far))}
    words = [word for word in ("bolt", "screw") if word in held] or ["screw"]
    kinds = " and ".join(f"{word}s" for word in words)
    return f"Nothing but {kinds} holds the rails on {which}: leave none out."
