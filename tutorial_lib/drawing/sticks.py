"""Story sticks at full size: the marks of a whole piece along its length, in strips that are taped end to end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from tutorial_lib.design.labels import in_runs
from tutorial_lib.drawing.holes import WORD
from tutorial_lib.drawing.scene import Line, Mark, Rect, Scene, Shape, Text
from tutorial_lib.drawing.templates import FULL, STICKS, ends, served
from tutorial_lib.drawing.views import mark_text, units_of
from tutorial_lib.measures import mm, writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build
    from tutorial_lib.drilling.schedule import PieceHoles
    from tutorial_lib.plan import Plan

STRIP = Fraction(13, 2)  # [in] longest strip that both papers hold
CLEAR = Fraction(1, 2)  # [in] from a join to the nearest mark, so that tape and numbers hide none; our choice
WORDS = Fraction(5, 4)  # [in] that a mark's words take
HIGH = Fraction(7, 8)  # [in] of a strip
SHORT_STRIP = Fraction(3)  # [in] a shorter strip has one line of words over it
INSET = Fraction(1, 4)  # [in] from a join to the middle of its number
StickMark = tuple[Fraction, str, bool]  # from the datum end [in], what it is, whether it is a hole


@dataclass(frozen=True, kw_only=True)
class Stick:
    """One story stick, for all pieces of a part with the same marks from the same end."""

    number: int
    build: Build
    groups: tuple[PieceHoles, ...]  # drilled differently across, alike along
    marks: tuple[StickMark, ...]

    @property
    def name(self) -> str:
        """The part's name."""
        return self.groups[0].name

    @property
    def which(self) -> str:
        """The pieces in words."""
        every = [piece.label for piece in self.build.part(self.groups[0].part).pieces]
        return in_runs(every, [label for group in self.groups for label in group.pieces])

    @property
    def length(self) -> Fraction:
        """Of the whole stick [in]."""
        return self.groups[0].piece.length

    @property
    def datum(self) -> str:
        """The end it is laid to."""
        return self.groups[0].datum_end

    @property
    def with_slats(self) -> bool:
        """Whether slats are marked on it."""
        return any(not is_hole for _, _, is_hole in self.marks)

    @cached_property
    def joins(self) -> tuple[Fraction, ...]:
        """Where its strips meet [in]."""
        step = mm(5) if units_of(self.build) == "mm" else Fraction(1, 4)
        return joins(self.length, [at for at, _, _ in self.marks], step)

    @property
    def clear(self) -> bool:
        """Whether no mark is nearer to a join than CLEAR."""
        return all(abs(at - join) >= CLEAR for join in self.joins for at, _, _ in self.marks)


def sticks(plan: Plan) -> list[Stick]:
    """The story sticks: of pieces with rows of holes, and of those with a hole on no template."""
    on_paper = {(id(end.group), hole) for end in ends(plan) for hole in served(end)}
    found: dict[tuple[object, ...], list[PieceHoles]] = {}
    for group in plan.drilling.schedule:
        row = group.method == "story stick"
        if row or any((id(group), hole) not in on_paper for hole in group.holes if not hole.end_face):
            alike = (group.part, group.datum_end, group.piece.length, *stick_marks(plan, group))
            found.setdefault(alike, []).append(group)
    return [
        Stick(number=n, build=plan.build, groups=tuple(groups), marks=tuple(stick_marks(plan, groups[0])))
        for n, groups in enumerate(found.values(), 1)
    ]


def stick_marks(plan: Plan, group: PieceHoles) -> list[StickMark]:
    """Marks of one story stick from the datum end [in], their words, and whether they are holes (else slat edges)."""
    piece = group.piece
    marks = [
        (hole.u, f"{WORD[hole.table]} hole", True)
        for face in group.faces
        for hole in group.on(face)
        if not hole.end_face
    ]
    if piece.axis == 0 and group.part in STICKS:
        slats = plan.build.slats
        offset = slats.start - piece.box.lo[0]
        marks += [
            (offset + at, f"slat {i}", False) for i, at in enumerate(slats.marks, 1) if 0 <= offset + at <= piece.length
        ]
    return sorted(set(marks))


