"""Where a step's pieces go, in figures: marks along a board, places across it, and the spacers that set a height."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from tutorial_lib.assembly.order import Operation, Way
from tutorial_lib.design.model import SIDES, Build, Leg, Piece
from tutorial_lib.design.straps import straps_of
from tutorial_lib.measures import Writer
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Block:
    """A spacer that sets a part to its level, cut from an offcut."""

    size: Fraction  # [in]
    holds: str  # what it is for


LINES = ("centre_beam", "centre_runner")


def spacers(build: Build, operation: Operation) -> tuple[Block, ...]:
    """Spacers for cleats on their rails, and for lines and legs that end below the rails' top edges."""
    found = []
    for label in operation.enters:
        piece = build.pieces[label]
        drop = build.heights.rail_top - piece.box.hi[2]
        if drop > 0 and (holds := _held_off(build, operation, piece)):
            found.append(Block(drop, holds))
    return tuple(dict.fromkeys(found))


def _held_off(build: Build, operation: Operation, piece: Piece) -> str:
    """What a piece is called that stands on a spacer in this step; "" when it needs none."""
    if operation.group == "cleat" and piece.use == "cleat":
        return "the cleats"
    if operation.group == "line" and piece.use in LINES and piece.label in _between_rails(build, operation):
        return "the centre line" if len(build.lines) == 3 else "the centre lines"
    return "the legs" if operation.group == "leg" and _is_leg_inside(build, operation, piece) else ""


def _between_rails(build: Build, operation: Operation) -> set[str]:
    """Lines that end between the end rails; on runners they lie on the end rails' edges."""
    ends = [joint for joint in operation.joints if joint.kind == "line_end"]
    on_blocks = {joint.far for joint in ends if build.pieces[joint.near].use == "beam_block"}
    return on_blocks | {joint.near for joint in ends if joint.axis == 0}


def _is_leg_inside(build: Build, operation: Operation, piece: Piece) -> bool:
    """Whether a piece is of a side's leg that is set inside the frame, not on the bench."""
    inside = build.options.leg_place == "inside" and not operation.prepares
    return inside and any(piece.label in leg.pieces for leg in build.legs if leg.line in SIDES)


def places(build: Build, operation: Operation, way: Way, w: Writer) -> Iterator[str]:
    """Where the newcomers go, in figures."""
    for block in spacers(build, operation):
        yield _from_block(block, operation, way, w)
    if operation.group in ("post", "end", "corner") and build.options.frame.posts:
        yield from _at_posts(build, operation, w)
    tell = TOLD.get(operation.group)
    if tell is not None:
        yield from tell(build, operation, w)
    yield from _lines(build, operation, w)


def _from_block(block: Block, operation: Operation, way: Way, w: Writer) -> str:
    size = w.length(block.size)
    if operation.group == "cleat":
        return (
            f"Cut a spacer {size} wide from an offcut and hold it flush with the rail's top edge: the cleat's top "
            "meets it."
        )
    if way == "upside down":
        return f"Cut spacers {size} high and stand {block.holds} on them, top down: that sets the height."
    return f"The top of {block.holds} goes {size} below the rails' top edges."


def _at_posts(build: Build, operation: Operation, w: Writer) -> Iterator[str]:
    """Where blocks and battens go on the posts, and how high the rails; all up from the posts' feet."""
    post, rail = next(leg for leg in build.legs if leg.post), build.part("side_rail").section.thickness
    foot = build.pieces[post.pieces[0]].box.lo[2]
    low = w.length(build.heights.rail_bottom - foot)
    blocks = any(piece.use == "corner_block" for piece in build.pieces.values())
    if operation.group == "post":
        if blocks:
            yield (
                f"Two blocks go on each post, one for each of its rails: their lower ends {low} up from the post's "
                f"foot, their outer edges {w.length(rail - post.near_edge)} from the post's outer face, where the "
                "rail's inner face comes."
            )
        yield from _battens(build, foot, w)
    elif blocks:
        yield "The rails' lower edges are flush with the blocks'."
    else:
        yield f"The rails' lower edges go {low} up from the posts' feet."


def _battens(build: Build, foot: Fraction, w: Writer) -> Iterator[str]:
    """A headboard's battens on the faces of the head posts that look at each other."""
    battens = [piece.box for piece in build.pieces.values() if piece.use == "batten"]
    if battens:
        yield (
            f"A batten goes on the inner face of each head post: its lower end {w.length(battens[0].lo[2] - foot)} up "
            "from the post's foot, flush with the post's back."
        )


