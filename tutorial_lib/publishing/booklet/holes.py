"""Holes, piece by piece: every face drawn, every hole in a table set up bit by bit, a box for each piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.drawing import holes as draw
from tutorial_lib.drawing.bits import bit
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.lists.names import joint_name
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, drawn

if TYPE_CHECKING:
    from tutorial_lib.drilling.schedule import Hole, PieceHoles

EACH = 2  # pieces drilled alike up to this many have a box each
LONG, SHORT = 84.0, 92.0  # [pt] greatest heights of a long face and of a short one
BESIDE = 6  # rows of a table that stands beside its drawing
LARGEST = 12.0  # [pt per in]
ABREAST = (2, 2)  # so many short faces and tables stand side by side, as for a leg's boards
MOST_ROWS = 12  # of a table; more stand in two


@dataclass(frozen=True)
class Alike:
    """Pieces with the same table: those drilled alike, and their mirror image."""

    group: PieceHoles
    mirror: PieceHoles | None = None

    @property
    def pieces(self) -> tuple[str, ...]:
        """All their labels."""
        return (*self.group.pieces, *(self.mirror.pieces if self.mirror else ()))


def leaves(book: Book) -> Iterator[Leaf]:
    """The pages of holes."""
    pairs = alike(book.plan.drilling.schedule)
    if pairs:
        data = {"units": book.w.units, "pieces": [_piece(book, pair) for pair in pairs]}
        yield Leaf("holes", data)


def alike(groups: Sequence[PieceHoles]) -> list[Alike]:
    """The schedule with mirror images told together, where their marks are the same."""
    found: list[Alike] = []
    taken = set[str]()
    for group in groups:
        if group.piece.label in taken:
            continue
        mirror = next((g for g in groups if g.piece.label == group.mirrored and _print(g) == _print(group)), None)
        taken |= {mirror.piece.label} if mirror else set()
        found.append(Alike(group, mirror))
    return found


def _print(group: PieceHoles) -> list[tuple[object, ...]]:
    return sorted((h.face, h.u, h.v, h.diameter, h.depth or 0, h.countersink or 0) for h in group.holes)


def _piece(book: Book, pair: Alike) -> Data:
    group = pair.group
    faces = [face for face in group.faces if _first(group, face) == face]
    sets = {face: list(_sets(pair, face)) for face in faces}
    beside = all(len(found) == 1 and len(found[0].holes) <= BESIDE for found in sets.values())
    tables = sum(map(len, sets.values()))
    short = all(draw.face_size(group, face)[0] <= draw.SHORT for face in faces)
    abreast = short and (len(faces), tables) == ABREAST
    return {
        "letter": book.letters[group.part], "name": group.name, "which": _capital(_which(pair.pieces)),
        "how": how(pair), "faces": [_face(book, group, face, beside, abreast) for face in faces], "abreast": abreast,
        "sets": [_told_set(book, one) for face in faces for one in sets[face]],
    }  # fmt: skip


def _first(group: PieceHoles, face: str) -> str:
    """The first face bored like this one: two ends bored alike are told once."""
    if not group.on(face)[0].end_face:
        return face
    ends = [name for name in group.faces if group.on(name)[0].end_face]
    return next(name for name in ends if _bored(group, name) == _bored(group, face))


def _bored(group: PieceHoles, face: str) -> list[tuple[object, ...]]:
    return [(h.u, h.v, h.diameter, h.depth, h.countersink) for h in group.on(face)]


def _both(group: PieceHoles, face: str) -> str:
    return " and ".join(name for name in group.faces if _first(group, name) == face)


def _which(labels: Sequence[str]) -> str:
    return f"{labels[0]} to {labels[-1]}, {len(labels)} in all" if len(labels) > 4 else ", ".join(labels)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def how(pair: Alike) -> str:
    """Where the marks run from, and how they are carried over."""
    group = pair.group
    told = [f"Marks run from the {group.datum_end}; carry them over: {group.method}."]
    if pair.mirror:
        told.append(f"{_capital(_which(pair.mirror.pieces))}: the mirror image, the same marks.")
    elif group.mirrored:
        told.append(f"The mirror image of {group.mirrored}.")
    if group.turned:
        told.append(f"{_capital(group.turned)}.")
    return " ".join(told)


def _face(book: Book, group: PieceHoles, face: str, beside: bool, abreast: bool) -> Data:
    size = "short" if draw.face_size(group, face)[0] <= draw.SHORT else "middle" if beside else "long"
    scene = draw.face_drawing(book.plan.build, group, face)
    narrow = (book.width - 60) / 4.6 if abreast else (book.width - 40) / 3
    width = {"short": narrow, "middle": (book.width - 20) * 0.62, "long": book.width}[size]
    scene = fitted(scene.shapes, width, scene.alt, height=SHORT if size == "short" else LONG, largest=LARGEST,
                   style=PAPER)  # fmt: skip
    edge = group.datum_edges[face]
    lies = "" if draw.edge_on_top(book.plan.build, group, face) else f", {edge} below"
    told = f"{_both(group, face)}{lies}, {draw.first_datum(group, face)} on the left"
    return {"picture": drawn(scene), "size": size, "told": told}


@dataclass(frozen=True)
class Setting:
    """Holes of one face that take one setting of one bit, and the boxes to tick them off."""

    group: PieceHoles
    face: str
    holes: tuple[Hole, ...]
    boxes: tuple[str, ...]


def _sets(pair: Alike, face: str) -> Iterator[Setting]:
    """The holes of one face by what bores them, so that a bit is set once; many of them in two lots."""
    group = pair.group
    found: dict[tuple[object, ...], list[Hole]] = {}
    for hole in group.on(face):
        key = (hole.diameter, hole.bit, hole.depth, hole.countersink, hole.head_depth, hole.table)
        found.setdefault(key, []).append(hole)
    few = len(pair.pieces) <= EACH
    boxes = tuple(_short(group.name, label) for label in pair.pieces) if few else ("done",)
    for mine in found.values():
        half = len(mine) if len(mine) <= MOST_ROWS else -(-len(mine) // 2)
        for start in range(0, len(mine), half):
            yield Setting(group, face, tuple(mine[start : start + half]), boxes)


def _told_set(book: Book, setting: Setting) -> Data:
    group, face, one, w = setting.group, setting.face, setting.holes[0], book.w
    deep = "through" if one.depth is None else f"{' or '.join(book.length(one.depth))} deep"
    sink = [f"sink {' or '.join(_told(book, one.countersink))}"] if one.countersink else []
    recess = [f"head {w.length(one.head_depth)} under"] if one.head_depth else []
    return {
        "picture": drawn(bit(one.diameter, one.countersink, one.bit), full_size=True),
        "bit": " or ".join([one.bit, *book.bit(one.diameter)[1:]]), "deep": ", ".join([deep, *sink, *recess]),
        "for": f"{_both(group, face)}, {joint_name(one.table)}",
        "along": draw.first_datum(group, face), "down": group.datum_edges[face], "boxes": list(setting.boxes),
        "rows": [[book.mark(hole.u), book.mark(hole.v)] for hole in setting.holes],
    }  # fmt: skip


def _told(book: Book, x: Fraction) -> list[str]:
    return [book.w.bit(x), *book.bit(x)[1:]]


def _short(name: str, label: str) -> str:
    """What tells the pieces of a group apart: "left" of "cleat left"."""
    return label.removeprefix(f"{name} ")
