"""A straight beam on any supports, overhangs included: reactions, shear, moment and sag, by the stiffness method.

Nodes stand only at supports, ends and changes of stiffness; loads between them enter in closed form, so that a bed's
beams are solved in well under a millisecond. Lengths in inches, loads in pounds, downward positive; a moment is
positive where it pulls the lower face.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from tutorial_lib.errors import Fault, InputError

TINY = 1e-9


class Unstable(InputError):  # noqa: N818  a state of the bed as much as an error
    """The beam would tip, turn or fall: there is no answer to give."""


@dataclass(frozen=True)
class PointLoad:
    """A load at one place."""

    x: float  # [in]
    load: float  # [lb] down


@dataclass(frozen=True)
class SpreadLoad:
    """A load spread evenly from a to b."""

    a: float  # [in]
    b: float  # [in]
    per_inch: float  # [lb/in] down

    @property
    def load(self) -> float:
        """The whole load [lb]."""
        return self.per_inch * (self.b - self.a)


Load = PointLoad | SpreadLoad


@dataclass(frozen=True)
class Beam:
    """A beam from start to end: its stiffness by stretches and its supports."""

    start: float  # [in]
    end: float  # [in]
    stretches: tuple[tuple[float, float], ...]  # (up to x [in], EI [lb in2]) in order; the last reaches the end
    supports: tuple[float, ...]  # [in]
    springs: tuple[tuple[float, float], ...] = ()  # supports that give: (x [in], stiffness [lb/in])

    @classmethod
    def uniform(cls, start: float, end: float, stiffness: float, supports: Sequence[float]) -> Beam:
        """A beam of one stiffness EI [lb in2]."""
        return cls(start, end, ((end, stiffness),), tuple(sorted(supports)))


@dataclass(frozen=True)
class _Element:
    a: float
    b: float
    stiffness: float
    loads: tuple[tuple[float, float, float], ...]  # (from, to, w), a point load as (x, -1, P)
    sag: float  # at a, downward
    slope: float  # at a, downward per inch
    shear: float  # just right of a
    moment: float  # at a

    def at(self, x: float) -> tuple[float, float, float, float]:
        """Shear, moment, slope and sag at x, which lies in the element."""
        s, ei = x - self.a, self.stiffness
        shear, moment = self.shear, self.moment + self.shear * s
        slope = self.slope - (self.moment * s + self.shear * s * s / 2) / ei
        sag = self.sag + self.slope * s - (self.moment * s * s / 2 + self.shear * s**3 / 6) / ei
        for p, q, w in self.loads:
            if s <= p:
                continue
            if q < 0:  # a point load w at p
                d = s - p
                shear, moment = shear - w, moment - w * d
                slope, sag = slope + w * d * d / 2 / ei, sag + w * d**3 / 6 / ei
                continue
            for sign, d in ((1, s - p), (-1, s - q)):
                if d > 0:
                    shear, moment = shear - sign * w * d, moment - sign * w * d * d / 2
                    slope, sag = slope + sign * w * d**3 / 6 / ei, sag + sign * w * d**4 / 24 / ei
        return shear, moment, slope, sag


@dataclass(frozen=True)
class Bent:
    """A beam under its loads."""

    beam: Beam
    reactions: tuple[tuple[float, float], ...]  # (x [in], lb up) at each support
    elements: tuple[_Element, ...]
    lifted: tuple[float, ...] = ()  # [in] supports that came off, for beams that only rest on them

    def _at(self, x: float) -> tuple[float, float, float, float]:
        for element in self.elements:
            if x <= element.b:
                return element.at(max(x, element.a))
        return self.elements[-1].at(self.elements[-1].b)

    def moment(self, x: float) -> float:
        """Moment at x [lb in]."""
        return self._at(x)[1]

    def sag(self, x: float) -> float:
        """Downward movement at x [in]."""
        return self._at(x)[3]

    def reaction(self, x: float) -> float:
        """Reaction at the support at x [lb], 0 where it came off."""
        return next((r for at, r in self.reactions if abs(at - x) < 1e-6), 0.0)

    @cached_property
    def _stations(self) -> tuple[tuple[float, float, float], ...]:
        """(x, shear, moment) on both sides of every load and node, and where a spread load's moment peaks."""
        return tuple(station for e in self.elements for station in _walk(e))

    @property
    def greatest_moment(self) -> tuple[float, float]:
        """(x [in], moment [lb in]) where the moment is greatest in size."""
        x, _, moment = max(self._stations, key=lambda s: round(abs(s[2]), 6))
        return x, moment

    @property
    def moment_range(self) -> tuple[float, float]:
        """Least and greatest moment [lb in]."""
        moments = [m for _, _, m in self._stations]
        return min(moments), max(moments)

    @property
    def greatest_shear(self) -> float:
        """Greatest shear in size [lb]."""
        return max(abs(v) for _, v, _ in self._stations)

    @cached_property
    def greatest_sag(self) -> tuple[float, float]:
        """(x [in], sag [in]) where the beam goes down most; 0 or less when it only rises."""
        best = (self.beam.start, self.sag(self.beam.start))
        for e in self.elements:
            steps = [e.a + (e.b - e.a) * i / 6 for i in range(7)]
            slopes = [e.at(x)[2] for x in steps]
            places = [e.b]
            for (x0, x1), (s0, s1) in zip(pairwise(steps), pairwise(slopes), strict=True):
                if s0 >= 0 > s1:
                    places.append(_crossing(lambda x, e=e: e.at(x)[2], x0, x1))  # type: ignore[misc]
            best = max([best, *((x, e.at(x)[3]) for x in places)], key=lambda b: b[1])
        return best

    @property
    def work(self) -> float:
        """Sum of load times sag [lb in]: falls never when a support goes."""
        total = 0.0
        for e in self.elements:
            for p, q, w in e.loads:
                if q < 0:
                    total += w * e.at(e.a + p)[3]
                else:  # three-point Gauss: exact for the quartic of a spread load
                    h, m = (q - p) / 2, (p + q) / 2
                    total += (
                        w
                        * h
                        * sum(
                            c * e.at(e.a + m + h * t)[3]
                            for c, t in ((5 / 9, -(0.6**0.5)), (8 / 9, 0.0), (5 / 9, 0.6**0.5))
                        )
                    )
        return total