def _boards(build: Build, _: Operation, w: Writer) -> Iterator[str]:
    """The boards of a headboard, from the end rail's top edge up; on uprights from their feet."""
    boards = sorted(p.box.lo[2] for p in build.pieces.values() if p.use == "headboard")
    uprights = [p.box for p in build.pieces.values() if p.use == "upright"]
    start, datum = build.heights.rail_top, "above the end rail's top edge"
    whose = "rails'" if build.has("headboard_slat") else "boards'"
    if uprights:
        start, datum = uprights[0].lo[2], "up from the uprights' feet"
        yield f"The uprights stand {w.length(uprights[0].lo[1])} in from the {whose} ends."
    yield f"Mark the {whose} lower edges at {w.marks(board - start for board in boards)} {datum}."


def _panel_slats(build: Build, _: Operation, w: Writer) -> Iterator[str]:
    """The slats of a headboard along its rails, and how far the two rails lie apart."""
    slats = sorted(p.box.lo[1] for p in build.pieces.values() if p.use == "headboard_slat")
    low, high = sorted((p.box for p in build.pieces.values() if p.use == "headboard"), key=lambda box: box.lo[2])
    yield (
        f"Lay the two rails {w.length(high.lo[2] - low.hi[2])} apart, and mark the slats' left edges on both at "
        f"{w.marks(y - low.lo[1] for y in slats)} from their left ends, as seen from the bed."
    )


def _headboard(build: Build, _operation: Operation, _w: Writer) -> Iterator[str]:
    yield f"Its {'rails' if build.has('headboard_slat') else 'boards'} end flush with the bed's sides."


def _cleat_ends(build: Build, operation: Operation, w: Writer) -> Iterator[str]:
    """From the head end of the rail that a cleat goes on to the cleat's head end; both rails are alike."""
    cleats = [piece for piece in _entering(build, operation) if piece.use == "cleat"]
    rails = build.part("side_rail").pieces
    marks = sorted({piece.box.lo[0] - rails[0].box.lo[0] for piece in cleats})
    if marks == [0]:
        yield "The cleats end flush with the rails' ends."
    elif marks:
        yield f"Mark the cleats' head ends at {w.marks(marks)} from the rail's head end."


def _legs(build: Build, operation: Operation, w: Writer) -> Iterator[str]:
    """The legs along the bed or along the board they go on, then across."""
    coming = _coming(build, operation)
    sides = [leg for leg in coming if leg.line in SIDES]
    middle = [leg for leg in coming if leg.line not in SIDES]
    yield from _along(build, operation, sides, "the", w)
    yield from _along(build, operation, middle, "the centre", w)
    yield from _across(build, operation, sides, w)
    if middle and (operation.prepares or _flanged(build, middle)):
        yield "The centre legs stand in the middle of their line's width."
    if _flanged(build, coming):
        yield "Screw each flange in its place first, then turn its tube in."


def _coming(build: Build, operation: Operation) -> list[Leg]:
    return [leg for leg in build.legs if not set(leg.pieces).isdisjoint(operation.enters)]


def _flanged(build: Build, legs: Sequence[Leg]) -> bool:
    """True where some of these legs are tubes with flanges."""
    return any(build.pieces[label].shape == "plate" for leg in legs for label in leg.pieces)


def _possessive(build: Build, legs: Sequence[Leg]) -> str:
    return "flanges'" if _flanged(build, legs) else "legs'"


def _along(build: Build, operation: Operation, legs: Sequence[Leg], whose: str, w: Writer) -> Iterator[str]:
    """Head-side edges, from the head end of the bed; on the bench from that of the board, past it where they stand."""
    if not legs:
        return
    start, end = _marked_from(build, operation, legs[0])
    marks = sorted({leg.near_edge - start for leg in legs})
    ahead = [mark for mark in marks if mark >= 0]
    also = f"; the first stands {w.length(-marks[0])} past that end" if marks[0] < 0 else ""
    edges = f"{whose} {_possessive(build, legs)} head-side edges"
    yield f"Mark {edges} at {w.marks(ahead)} from the head end of {end}{also}."


def _marked_from(build: Build, operation: Operation, leg: Leg) -> tuple[Fraction, str]:
    """The head end that legs are marked from [in], and of what it is."""
    if operation.prepares:
        carriers = (piece for piece in _entering(build, operation) if piece.axis == 0 and _under(piece, leg))
        return min((piece.box.lo[0] for piece in carriers), default=Fraction(0)), "each board"
    if build.options.frame.posts and leg.line in SIDES:
        return build.part("side_rail").pieces[0].box.lo[0], "the side rail"
    return Fraction(0), "the bed"


