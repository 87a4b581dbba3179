"""The bed as the strength check sees it: every member and joint that carries people to the floor, and no other.

Cleat and rail are tied by their screws, the cleat stands on its legs, the rail hangs on its bolts. Runner and rail
are tied by the screws between them and touch over the legs. Nothing else holds anything up: a leg that shares no joint
with the rail beside it carries nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

from tutorial_lib.design.model import Build, Joint, Leg, SupportLine
from tutorial_lib.records import dataclass
from tutorial_lib.strength.fixings import Fixings
from tutorial_lib.strength.grillage import Grillage
from tutorial_lib.strength.halves import HalvedGrillage, HalvedSlat
from tutorial_lib.strength.lines import RIGID, Bar, Line, Link, PointDead, Seat
from tutorial_lib.strength.names import joint_name, leg_name
from tutorial_lib.strength.posts import Corner, Way, both_driven, corners, hung
from tutorial_lib.strength.sections import Size, density_of, wood_of
from tutorial_lib.strength.slat import Slat
from tutorial_lib.tables import DesignValues


@dataclass(frozen=True, kw_only=True)
class Member:
    """One piece that bends: its section as a beam and its wood."""

    label: str
    part: str
    size: Size
    wood: DesignValues
    start: float  # [in]
    end: float  # [in]
    weight: float  # [lb/in]

    @property
    def stiffness(self) -> float:
        """EI [lb in2]."""
        return self.wood.E * self.size.inertia


def member(build: Build, label: str) -> Member:
    """A piece of the build as a member that bends."""
    piece, section = build.pieces[label], build.section_of(label)
    size = Size(float(section.thickness), float(section.width), build.part_of(label).stands == "flat")
    return Member(
        label=label,
        part=piece.part,
        size=size,
        wood=wood_of(build, section),
        start=float(piece.box.lo[piece.axis]),
        end=float(piece.box.hi[piece.axis]),
        weight=density_of(build, section) * size.area / 1728,
    )


@dataclass(frozen=True)
class Gap:
    """A place where the way to the floor is broken."""

    what: str  # the part that has nothing to stand on, by its label
    why: str  # "leg", "screws", "legs", "seat"
    leg: str = ""


class Bed:
    """Members, lines and slats of one build with its fasteners."""

    def __init__(self, build: Build, fixings: Fixings) -> None:
        self.build, self.fixings = build, fixings
        self.legs = {leg.label: leg for leg in build.legs}
        self.lines = tuple(sorted(build.lines, key=lambda line: line.y))
        self.rows = build.slat_rows
        first, last = self.rows[0][0], self.rows[0][-1]
        self.slat = replace(member(build, first.label), end=float(last.box.hi[last.axis]))  # two halves are one row
        self.places = tuple(float(row[0].box.centre[0]) for row in self.rows)
        self._tops: dict[str, tuple[Joint, ...]] = {}
        self._beside: dict[str, Joint | None] = {}
        self._names: dict[str | Joint, str] = {}

    @cached_property
    def corners(self) -> dict[tuple[str, Way], Corner]:
        """Rails' ends at corner posts."""
        return corners(self.build)

    @property
    def fitted(self) -> bool:
        """True where fittings without a published value hold the rails on posts."""
        return any(corner.fitted for corner in self.corners.values())

    @cached_property
    def strips(self) -> tuple[tuple[float, float], ...]:
        """What each slat carries along the bed [in]."""
        start = float(self.build.slats.start)
        middles = [(a + b) / 2 for a, b in pairwise(self.places)]
        return tuple(pairwise([start, *middles, start + float(self.build.slats.opening)]))

    @cached_property
    def members(self) -> dict[str, Member]:
        """Those of the lines, by label."""
        return {label: member(self.build, label) for line in self.lines for label in line.members}

    @cached_property
    def seats(self) -> dict[int, list[Joint]]:
        """What each slat lies on, by its number."""
        numbers = {piece.label: number for number, row in enumerate(self.rows) for piece in row}
        found: dict[int, list[Joint]] = {}
        for joint in (*self.build.joints_of("slat"), *self.build.joints_of("slat_line")):
            found.setdefault(numbers[joint.near], []).append(joint)
        return found

    def seats_on(self, line: SupportLine, slat: int) -> list[Joint]:
        """Where one slat lies on one line: on its cleat, runner or beam, or on the tops of its legs."""
        own = set(line.members) | {piece for leg in self.build.legs if leg.line == line.name for piece in leg.pieces}
        own |= {c.to_post.near for c in self.corners.values() if c.to_post is not None and c.leg.line == line.name}
        return [joint for joint in self.seats.get(slat, ()) if joint.far in own]

    @cached_property
    def slat_beam(self) -> Slat:
        """A slat across the lines; one too short for its seat is a finding of the design's."""
        low, high = self.slat.start, self.slat.end
        ys = tuple(min(max(float(line.y), low), high) for line in self.lines)
        kind = HalvedSlat if self.build.options.slats.halves else Slat
        return kind(low, high, ys, self.slat.stiffness)

    def _together(self, lines: list[Line]) -> Grillage:
        kind = HalvedGrillage if self.build.options.slats.halves else Grillage
        return kind(self.slat_beam, lines)

    @cached_property
    def grillage(self) -> Grillage:
        """All lines with rail and runner, rail and cleat together."""
        return self._together([_Frame(self, line).line() for line in self.lines])

    @cached_property
    def alone(self) -> Grillage | None:
        """The same with each runner by itself, only its width over the legs counted; None where no rail helps."""
        if not any(self.set_in(line) for line in self.lines) and not self.tied:
            return None
        return self._together([_Frame(self, line, alone=line.kind == "runner").line() for line in self.lines])

    @cached_property
    def tied(self) -> bool:
        """True where rails help runners through screws."""
        return any(line.kind == "runner" for line in self.lines)

    def set_in(self, line: SupportLine) -> bool:
        """True for a runner whose rail's line isn't over the legs."""
        return line.kind == "runner" and any(self.reach(self.legs[label]) > 0 for label in line.legs)

    def reach(self, leg: Leg) -> float:
        """From the middle of the rail to the near edge of a leg under a runner [in]; 0 or less: the rail is over it."""
        rail = self.build.pieces[self.rail_of(leg.line)].box
        middle, half = float(rail.centre[1]), float(leg.size[1]) / 2
        if middle * 2 < float(self.build.outside[0]):
            return float(leg.y) - half - middle
        return middle - float(leg.y) - half

    def rail_of(self, line: str) -> str:
        """The side rail of a line."""
        return next(label for label in self._line(line).members if self.build.pieces[label].part == "side_rail")

    def _line(self, name: str) -> SupportLine:
        return next(line for line in self.lines if line.name == name)

    def width_over_legs(self, line: SupportLine) -> float:
        """The runner's width that stands over its legs [in], the least of them."""
        runner = self.build.pieces[next(m for m in line.members if self.build.pieces[m].part == "runner")].box
        widths = [
            float(
                min(self.legs[label].y + self.legs[label].size[1] / 2, runner.hi[1])
                - max(self.legs[label].y - self.legs[label].size[1] / 2, runner.lo[1])
            )
            for label in line.legs
        ]
        return max(0.1, min(widths, default=float(runner.size[1])))

    def rail_joint(self, leg: Leg) -> Joint | None:
        """The joint that fastens the side rail to a leg beside it, or to the block of a post."""
        if leg.label not in self._beside:
            self._beside[leg.label] = self._rail_joint(leg)
        return self._beside[leg.label]

    def _rail_joint(self, leg: Leg) -> Joint | None:
        if leg.post:
            return self.corners[leg.label, "along"].to_rail
        if leg.line not in ("left", "right"):
            return None
        for joint in self.build.joints_of("leg"):
            if joint.axis == 1 and joint.fastener in ("bolt", "screw") and self._joins(joint, leg, "side_rail"):
                return joint
        return None

    def _joins(self, joint: Joint, leg: Leg, part: str) -> bool:
        """True for a joint between one of the leg's pieces and a board of this part."""
        for mine, other in ((joint.near, joint.far), (joint.far, joint.near)):
            if mine in leg.pieces and self.build.pieces[other].part == part:
                return True
        return False

    def tops(self, leg: Leg) -> tuple[Joint, ...]:
        """What stands on a leg's top."""
        if leg.label not in self._tops:
            kinds, mine = ("leg", "line_leg", "flange"), set(leg.pieces)
            upright = (j for j in self.build.joints if j.axis == 2 and j.kind in kinds)
            self._tops[leg.label] = tuple(j for j in upright if {j.near, j.far} & mine)
        return self._tops[leg.label]

    def name_of(self, what: Leg | Joint) -> str:
        """A leg, or a joint's fasteners, as a person names them: in every check of every case."""
        key = what.label if isinstance(what, Leg) else what
        if key not in self._names:
            self._names[key] = leg_name(self.build, what) if isinstance(what, Leg) else joint_name(self.build, what)
        return self._names[key]

    def under(self, leg: Leg) -> tuple[str, ...]:
        """Boards of its own line that stand on a leg, the rail first."""
        own = self._line(leg.line).members
        above = {label for joint in self.tops(leg) for label in (joint.near, joint.far)}
        return tuple(label for label in own if label in above)

    @cached_property
    def gaps(self) -> tuple[Gap, ...]:
        """Where the way to the floor is broken."""
        return tuple(self._gaps())

    def _gaps(self) -> Iterator[Gap]:
        for line in self.lines:
            if line.kind == "cleat":
                yield from self._gaps_of_cleat(line)
            if not line.legs and line.ends not in ("hanger", "block"):
                yield Gap(line.members[0], "legs")
        for number, row in enumerate(self.rows):
            for line in self.lines:
                if not self.seats_on(line, number):
                    yield Gap(row[0].label, "seat", line.name)

    def _gaps_of_cleat(self, line: SupportLine) -> Iterator[Gap]:
        """Legs that don't carry the rail, cleats that no screws hold."""
        rail = self.rail_of(line.name)
        loose = [label for label in line.legs if not self.carries_rail(self.legs[label])]
        yield from (Gap(rail, "leg", label) for label in loose)
        held = {joint.near for joint in self.build.joints_of("cleat") if self.fixings.row(joint) is not None}
        yield from (Gap(label, "screws") for label in line.members[1:] if label not in held)

    def carries_rail(self, leg: Leg) -> bool:
        """True for a side leg that the rail is fastened to or stands on."""
        if leg.post:
            corner = self.corners[leg.label, "along"]
            return corner.fitted or both_driven(corner, self.fixings)
        joint = self.rail_joint(leg)
        if joint is not None and self.fixings.row(joint) is not None:
            return True
        return self.rail_of(leg.line) in self.under(leg)


