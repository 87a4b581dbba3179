"""One support line by stiffness: its bars along the bed, tied by screws, touching each other, standing on legs.

A cleat and its rail, a runner and its rail, or a centre line by itself. Slats press on it at seats. Contacts only
push: those listed as open carry nothing. Lengths in inches, loads in pounds, downward positive.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import field
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Literal

from tutorial_lib.records import dataclass
from tutorial_lib.strength.banded import Factored, Loose

RIGID = 1e7  # [lb/in] a leg or a face in contact: stiff beside any board, not so stiff that digits get lost
SAME = 0.02  # [in] nodes nearer than this are one

Add = Callable[[int, int, float], None]
Figure = Callable[[int, Sequence[float]], float]
LinkKind = Literal["leg", "bolts", "screw", "tie", "touch", "end"]


@dataclass(frozen=True)
class Bar:
    """One board along the bed that bends."""

    label: str = field(compare=False)
    start: float  # [in]
    end: float  # [in]
    stiffness: float  # EI [lb in2]
    weight: float  # [lb/in]


@dataclass(frozen=True, kw_only=True)
class Link:
    """What holds one bar up: the ground through a leg, or another bar."""

    kind: LinkKind
    name: str = field(compare=False)  # the leg, screw joint or end it stands for
    x: float  # [in]
    bar: int
    below: int | None  # the bar that carries it; None for the ground
    stiffness: float  # [lb/in]
    pushes: bool  # a contact: it can open


@dataclass(frozen=True)
class Seat:
    """Where one slat lies on one bar, or on a leg top itself; one across two of them has two seats."""

    slat: int
    bar: int | None
    x: float  # [in]
    share: float = 1.0  # part of the slat's push that it takes


@dataclass(frozen=True)
class PointDead:
    """A weight that hangs on a bar: an end rail at its corner."""

    bar: int
    x: float  # [in]
    load: float  # [lb]


@dataclass(frozen=True)
class Press:
    """One thing that presses on a bar: a slat or a weight down, a link up or down."""

    x: float  # [in]
    factor: float  # of the slat's push or the link's force, down positive; of a weight, its pounds
    slat: int = -1
    link: int = -1


@dataclass(frozen=True, kw_only=True)
class Line:
    """A support line as bars, links and seats; equal to one that differs in names and place alone."""

    name: str = field(compare=False)
    y: float = field(compare=False)  # [in] where slats bear on it
    slats: int
    bars: tuple[Bar, ...]
    links: tuple[Link, ...]
    seats: tuple[Seat, ...]
    weights: tuple[PointDead, ...] = ()

    @cached_property
    def presses(self) -> tuple[tuple[Press, ...], ...]:
        """All that presses on each bar, from the head."""
        return tuple(tuple(sorted(self._on(bar), key=lambda p: p.x)) for bar in range(len(self.bars)))

    def _on(self, bar: int) -> Iterator[Press]:
        yield from (Press(s.x, s.share, slat=s.slat) for s in self.seats if s.bar == bar)
        for number, link in enumerate(self.links):
            if link.bar == bar:
                yield Press(link.x, -1.0, link=number)
            elif link.below == bar:
                yield Press(link.x, 1.0, link=number)
        yield from (Press(w.x, w.load) for w in self.weights if w.bar == bar)


class Unheld(ValueError):  # noqa: N818  a state of the bed as much as an error
    """A bar of the line would fall, tip or turn."""

    def __init__(self, line: str, bar: str) -> None:
        super().__init__(f"{bar} ({line}) has nothing to stand on")
        self.line, self.bar = line, bar


@lru_cache(maxsize=128)
def answer(line: Line, opened: frozenset[int]) -> Answer:
    """The line's answers to a pound on each seat, with some contacts open.

    Raises:
        Unheld: a bar would fall, tip or turn.
    """
    return Answer(line, opened)


class Answer:
    """How far each seat goes down, and what each link carries, per pound on each seat and under the own weight."""

    def __init__(self, line: Line, opened: frozenset[int]) -> None:
        self.line, self.opened = line, opened
        self._nodes, self._at = _nodes(line)
        self._order = sorted(range(len(self._nodes)), key=lambda n: self._nodes[n])
        self._row = {n: 2 * i for i, n in enumerate(self._order)}
        self._factored = self._factor()
        own = self._factored.solve(self._own_loads())
        units = [self._unit(slat) for slat in range(line.slats)]
        links = range(len(line.links))
        self.give = _table(self._down, range(line.slats), units)
        self.own_give = [self._down(slat, own) for slat in range(line.slats)]
        self.carried = _table(self._through, links, units)
        self.own_carried = [self._through(link, own) for link in links]
        self.gaps = _table(self._gap, links, units)
        self.own_gaps = [self._gap(link, own) for link in links]

    def _factor(self) -> Factored:
        try:
            return Factored(_skyline(self._entries(), 2 * len(self._nodes)))
        except Loose as loose:
            node = self._order[loose.row // 2]
            raise Unheld(self.line.name, self.line.bars[self._nodes[node][1]].label) from None

    def _entries(self) -> dict[tuple[int, int], float]:
        """Stiffness by row and column of the lower triangle."""
        entries: dict[tuple[int, int], float] = {}

        def add(i: int, j: int, value: float) -> None:
            key = (max(i, j), min(i, j))
            entries[key] = entries.get(key, 0.0) + value

        for a, b, bar in self._elements():
            _bend(add, self._row[a], self._row[b], self._nodes[b][0] - self._nodes[a][0], bar.stiffness)
        for number, link in enumerate(self.line.links):
            if number not in self.opened:
                _join(add, link.stiffness, *self._ends(link))
        return entries

    def _elements(self) -> Iterable[tuple[int, int, Bar]]:
        for number, bar in enumerate(self.line.bars):
            own = sorted((x, n) for n, (x, b) in enumerate(self._nodes) if b == number)
            for (_, a), (_, b) in pairwise(own):
                yield a, b, bar

    def _ends(self, link: Link) -> tuple[int, int | None]:
        upper = self._row[self._at[link.bar, link.x]]
        return upper, None if link.below is None else self._row[self._at[link.below, link.x]]

    def _own_loads(self) -> list[float]:
        loads = [0.0] * (2 * len(self._nodes))
        for a, b, bar in self._elements():
            n = self._nodes[b][0] - self._nodes[a][0]
            i, j, w = self._row[a], self._row[b], bar.weight
            loads[i] += w * n / 2
            loads[j] += w * n / 2
            loads[i + 1] += w * n * n / 12
            loads[j + 1] -= w * n * n / 12
        for hung in self.line.weights:
            loads[self._row[self._at[hung.bar, hung.x]]] += hung.load
        return loads

    def _unit(self, slat: int) -> list[float]:
        """Movements from one pound on one slat's seats; what a leg top takes itself moves nothing."""
        loads, some = [0.0] * (2 * len(self._nodes)), False
        for seat in self._seats.get(slat, ()):
            if seat.bar is not None:
                loads[self._row[self._at[seat.bar, seat.x]]] += seat.share
                some = True
        return self._factored.solve(loads) if some else loads

    def _down(self, slat: int, moved: Sequence[float]) -> float:
        return sum(
            seat.share * moved[self._row[self._at[seat.bar, seat.x]]]
            for seat in self._seats.get(slat, ())
            if seat.bar is not None
        )

    @cached_property
    def _seats(self) -> dict[int, list[Seat]]:
        found: dict[int, list[Seat]] = {}
        for seat in self.line.seats:
            found.setdefault(seat.slat, []).append(seat)
        return found

    def _gap(self, number: int, moved: Sequence[float]) -> float:
        """How far the upper side goes down more than the lower one [in]."""
        upper, lower = self._ends(self.line.links[number])
        return moved[upper] - (0.0 if lower is None else moved[lower])

    def _through(self, number: int, moved: Sequence[float]) -> float:
        return 0.0 if number in self.opened else self.line.links[number].stiffness * self._gap(number, moved)

    @cached_property
    def contacts(self) -> tuple[int, ...]:
        """Numbers of the links that only push."""
        return tuple(i for i, link in enumerate(self.line.links) if link.pushes)


