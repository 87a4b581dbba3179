"""One bed worked out whole: every check, what stands in the way of a rating, and the ratings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import replace
from functools import cached_property
from typing import Literal

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build, Leg, Part, SupportLine
from tutorial_lib.design.standing_rules import RAISED, RAISED_METRIC
from tutorial_lib.records import dataclass
from tutorial_lib.strength.bed import Bed, Gap
from tutorial_lib.strength.end_rails import EndRailChecks, carried_by_rule
from tutorial_lib.strength.fixings import Fixings
from tutorial_lib.strength.grillage import Tips
from tutorial_lib.strength.joint_checks import JointChecks, RunnerAlone
from tutorial_lib.strength.line_checks import LegLoad, LineChecks
from tutorial_lib.strength.loads import SAFETY
from tutorial_lib.strength.racking import Racking, Tipping, tippings
from tutorial_lib.strength.rating import Position, Rating, rate
from tutorial_lib.strength.response import Fallen, Responder, Response
from tutorial_lib.strength.slat_checks import Sag, SlatChecks
from tutorial_lib.strength.use import Use


@dataclass(frozen=True)
class Barrier:
    """Why there is no rating: the rule that stands against it."""

    rule: Literal["height", "path", "support", "tipping", "racking", "no value", "balance"]
    kinds: tuple[Position, ...] = ("lying", "sitting")
    what: str = ""


class Outcome:
    """A build with its fasteners, worked out."""

    def __init__(self, build: Build, fixings: Fixings) -> None:
        self.build, self.fixings = build, fixings
        self.bed = Bed(build, fixings)
        self.responder = Responder(self.bed, self.bed.grillage)
        self.slats, self.lines = SlatChecks(self.responder), LineChecks(self.responder)
        self.person = float(build.options.load.person)

    @cached_property
    def fell(self) -> Tips | None:
        """What gives way under the bed's own weight, where something does."""
        try:
            self.responder.dead  # noqa: B018  asks whether there is a balance
        except Tips as tips:
            return tips
        return None

    @cached_property
    def found(self) -> tuple[tuple[Response, ...], tuple[Fallen, ...]]:
        """Cases with and without a balance."""
        return ((), ()) if self.fell else self.responder.found

    @property
    def responses(self) -> tuple[Response, ...]:
        """The cases that have a balance."""
        return self.found[0]

    @cached_property
    def weight(self) -> float:
        """Bed, mattress and bedding on the legs, the legs themselves and the end rails left out [lb]."""
        slats = self.bed.slat
        own = len(self.bed.places) * slats.weight * (slats.end - slats.start)
        own += sum(known.weight * (known.end - known.start) for known in self.bed.members.values())
        return own + float(self.build.options.load.mattress + self.build.options.load.bedding)

    @cached_property
    def uses(self) -> tuple[Use, ...]:
        """Every check; none where the bed falls by itself."""
        if self.fell:
            return ()
        bent = (*self.slats.uses(self.responses), *self.knees, *self.lifted, *self.lines.uses(self.responses))
        ends = EndRailChecks(self.lines).uses(self.responses)
        return (*bent, *self.joints, *ends, *self.pushed, *self.alone)

    @cached_property
    def knees(self) -> tuple[Use, ...]:
        """Of them kneeling on a slat, and standing on a bare one."""
        return () if self.fell else tuple(self.slats.kneeling())

    @cached_property
    def lifted(self) -> tuple[Use, ...]:
        """Of them the screws that hold slats down."""
        return () if self.fell else tuple(self.slats.hold_downs())

    @cached_property
    def joints(self) -> tuple[Use, ...]:
        """Of them the bolts and screws of legs, cleats and runners."""
        return () if self.fell else tuple(JointChecks(self.lines).uses(self.responses))

    @cached_property
    def pushed(self) -> tuple[Use, ...]:
        """Of them the bed pushed sideways."""
        return () if self.fell else tuple(self.racking.uses())

    @cached_property
    def alone(self) -> tuple[Use, ...]:
        """Of them the runners without their rails."""
        grillage = None if self.fell else self.bed.alone
        if grillage is None:
            return ()
        alone = Responder(self.bed, grillage)
        try:
            responses, _ = alone.found
        except Tips:
            return ()
        return tuple(RunnerAlone(alone, self.lines).uses(responses, self.responses))

    @cached_property
    def racking(self) -> Racking:
        """The bed pushed sideways."""
        asleep = next((r for r in self.responses if r.case.kind == "lying"), None)
        loads = [] if asleep is None else list(self.lines.leg_loads(asleep))
        empty, sleepers = ({load.leg.label: getattr(load.whole, part) for load in loads} for part in ("dead", "live"))
        return Racking(self.bed, self.weight, empty, sleepers)

    @cached_property
    def tippings(self) -> tuple[Tipping, ...]:
        """Every way of sitting on an edge."""
        return tippings(self.bed, self.weight)

    @cached_property
    def sag(self) -> Sag | None:
        """The deepest sag of the deck, for comfort."""
        return None if self.fell else self.slats.sag(self.responses)

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """Where the way to the floor is broken."""
        return self.bed.gaps

    def leg_loads(self) -> Iterator[LegLoad]:
        """What each leg carries in each case, sitting down hard left out."""
        for response in self.responses:
            yield from self.lines.leg_loads(response)

    @cached_property
    def barriers(self) -> tuple[Barrier, ...]:
        """All that stands against a rating."""
        return tuple(self._barriers())

    def _barriers(self) -> Iterator[Barrier]:
        if self.too_high:
            yield Barrier("height")
        if self.gaps:
            yield Barrier("path")
        if self.fell:
            yield Barrier("support", what=self.fell.what)
        yield from self._unbalanced()
        if any(tip.ratio < SAFETY for tip in self.tippings):
            yield Barrier("tipping")
        if self._racks():
            yield Barrier("racking")
        if self.unpublished or self.bed.fitted:
            yield Barrier("no value")

    def _unbalanced(self) -> Iterator[Barrier]:
        """Cases without a balance."""
        for fallen in self.found[1]:
            kind: Position = "lying" if fallen.case.kind == "lying" else "sitting"
            yield Barrier("balance", (kind,), fallen.case.name)

    def _racks(self) -> bool:
        """True where the legs don't hold people lying or sitting upright."""
        return any(use.ratio > 1 for use in self.pushed if use.what == "racking" and use.kind in ("lying", "sitting"))

    @property
    def too_high(self) -> bool:
        """True for a bed that wants guards."""
        heights = self.build.heights
        if self.build.options.build.units == "mm":
            return heights.slat_top >= RAISED_METRIC
        return heights.slat_bottom > RAISED

    @property
    def unpublished(self) -> tuple[str, ...]:
        """Lines whose ends people are carried by in fittings that have no published value."""
        return tuple(
            line.name
            for line in self.build.lines
            if line.ends == "hanger" or (line.ends == "block" and not carried_by_rule(self.bed, line.name))
        )

    def rating(self, kind: Position) -> Rating:
        """The greatest person of one kind of case."""
        options = self.build.options
        why = next((barrier.rule for barrier in self.barriers if kind in barrier.kinds), "")
        return rate(kind, options.load.people, () if why else self.uses, options.build.units, why)

    @cached_property
    def lying(self) -> Rating:
        """People lying."""
        return self.rating("lying")

    @cached_property
    def sitting(self) -> Rating:
        """People sitting on the edge."""
        return self.rating("sitting")

    def without(self, *labels: str) -> Outcome:
        """The same bed with some legs taken away, everything else as it is."""
        return Outcome(without_legs(self.build, labels), self.fixings)


