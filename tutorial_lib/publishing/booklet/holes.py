"""Holes, piece by piece: every face drawn, every hole in a table set up bit by bit, a box for each piece."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, takewhile
from typing import TYPE_CHECKING

from tutorial_lib.drawing import holes as draw
from tutorial_lib.drawing.bits import bit
from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.lists.names import joint_name
from tutorial_lib.measures import Writer
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, drawn

if TYPE_CHECKING:
    from tutorial_lib.design.model import Part
    from tutorial_lib.drilling.schedule import Hole, PieceHoles

FEW, SLIGHT = 5, 4  # blocks of slats that each have a line of the page; holes on such a slat
EACH = 2  # pieces drilled alike up to this many have a box each
RUN = 4  # labels in a row up to this many are told one by one
LONG, SHORT = 84.0, 92.0  # [pt] greatest heights of a long face and of a short one
BESIDE = 6  # rows of a table that stands beside its drawing
LARGEST = 12.0  # [pt per in]
ABREAST = (2, 2)  # so many short faces and tables stand side by side, as for a leg's boards
MOST_ROWS = 12  # of a table; more stand in two


@dataclass(frozen=True)
class Alike:
    """Pieces with the same table: those drilled alike, and their mirror image."""

    group: PieceHoles
    same: tuple[PieceHoles, ...] = ()  # others whose marks differ by less than a tape shows
    mirror: PieceHoles | None = None

    @property
    def own(self) -> tuple[str, ...]:
        """Labels of the pieces that aren't the mirror image."""
        return tuple(label for group in (self.group, *self.same) for label in group.pieces)

    @property
    def pieces(self) -> tuple[str, ...]:
        """All their labels."""
        return (*self.own, *(self.mirror.pieces if self.mirror else ()))


def leaves(book: Book) -> Iterator[Leaf]:
    """The pages of holes."""
    pairs = alike(book.plan.drilling.schedule, book.w)
    if pairs:
        many = sum(map(_slight, pairs)) > FEW
        yield Leaf("holes", {
            "units": book.w.units, "pieces": [_piece(book, pair, half=many and _slight(pair)) for pair in pairs],
        })  # fmt: skip


def _slight(pair: Alike) -> bool:
    """A long face with few holes, all of one bit: a slat."""
    group = pair.group
    bits = {(hole.face, hole.diameter, hole.depth, hole.countersink) for hole in group.holes}
    long = all(draw.face_size(group, face)[0] > draw.SHORT for face in group.faces)
    return long and len(bits) == 1 and len(group.holes) <= SLIGHT


def alike(groups: Sequence[PieceHoles], w: Writer) -> list[Alike]:
    """The schedule with what a tape can't tell apart told together, mirror images too where the marks are the same."""
    found: list[Alike] = []
    taken, told = set[str](), {group.piece.label: _as_told(group, w) for group in groups}
    for group in groups:
        if group.piece.label in taken:
            continue
        same = [g for g in groups if g is not group and told[g.piece.label] == told[group.piece.label]]
        mirror = next((g for g in same if g.piece.label == group.mirrored), None)
        taken |= {g.piece.label for g in same}
        found.append(Alike(group, tuple(g for g in same if g is not mirror), mirror))
    return found


def _as_told(group: PieceHoles, w: Writer) -> tuple[object, ...]:
    """All that the page says of a piece's holes."""
    rows = sorted((h.face, w.mark(h.u), w.mark(h.v), h.diameter, h.depth or 0, h.countersink or 0) for h in group.holes)
    return group.part, group.piece.length, group.datum_end, sorted(group.datum_edges.items()), rows


