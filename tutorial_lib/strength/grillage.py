"""All slats and lines of the bed together, every contact pushing and none pulling.

Slats are beams across, lines are beams along; where they meet they push on each other as much as both give. Unknown
is what each inner line takes from each slat; the pushes on the outer lines follow from balance. Contacts that would
have to pull open, until none does: what stands open is found for one load and kept for its parts.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from operator import mul

from tutorial_lib.records import dataclass
from tutorial_lib.strength.banded import Factored, Loose
from tutorial_lib.strength.lines import Answer, Line, Unheld, answer
from tutorial_lib.strength.slat import Slat, Spread

ROUNDS = 60  # changes of what stands open before the search is given up
LIFT = 1e-6  # [lb] a pull smaller than this is none
CLOSE = 1e-9  # [in]

Lift = tuple[int, int]  # (slat, line) that have come apart


@dataclass(frozen=True)
class Load:
    """A load on the deck: for each slat, pounds and how they are spread across."""

    on_slats: tuple[tuple[tuple[float, Spread], ...], ...]
    own: bool = False  # with the lines' own weight


@dataclass(frozen=True)
class State:
    """Which contacts stand open."""

    lines: tuple[frozenset[int], ...]
    lifted: frozenset[Lift] = frozenset()


@dataclass(frozen=True)
class Moved:
    """The bed under one load in one state."""

    pushes: tuple[tuple[float, ...], ...]  # [lb] by line, of each slat
    carried: tuple[tuple[float, ...], ...]  # [lb] by line, through each link
    sags: tuple[tuple[float, ...], ...]  # [in] by line, at each slat
    holds: tuple[tuple[Lift, float], ...] = ()  # of each lifted contact: above 0 where it wants to close again


class Tips(ValueError):  # noqa: N818  a state of the bed as much as an error
    """No balance under this load: ``what`` would fall, tip or turn."""

    def __init__(self, what: str, line: str) -> None:
        super().__init__(f"{what} tips")
        self.what, self.line = what, line


class Restless(ValueError):  # noqa: N818  a state of the search as much as an error
    """Contacts set right came back to where they were."""

    def __init__(self, state: State) -> None:
        super().__init__("contacts take turns")
        self.state = state


Wrong = tuple[float, Callable[[State, tuple[int, int], int], State], tuple[int, int]]  # how wrong, change, contact


class Grillage:
    """The bed: one kind of slat over several lines."""

    def __init__(self, slat: Slat, lines: Sequence[Line]) -> None:
        self.slat, self.lines = slat, tuple(lines)
        self.count = self.lines[0].slats
        self.closed = State(tuple(frozenset() for _ in lines))
        self._answered: dict[tuple[int, frozenset[int]], Answer] = {}
        self._joined: dict[tuple[frozenset[int], ...], Factored] = {}
        self._lifts: dict[tuple[tuple[frozenset[int], ...], Lift], list[float]] = {}
        self._spreads: dict[Spread, tuple[float, float]] = {}
        self._sags: dict[Spread, tuple[float, ...]] = {}

    def settle(self, load: Load) -> tuple[State, Moved]:
        """Which contacts open under a load, and the bed under it.

        Raises:
            Tips: nothing holds the bed in balance.
        """
        try:
            return self._settled(load, _all_righted)
        except (Unheld, Loose, Restless):
            pass  # a way that led past where nothing holds, or to no end, proves nothing: step by step, then
        try:
            return self._settled(load, _worst_righted)
        except Unheld as unheld:
            raise Tips(unheld.bar, unheld.line) from None
        except Loose as loose:
            slat, line = divmod(loose.row, len(self.slat.parts))
            raise Tips(f"slat {slat + 1}", self.lines[line + 1].name) from None
        except Restless as restless:  # two contacts take turns on the edge of opening, either will do
            return restless.state, self.under(load, restless.state)

    def _settled(self, load: Load, righted: Callable[[State, list[Wrong], int], State]) -> tuple[State, Moved]:
        """From all contacts closed, wrong ones set right until none is.

        Raises:
            Unheld, Loose: nothing holds the bed in a state that it came past.
            Restless: it came back to where it was, or to no end.
        """
        state, seen = self.closed, set[State]()
        for _ in range(ROUNDS):
            moved = self.under(load, state)
            wrong = self._wrong(state, moved)
            if not wrong:
                return state, moved
            seen.add(state)
            new = righted(state, wrong, len(self.lines))
            if new in seen:
                raise Restless(state)
            state = new
        raise Restless(state)

    def under(self, load: Load, state: State) -> Moved:
        """The bed under a load with the contacts of a state open."""
        answers = self._answers(state)
        pushes, holds = self._pushes(load, state, answers)
        own = 1.0 if load.own else 0.0
        carried = tuple(
            tuple(_dot(row, push) + own * w for row, w in zip(known.carried, known.own_carried, strict=True))
            for known, push in zip(answers, pushes, strict=True)
        )
        sags = tuple(
            tuple(_dot(row, push) + own * w for row, w in zip(known.give, known.own_give, strict=True))
            for known, push in zip(answers, pushes, strict=True)
        )
        return Moved(tuple(map(tuple, pushes)), carried, sags, tuple(holds.items()))

    def _pushes(
        self, load: Load, state: State, answers: Sequence[Answer]
    ) -> tuple[list[list[float]], dict[Lift, float]]:
        """What each line takes from each slat [lb], and how lifted contacts are held off."""
        first, last = self._outer(load)
        inner, holds = self._inner(load, state, answers, first, last)
        for t, push in zip(self.slat.parts, inner, strict=True):
            first = [f - (1 - t) * q for f, q in zip(first, push, strict=True)]
            last = [f - t * q for f, q in zip(last, push, strict=True)]
        return [first, *inner, last], holds

    def _answers(self, state: State) -> list[Answer]:
        return [self._answer(number, opened) for number, opened in enumerate(state.lines)]

    def _answer(self, number: int, opened: frozenset[int]) -> Answer:
        key = (number, opened)
        if key not in self._answered:
            self._answered[key] = answer(self.lines[number], opened)
        return self._answered[key]

    def _outer(self, load: Load) -> tuple[list[float], list[float]]:
        first, last = [0.0] * self.count, [0.0] * self.count
        for i, parts in enumerate(load.on_slats):
            for pounds, spread in parts:
                a, b = self._outer_of(spread)
                first[i] += pounds * a
                last[i] += pounds * b
        return first, last

    def _outer_of(self, spread: Spread) -> tuple[float, float]:
        known = self._spreads.get(spread)
        if known is None:
            known = self._spreads[spread] = self.slat.outer(spread)
        return known

    def _sags_of(self, spread: Spread) -> tuple[float, ...]:
        known = self._sags.get(spread)
        if known is None:
            known = self._sags[spread] = tuple(self.slat.sag(y, spread) for y in self.slat.lines[1:-1])
        return known

    def _inner(
        self, load: Load, state: State, answers: Sequence[Answer], first: list[float], last: list[float]
    ) -> tuple[list[list[float]], dict[Lift, float]]:
        """What each inner line takes from each slat [lb], and how lifted contacts are held off."""
        parts = self.slat.parts
        if not parts:
            return [], {}
        factored, holds = self._factored(state, answers), dict[Lift, float]()
        found = factored.solve(self._right(load, answers, first, last))
        if state.lifted:
            found, forces = self._held(state, factored, found, self._rows(state, first, last))
            ends = (0, len(self.lines) - 1)
            holds = {
                lift: -force if lift[1] in ends else force
                for lift, force in zip(sorted(state.lifted), forces, strict=True)
            }
        return [found[a :: len(parts)] for a in range(len(parts))], holds

    def _right(self, load: Load, answers: Sequence[Answer], first: list[float], last: list[float]) -> list[float]:
        """How far slats on outer lines alone would go below each inner line [in], slat by slat."""
        own = 1.0 if load.own else 0.0
        down = [
            [_dot(row, push) + own * w for row, w in zip(known.give, known.own_give, strict=True)]
            for known, push in ((answers[0], first), (answers[-1], last))
        ]
        right = []
        for i in range(self.count):
            sags = [0.0] * len(self.slat.parts)
            for pounds, spread in load.on_slats[i]:
                sags = [s + pounds * d for s, d in zip(sags, self._sags_of(spread), strict=True)]
            for a, t in enumerate(self.slat.parts):
                right.append(sags[a] + (1 - t) * down[0][i] + t * down[1][i] - own * answers[a + 1].own_give[i])
        return right

    def _factored(self, state: State, answers: Sequence[Answer]) -> Factored:
        if state.lines not in self._joined:
            self._joined[state.lines] = Factored(self._matrix(answers))
        return self._joined[state.lines]

    def _matrix(self, answers: Sequence[Answer]) -> list[list[float]]:
        parts, own = self.slat.parts, self.slat.own
        first, last = answers[0].give, answers[-1].give
        rows = []
        for i in range(self.count):
            for a, t in enumerate(parts):
                row = []
                for j in range(i + 1):
                    for b, u in enumerate(parts):
                        value = (1 - t) * (1 - u) * first[i][j] + t * u * last[i][j]
                        if a == b:
                            value += answers[a + 1].give[i][j]
                        if i == j:
                            value += own[a][b]
                        row.append(value)
                rows.append(row[: i * len(parts) + a + 1])
        return rows

    def _rows(self, state: State, first: list[float], last: list[float]) -> list[tuple[list[tuple[int, float]], float]]:
        """Each lifted contact as an equation: the columns with their factors, and what they come to."""
        parts, rows = self.slat.parts, []
        for i, line in sorted(state.lifted):
            columns = [(i * len(parts) + a, t) for a, t in enumerate(parts)]
            if line == 0:
                rows.append(([(c, 1 - t) for c, t in columns], first[i]))
            elif line == len(self.lines) - 1:
                rows.append((columns, last[i]))
            else:
                rows.append(([(i * len(parts) + line - 1, 1.0)], 0.0))
        return rows

    def _held(
        self,
        state: State,
        factored: Factored,
        free: list[float],
        rows: Sequence[tuple[list[tuple[int, float]], float]],
    ) -> tuple[list[float], list[float]]:
        """The unknowns with some equations held to, and the forces that hold them."""
        answers = [
            self._pulled(state, lift, factored, columns)
            for lift, (columns, _) in zip(sorted(state.lifted), rows, strict=True)
        ]
        matrix = [
            [sum(f * known[c] for c, f in columns) for known in answers[: k + 1]] for k, (columns, _) in enumerate(rows)
        ]
        missing = [sum(f * free[c] for c, f in columns) - value for columns, value in rows]
        forces = Factored(matrix).solve(missing)
        found = list(free)
        for force, known in zip(forces, answers, strict=True):
            found = [x - force * k for x, k in zip(found, known, strict=True)]
        return found, forces

    def _pulled(
        self, state: State, lift: Lift, factored: Factored, columns: Sequence[tuple[int, float]]
    ) -> list[float]:
        """What a pound that holds one lifted contact off does to the unknowns; the same under every load."""
        key = (state.lines, lift)
        known = self._lifts.get(key)
        if known is None:
            right = [0.0] * self.count * len(self.slat.parts)
            for c, f in columns:
                right[c] = f
            known = self._lifts[key] = factored.solve(right)
        return known

    def _wrong(self, state: State, moved: Moved) -> list[Wrong]:
        """Contacts that pull, and open ones that want to close, with how wrong they are."""
        wrong: list[Wrong] = []
        answers = self._answers(state)
        for number, (known, push) in enumerate(zip(answers, moved.pushes, strict=True)):
            for link in known.contacts:
                if link in state.lines[number]:
                    gap = _dot(known.gaps[link], push) + known.own_gaps[link]
                    if gap > CLOSE:
                        wrong.append((gap * 1e4, _toggled, (number, link)))
                elif moved.carried[number][link] < -LIFT:
                    wrong.append((-moved.carried[number][link], _toggled, (number, link)))
        return wrong + self._wrong_slats(state, moved)

    def _wrong_slats(self, state: State, moved: Moved) -> list[Wrong]:
        """The same of the contacts of slats with lines."""
        wrong: list[Wrong] = [(force * 1e4, _set_down, lift) for lift, force in moved.holds if force > CLOSE]
        for line, pushes in enumerate(moved.pushes):
            for i, push in enumerate(pushes):
                if (i, line) not in state.lifted and push < -LIFT:
                    wrong.append((-push, _lifted, (i, line)))
        return wrong


def _badness(wrong: Wrong) -> float:
    return round(wrong[0], 6)  # the first of equals, on any machine


def _worst_righted(state: State, wrong: list[Wrong], lines: int) -> State:
    """The state with the worst wrong contact set right."""
    _, change, contact = max(wrong, key=_badness)
    return change(state, contact, lines)


def _all_righted(state: State, wrong: list[Wrong], lines: int) -> State:
    """The state with every wrong contact set right, the worst last, which nothing then undoes."""
    for _, change, contact in sorted(wrong, key=_badness):
        state = change(state, contact, lines)
    return state


def _toggled(state: State, contact: tuple[int, int], lines: int) -> State:
    """A link of a line opened or closed."""
    line, link = contact
    opened = list(state.lines)
    opened[line] = opened[line] ^ {link}
    return State(tuple(opened), state.lifted)


def _set_down(state: State, contact: Lift, lines: int) -> State:
    return State(state.lines, state.lifted - {contact})


def _lifted(state: State, contact: Lift, lines: int) -> State:
    """One more contact apart; a slat stays on two lines at least, so that the others close again first."""
    mine = {lift for lift in state.lifted if lift[0] == contact[0]}
    kept = state.lifted - mine if len(mine) >= lines - 2 else state.lifted
    return State(state.lines, kept | {contact})


def _dot(row: Sequence[float], values: Sequence[float]) -> float:
    return float(sum(map(mul, row, values)))
