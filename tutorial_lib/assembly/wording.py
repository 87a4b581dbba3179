"""What is said of each kind of work: its title, what to do, where to look, what can go wrong; pieces counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.assembly.order import Operation, Way, rank
from tutorial_lib.design.model import SIDES, Build, Piece
from tutorial_lib.measures import Writer


@dataclass(frozen=True)
class Wording:
    """What is said of a kind of operation."""

    title: str
    do: tuple[str, ...]
    look: tuple[str, ...]
    wrong: tuple[str, ...]


WORDS = {
    "ply": Wording(
        "Make up the legs",
        (
            "Clamp the boards of each leg flush at the ends, then screw them together. Glue between them helps; the "
            "figures here don't count on it.",
        ),
        ("Both ends of each leg: the boards end in one plane.",),
        ("A leg whose boards are not flush rocks and carries on one board only.",),
    ),
    "corner": Wording(
        "Screw the corners",
        ("Clamp each corner with its faces flush, bore, and drive the screws.",),
        ("Top edges flush at all corners.",),
        ("Screws too near an end split the rail: bore first.",),
    ),
    "cleat": Wording(
        "Screw the cleats to the side rails",
        ("Hold each cleat to its line, clamp it, and drive the screws from one end to the other.",),
        ("Both cleats at the same distance from the rail's top edge.",),
        ("A cleat that runs out of line lets every slat on that side rock.",),
    ),
    "runner": Wording(
        "Screw the runners under the rails",
        ("Lay the runners on the rails' lower edges, outer faces flush, clamp, and drive the screws.",),
        ("Runner edges flush with the rails' outer faces.",),
        ("Once screwed, the runners hold the frame as it is: square it before.",),
    ),
    "block": Wording(
        "Screw on the blocks",
        ("Set each block to its marks on the end rail, clamp it, bore, and drive the screws.",),
        ("Blocks level with each other: lay a straight board across.",),
        ("A block that sits low leaves its centre line hanging on its screws.",),
    ),
    "line": Wording(
        "Fit the centre line",
        ("Set each line to its marks and fix its ends.",),
        ("Its top level with the seats along the sides: lay a straight board across.",),
        ("A line that stands proud makes the slats rock over it.",),
    ),
    "leg": Wording(
        "Fit the legs",
        ("Set each leg to its mark, square to the rail, and fix it.",),
        ("Each leg tight against what it carries; no gap at its top.",),
        ("A leg that does not touch at its top hangs on its screws alone.",),
    ),
    "bench leg": Wording(
        "Screw the legs to the boards they carry, on the bench",
        (
            "Lay the board on its edge, set each leg square against its mark, clamp it, and drive the screws through "
            "the board into the leg's end.",
        ),
        ("Legs square to the board, all on the same side of it, their tops tight against it.",),
        ("Once the rails stand on these boards no driver reaches the screws.",),
    ),
    "bench cleat": Wording(
        "Screw the cleats to the side rails on the bench",
        (
            "Lay each side rail on its outer face. Clamp the cleat against the block at one end, then at the other, "
            "and drive the screws from one end to the other.",
        ),
        ("Both cleats at the same distance from the rail's top edge, along the whole rail.",),
        ("A cleat that runs out of line lets every slat on that side rock.",),
    ),
    "slat": Wording(
        "Lay the slats",
        ("Mark every slat's near edge from the head end, lay the slats to the marks, and screw them down.",),
        ("The last slat at its mark before any screw is driven.",),
        ("A proud screw head under a slat makes it rock.",),
    ),
}


@dataclass(frozen=True)
class Block:
    """A spacer block that sets a part to its level, cut from an offcut."""

    size: Fraction  # [in]
    holds: str  # what it is for


def wording(operation: Operation) -> Wording:
    """Which words tell of an operation."""
    stem = operation.key.split(" ")[0]
    return WORDS[f"bench {stem}" if operation.prepares and stem != "ply" else stem]


def spacers(build: Build, operation: Operation) -> tuple[Block, ...]:
    """Blocks for cleats on their rails, and for centre lines while the frame lies on its top edges."""
    top, found = build.heights.rail_top, []
    between = {j.near for j in operation.joints if j.kind == "line_end" and j.axis == 0}  # others lie on the end rails
    for label in operation.enters:
        piece = build.pieces[label]
        drop = top - piece.box.hi[2]
        if drop <= 0:
            continue
        if operation.key.startswith("cleat") and _is(piece, "cleat"):
            found.append(Block(drop, "the cleats"))
        if operation.key.startswith("line") and label in between and _is(piece, "centre_beam", "centre_runner"):
            found.append(Block(drop, "the centre line" if len(build.lines) == 3 else "the centre lines"))
    return tuple(dict.fromkeys(found))


def _is(piece: Piece, *parts: str) -> bool:
    return any(piece.use == part or piece.part == part for part in parts)


def bring(build: Build, operation: Operation, made: Collection[str]) -> Iterator[str]:
    """What to fetch, by label; what was made up on the bench is named with what is on it.

    Args:
        build: the bed.
        operation: the work.
        made: labels of the pieces made up on the bench before.
    """
    if not operation.enters:
        return
    on = carried(build, operation, made)
    if on:
        rest = [label for label in operation.enters if label not in on]
        listed = f": {', '.join(rest)}" if len(rest) <= 6 else ""
        yield f"Take {counted(build, rest)}, with {counted(build, on)} on{listed}."
        return
    legs = {label: leg.label for leg in build.legs for label in leg.pieces}
    boards = operation.key == "ply"
    labels = list(dict.fromkeys(f"leg {legs[x]}" if x in legs and not boards else x for x in operation.enters))
    listed = ", ".join(labels) if len(labels) <= 6 else f"{labels[0]} to {labels[-1]}"
    yield f"Take {counted(build, operation.enters, boards)}: {listed}."


def carried(build: Build, operation: Operation, made: Collection[str]) -> list[str]:
    """Of the pieces that enter, those that were put on another of them on the bench."""
    both = [label for label in operation.enters if label in made]
    ranks = {label: rank(build.pieces[label].part) for label in both}
    low = min(ranks.values(), default=0)
    boards = {label for leg in build.legs for label in leg.pieces}
    return [label for label in both if ranks[label] > low and not (label in boards and low == rank("leg"))]


def places(build: Build, operation: Operation, way: Way, w: Writer) -> Iterator[str]:
    """Where the newcomers go, in figures."""
    for block in spacers(build, operation):
        yield from _from_block(block, operation, way, w)
    legs = [leg for leg in build.legs if set(leg.pieces) & set(operation.enters)]
    if operation.key.startswith("leg"):
        yield from _leg_marks(build, operation, [leg.near_edge for leg in legs if leg.line in SIDES], w)
    if any(joint.kind == "flange" for joint in operation.joints):
        yield "Screw each flange in its place first, then turn its tube in."
    if operation.key == "block":
        yield from _block_marks(build, operation, w)
    if operation.key.startswith("line"):
        lines = [line for line in build.lines if line.central]
        marks = w.marks(line.seat[0] for line in lines)
        yield f"Mark the left edge of each line at {marks} from the bed's left outer face."


def _block_marks(build: Build, operation: Operation, w: Writer) -> Iterator[str]:
    blocks = [build.pieces[label].box for label in operation.enters]
    if blocks:
        drop, edges = build.heights.rail_top - blocks[0].hi[2], sorted({box.lo[1] for box in blocks})
        yield (
            f"On each end rail mark the blocks' top edges {w.length(drop)} below its top edge, their left edges at "
            f"{w.marks(edges)} from the bed's left outer face."
        )


def _from_block(block: Block, operation: Operation, way: Way, w: Writer) -> Iterator[str]:
    size = w.length(block.size)
    if operation.key.startswith("cleat"):
        yield (
            f"Cut a spacer block {size} wide from an offcut and hold it flush with the rail's top edge: the cleat's "
            "top meets it."
        )
    elif way == "upside down":
        yield f"Cut spacer blocks {size} high and lay {block.holds} on them, top down: that sets the height."
    else:
        yield f"The top of {block.holds} goes {size} below the rails' top edges."


def _leg_marks(build: Build, operation: Operation, edges: Sequence[Fraction], w: Writer) -> Iterator[str]:
    """The legs' marks: from the head end of the bed, or of the board they go on."""
    if not edges:
        return
    marks = sorted(set(edges))
    if not operation.prepares:
        yield f"Mark the legs' head-side edges at {w.marks(marks)} from the head end of the bed."
        return
    carriers = [build.pieces[x] for x in operation.enters if build.pieces[x].axis == 0]
    start = min((piece.box.lo[0] for piece in carriers), default=Fraction(0))
    yield f"Mark the legs' head-side edges at {w.marks(x - start for x in marks)} from the head end of each board."