@dataclass
class _Frame:
    """Builds one line; thrown away when it is made."""

    bed: Bed
    support: SupportLine
    alone: bool = False

    def line(self) -> Line:
        """Bars, links and seats of the line."""
        pieces = self.bed.build.pieces
        labels = [m for m in self.support.members if not (self.alone and pieces[m].part == "side_rail")]
        self.number = {label: i for i, label in enumerate(labels)}
        kind = self.support.kind
        links = self._cleat() if kind == "cleat" else self._runner() if kind == "runner" else self._own()
        return Line(
            name=self.support.name,
            y=float(self.support.y),
            slats=len(self.bed.places),
            bars=tuple(self._bar(label) for label in labels),
            links=tuple(links),
            seats=tuple(self._seats()),
            weights=() if self.alone else tuple(self._hung()),
        )

    def _bar(self, label: str) -> Bar:
        known = self.bed.members[label]
        stiffness = known.stiffness
        if self.alone:
            stiffness *= self.bed.width_over_legs(self.support) / known.size.breadth
        return Bar(label, known.start, known.end, stiffness, known.weight)

    def _leg(self, leg: Leg, bar: int) -> Link:
        return Link(
            kind="leg", name=leg.label, x=float(leg.x), bar=bar, below=None, stiffness=RIGID, pushes=not self.alone
        )

    def _legs(self) -> Iterator[Leg]:
        return (self.bed.legs[label] for label in self.support.legs if label in self.bed.legs)

    def _cleat(self) -> Iterator[Link]:
        rail = self.number[self.bed.rail_of(self.support.name)]
        for joint in self.bed.build.joints_of("cleat"):
            row = self.bed.fixings.row(joint)
            if joint.near in self.number and joint.far in self.number and row is not None:
                for x in row.places:
                    yield Link(kind="screw", name=joint.label, x=x, bar=self.number[joint.near],
                               below=self.number[joint.far], stiffness=row.stiffness, pushes=False)  # fmt: skip
        for leg in self._legs():
            yield from self._side_leg(leg, rail)

    def _side_leg(self, leg: Leg, rail: int) -> Iterator[Link]:
        """A leg beside the rail or under it; one that shares nothing with the rail carries nothing."""
        if not self.bed.carries_rail(leg):
            return
        if leg.post:
            x, stiffness = hung(self.bed.build, self.bed.corners[leg.label, "along"], self.bed.fixings)
            yield Link(kind="bolts", name=leg.label, x=x, bar=rail, below=None, stiffness=stiffness, pushes=False)
            return
        joint = self.bed.rail_joint(leg)
        row = None if joint is None else self.bed.fixings.row(joint)
        if row is not None:
            yield Link(kind="bolts", name=leg.label, x=float(leg.x), bar=rail, below=None,
                       stiffness=len(row.places) * row.stiffness, pushes=False)  # fmt: skip
        for label in self.bed.under(leg):
            yield self._leg(leg, self.number[label])

    def _runner(self) -> Iterator[Link]:
        runner = next(i for label, i in self.number.items() if self.bed.build.pieces[label].part == "runner")
        for leg in self._legs():
            yield self._leg(leg, runner)
        if self.alone:
            return
        rail = self.number[self.bed.rail_of(self.support.name)]
        for leg in self._legs():
            yield Link(kind="touch", name=leg.label, x=float(leg.x), bar=rail, below=runner, stiffness=RIGID,
                       pushes=True)  # fmt: skip
        yield from self._ties(rail, runner)

    def _ties(self, rail: int, runner: int) -> Iterator[Link]:
        """The screws between runner and rail."""
        for joint in self.bed.build.joints_of("runner"):
            row = self.bed.fixings.row(joint)
            if joint.near in self.number and joint.far in self.number and row is not None:
                for x in row.places:
                    yield Link(kind="tie", name=joint.label, x=x, bar=rail, below=runner, stiffness=RIGID,
                               pushes=False)  # fmt: skip

    def _own(self) -> Iterator[Link]:
        for leg in self._legs():
            yield self._leg(leg, 0)
        if self.support.ends in ("hanger", "block"):
            known = self.bed.members[self.support.members[0]]
            for end, x in (("head", known.start), ("foot", known.end)):
                yield Link(kind="end", name=end, x=x, bar=0, below=None, stiffness=self._end_rail(end),
                           pushes=self.support.ends == "block")  # fmt: skip

    def _end_rail(self, end: str) -> float:
        """What an end rail gives under a line that hangs on it [lb/in]: 3 E I L / a^2 b^2."""
        rail = member(self.bed.build, f"end rail {end}")
        a = float(self.support.y) - rail.start
        b, length = rail.end - rail.start - a, rail.end - rail.start
        return 3 * rail.stiffness * length / (a * b) ** 2

    def _seats(self) -> Iterator[Seat]:
        for i in range(len(self.bed.rows)):
            found = _seats_of(self.bed, self.support, i)
            total = sum(width for _, _, width in found)
            for below, x, width in found:
                yield Seat(i, self.number.get(below), x, width / total)

    def _hung(self) -> Iterator[PointDead]:
        """End rails, half their weight at each corner, on the rail they are screwed to or the runner they stand on."""
        if self.support.kind not in ("cleat", "runner"):
            return
        runner = self.support.kind == "runner"
        carrier = next(m for m in self.support.members if not runner or self.bed.build.pieces[m].part == "runner")
        known = self.bed.members[carrier]
        for rail in self.bed.build.part("end_rail").pieces if self.bed.build.has("end_rail") else ():
            own = member(self.bed.build, rail.label)
            x = min(max(float(rail.box.centre[0]), known.start), known.end)
            yield PointDead(self.number[carrier], x, own.weight * (own.end - own.start) / 2)


def _seats_of(bed: Bed, line: SupportLine, slat: int) -> list[tuple[str, float, float]]:
    """(piece below, x, width of contact) of one slat on one line [in]."""
    found = []
    for joint in bed.seats_on(line, slat):
        middle = bed.places[slat]
        low, high = float(joint.contact.lo[0]), float(joint.contact.hi[0])
        x = middle if low <= middle <= high else (low + high) / 2
        found.append((joint.far, x, high - low))
    return found
