"""A set-back plinth: boards round legs that stand in from the bed's edges, so that the deck seems to float.

The legs carry the bed as they do without it. The boards end above the floor and below the deck and carry nothing; or
they are an inner frame that stands on the floor and reaches the deck. What that takes off the legs is never counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.design.heights import Stack
from tutorial_lib.design.model import SIDES, Axis, Joint, Leg, Piece, Point, Section
from tutorial_lib.design.options import Options
from tutorial_lib.design.sizes import Sizes
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

OFF_FLOOR = Fraction(1, 4)  # [in] under the boards, so that the legs alone stand on the floor; our choice
CARRIES_FROM = Fraction(11, 8)  # [in] of thickness that a board of an inner frame stands on (our choice)
FASTENED_FROM = Fraction(1)  # [in] of a leg's face that takes a screw of the plinth; our choice


@dataclass(frozen=True, kw_only=True)
class PlinthBoard:
    """One board of the plinth before it is a piece."""

    label: str
    part: str
    said: str
    lo: Point
    hi: Point
    axis: Axis
    section: Section


def refuse_plinths(options: Options) -> Iterator[Fault]:
    """A plinth wants wooden legs that stand in under runners, and nothing that is to pass between them."""
    if options.plinth.lumber is None:
        if options.plinth.carries:
            yield Fault("plinth.carries", 'is for an inner frame; say of which boards: plinth.lumber = "2x8".')
        return
    lumber = f'= "{options.plinth.lumber}"'
    if options.support.kind != "runners" or options.frame.posts:
        yield Fault("plinth.lumber", f'{lumber} goes round legs set back under runners: support.kind = "runners".')
    elif options.legs.kind not in ("post", "doubled") or options.tubes:
        yield Fault("plinth.lumber", f"{lumber} is screwed to posts or doubled legs; choose one of these as legs.kind.")
    elif options.legs.omit or options.legs.per_side < 2:
        yield Fault("plinth.lumber", f"{lumber} needs a leg at each of its corners; leave none of them out.")
    if options.storage.width is not None:
        yield Fault("plinth.lumber", f"{lumber} shuts in the boxes under [storage]; have the one or the other.")


def plinth_boards(options: Options, sizes: Sizes, level: Stack, legs: Sequence[Leg]) -> Iterator[PlinthBoard]:
    """Two boards along the side legs' outer faces and two across the end legs', those along running past.

    Raises:
        DesignError: legs that don't stand in far enough, or boards wider than there is room for.
    """
    board = sizes.plinth
    if board is None:
        return
    carries = options.plinth.carries
    base = "base" if carries else "plinth"
    low = Fraction(0) if carries else level.leveller + OFF_FLOOR
    high, thick = low + board.width, board.thickness
    if carries:
        _reaches(options, board, level)
    sides = [leg for leg in legs if leg.line in SIDES]
    x0 = min(leg.near_edge for leg in sides)
    x1 = max(leg.near_edge + leg.size[0] for leg in sides)
    y0 = min(leg.y - leg.size[1] / 2 for leg in sides)
    y1 = max(leg.y + leg.size[1] / 2 for leg in sides)
    _has_room(options, board, min(x0, y0), level.support_bottom - high)
    for name, at in zip(SIDES, (y0 - thick, y1), strict=True):
        yield PlinthBoard(
            label=f"{base} side {name}", part="plinth_side", said=f"{name} {base} side", axis=0, section=board,
            lo=(x0 - thick, at, low), hi=(x1 + thick, at + thick, high),
        )  # fmt: skip
    for name, at in zip(("head", "foot"), (x0 - thick, x1), strict=True):
        yield PlinthBoard(
            label=f"{base} end {name}", part="plinth_end", said=f"{name} {base} end", axis=1, section=board,
            lo=(at, y0, low), hi=(at + thick, y1, high),
        )  # fmt: skip


def _reaches(options: Options, board: Section, level: Stack) -> None:
    """An inner frame stands on the floor and ends under the deck, as the legs do."""
    w, faults = writer(options.build.units), []
    if board.thickness < CARRIES_FROM:
        thick = f"is {w.length(board.thickness)} thick; an inner frame stands on {w.length(CARRIES_FROM)} or more."
        faults.append(Fault("plinth.lumber", f'= "{options.plinth.lumber}" {thick}'))
    if level.leveller:
        faults.append(Fault("legs.leveller", "lifts the legs off an inner frame's floor; leave it out."))
    elif board.width != level.support_bottom:
        what = (
            f"= true stands from the floor to the deck: boards {w.length(board.width)} wide, and the deck's underside "
            f'is {w.length(level.support_bottom)} up. Set heights.underside = "{w.length(board.width)}", or use other '
            "boards."
        )
        faults.append(Fault("plinth.carries", what))
    if faults:
        raise DesignError(faults)


def _has_room(options: Options, board: Section, inset: Fraction, above: Fraction) -> None:
    w, faults = writer(options.build.units), []
    if inset < board.thickness:
        faults.append(
            f"is {w.length(board.thickness)} thick, and the legs stand in by {w.length(inset)}: set legs.setback and "
            "legs.side_setback to more than that, so that the deck reaches past the boards."
        )
    if above < 0:
        faults.append(f"is {w.length(-above)} too wide to end below the deck; use narrower boards, or raise the bed.")
    if faults:
        raise DesignError([Fault("plinth.lumber", f'= "{options.plinth.lumber}" {what}') for what in faults])


def plinth_joints(legs: Sequence[Leg], pieces: dict[str, Piece]) -> Iterator[Joint]:
    """Each board to the legs behind it, and those along to those across at the corners."""
    boards = [piece for piece in pieces.values() if piece.part in ("plinth_side", "plinth_end")]
    ends = [[piece] for piece in boards if piece.part == "plinth_end"]
    for board in boards:
        for leg in legs:
            yield from _to_leg(board, [pieces[label] for label in leg.pieces])
        for (end,) in ends if board.part == "plinth_side" else ():
            yield from filter(None, [_joint(board, end)])


def _to_leg(board: Piece, behind: Sequence[Piece]) -> Iterator[Joint]:
    """A board to one of a leg's pieces behind it, the one farthest from the board's ends."""
    found = [joint for far in behind if (joint := _joint(board, far)) is not None]
    yield from sorted(found, key=lambda joint: -_from_end(board, joint))[:1]


def _from_end(board: Piece, joint: Joint) -> Fraction:
    """From the middle of a shared face to the board's nearer end [in]: of a doubled leg the inner board is taken."""
    at = joint.contact.centre[board.axis]
    return min(at - board.box.lo[board.axis], board.box.hi[board.axis] - at)


def _joint(near: Piece, far: Piece) -> Joint | None:
    contact = near.box.contact(far.box)
    across: Axis = 1 if near.axis == 0 else 0
    if contact is None or contact.size[across] != 0:
        return None
    if min(size for axis, size in enumerate(contact.size) if axis != across) < FASTENED_FROM and far.axis == 2:
        return None
    sign = 1 if near.box.centre[across] < far.box.centre[across] else -1
    return Joint(kind="plinth", near=near.label, far=far.label, axis=across, sign=1 if sign > 0 else -1,
                 contact=contact, end_grain=far.axis == across)  # fmt: skip
