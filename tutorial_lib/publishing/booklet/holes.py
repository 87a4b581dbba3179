"""Holes, piece by piece: every face drawn, every hole in a table set up bit by bit, a box for each piece."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.assembly.wording import counted
from tutorial_lib.design.labels import RUN, apart, in_runs
from tutorial_lib.drawing import holes as draw
from tutorial_lib.drawing.bits import bit
from tutorial_lib.drawing.layout import extent, fitted
from tutorial_lib.drawing.scene import PAPER, Scene
from tutorial_lib.lists.names import joint_name
from tutorial_lib.publishing.booklet.alike import Alike, alike, first_bored, in_one_table, names_of
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, drawn
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Part
    from tutorial_lib.drilling.schedule import Hole, PieceHoles

FEW, SLIGHT = 5, 4  # blocks of slats that each have a line of the page; holes on such a slat
LITTLE, LEAST_LONG = 7, 55.0  # holes of a short piece that stands beside another; how long it is drawn there [pt]
EACH = 2  # pieces drilled alike up to this many have a box each
HEIGHTS = {"long": 84.0, "middle": 84.0, "short": 92.0, "kin": 82.0}  # [pt] greatest of a face's drawing
CLOSE = {**HEIGHTS, "short": 80.0, "kin": 76.0}  # where there is much to tell
TIGHT = {"long": 66.0, "middle": 66.0, "short": 68.0, "kin": 66.0}  # where there is very much
BESIDE = {1: 12, 2: 7}  # by a piece's faces: rows of tables that stand beside their drawings
LARGEST = 12.0  # [pt per in]
LEAST_WIDE, MORE = 0.7, (1.0, 1.25, 1.5)  # of its room that a long face takes; so much higher than usual for that
HALF = 0.4  # of half a line that a drawing beside its table takes
MOST_BESIDE = 2  # kinds whose distances in both systems stand beside a drawing
WIDE, NARROW = 0.62, 0.53  # of a line that a drawing beside its table takes; of several kinds in both systems
PAIR = 2  # narrow tables that stand side by side beside their drawings
ABREAST = (2, 2)  # so many short faces and tables stand side by side, as for a leg's boards
LEAST_ABREAST = 28.0  # [pt] a face is drawn at least so long there
KIN_FACES = 2  # most faces of short pieces that share their bits' heads


def leaves(book: Book) -> Iterator[Leaf]:
    """The pages of holes."""
    pairs = in_one_table(alike(book.plan.drilling.schedule, book.w), book.w)
    if pairs:
        abreast = _two_abreast(book, families(book, pairs))
        yield Leaf("holes", {
            "units": book.w.units, "second": book.second, "close": book.close,
            "pieces": [_kin(book, some) if len(some) > 1 else _piece(book, some[0], half=some[0] in abreast)
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
    faces = [face for face in group.faces if first_bored(group, face) == face]
    sets = [one for face in faces for one in _sets(book, pair, face)]
    short = all(draw.face_size(group, face)[0] <= draw.SHORT for face in faces)
    if not short or pair.others or not len(sets) == len(faces) <= KIN_FACES:
        return ()
    return group.part, group.datum_end, tuple(one.bores for one in _in_order(sets))


def _two_abreast(book: Book, found: Sequence[Sequence[Alike]]) -> list[Alike]:
    """Pieces of which two stand side by side: slats where there are many kinds; where there is much to tell, more."""
    alone = [some[0] for some in found if len(some) == 1]
    slats = [pair for pair in alone if _slight(pair)]
    little = [pair for pair in alone if _little(book, pair)] if book.close else []
    little += [pair for pair in slats if not pair.others] if book.both and book.close else []
    return [*(slats if len(slats) > FEW else ()), *(little if len(little) > 1 else ())]


def _little(book: Book, pair: Alike) -> bool:
    """A short piece with one face that is drawn large enough beside its one table of few rows."""
    faces = [face for face in pair.group.faces if first_bored(pair.group, face) == face]
    sets = [one for face in faces for one in _sets(book, pair, face)]
    short = all(draw.face_size(pair.group, face)[0] <= draw.SHORT for face in faces)
    if not (short and len(faces) == len(sets) == 1 and len(sets[0].holes) <= LITTLE):
        return False
    scene = _face_scene(book, pair.group, faces[0], "half", abreast=False)
    return scene.scale * draw.face_size(pair.group, faces[0])[0] >= LEAST_LONG


def _slight(pair: Alike) -> bool:
    """A long face with few holes, all of one bit: a slat."""
    group = pair.group
    bits = {(hole.face, hole.diameter, hole.depth, hole.countersink) for hole in group.holes}
    long = all(draw.face_size(group, face)[0] > draw.SHORT for face in group.faces)
    return long and len(bits) == 1 and len(group.holes) <= SLIGHT


def _piece(book: Book, pair: Alike, half: bool = False) -> Data:
    """One block of the pages.

    Args:
        book: what it is made from.
        pair: the pieces.
        half: two such blocks stand side by side.
    """
    group, part = pair.group, book.plan.build.part(pair.group.part)
    faces = [face for face in group.faces if first_bored(group, face) == face]
    sets = {face: list(_sets(book, pair, face)) for face in faces}
    place = "half" if half else _beside(book, pair, list(sets.values()))
    tables = sum(map(len, sets.values()))
    short = all(draw.face_size(group, face)[0] <= draw.SHORT for face in faces)
    abreast = short and (len(faces), tables) == ABREAST and all(_long(book, group, f, place) for f in faces)
    shown = f"; drawn: {names_of(pair.kinds)[0]}" if pair.others else ""
    return {
        "letter": book.letters[group.part], "which": _capital(_which_kinds(part, pair)),
        "how": how(part, pair, briefly=half), "abreast": abreast, "half": half, "pair": place == "pair",
        "share": NARROW if place == "narrow" else WIDE,
        "faces": [_face(book, group, face, place, abreast, shown) for face in faces],
        "sets": [_told_set(book, one) for face in faces for one in sets[face]],
    }  # fmt: skip


def _long(book: Book, group: PieceHoles, face: str, place: str) -> bool:
    """Whether a face is drawn long enough where it stands abreast with another and both tables."""
    scene = _face_scene(book, group, face, place, abreast=True)
    return scene.scale * draw.face_size(group, face)[0] >= LEAST_ABREAST


def _beside(book: Book, pair: Alike, sets: Sequence[Sequence[Setting]]) -> str:
    """How tables stand beside the drawings of faces; "" where they don't."""
    rows = BESIDE.get(len(sets), 0)
    if not all(len(found) == 1 and len(found[0].holes) <= rows for found in sets):
        return ""
    if book.both and pair.others:
        return "narrow" if len(pair.kinds) <= MOST_BESIDE else ""
    return "pair" if len(sets) == PAIR and _narrow(book, pair) else "beside"


