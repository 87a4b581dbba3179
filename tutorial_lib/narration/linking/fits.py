"""The facts that a value may be said of by itself: those that it is right for, those it may be a slip about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from tutorial_lib.narration.linking.claims import Reading
from tutorial_lib.narration.linking.slips import APART, close, may_slip, near_miss, rough, units_mixed, within_twice
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import DURATIONS

TINY, HUGE = 0.2, 5.0  # a value so many times a fact's can't be about it, even exchanged with another
REMEMBERED = 4000  # values; four numbers in ten of a talk repeat one said before


class Fit(NamedTuple):
    """A fact and the reading of a number that fits it."""

    subject: Subject
    reading: Reading
    equal: bool  # the value is the fact's
    slips: bool  # it may be a slip about it
    missed: bool  # and so near that the value alone makes one think of the fact


class Right(NamedTuple):
    """What a value is right for."""

    kinds: frozenset[str]
    parts: frozenset[tuple[Any, ...]]  # those that a length is right for


class Fits:
    """What each value of a talk may be said of, looked for once."""

    def __init__(self, subjects: Sequence[Subject]) -> None:
        self.by_unit = by_unit(subjects)
        self.known: dict[tuple[Reading, ...], tuple[list[Fit], Right]] = {}

    def of(self, readings: tuple[Reading, ...]) -> tuple[list[Fit], Right]:
        """The facts of the units a number can be read in, those many times larger or smaller left out; those equal."""
        found = self.known.get(readings)
        if found is None:
            if len(self.known) == REMEMBERED:
                self.known.clear()
            fits = list(self.readable(readings))
            found = self.known[readings] = fits, right([fit.subject for fit in fits if fit.equal])
        return found

    def readable(self, readings: Sequence[Reading]) -> Iterator[Fit]:
        """Each fact with the reading nearest to it."""
        for unit in dict.fromkeys(unit for _, unit in readings):
            near = [(r, rough(r[0])) for r in readings if r[1] == unit]
            for subject in self.by_unit.get(unit, ()):
                true = subject.floats[0]
                reading, said = near[0] if len(near) == 1 else min(near, key=lambda n: abs(n[1] - true))
                if TINY * true < said < HUGE * true or is_far(said, subject):
                    yield fit(subject, reading, said)


def right(equal: Sequence[Subject]) -> Right:
    """The kinds and parts of the facts that a value is right for."""
    return Right(frozenset(s.kind for s in equal), frozenset(s.group for s in equal if s.is_length))


def by_unit(subjects: Sequence[Subject]) -> dict[str, list[Subject]]:
    """The facts of each unit; loads aren't linked by chance: ``verdicts.loads`` judges them by rule."""
    out: dict[str, list[Subject]] = {}
    for s in subjects:
        if s.kind != "load_rating":
            out.setdefault(s.unit, []).append(s)
    return out


def fit(subject: Subject, reading: Reading, said: float) -> Fit:
    """How a value stands to a fact; ``said`` is the value roughly."""
    if may_equal(said, subject) and close(reading[0], subject):
        return Fit(subject, reading, equal=True, slips=False, missed=False)
    slips = within_twice(said, subject) or may_slip(reading[0], subject)
    return Fit(subject, reading, equal=False, slips=slips, missed=slips and near_miss(reading[0], subject))


def may_equal(said: float, subject: Subject) -> bool:
    """Whether a value lies near enough to a fact's to be it; facts with several values are looked at closely."""
    return len(subject.floats) > 1 or -APART <= said - subject.floats[0] <= APART


def is_far(said: float, subject: Subject) -> bool:
    """Whether a value can be about a fact though it is far from it: marks in a row, a time, another unit."""
    if len(subject.floats) > 1 or subject.floats[0] <= 0 or subject.unit in DURATIONS:
        return True
    return units_mixed(said / subject.floats[0], subject)