def _walk(e: _Element) -> list[tuple[float, float, float]]:
    """Shear and moment along one element by statics."""
    drops: dict[float, float] = {0.0: 0.0, e.b - e.a: 0.0}  # point loads by place
    turns: dict[float, float] = {}  # changes of the spread load by place
    for p, q, w in e.loads:
        if q < 0:
            drops[p] = drops.get(p, 0.0) + w
        else:
            turns[p], turns[q] = turns.get(p, 0.0) + w, turns.get(q, 0.0) - w
    at, shear, moment, spread = 0.0, e.shear, e.moment, 0.0
    found = []
    for stop in sorted(drops.keys() | turns.keys()):
        step = stop - at
        if spread > 0 and 0 < shear / spread < step:
            found.append((e.a + at + shear / spread, 0.0, moment + shear**2 / (2 * spread)))
        moment += shear * step - spread * step * step / 2
        shear -= spread * step
        found.append((e.a + stop, shear, moment))
        shear -= drops.get(stop, 0.0)
        spread += turns.get(stop, 0.0)
        at = stop
        found.append((e.a + stop, shear, moment))
    return found


def _crossing(f: Callable[[float], float], a: float, b: float) -> float:
    for _ in range(30):
        m = (a + b) / 2
        a, b = (m, b) if f(m) > 0 else (a, m)
    return (a + b) / 2


