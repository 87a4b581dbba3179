"""What the joints have to carry, for their screws to be chosen from: the strength step's first half.

Worked out with every fastener assumed, before any is chosen; the second half checks the bed with those chosen.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from math import ceil

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build, Joint
from tutorial_lib.records import dataclass
from tutorial_lib.strength.fixings import ASSUMED_SPACING, Fixings
from tutorial_lib.strength.joint_checks import JointChecks
from tutorial_lib.strength.joints import slanted
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.rating import rating_uses
from tutorial_lib.strength.sections import ungraded
from tutorial_lib.strength.use import FOREVER, Use

STRETCH = 1.5  # between legs inside the corner, where the end screws take a slat that lies half past them; our choice
LEG_RESERVE = 1.05  # a leg takes a little more once every screw is chosen than with all of them assumed; our choice
LEAN = 0.8  # pull of a corner block's screws in its post for each pound across, before they are placed; our choice
RESERVE = 1.12  # a row's worst screw takes more than the strip it stands in: 1.07 in beds worked out, some room left


@dataclass(frozen=True)
class Demand:
    """Loads on the joints of one build, for the stated people."""

    build: Build

    @cached_property
    def _outcome(self) -> Outcome | None:
        """The bed with its fasteners assumed; None where its wood has no design values or it doesn't stand."""
        if ungraded(self.build):
            return None
        found = Outcome(self.build, Fixings())
        return None if found.fell or found.gaps else found

    @cached_property
    def slats(self) -> tuple[Use, ...]:
        """Every check of the slats, which hardly asks what fastens the bed; none where it doesn't stand."""
        if self._outcome is None:
            return ()
        checks = self._outcome.slats
        return (*checks.uses(self._outcome.responses), *checks.kneeling())

    @property
    def _person(self) -> float:
        return float(self.build.options.load.person)

    def spacing(self, joint: Joint, lateral: float, pull: float) -> float:
        """Widest screw spacing [in] for a long joint by one screw's values at duration 1 [lb]; infinite when unloaded.

        Args:
            joint: cleat to rail, or runner to rail.
            lateral: of one screw across.
            pull: of one screw along.
        """
        if self._outcome is None:
            return FOREVER
        if joint.kind == "cleat":
            most = self._most(joint)
            held = slanted(pull, lateral, JointChecks(self._outcome.lines).slope(joint))
            return held / most if most > 0 else FOREVER
        if joint.kind == "runner":
            most = max(self._pulls(joint), default=0.0)
            return pull * ASSUMED_SPACING / most if most > 0 else FOREVER
        return FOREVER

    @cached_property
    def _known(self) -> dict[Joint, float]:
        return {}

    def _most(self, joint: Joint) -> float:
        """The greatest push on a cleat per inch of its length over CD [lb/in]; asked again for every screw tried."""
        if joint not in self._known:
            self._known[joint] = max(self._strips(joint), default=0.0)
        return self._known[joint]

    def _strips(self, joint: Joint) -> Iterator[float]:
        """Push on a cleat per inch of its length over CD, the greatest in each case [lb/in]."""
        assert self._outcome is not None
        bed, person = self._outcome.bed, self._person
        reserve = STRETCH if self.build.options.leg_place == "inside" else RESERVE
        low, high = float(joint.contact.lo[0]), float(joint.contact.hi[0])
        number = next(i for i, line in enumerate(bed.lines) if joint.near in line.members)
        strips = [(i, b - a) for i, (x, (a, b)) in enumerate(zip(bed.places, bed.strips, strict=True))
                  if low <= x <= high]  # fmt: skip
        for response in self._outcome.responses:
            dead, live = response.dead.pushes[number], response.live.pushes[number]
            for case in response.cases:
                pushes = [(dead[i] + case.times * live[i] * person, wide) for i, wide in strips]
                yield max([reserve * push / wide / case.duration for push, wide in pushes if push > 0], default=0.0)

    def _pulls(self, joint: Joint) -> Iterator[float]:
        """Pull on one assumed tie of a runner over CD, where the ties rate the bed [lb]."""
        assert self._outcome is not None
        checks = JointChecks(self._outcome.lines)
        if self._alone_does(joint, self._outcome):
            return
        for response in self._outcome.responses:
            for number, line in enumerate(self._outcome.lines.lines):
                for effects, case in checks.tie_effects(joint, response, number, line):
                    yield max(effect.at(self._person) for effect in effects) / case.duration

    def _alone_does(self, joint: Joint, outcome: Outcome) -> bool:
        """True where the runner alone carries the stated person, so that its ties rate nothing."""
        bed = outcome.bed
        return any(use.holds >= self._person for use in rating_uses(outcome.uses) if use.key == "runner-alone"
                   and use.piece == joint.near and not bed.set_in(bed.lines[0]))  # fmt: skip

    def count(self, joint: Joint, lateral: float, pull: float) -> int:
        """Least even number of fasteners for a leg's joint by one fastener's values at duration 1 [lb]: 2, 4, 6 …

        Args:
            joint: rail to the leg beside it.
            lateral: of one fastener across, C-delta 1.
            pull: of one along.
        """
        if self._outcome is None or lateral <= 0:
            return 2
        if joint.kind == "post":
            lateral = slanted(pull, lateral, LEAN)
        needed = max((LEG_RESERVE * load / lateral for load in self._leg(joint)), default=0.0)
        if joint.kind in ("post", "block"):  # one above the other: any number
            return max(2, ceil(needed - 1e-9))
        return max(2, 2 * ceil(needed / 2 - 1e-9))

    def upright(self, fastening: Fastening) -> bool:
        """True when legs fastened like this hold the stated people upright against a sideways push."""
        return self._outcome is None or self._outcome.racking.upright(fastening)

    def _leg(self, joint: Joint) -> Iterator[float]:
        """All that the joint's leg carries over CD, in each case [lb]."""
        assert self._outcome is not None
        corner = next((c for c in self._outcome.bed.corners.values() if joint in (c.to_rail, c.to_post)), None)
        if corner is None and joint != self._joint_of(joint):
            return
        # end rails carry nobody; their blocks are screwed like the side rails', so that all are alike
        mine = set(corner.leg.pieces) if corner is not None else {joint.near, joint.far}
        for load in self._outcome.leg_loads():
            if mine & set(load.leg.pieces):
                for case in load.cases:
                    yield load.whole.times(case.times).at(self._person) / case.duration

    def _joint_of(self, joint: Joint) -> Joint | None:
        """The joint that is judged for its leg's whole load."""
        assert self._outcome is not None
        bed = self._outcome.bed
        legs = [leg for leg in self.build.legs if {joint.near, joint.far} & set(leg.pieces)]
        return bed.rail_joint(legs[0]) if legs else None


def demand(build: Build) -> Demand:
    """Loads on the joints of a build; worked out when first asked for.

    Raises:
        InputError: species or grade not in the tables.
    """
    return Demand(build)
