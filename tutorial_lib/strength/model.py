"""The bed as the strength check sees it: slats over lines, lines over legs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from tutorial_lib.design.model import Build, Joint, Section, SupportLine
from tutorial_lib.strength.beams import Beam
from tutorial_lib.strength.wood import Size, Wood, size_of, wood


@dataclass(frozen=True)
class Member:
    """One piece that bends: its section as a beam, its wood, its share of a line's load."""

    label: str
    part: str
    size: Size
    wood: Wood
    start: float  # [in]
    end: float  # [in]

    @property
    def stiffness(self) -> float:
        """EI [lb in2]."""
        return self.wood.stiffness * self.size.inertia

    @property
    def weight(self) -> float:
        """Own weight [lb/in] at 12 % moisture. NDS Supplement 3.1.3, from memory."""
        return density(self.wood.gravity) * self.size.area / 1728


def density(gravity: float, moisture: float = 12.0) -> float:
    """Weight of wood [lb/ft3]: 62.4 G / (1 + 0.009 G M) (1 + M / 100). NDS Supplement 3.1.3, from memory.

    >>> round(density(0.42), 1)
    28.1
    """
    return 62.4 * gravity / (1 + 0.009 * gravity * moisture) * (1 + moisture / 100)


@dataclass(frozen=True)
class Support:
    """What a line rests on: a leg, or the end rail it hangs from."""

    x: float  # [in]
    label: str
    kind: str  # "leg", "hanger", "block", "rail"


@dataclass(frozen=True)
class Line:
    """A support line as a beam over its legs. Rail and runner bend together and share by stiffness."""

    name: str
    kind: str
    y: float
    members: tuple[Member, ...]  # those that bend: a cleat's rail, a runner with its rail, a line by itself
    supports: tuple[Support, ...]

    @property
    def start(self) -> float:
        """Near end of the longest member [in]."""
        return min(m.start for m in self.members)

    @property
    def end(self) -> float:
        """Far end [in]."""
        return max(m.end for m in self.members)

    @property
    def stiffness(self) -> float:
        """EI of all members together [lb in2]."""
        return sum(m.stiffness for m in self.members)

    @property
    def weight(self) -> float:
        """Own weight [lb/in]."""
        return sum(m.weight for m in self.members)

    def share(self, member: Member) -> float:
        """Part of the line's load that a member carries, by stiffness."""
        return member.stiffness / self.stiffness

    @cached_property
    def beam(self) -> Beam:
        """The line as a beam, stiffer where more members run."""
        places = sorted({x for m in self.members for x in (m.start, m.end)})
        stretches = tuple(
            (b, sum(m.stiffness for m in self.members if m.start < (a + b) / 2 < m.end)) for a, b in pairwise(places)
        )
        return Beam(self.start, self.end, stretches, tuple(sorted({s.x for s in self.supports})))

    def without(self, label: str) -> Line:
        """The line with one leg taken away."""
        return Line(self.name, self.kind, self.y, self.members, tuple(s for s in self.supports if s.label != label))


@dataclass(frozen=True)
class Model:
    """Slats, lines and legs."""

    build: Build
    slat: Member
    slat_places: tuple[float, ...]  # [in] x of each slat's middle
    strips: tuple[tuple[float, float], ...]  # [in] what each slat carries along the bed
    lines: tuple[Line, ...]  # by y

    @property
    def pitch(self) -> float:
        """Widest strip a slat carries [in]."""
        return max(b - a for a, b in self.strips)

    @property
    def slat_spans(self) -> tuple[float, ...]:
        """Spans between centres of bearing [in]."""
        return tuple(b.y - a.y for a, b in pairwise(self.lines))

    @cached_property
    def slat_beam(self) -> Beam:
        """A slat as a continuous beam across the lines; one too short for its seat is a finding of the design's."""
        low, high = self.slat.start, self.slat.end
        return Beam.uniform(low, high, self.slat.stiffness, [min(max(line.y, low), high) for line in self.lines])

    def line(self, name: str) -> Line:
        """The line with this name."""
        return next(line for line in self.lines if line.name == name)


def model(build: Build) -> Model:
    """The structural model of a build.

    Raises:
        InputError: species or grade not in the tables.
    """
    part = build.part("slat")
    first = part.pieces[0].box
    slat = Member(
        "slat",
        "slat",
        size_of(part.section.thickness, part.section.width, flat=part.stands == "flat"),
        wood_of(build, part.section),
        float(first.lo[1]),
        float(first.hi[1]),
    )
    start = float(build.slats.start)
    places = tuple(start + float(mark + build.slats.width / 2) for mark in build.slats.marks)
    edges = [start, *((a + b) / 2 for a, b in pairwise(places)), start + float(build.slats.opening)]
    lines = tuple(sorted((_line(build, line) for line in build.lines), key=lambda line: line.y))
    return Model(build, slat, places, tuple(pairwise(edges)), lines)


def wood_of(build: Build, section: Section) -> Wood:
    """Design values for a section of the build."""
    chosen = build.options.wood
    return wood(
        section.species or chosen.species, section.grade or chosen.grade, float(section.width), float(section.thickness)
    )


def member(build: Build, label: str) -> Member:
    """A piece as a member that bends."""
    piece, section = build.pieces[label], build.section_of(label)
    low, high = float(piece.box.lo[piece.axis]), float(piece.box.hi[piece.axis])
    flat = build.part_of(label).stands == "flat"
    return Member(
        label, piece.part, size_of(section.thickness, section.width, flat=flat), wood_of(build, section), low, high
    )


def _line(build: Build, line: SupportLine) -> Line:
    labels = line.members
    if line.kind == "cleat":  # the cleat hands its load to the rail by its screws; only the rail is counted on
        labels = tuple(m for m in labels if "cleat" not in build.pieces[m].part) or labels
    members = tuple(member(build, label) for label in labels)
    legs = {leg.label: leg for leg in build.legs}
    supports = [Support(float(legs[label].x), label, "leg") for label in line.legs if label in legs]
    if line.kind in ("beam", "flat") and line.ends in ("hanger", "block", "rail"):
        low, high = min(m.start for m in members), max(m.end for m in members)
        supports += [Support(x, f"{line.name} {end} end", line.ends) for x, end in ((low, "head"), (high, "foot"))]
    return Line(line.name, line.kind, float(line.y), members, tuple(sorted(supports, key=lambda s: s.x)))


def leg_joints(build: Build, label: str) -> Iterator[Joint]:
    """Joints that hold one leg to the bed."""
    pieces = set(next(leg.pieces for leg in build.legs if leg.label == label))
    for joint in build.joints:
        if joint.kind in ("leg", "flange", "line_leg") and (joint.near in pieces) != (joint.far in pieces):
            yield joint


def longest_clear(build: Build, rail: Member) -> float:
    """Longest stretch of an end rail between the pieces below that hold it, or between its ends [in]."""
    box = build.pieces[rail.label].box
    below = sorted(
        float(p.box.centre[1])
        for p in build.pieces.values()
        if p.box.hi[2] == box.lo[2] and p.box.contact(box) is not None
    )
    places = [rail.start, *below, rail.end] if len(below) > 1 else [rail.start, rail.end]
    return max(b - a for a, b in pairwise(places))
