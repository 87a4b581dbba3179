"""A straight beam by our own slats and lines: one slat across stiff lines, under point and spread loads."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from tutorial_lib.strength.grillage import Grillage, Load
from tutorial_lib.strength.lines import Bar, Line, Link, Seat
from tutorial_lib.strength.slat import Slat, Spread

STIFF = 1e12  # [lb/in] legs of the lines: as good as none that give


@dataclass(frozen=True)
class PointLoad:
    """A load at one place [in, lb]."""

    x: float
    load: float

    @property
    def part(self):
        """Pounds, and how they are spread."""
        return self.load, Spread(self.x, self.x)


@dataclass(frozen=True)
class SpreadLoad:
    """A load spread evenly from a to b [in, lb/in]."""

    a: float
    b: float
    per_inch: float

    @property
    def part(self):
        """Pounds, and how they are spread."""
        return self.per_inch * (self.b - self.a), Spread(self.a, self.b)


class Bent:
    """The beam under its loads, held both ways at every support."""

    def __init__(self, start, end, stiffness, supports, loads):
        self.supports = tuple(sorted(supports))
        self.slat = Slat(start, end, self.supports, stiffness)
        self.parts = tuple(load.part for load in loads)
        grillage = Grillage(self.slat, [_line(y) for y in self.supports])
        self.moved = grillage.under(Load((self.parts,)), grillage.closed)

    @property
    def reactions(self):
        """(place, pounds up) of each support."""
        return tuple((y, push[0]) for y, push in zip(self.supports, self.moved.pushes, strict=True))

    def reaction(self, y):
        """Pounds up at the support at y."""
        return next(push for at, push in self.reactions if abs(at - y) < 1e-6)

    def moment(self, y):
        """Moment at y [lb in], positive where it pulls the lower face."""
        up = sum(push * max(0.0, y - at) for at, push in self.reactions)
        return up + sum(pounds * self.slat.moment(y, spread) for pounds, spread in self.parts)

    def sag(self, y):
        """Sag at y [in]; between the outer supports."""
        down = sum(pounds * self.slat.sag(y, spread) for pounds, spread in self.parts)
        return down - sum(push * self.slat.sag(y, Spread(at, at)) for at, push in self.reactions[1:-1])

    @cached_property
    def _places(self):
        low, high = self.slat.start, self.slat.end
        fine = {low + (high - low) * i / 4000 for i in range(4001)}
        return sorted(fine | set(self.supports) | {y for _, s in self.parts for y in (s.a, s.b)})

    @property
    def greatest_moment(self):
        """(place, moment) where it is greatest in size."""
        y = max(self._places, key=lambda y: abs(self.moment(y)))
        return y, self.moment(y)

    @property
    def greatest_sag(self):
        """(place, sag) where it is greatest."""
        y = max(self._places, key=self.sag)
        return y, self.sag(y)


def _line(y):
    bar = Bar("line", 0.0, 100.0, 1e12, 0.0)
    links = tuple(
        Link(kind="leg", name=str(x), x=x, bar=0, below=None, stiffness=STIFF, pushes=False) for x in (40.0, 60.0)
    )
    return Line(name=str(y), y=y, slats=1, bars=(bar,), links=links, seats=(Seat(0, 0, 50.0),))


def bend(start, end, stiffness, supports, loads):
    """The beam from start to end [in] of one stiffness EI [lb in2] under its loads."""
    return Bent(start, end, stiffness, supports, loads)