def _narrow(book: Book, pair: Alike) -> bool:
    """Whether its tables have few columns, or room has to be saved."""
    return not book.both and not pair.others and (book.close or len(_boxes(book, pair)) < EACH)


def _kin(book: Book, pairs: Sequence[Alike]) -> Data:
    """One block for a family: each bit once, then drawings and marks piece by piece."""
    first, build = pairs[0], book.plan.build
    part = build.part(first.group.part)
    heads = _in_order([one for face in first.group.faces for one in _sets(book, first, face)])
    return {
        "letter": book.letters[part.key], "which": _told_of_all(build, pairs),
        "how": _from(max(pairs, key=lambda pair: len(pair.pieces))), "half": False, "pair": False,
        "sets": [{**_told_set(book, one), "for": joint_name(one.holes[0].table)} for one in heads],
        "kin": [_of_kin(book, part, pair) for pair in pairs],
    }  # fmt: skip


def _told_of_all(build: Build, pairs: Sequence[Alike]) -> str:
    return counted(build, [label for pair in pairs for label in pair.pieces], boards=True)


def _of_kin(book: Book, part: Part, pair: Alike) -> Data:
    group = pair.group
    faces = [face for face in group.faces if first_bored(group, face) == face]
    sets = _in_order(one for face in faces for one in _sets(book, pair, face))
    return {
        "which": _capital(_which(part, pair.pieces)), "how": " ".join(_notes(part, pair)),
        "faces": [_face(book, group, one.face, "kin", True) for one in sets],
        "sets": [_told_set(book, one) for one in sets],
    }  # fmt: skip