def laid_out(build: Build, operation: Operation) -> str:
    """The rails for the dry fit, with what is on them already."""
    rails = [label for label in operation.enters if rank(build.pieces[label].part) == 0]
    more = [label for label in operation.enters if label not in rails]
    on = f" (with {counted(build, more)} on)" if more else ""
    return f"{counted(build, rails)}{on}"


def counted(build: Build, labels: Iterable[str], boards: bool = False) -> str:
    """Pieces counted by part: "2 side rails and 2 end rails"; legs of two boards count as legs."""
    legs = {label: leg for leg in build.legs for label in leg.pieces if len(leg.pieces) > 1}
    names: Counter[str] = Counter()
    seen: set[str] = set()
    for label in labels:
        name = build.part_of(label).name
        if label in legs and not boards:
            if legs[label].label in seen:
                continue
            seen.add(legs[label].label)
            name = FLANGED if build.options.legs.kind == "tube" else "leg"
        elif label in legs:
            name += " board"
        names[name] += 1
    words = [f"{n} {plural(name) if n > 1 else name}" for name, n in names.items()]
    return " and ".join(filter(None, [", ".join(words[:-1]), *words[-1:]])) or "nothing"


FLANGED = "leg with its flange"


def plural(name: str) -> str:
    """More than one of a part."""
    return "legs with their flanges" if name == FLANGED else f"{name}s"


def numbered(people: int) -> str:
    """ "one person", "two people"."""
    words = ["nobody", "one person", "two people", "three people", "four people"]
    return words[people] if people < len(words) else f"{people} people"
