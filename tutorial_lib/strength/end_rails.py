"""End rails that carry centre lines on blocks: the blocks' screws, the rail between its legs, its ends on them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from tutorial_lib.design.model import Joint, Piece
from tutorial_lib.records import dataclass
from tutorial_lib.strength.bed import Bed, Member, member
from tutorial_lib.strength.joints import capacity, lateral_limit
from tutorial_lib.strength.line_checks import LineChecks
from tutorial_lib.strength.loads import Case
from tutorial_lib.strength.members import bearing_limit, moment_limit, shear_limit
from tutorial_lib.strength.names import joint_name, piece_name
from tutorial_lib.strength.response import Response
from tutorial_lib.strength.use import Effect, Limit, Use, largest

ENDS = ("head", "foot")


@dataclass(frozen=True)
class Held:
    """One end of an end rail on its leg."""

    y: float  # [in]
    joint: Joint


@dataclass(frozen=True)
class Load:
    """What one line's end presses on its block: of the bed, and per pound of a person [lb]."""

    y: float  # [in]
    dead: float
    live: float


class EndRail:
    """One end rail as a beam between the legs that hold it."""

    def __init__(self, bed: Bed, end: str) -> None:
        self.bed, self.end = bed, end
        self.label = f"end rail {end}"

    @property
    def rail(self) -> Piece:
        """The board."""
        return self.bed.build.pieces[self.label]

    @cached_property
    def known(self) -> Member:
        """Its section and wood."""
        return member(self.bed.build, self.label)

    @cached_property
    def held(self) -> tuple[Held, ...]:
        """What it stands on or is fastened to near its ends, left and right; brackets have no published value."""
        middle, found = self.rail.box.centre[1], dict[bool, Held]()
        for joint in self.bed.build.joints:
            counts = joint.kind in ("leg", "flange") and self.label in (joint.near, joint.far)
            if counts and (joint.bears or self.bed.fixings.row(joint) is not None):
                right = joint.contact.centre[1] > middle
                found[right] = Held(float(joint.contact.centre[1]), joint)
        return tuple(found[right] for right in (False, True) if right in found)

    def block_of(self, line: str) -> Joint | None:
        """The joint that screws a line's block to this rail."""
        y = next(line_.y for line_ in self.bed.lines if line_.name == line)
        for joint in self.bed.build.joints_of("line_end"):
            if joint.far == self.label and self.bed.build.pieces[joint.near].part == "beam_block":
                box = self.bed.build.pieces[joint.near].box
                if box.lo[1] < y < box.hi[1] and self.bed.fixings.row(joint) is not None:
                    return joint
        return None

    def moment(self, at: float, loads: Sequence[tuple[float, float]], own: bool) -> float:
        """Bending moment at one place under loads (y, pounds), and its own weight [lb in]."""
        a, b = self.held[0].y, self.held[-1].y
        total = sum(p * (min(at, y) - a) * (b - max(at, y)) / (b - a) for y, p in loads)
        return total + (self.known.weight * (at - a) * (b - at) / 2 if own else 0.0)

    def reaction(self, right: bool, loads: Sequence[tuple[float, float]], own: bool) -> float:
        """Push on the leg at one end [lb]."""
        a, b = self.held[0].y, self.held[-1].y
        total = sum(p * ((y - a) if right else (b - y)) / (b - a) for y, p in loads)
        return total + (self.known.weight * (self.known.end - self.known.start) / 2 if own else 0.0)


def carried_by_rule(bed: Bed, line: str) -> bool:
    """True for a line on blocks whose screws, end rails and legs all have values by rule."""
    rails = [EndRail(bed, end) for end in ENDS]
    return all(len(rail.held) == 2 and rail.block_of(line) is not None for rail in rails)


