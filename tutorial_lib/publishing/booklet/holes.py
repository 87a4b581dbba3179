"""Holes, piece by piece: every face drawn, every hole in a table set up bit by bit, a box for each piece."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, takewhile
from typing import TYPE_CHECKING

from tutorial_lib.assembly.wording import counted
from tutorial_lib.drawing import holes as draw
from tutorial_lib.drawing.bits import bit
from tutorial_lib.drawing.layout import extent, fitted
from tutorial_lib.drawing.scene import PAPER, Scene
from tutorial_lib.lists.names import joint_name
from tutorial_lib.measures import Writer
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, drawn

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Part
    from tutorial_lib.drilling.schedule import Hole, PieceHoles

FEW, SLIGHT = 5, 4  # blocks of slats that each have a line of the page; holes on such a slat
EACH = 2  # pieces drilled alike up to this many have a box each
RUN = 4  # labels in a row up to this many are told one by one
HEIGHTS = {"long": 84.0, "middle": 84.0, "short": 92.0, "kin": 82.0}  # [pt] greatest of a face's drawing
CLOSE = {**HEIGHTS, "short": 80.0, "kin": 76.0}  # where there is much to tell
BESIDE = {1: 12, 2: 7}  # by a piece's faces: rows of tables that stand beside their drawings
LARGEST = 12.0  # [pt per in]
LEAST_WIDE, MORE = 0.7, (1.0, 1.25, 1.5)  # of its room that a long face takes; so much higher than usual for that
ABREAST = (2, 2)  # so many short faces and tables stand side by side, as for a leg's boards
MOST_ROWS = 12  # of a table; more stand in two
KIN_FACES = 2  # most faces of short pieces that share their bits' heads


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
            "units": book.w.units, "close": book.close,
            "pieces": [_kin(book, some) if len(some) > 1 else _piece(book, some[0], half=many and _slight(some[0]))
                       for some in families(book, pairs)],
        }, joined=True)  # fmt: skip


def families(book: Book, pairs: Sequence[Alike]) -> list[list[Alike]]:
    """Short pieces of one part that take the same bits stand together, though their marks differ; others alone."""
    found: dict[object, list[Alike]] = {}
    for pair in pairs:
        found.setdefault(_family(book, pair) or pair.pieces, []).append(pair)
    return list(found.values())


def _family(book: Book, pair: Alike) -> tuple[object, ...]:
    """What is told once of a family: its part, where its marks run from, its bits; nothing for one that has none."""
    group = pair.group
    faces = [face for face in group.faces if _first(group, face) == face]
    sets = [one for face in faces for one in _sets(book, pair, face)]
    short = all(draw.face_size(group, face)[0] <= draw.SHORT for face in faces)
    if not short or not len(sets) == len(faces) <= KIN_FACES:
        return ()
    return group.part, _from(pair), tuple(one.bores for one in _in_order(sets))


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
    rows = BESIDE.get(len(faces), 0)
    beside = all(len(found) == 1 and len(found[0].holes) <= rows for found in sets.values())
    tables = sum(map(len, sets.values()))
    short = all(draw.face_size(group, face)[0] <= draw.SHORT for face in faces)
    abreast = short and (len(faces), tables) == ABREAST
    return {
        "letter": book.letters[group.part], "which": _capital(_which(part, pair.pieces)),
        "how": how(part, pair, briefly=half), "abreast": abreast, "half": half,
        "faces": [_face(book, group, face, "half" if half else "beside" if beside else "", abreast) for face in faces],
        "sets": [_told_set(book, one) for face in faces for one in sets[face]],
    }  # fmt: skip


def _kin(book: Book, pairs: Sequence[Alike]) -> Data:
    """One block for a family: each bit once, then drawings and marks piece by piece."""
    first, build = pairs[0], book.plan.build
    part = build.part(first.group.part)
    heads = _in_order([one for face in first.group.faces for one in _sets(book, first, face)])
    return {
        "letter": book.letters[part.key], "which": _told_of_all(build, pairs),
        "how": _from(first), "half": False,
        "sets": [{**_told_set(book, one), "for": joint_name(one.holes[0].table)} for one in heads],
        "kin": [_of_kin(book, part, pair) for pair in pairs],
    }  # fmt: skip


def _told_of_all(build: Build, pairs: Sequence[Alike]) -> str:
    return counted(build, [label for pair in pairs for label in pair.pieces], boards=True)


def _of_kin(book: Book, part: Part, pair: Alike) -> Data:
    group = pair.group
    sets = _in_order([one for face in group.faces if _first(group, face) == face for one in _sets(book, pair, face)])
    return {
        "which": _capital(_which(part, pair.pieces)), "how": " ".join(_notes(part, pair)),
        "faces": [_face(book, group, one.face, "kin", True) for one in sets],
        "sets": [_told_set(book, one) for one in sets],
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
    return " ".join([_from(pair), *_notes(part, pair, briefly)])


def _from(pair: Alike) -> str:
    most = max((pair.group, *pair.same), key=lambda g: len(g.pieces))
    return f"Marks run from the {pair.group.datum_end}; carry them over: {most.method}."


def _notes(part: Part, pair: Alike, briefly: bool = False) -> Iterator[str]:
    """Which pieces are the mirror image or stand turned."""
    group = pair.group
    if pair.mirror:
        yield f"{_capital(_which(part, pair.mirror.pieces))}: the mirror image, the same marks."
    elif group.mirrored and not pair.same and not briefly:
        yield f"The mirror image of {group.mirrored}."
    yield from (f"{_capital(g.turned)}." for g in (group, *pair.same) if g.turned)


def _face(book: Book, group: PieceHoles, face: str, place: str, abreast: bool) -> Data:
    size = "short" if draw.face_size(group, face)[0] <= draw.SHORT else "middle" if place else "long"
    scene = draw.face_drawing(book.plan.build, group, face)
    narrow = (book.width - 60) / 4.6 if abreast else (book.width - 40) / 3
    narrow -= 10 if place == "kin" else 0
    middle = (book.width - 24) / 2 * 0.43 if place == "half" else (book.width - 20) * 0.62
    width = {"short": narrow, "middle": middle, "long": book.width}[size]
    height = (CLOSE if book.close else HEIGHTS)["kin" if place == "kin" else size]
    scene = _wide_enough(scene, width, height, 0.0 if size == "short" else LEAST_WIDE * width)
    edge = group.datum_edges[face]
    lies = "" if draw.edge_on_top(book.plan.build, group, face) else f", {edge} below"
    told = f"{_both(group, face)}{lies}, {draw.first_datum(group, face)} on the left"
    return {"picture": drawn(scene), "size": size, "told": told}


def _wide_enough(scene: Scene, width: float, height: float, least: float) -> Scene:
    """A face as large as fits; higher where many rows of marks would leave it narrower than it can be read."""
    for more in MORE:
        laid = fitted(scene.shapes, width, scene.alt, height=height * more, largest=LARGEST, style=PAPER)
        x0, _, x1, _ = extent(laid)
        if x1 - x0 >= least:
            break
    return laid


@dataclass(frozen=True)
class Setting:
    """Holes of one face that take one setting of one bit, and the boxes to tick them off."""

    group: PieceHoles
    face: str
    holes: tuple[Hole, ...]
    boxes: tuple[str, ...]

    @property
    def bores(self) -> tuple[str, tuple[object, ...]]:
        """What the bit is set up for, and the joint."""
        return self.holes[0].table, _bit(self.holes[0])


def _bit(hole: Hole) -> tuple[object, ...]:
    return hole.diameter, hole.bit, hole.depth, hole.countersink, hole.head_depth


def _in_order(sets: Iterable[Setting]) -> list[Setting]:
    """Settings in an order that doesn't hang on the faces' names."""
    return sorted(sets, key=lambda one: (one.bores[0], str(one.bores[1])))


def _sets(book: Book, pair: Alike, face: str) -> Iterator[Setting]:
    """The holes of one face by what bores them, so that a bit is set once; many of them in two lots."""
    group = pair.group
    found: dict[tuple[object, ...], list[Hole]] = {}
    for hole in group.on(face):
        found.setdefault((*_bit(hole), hole.table), []).append(hole)
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