def _both(group: PieceHoles, face: str) -> str:
    return " and ".join(name for name in group.faces if first_bored(group, name) == face)


def _which(part: Part, labels: Collection[str]) -> str:
    """Pieces of a part by their labels: "slat 2 to 13, 12 in all"."""
    all_ = f", {len(labels)} in all" if len(labels) > RUN else ""
    return f"{in_runs([piece.label for piece in part.pieces], labels)}{all_}"


def _which_kinds(part: Part, pair: Alike) -> str:
    """The pieces of every kind, each kind but a single piece with the letter of its column."""
    if not pair.others or all(len(kind.pieces) == 1 for kind in pair.kinds):
        return _which(part, pair.all_pieces)
    named = zip(pair.kinds, names_of(pair.kinds), strict=True)
    return "; ".join(f"{_which(part, kind.pieces)} ({name})" for kind, name in named)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def how(part: Part, pair: Alike, briefly: bool = False) -> str:
    """Where the marks run from, and how they are carried over; briefly without what it is the mirror image of."""
    return " ".join([_from(pair), *_notes(part, pair, briefly)])


def _from(pair: Alike) -> str:
    most = max((group for kind in pair.kinds for group in kind.groups), key=lambda g: len(g.pieces))
    return f"Marks run from the {pair.group.datum_end}; carry them over: {most.method}."


def _notes(part: Part, pair: Alike, briefly: bool = False) -> Iterator[str]:
    """Which pieces are the mirror image or stand turned."""
    alone = len(pair.kinds) == 1
    for kind in pair.kinds:
        if kind.mirror:
            yield f"{_capital(_which(part, kind.mirror.pieces))}: the mirror image, the same marks."
        elif kind.group.mirrored and not kind.same and not briefly and alone:
            yield f"The mirror image of {kind.group.mirrored}."
        yield from (f"{_capital(group.turned)}." for group in kind.groups if group.turned)


def _face(book: Book, group: PieceHoles, face: str, place: str, abreast: bool, shown: str = "") -> Data:
    edge = group.datum_edges[face]
    lies = "" if draw.edge_on_top(book.plan.build, group, face) else f", {edge} below"
    told = f"{_both(group, face)}{lies}, {draw.first_datum(group, face)} on the left{shown}"
    scene = _face_scene(book, group, face, place, abreast)
    return {"picture": drawn(scene), "size": _size(group, face, place), "told": told}


def _size(group: PieceHoles, face: str, place: str) -> str:
    return "short" if draw.face_size(group, face)[0] <= draw.SHORT else "middle" if place else "long"


def _face_scene(book: Book, group: PieceHoles, face: str, place: str, abreast: bool) -> Scene:
    """A face's drawing, as large as fits its place."""
    size = _size(group, face, place)
    scene = draw.face_drawing(book.plan.build, group, face)
    width = _room(book.width, size, place, abreast)
    height = (TIGHT if book.tight else CLOSE if book.close else HEIGHTS)["kin" if place == "kin" else size]
    return _wide_enough(scene, width, height, 0.0 if size == "short" else LEAST_WIDE * width)