def _piece(book: Book, pair: Alike, half: bool = False) -> Data:
    """One block of the pages.

    Args:
        book: what it is made from.
        pair: the pieces.
        half: two such blocks stand side by side.
    """
    group, part = pair.group, book.plan.build.part(pair.group.part)
    faces = [face for face in group.faces if _first(group, face) == face]
    sets = {face: list(_sets(book, pair, face)) for face in faces}
    beside = all(len(found) == 1 and len(found[0].holes) <= BESIDE for found in sets.values())
    tables = sum(map(len, sets.values()))
    short = all(draw.face_size(group, face)[0] <= draw.SHORT for face in faces)
    abreast = short and (len(faces), tables) == ABREAST
    return {
        "letter": book.letters[group.part], "name": group.name, "which": _capital(_which(part, pair.pieces)),
        "how": how(part, pair, briefly=half), "abreast": abreast, "half": half,
        "faces": [_face(book, group, face, "half" if half else "beside" if beside else "", abreast) for face in faces],
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


def _which(part: Part, labels: Collection[str]) -> str:
    """Pieces of a part by their labels; many in a row by the first and the last."""
    mine = [piece.label for piece in part.pieces if piece.label in labels]
    short = dict(zip(mine, _apart(mine), strict=True))
    runs = [[short[p.label] for p in run] for on, run in groupby(part.pieces, lambda p: p.label in short) if on]
    told = [f"{run[0]} to {run[-1]}" if len(run) > RUN else ", ".join(run) for run in runs]
    told += [f"{len(mine)} in all"] if len(mine) > RUN else []
    return mine[0].removesuffix(short[mine[0]]) + ", ".join(told)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def how(part: Part, pair: Alike, briefly: bool = False) -> str:
    """Where the marks run from, and how they are carried over; briefly without what it is the mirror image of."""
    group = pair.group
    most = max((group, *pair.same), key=lambda g: len(g.pieces))
    told = [f"Marks run from the {group.datum_end}; carry them over: {most.method}."]
    if pair.mirror:
        told.append(f"{_capital(_which(part, pair.mirror.pieces))}: the mirror image, the same marks.")
    elif group.mirrored and not pair.same and not briefly:
        told.append(f"The mirror image of {group.mirrored}.")
    told += [f"{_capital(g.turned)}." for g in (group, *pair.same) if g.turned]
    return " ".join(told)


def _face(book: Book, group: PieceHoles, face: str, place: str, abreast: bool) -> Data:
    size = "short" if draw.face_size(group, face)[0] <= draw.SHORT else "middle" if place else "long"
    scene = draw.face_drawing(book.plan.build, group, face)
    narrow = (book.width - 60) / 4.6 if abreast else (book.width - 40) / 3
    middle = (book.width - 24) / 2 * 0.43 if place == "half" else (book.width - 20) * 0.62
    width = {"short": narrow, "middle": middle, "long": book.width}[size]
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


def _sets(book: Book, pair: Alike, face: str) -> Iterator[Setting]:
    """The holes of one face by what bores them, so that a bit is set once; many of them in two lots."""
    group = pair.group
    found: dict[tuple[object, ...], list[Hole]] = {}
    for hole in group.on(face):
        key = (hole.diameter, hole.bit, hole.depth, hole.countersink, hole.head_depth, hole.table)
        found.setdefault(key, []).append(hole)
    mine = [piece for piece in book.plan.build.part(group.part).pieces if piece.label in pair.pieces]
    boxes = _apart([piece.label for piece in mine]) if len(mine) <= EACH else ("done",)
    for lot in found.values():
        half = len(lot) if len(lot) <= MOST_ROWS else -(-len(lot) // 2)
        for start in range(0, len(lot), half):
            yield Setting(group, face, tuple(lot[start : start + half]), boxes)


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


def _apart(labels: Sequence[str]) -> tuple[str, ...]:
    """What tells labels apart: "left" and "right" of "cleat left" and "cleat right"."""
    alike = "".join(letters[0] for letters in takewhile(lambda some: len(set(some)) == 1, zip(*labels, strict=False)))
    return tuple(label[alike.rfind(" ") + 1 :] for label in labels)