def without_legs(build: Build, labels: Sequence[str]) -> Build:
    """A build less some legs, their pieces and their joints."""
    gone = {piece for leg in build.legs if leg.label in labels for piece in leg.boards}
    kept: list[Leg] = [leg for leg in build.legs if leg.label not in labels]
    parts = tuple(_parts_without(build, gone))
    lines = tuple(_line_without(line, labels) for line in build.lines)
    joints = tuple(joint for joint in build.joints if joint.near not in gone and joint.far not in gone)
    return replace(build, parts=parts, legs=tuple(kept), lines=lines, joints=joints)


def _line_without(line: SupportLine, labels: Sequence[str]) -> SupportLine:
    """A line less some legs."""
    return replace(line, legs=tuple(label for label in line.legs if label not in labels))


def _parts_without(build: Build, gone: Set[str]) -> Iterator[Part]:
    """The parts less some pieces; a part of which none is left goes too."""
    for part in build.parts:
        pieces = tuple(piece for piece in part.pieces if piece.label not in gone)
        if pieces:
            yield replace(part, pieces=pieces)


def work_out(build: Build, fastenings: Sequence[Fastening] | None) -> Outcome:
    """A build with its fasteners worked out; without any they are assumed."""
    return Outcome(build, Fixings(fastenings))