def _room(line: float, size: str, place: str, abreast: bool) -> float:
    """The width a face has on paper [pt], of a line's: a row of its own, or beside tables and other faces."""
    if size == "short" and place != "half":
        return ((line - 60) / 4.6 if abreast else (line - 40) / 3) - (10 if place == "kin" else 0)
    if size == "middle" or place == "half":
        share = NARROW if place == "narrow" else WIDE
        return {"half": (line - 24) / 2 * HALF, "pair": (line - 36) * 0.45}.get(place, (line - 20) * share)
    return line


def _wide_enough(scene: Scene, width: float, height: float, least: float) -> Scene:
    """A face as large as fits; higher where many rows of marks would leave it narrower than it can be read."""
    for more in MORE:
        laid = fitted(scene.shapes, width, scene.alt, height=height * more, largest=LARGEST, style=PAPER)
        x0, _, x1, _ = extent(laid)
        if x1 - x0 >= least:
            break
    return laid


@dataclass(frozen=True, kw_only=True)
class Setting:
    """Holes of one face that take one setting of one bit, and the boxes to tick them off."""

    group: PieceHoles
    face: str
    holes: tuple[Hole, ...]
    kinds: tuple[str, ...]  # of pieces, that have a column of distances each
    downs: tuple[tuple[Fraction, ...], ...]  # of each hole from the datum edge, kind by kind [in]
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


def _lots(group: PieceHoles, face: str) -> dict[tuple[object, ...], list[Hole]]:
    """The holes of one face by what bores them, so that a bit is set once."""
    found: dict[tuple[object, ...], list[Hole]] = {}
    for hole in group.on(face):
        found.setdefault((*_bit(hole), hole.table), []).append(hole)
    return found


def _sets(book: Book, pair: Alike, face: str) -> Iterator[Setting]:
    """The settings of bits for one face of some pieces."""
    names, lots = names_of(pair.kinds), [_lots(kind.group, face) for kind in pair.kinds]
    for bores, holes in lots[0].items():
        downs = [tuple(hole.v for hole in same) for same in zip(*(lot[bores] for lot in lots), strict=True)]
        differ = any(len({book.w.mark(v) for v in row}) > 1 for row in downs)
        kinds = names if differ else names[:1]
        told_downs = tuple(row[: len(kinds)] for row in downs)
        yield Setting(group=pair.group, face=face, holes=tuple(holes), kinds=kinds, downs=told_downs,
                      boxes=_boxes(book, pair))  # fmt: skip


def _boxes(book: Book, pair: Alike) -> tuple[str, ...]:
    """What is ticked off of each hole: every kind, every one of few pieces, or all at once."""
    if pair.others:
        return names_of(pair.kinds)
    mine = [p.label for p in book.plan.build.part(pair.group.part).pieces if p.label in pair.pieces]
    return apart(mine) if len(mine) <= EACH else ("done",)


def _told_set(book: Book, setting: Setting) -> Data:
    group, face, one, w = setting.group, setting.face, setting.holes[0], book.w
    deep = "through" if one.depth is None else f"{' or '.join(book.length(one.depth))} deep"
    sink = [f"sink {' or '.join(_told(book, one.countersink))}"] if one.countersink else []
    recess = [f"head {w.length(one.head_depth)} under"] if one.head_depth else []
    edge, several = group.datum_edges[face], len(setting.kinds) > 1
    return {
        "picture": drawn(bit(one.diameter, one.countersink, one.bit), full_size=True),
        "bit": " or ".join([one.bit, *book.bit(one.diameter)[1:]]), "deep": ", ".join([deep, *sink, *recess]),
        "for": f"{_both(group, face)}, {joint_name(one.table)}{f'; down from the {edge}:' if several else ''}",
        "along": draw.first_datum(group, face), "boxes": list(setting.boxes),
        "downs": list(setting.kinds) if several else [edge],
        "rows": [[book.bare(hole.u), *map(book.bare, downs)]
                 for hole, downs in zip(setting.holes, setting.downs, strict=True)],
    }  # fmt: skip


def _told(book: Book, x: Fraction) -> list[str]:
    own, *other = book.bit(x)
    return [f"{own} {book.w.units}", *other]
