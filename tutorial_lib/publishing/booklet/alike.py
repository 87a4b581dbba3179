"""Pieces whose holes are told together: drilled alike, mirror images, and those that differ only in one direction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from tutorial_lib.design.labels import apart
from tutorial_lib.measures import Writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.drilling.schedule import Hole, PieceHoles

MOST = 3  # kinds with the same marks along that have a column each in one table


@dataclass(frozen=True)
class Alike:
    """Pieces with the same table: those drilled alike, and their mirror image."""

    group: PieceHoles
    same: tuple[PieceHoles, ...] = ()  # others whose marks differ by less than a tape shows
    mirror: PieceHoles | None = None
    others: tuple[Alike, ...] = ()  # kinds with the same marks along, at other distances from the datum edge

    @property
    def kinds(self) -> tuple[Alike, ...]:
        """Itself and the others, each with a column of the table."""
        return (self, *self.others)

    @property
    def groups(self) -> tuple[PieceHoles, ...]:
        """Its groups of pieces, the mirror image apart."""
        return (self.group, *self.same)

    @property
    def pieces(self) -> tuple[str, ...]:
        """The labels of this kind's pieces."""
        mirrored = self.mirror.pieces if self.mirror else ()
        return (*(label for group in self.groups for label in group.pieces), *mirrored)

    @property
    def all_pieces(self) -> tuple[str, ...]:
        """The labels of every kind's pieces."""
        return tuple(label for kind in self.kinds for label in kind.pieces)


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


def in_one_table(pairs: Sequence[Alike], w: Writer) -> list[Alike]:
    """Kinds with the same bits at the same marks along in one table, a few of them, with a column of distances each."""
    found: dict[object, list[Alike]] = {}
    for pair in pairs:
        along = tuple(row[:2] + row[3:] for row in _rows(pair.group, w))
        ends = tuple((face, first_bored(pair.group, face)) for face in sorted(pair.group.faces))
        found.setdefault((_blank(pair.group), along, ends), []).append(pair)
    lots = [kinds[i : i + MOST] for kinds in found.values() for i in range(0, len(kinds), MOST)]
    return [replace(first, others=tuple(others)) for first, *others in lots]


def _as_told(group: PieceHoles, w: Writer) -> tuple[object, ...]:
    """All that the page says of a piece's holes."""
    return _blank(group), _rows(group, w)


def _blank(group: PieceHoles) -> tuple[object, ...]:
    return group.part, group.piece.length, group.datum_end, tuple(sorted(group.datum_edges.items()))


def _rows(group: PieceHoles, w: Writer) -> tuple[tuple[object, ...], ...]:
    def row(h: Hole) -> tuple[object, ...]:
        return h.face, w.mark(h.u), w.mark(h.v), h.bit, h.diameter, h.depth, h.countersink, h.head_depth, h.table

    return tuple(row(hole) for hole in sorted(group.holes, key=lambda h: (h.face, h.u, h.v)))


def first_bored(group: PieceHoles, face: str) -> str:
    """The first face bored like this one: two ends bored alike are told once."""
    if not group.on(face)[0].end_face:
        return face
    ends = [name for name in group.faces if group.on(name)[0].end_face]
    return next(name for name in ends if _bored(group, name) == _bored(group, face))


def _bored(group: PieceHoles, face: str) -> list[tuple[object, ...]]:
    return [(h.u, h.v, h.diameter, h.depth, h.countersink) for h in group.on(face)]


def names_of(kinds: Sequence[Alike]) -> tuple[str, ...]:
    """What kinds are called at the head of a table: what tells single pieces apart, or a letter each."""
    single = [kind.pieces[0] for kind in kinds if len(kind.pieces) == 1]
    return apart(single) if len(single) == len(kinds) else tuple("abc"[: len(kinds)])