def bend(beam: Beam, loads: Sequence[Load]) -> Bent:
    """The beam under its loads, held at every support both ways.

    Raises:
        Unstable: fewer than two supports.

    Stiffness method for a slender beam (Euler and Bernoulli); textbook.

    >>> bent = bend(Beam.uniform(0, 52, 1.378125e6, (0, 26, 52)), [PointLoad(13, 315)])
    >>> [round(r, 2) for _, r in bent.reactions], round(bent.greatest_moment[1], 1)
    ([127.97, 216.56, -29.53], 1663.6)
    """
    supports = sorted(set(beam.supports))
    if len(supports) + len(beam.springs) < 2:
        raise Unstable(Fault("supports", f"a beam on {len(supports)} support(s) tips or falls; it needs two."))
    nodes = _nodes(beam, supports)
    pieces = [(a, b, _stiffness(beam, (a + b) / 2), _cut(loads, a, b, b == nodes[-1])) for a, b in pairwise(nodes)]
    moves = _solve(*_assemble(nodes, pieces, supports, beam.springs))
    elements = tuple(_recover(piece, moves[2 * i : 2 * i + 4]) for i, piece in enumerate(pieces))
    return Bent(beam, _reactions(nodes, elements, supports), elements)


def rest(beam: Beam, loads: Sequence[Load]) -> Bent:
    """The beam under its loads where supports only push: those that would have to pull come off.

    Raises:
        Unstable: the beam tips off what is left.
    """
    held, lifted = list(beam.supports), list[float]()
    for _ in range(2 * len(beam.supports) + 2):
        if len(held) < 2:
            break
        bent = bend(Beam(beam.start, beam.end, beam.stretches, tuple(sorted(held))), loads)
        worst = min(bent.reactions, key=lambda r: r[1])
        if worst[1] >= -1e-6:
            down = [x for x in lifted if bent.sag(x) > 1e-9]
            if not down:
                return Bent(beam, bent.reactions, bent.elements, tuple(sorted(lifted)))
            lifted.remove(down[0])
            held.append(down[0])
            continue
        held.remove(worst[0])
        lifted.append(worst[0])
    raise Unstable(Fault("supports", "the beam tips over its supports under this load; put a support nearer its end."))


def _nodes(beam: Beam, supports: Sequence[float]) -> list[float]:
    held = sorted([*supports, *(x for x, _ in beam.springs)])
    if held[0] < beam.start - TINY or held[-1] > beam.end + TINY:
        raise Unstable(
            Fault(
                "supports",
                f"a support at {held[0]:g} or {held[-1]:g} in lies beside the beam, "
                f"which runs from {beam.start:g} to {beam.end:g} in.",
            )
        )
    places = sorted({beam.start, beam.end, *held, *(x for x, _ in beam.stretches[:-1])})
    return [x for i, x in enumerate(places) if i == 0 or x - places[i - 1] > TINY]


def _stiffness(beam: Beam, x: float) -> float:
    return next(ei for to, ei in beam.stretches if x <= to)


def _cut(loads: Sequence[Load], a: float, b: float, last: bool) -> tuple[tuple[float, float, float], ...]:
    found = []
    for load in loads:
        if isinstance(load, PointLoad):
            if a <= load.x < b or (last and abs(load.x - b) < 1e-6):
                found.append((load.x - a, -1.0, load.load))
        elif (lo := max(a, load.a)) < (hi := min(b, load.b)):
            found.append((lo - a, hi - a, load.per_inch))
    return tuple(found)


def _fixed(length: float, load: tuple[float, float, float]) -> tuple[float, float, float, float]:
    """Downward push and turning on both nodes of one load in a fixed-ended stretch (virtual work)."""
    p, q, w = load
    if q < 0:
        return tuple(w * n for n in _shape(length, p))  # type: ignore[return-value]
    h, m = (q - p) / 2, (p + q) / 2
    parts = [(c * w * h, _shape(length, m + h * t)) for c, t in ((5 / 9, -(0.6**0.5)), (8 / 9, 0.0), (5 / 9, 0.6**0.5))]
    return tuple(sum(c * n[i] for c, n in parts) for i in range(4))  # type: ignore[return-value]


