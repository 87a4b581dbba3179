"""Where an angle bracket has room: the inner corner between a piece that ends and one that runs on past it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.design.model import Box, Build, Joint
from tutorial_lib.records import dataclass

ARMS = (Fraction(2), Fraction(1))  # [in] along each of the two pieces; smaller brackets where larger have no room


@dataclass(frozen=True, kw_only=True)
class Corner:
    """The corner that a bracket is screwed into."""

    ends: str  # label of the piece whose face it lies on
    face: str  # of that piece: "side", "top", "underside"
    runs: str  # label of the piece that runs on past it
    width: Fraction  # [in] along the corner: no bracket may be wider
    arms: Fraction  # [in] as long as an arm may be, at least


def hangs(joint: Joint) -> bool:
    """True where a joist hanger holds the end of a centre line that nothing else carries."""
    return joint.kind == "line_end" and joint.bears and joint.axis != 2


def corner_of(build: Build, joint: Joint) -> Corner | None:
    """The corner with most room for an angle bracket; None where no corner has an inch each way, or for a hanger.

    Args:
        build: the bed.
        joint: a joint that a bracket holds.
    """
    if hangs(joint) or joint.kind == "post":  # hangers and hooks have a place of their own
        return None
    for arm in ARMS:
        corners = sorted(_corners(build, joint, arm), key=lambda found: -found[0])
        if corners:
            return corners[0][1]
    return None


def _corners(build: Build, joint: Joint, arm: Fraction) -> Iterator[tuple[Fraction, Corner]]:
    """Corners with room for such arms, each with how far its two pieces run [in]."""
    along = joint.axis
    for across in (axis for axis in (1, 0, 2) if axis != along):
        third = 3 - along - across
        for sign in (-1, 1):
            for ends, runs in ((joint.near, joint.far), (joint.far, joint.near)):
                one, other = build.pieces[ends].box, build.pieces[runs].box
                edge = _face(joint.contact, across, sign)
                beyond = sign * (_face(other, across, sign) - edge)
                room = min(beyond, one.size[along])
                if _face(one, across, sign) == edge and room >= arm and _free(build, joint, ends, (across, sign), arm):
                    face = "side" if across < 2 else ("underside", "top")[sign > 0]
                    width = joint.contact.size[third]
                    yield room, Corner(ends=ends, face=face, runs=runs, width=width, arms=arm)


def _face(box: Box, axis: int, sign: int) -> Fraction:
    return box.hi[axis] if sign > 0 else box.lo[axis]


def _free(build: Build, joint: Joint, ends: str, out: tuple[int, int], arm: Fraction) -> bool:
    """Whether nothing stands in the room beside a face, out to one arm and along the piece to the other."""
    along, (across, sign), lo, hi = joint.axis, out, list(joint.contact.lo), list(joint.contact.hi)
    inward = 1 if build.pieces[ends].box.centre[along] > joint.contact.centre[along] else -1
    for axis, way in ((along, inward), (across, sign)):
        start = _face(joint.contact, axis, way)
        lo[axis], hi[axis] = sorted((start, start + way * arm))
    room = Box((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2]))
    return not any(room.overlaps(piece.box) for piece in build.pieces.values())