def _under(board: Piece, leg: Leg) -> bool:
    """Whether a leg stands under a level board, seen from the head."""
    half = leg.size[1] / 2
    return board.box.lo[1] < leg.y + half and leg.y - half < board.box.hi[1]


def _across(build: Build, operation: Operation, legs: Sequence[Leg], w: Writer) -> Iterator[str]:
    """On the bench, and under a runner or rail: from the outer edge of the board above to the leg's outer face."""
    beside = build.options.support.kind == "cleats" and build.options.leg_place != "under the rail"
    if not legs or beside:
        return
    leg, what = min(legs, key=lambda leg: leg.y), _possessive(build, legs)
    outer, edge = leg.y - leg.size[1] / 2, Fraction(0)
    board = "the rail's outer face"
    if operation.prepares:
        edge = min(p.box.lo[1] for p in _entering(build, operation) if p.axis == 0 and _under(p, leg))
        board = "the board's outer edge"
    if outer == edge:
        yield f"The side {what} outer faces are flush with {board}."
    elif outer > edge:
        yield f"The side {what} outer faces stand back {w.length(outer - edge)} from {board}."
    else:
        yield f"The side legs stand out {w.length(edge - outer)} past {board}, where the rail comes to lie on them."


def _blocks(build: Build, operation: Operation, w: Writer) -> Iterator[str]:
    blocks = [build.pieces[label].box for label in operation.enters]
    if blocks:
        drop, edges = build.heights.rail_top - blocks[0].hi[2], sorted({box.lo[1] for box in blocks})
        yield (
            f"On each end rail mark the blocks' top edges {w.length(drop)} below its top edge, their left edges at "
            f"{w.marks(edges)} from the bed's left outer face."
        )


def _lines(build: Build, operation: Operation, w: Writer) -> Iterator[str]:
    """Where centre lines go across the bed, in the step that brings them into the frame."""
    coming = [piece for piece in _entering(build, operation) if piece.use in LINES]
    if operation.prepares or not coming:
        return
    start, datum = Fraction(0), "the bed's left outer face"
    if build.options.frame.posts:
        start, datum = build.part("end_rail").pieces[0].box.lo[1], "the end rails' left ends"
    edges = sorted(piece.box.lo[1] - start for piece in coming)
    one, many = "the centre line's left edge", "the centre lines' left edges"
    yield f"Mark {one if len(edges) == 1 else many} at {w.marks(edges)} from {datum}."
    if any(build.pieces[label].use == "beam_block" for label in operation.needs):
        yield "Lower each line beside its blocks, then slide it sideways under them."


def _plinth(build: Build, operation: Operation, w: Writer) -> Iterator[str]:
    """How far the boards stand back from the deck's edges, and off the floor."""
    along = next((piece.box for piece in _entering(build, operation) if piece.use == "plinth_side"), None)
    if along is not None:
        back, low = min(along.lo[1], build.outside[0] - along.hi[1]), along.lo[2]
        ends = f"end {w.length(low)} above" if low else "are flush with"
        name = "base frame" if build.options.plinth.carries else "plinth"
        yield (
            f"The {name}'s faces stand back {w.length(back)} from the bed's sides and {w.length(along.lo[0])} from its "
            f"ends; its lower edges {ends} the legs' feet."
        )


def _slats(build: Build, _: Operation, w: Writer) -> Iterator[str]:
    straps, play = straps_of(build), build.options.slats.play
    room = f", {w.length(play)} from the rail at each end" if play else ""
    clear = f"lie {w.length(play)} from the rails" if play else "touch the rails"
    if straps is not None:
        yield (
            f"Cut {straps.count} straps {w.length(straps.length)} long and mark every slat's head-side edge on each, "
            f"the first {w.length(straps.marks[0])} from its end. Their middles lie {w.marks(straps.places)} from the "
            f"slats' left ends; in the bed the slats' ends {clear}."
        )
    else:
        yield f"Mark every slat's head-side edge from the head rail's inner face, and lay the slats to the marks{room}."
    if build.options.slats.halves:
        left, right = build.slat_rows[0]
        apart = w.length(right.box.lo[1] - left.box.hi[1])
        yield f"Two half slats go to each mark; they meet over the centre line, {apart} apart."


def _entering(build: Build, operation: Operation) -> list[Piece]:
    return [build.pieces[label] for label in operation.enters]


TOLD: dict[str, Callable[[Build, Operation, Writer], Iterator[str]]] = {
    "panel slats": _panel_slats,
    "panel": _boards,
    "headboard": _headboard,
    "cleat": _cleat_ends,
    "leg": _legs,
    "block": _blocks,
    "slat": _slats,
    "plinth": _plinth,
}