def joins(length: Fraction, marks: Sequence[Fraction], step: Fraction) -> tuple[Fraction, ...]:
    """Where the strips of a stick meet [in]: clear of every mark, then as few strips as can be, then even ones.

    Args:
        length: of the stick [in].
        marks: places on it [in].
        step: joins stand at multiples of it [in], where a tape shows them.

    >>> joins(Fraction(12), [Fraction(6)], Fraction(1, 4))
    (Fraction(11, 2),)
    """
    last, reach = -(-length // step) - 1, int(STRIP // step)
    near = [_short(at * step, marks) for at in range(last + 1)]
    best: list[tuple[float, int, float, int]] = [(0.0, 0, 0.0, 0)]
    for at in range(1, last + 1):
        best.append(_reached(best, at, max(0, at - reach), near[at]))
    # the far end is no join, and may lie between two steps
    end = float(length / step)
    before = _reached(best, end, -int((STRIP - length) // step) if length > STRIP else 0, 0.0)[3]
    found = []
    while before:
        found.append(before * step)
        before = best[before][3]
    return tuple(reversed(found))


def _short(at: Fraction, marks: Sequence[Fraction]) -> float:
    """By how much the nearest mark is too near to a join [in]."""
    return max(0.0, float(CLEAR - min((abs(at - mark) for mark in marks), default=CLEAR)))


def _reached(
    best: Sequence[tuple[float, int, float, int]], at: float, first: int, short: float
) -> tuple[float, int, float, int]:
    """The best way to a place: how much too near its joins are, how many strips, how uneven; from which join."""
    ways = ((best[i][0] + short, best[i][1] + 1, best[i][2] + (at - i) ** 2, i) for i in range(first, len(best)))
    return min(ways)


def strips(stick: Stick) -> list[Scene]:
    """The stick cut into strips, each end with the stick's number and the join's."""
    reaches = list(pairwise((Fraction(0), *stick.joins, stick.length)))
    return [_strip(stick, reach, i, len(reaches)) for i, reach in enumerate(reaches)]


def _strip(stick: Stick, reach: tuple[Fraction, Fraction], i: int, count: int) -> Scene:
    start, end = reach
    last_one = i == count - 1
    w = writer(units_of(stick.build))
    shapes: list[Shape] = [Rect(0, 0, end - start, HIGH)]
    here = [mark for mark in stick.marks if start <= mark[0] < end or (mark[0] == end and last_one)]
    for is_hole in (True, False):
        shapes += _stick_marks(stick.build, [mark[:2] for mark in here if mark[2] == is_hole], reach, is_hole)
    if i:
        shapes.append(_number(f"{stick.number}.{i}", INSET))
    if not last_one:
        shapes.append(_number(f"{stick.number}.{i + 1}", end - start - INSET))
    first = f"{'the ' + stick.datum if i == 0 else f'join {stick.number}.{i}'}, {w.length(start)}"
    last = f"{'the far end' if last_one else f'join {stick.number}.{i + 1}'}, {w.length(end)}"
    shapes += _over_strip(end - start, first, last)
    return Scene(tuple(shapes), FULL, f"Story stick {stick.number}, strip {i + 1} of {count}")


def _number(words: str, x: Fraction) -> Text:
    """A join's number, inside the strip: it stays where the words over the strip are cut off."""
    return Text((x, HIGH / 2), words, "strong small", shift=(0, -3))


def _over_strip(long: Fraction, first: str, last: str) -> Iterator[Shape]:
    """What is told of a strip's two ends, in one line of words where it is short."""
    if long < SHORT_STRIP:
        yield Text((0, HIGH), f"{first}, to {last}", "small", "start", shift=(0, 5))
    else:
        yield Text((0, HIGH), first, "small", "start", shift=(0, 5))
        yield Text((long, HIGH), last, "small", "end", shift=(0, 5))


def _stick_marks(
    build: Build, marks: list[tuple[Fraction, str]], reach: tuple[Fraction, Fraction], is_hole: bool
) -> Iterator[Shape]:
    """The holes of a strip, or its slat edges; the words of each toward the side that has room."""
    start, end = reach
    sides = [start, *(at for at, _ in marks), end]
    for j, (at, what) in enumerate(marks):
        left = sides[j + 2] - at < WORDS < at - sides[j]
        yield from _stick_mark(at - start, f"{what}: {mark_text(build, at)}", is_hole, left)


def _stick_mark(x: Fraction, words: str, is_hole: bool, left: bool) -> list[Shape]:
    """One mark: a cross for a hole, a tick for a slat's near edge, its words on the side that has room."""
    anchor: Literal["start", "end"] = "end" if left else "start"
    way = -1 if left else 1
    if is_hole:
        y = HIGH * 2 / 3
        tries = tuple((8.0 * way, dy) for dy in (8, -14, 18, -25, -36))
        return [
            Line(((x, HIGH), (x, y)), line="outline"),
            Mark((x, y), "cross", 9.0),
            Text((x, y), words, "small", anchor, shift=(8.0 * way, -3), tries=tries, halo=True),
        ]
    return [
        Line(((x, 0), (x, HIGH / 3)), line="outline"),
        Text((x, 0), words, "small", anchor, shift=(4.0 * way, 6), tries=((4.0 * way, 16),), halo=True),
    ]