def _shape(length: float, x: float) -> tuple[float, float, float, float]:
    t = x / length
    return 1 - 3 * t * t + 2 * t**3, x * (1 - t) ** 2, 3 * t * t - 2 * t**3, x * (t * t - t)


_Piece = tuple[float, float, float, tuple[tuple[float, float, float], ...]]


def _assemble(
    nodes: Sequence[float], pieces: Sequence[_Piece], supports: Sequence[float], springs: Sequence[tuple[float, float]]
) -> tuple[list[list[float]], list[float]]:
    size = 2 * len(nodes)
    matrix, right = [[0.0] * size for _ in range(size)], [0.0] * size
    for i, (a, b, ei, loads) in enumerate(pieces):
        n = b - a
        k = ei / n**3
        rows = (
            (12, 6 * n, -12, 6 * n),
            (6 * n, 4 * n * n, -6 * n, 2 * n * n),
            (-12, -6 * n, 12, -6 * n),
            (6 * n, 2 * n * n, -6 * n, 4 * n * n),
        )
        for r in range(4):
            for c in range(4):
                matrix[2 * i + r][2 * i + c] += k * rows[r][c]
        for load in loads:
            for r, f in enumerate(_fixed(n, load)):
                right[2 * i + r] += f
    for i, x in enumerate(nodes):
        matrix[2 * i][2 * i] += sum(k for at, k in springs if abs(at - x) < 1e-6)
        if any(abs(x - s) < 1e-6 for s in supports):
            for j in range(size):
                matrix[2 * i][j] = matrix[j][2 * i] = 0.0
            matrix[2 * i][2 * i], right[2 * i] = 1.0, 0.0
    return matrix, right


def _solve(matrix: list[list[float]], right: list[float]) -> list[float]:
    size, band = len(right), 4
    for i in range(size):
        pivot = matrix[i][i]
        if abs(pivot) < 1e-12:
            raise Unstable(Fault("supports", "the beam can turn freely; it needs two supports apart."))
        for r in range(i + 1, min(size, i + band)):
            factor = matrix[r][i] / pivot
            if factor:
                for c in range(i, min(size, i + band)):
                    matrix[r][c] -= factor * matrix[i][c]
                right[r] -= factor * right[i]
    for i in reversed(range(size)):
        tail = sum(matrix[i][c] * right[c] for c in range(i + 1, min(size, i + band)))
        right[i] = (right[i] - tail) / matrix[i][i]
    return right


def _recover(piece: _Piece, moves: Sequence[float]) -> _Element:
    a, b, ei, loads = piece
    n, (v0, t0, v1, t1) = b - a, moves
    end = [0.0, 0.0]
    for load in loads:
        f = _fixed(n, load)
        end[0], end[1] = end[0] + f[0], end[1] + f[1]
    k = ei / n**3
    push = k * (12 * v0 + 6 * n * t0 - 12 * v1 + 6 * n * t1) - end[0]
    turn = k * (6 * n * v0 + 4 * n * n * t0 - 6 * n * v1 + 2 * n * n * t1) - end[1]
    return _Element(a, b, ei, loads, v0, t0, -push, turn)


def _reactions(
    nodes: Sequence[float], elements: Sequence[_Element], supports: Sequence[float]
) -> tuple[tuple[float, float], ...]:
    found = []
    for x in supports:
        right = next((e.shear for e in elements if abs(e.a - x) < 1e-6), 0.0)
        left = next((_end_shear(e) for e in elements if abs(e.b - x) < 1e-6), 0.0)
        found.append((x, right - left))
    return tuple(found)


def _end_shear(e: _Element) -> float:
    """Shear at the element's right end, past all its loads."""
    return e.shear - sum(w if q < 0 else w * (q - p) for p, q, w in e.loads)