def _table(figure: Figure, numbers: range, units: list[list[float]]) -> list[list[float]]:
    """A figure of every slat or link, per pound on each seat."""
    return [[figure(number, moved) for moved in units] for number in numbers]


def _nodes(line: Line) -> tuple[list[tuple[float, int]], dict[tuple[int, float], int]]:
    """(x, bar) of every node, and the node of every (bar, x) that is named."""
    nodes: list[tuple[float, int]] = []
    at: dict[tuple[int, float], int] = {}
    for number, places in _named(line).items():
        last = -1e9
        for x in sorted(places):
            if x - last > SAME:
                nodes.append((x, number))
                last = x
            at[number, x] = len(nodes) - 1
    return nodes, at


def _named(line: Line) -> dict[int, set[float]]:
    """Every x on each bar where it ends, is held or loaded."""
    wanted: dict[int, set[float]] = {i: {bar.start, bar.end} for i, bar in enumerate(line.bars)}
    for link in line.links:
        wanted[link.bar].add(link.x)
        if link.below is not None:
            wanted[link.below].add(link.x)
    for bar, x in [*((s.bar, s.x) for s in line.seats), *((w.bar, w.x) for w in line.weights)]:
        if bar is not None:
            wanted[bar].add(x)
    return wanted


def _skyline(entries: dict[tuple[int, int], float], size: int) -> list[list[float]]:
    first = list(range(size))
    for i, j in entries:
        first[i] = min(first[i], j)
    rows = [[0.0] * (i - first[i] + 1) for i in range(size)]
    for (i, j), value in entries.items():
        rows[i][j - first[i]] = value
    return rows


def _bend(add: Add, i: int, j: int, n: float, ei: float) -> None:
    """The stiffness of one stretch of a bar, length n; Euler and Bernoulli, textbook."""
    k = ei / n**3
    add(i, i, 12 * k)
    add(j, j, 12 * k)
    add(i, j, -12 * k)
    add(i, i + 1, 6 * n * k)
    add(i, j + 1, 6 * n * k)
    add(j, i + 1, -6 * n * k)
    add(j, j + 1, -6 * n * k)
    add(i + 1, i + 1, 4 * n * n * k)
    add(j + 1, j + 1, 4 * n * n * k)
    add(i + 1, j + 1, 2 * n * n * k)


def _join(add: Add, k: float, upper: int, lower: int | None) -> None:
    add(upper, upper, k)
    if lower is not None:
        add(lower, lower, k)
        add(upper, lower, -k)