class EndRailChecks:
    """All checks of the end rails that carry lines on blocks."""

    def __init__(self, lines: LineChecks) -> None:
        self.lines, self.bed = lines, lines.bed

    def uses(self, responses: Sequence[Response]) -> Iterator[Use]:
        """Blocks, rails and their ends in each case."""
        lines = [line.name for line in self.bed.lines if line.ends == "block"]
        on_blocks = [name for name in lines if carried_by_rule(self.bed, name)]
        for end in ENDS if on_blocks else ():
            rail = EndRail(self.bed, end)
            for response in responses:
                loads = [self._load(response, name, end) for name in on_blocks]
                for case in response.cases:
                    yield from self._blocks(rail, on_blocks, loads, case)
                    yield from self._bent(rail, loads, case)
                    yield from self._ends(rail, loads, case)

    def _load(self, response: Response, name: str, end: str) -> Load:
        number = next(i for i, line in enumerate(self.lines.lines) if line.name == name)
        line = self.lines.lines[number]
        link = next(i for i, link in enumerate(line.links) if link.kind == "end" and link.name == end)
        return Load(line.y, response.dead.carried[number][link], response.live.carried[number][link])

    def _use(self, rail: EndRail, what: str, label: str, case: Case, limit: Limit, effects: tuple[Effect, ...]) -> Use:
        return Use(part="end_rail", piece=rail.label, label=label, what=what, case=case, person=self.lines.person,
                   limit=limit, unit="moment" if what == "bending" else "force", effects=effects,
                   key=f"end-rail-{what}")  # fmt: skip

    def _blocks(self, rail: EndRail, names: Sequence[str], loads: Sequence[Load], case: Case) -> Iterator[Use]:
        for name, load in zip(names, loads, strict=True):
            joint = rail.block_of(name)
            limit = None if joint is None else self._fastened(joint, case)
            if joint is not None and limit is not None:
                effects = (Effect(load.dead, case.times * load.live),)
                yield self._use(rail, "screws", joint_name(self.bed.build, joint), case, limit, effects)

    def _fastened(self, joint: Joint, case: Case) -> Limit | None:
        fastening = self.bed.fixings.of(joint)
        if fastening is None:
            return None
        return lateral_limit(capacity(self.bed.build, fastening), fastening.count, case.duration)

    def _bent(self, rail: EndRail, loads: Sequence[Load], case: Case) -> Iterator[Use]:
        known, name = rail.known, piece_name(self.bed.build, rail.label)
        places = [load.y for load in loads]
        rest, add = [(load.y, load.dead) for load in loads], [(load.y, case.times * load.live) for load in loads]
        effects = largest([rail.moment(y, rest, own=True) for y in places],
                          [rail.moment(y, add, own=False) for y in places], self.lines.person)  # fmt: skip
        yield self._use(rail, "bending", name, case, moment_limit(known.wood, known.size, case.duration), effects)
        ends = [Effect(rail.reaction(right, rest, own=True), rail.reaction(right, add, own=False))
                for right in (False, True)]  # fmt: skip
        yield self._use(rail, "shear", name, case, shear_limit(known.wood, known.size, case.duration), tuple(ends))

    def _ends(self, rail: EndRail, loads: Sequence[Load], case: Case) -> Iterator[Use]:
        """On a leg's top by bearing, beside a leg by its fasteners."""
        rest, add = [(load.y, load.dead) for load in loads], [(load.y, case.times * load.live) for load in loads]
        for right, held in zip((False, True), rail.held, strict=True):
            effects = (Effect(rail.reaction(right, rest, own=True), rail.reaction(right, add, own=False)),)
            if held.joint.axis == 2:
                size = held.joint.contact.size
                limit: Limit | None = bearing_limit(rail.known.wood, float(size[0] * size[1]))
                what, label = "bearing", f"{piece_name(self.bed.build, rail.label)} on its leg"
            else:
                limit = self._fastened(held.joint, case)
                what = "bolts" if held.joint.fastener == "bolt" else "screws"
                label = joint_name(self.bed.build, held.joint)
            if limit is not None:
                yield self._use(rail, what, label, case, limit, effects)
