"""Someone leaning on the headboard: what the head posts and their corners hold, without a wall behind the bed.

A post is pushed at the headboard's top, toward the wall. Below, the side rail's corner takes a couple, and the floor
holds its foot back by friction; the post itself bends over its corner like a cantilever.
"""

from __future__ import annotations

from functools import cached_property

from tutorial_lib.design.model import Box, Build
from tutorial_lib.records import dataclass
from tutorial_lib.strength.joints import head_area
from tutorial_lib.strength.members import moment_limit
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.sections import Size, wood_of
from tutorial_lib.strength.working import OURS, Term, Working, step

SHARE = 0.5  # of a person's weight that leans against the headboard's top; our choice
DURATION = 1.15  # as sitting
BACK = 3  # slats that a back lies against; our choice
FRICTION = 0.3  # of a wooden foot or pad on a floor; our choice, on the safe side


@dataclass(frozen=True)
class Cantilever:
    """A post held at its foot and pushed at its free end."""

    push: float  # [lb]
    length: float  # [in]

    @property
    def moment(self) -> float:
        """Over the support [lb in]: P l."""
        return self.push * self.length

    def stress(self, modulus: float) -> float:
        """Bending stress over the support [psi]: P l / S, with the section modulus S [in3]."""
        return self.moment / modulus

    def sag(self, stiffness: float) -> float:
        """How far the free end moves [in]: P l3 / 3 E I, with E I [lb in2]."""
        return self.push * self.length**3 / (3 * stiffness)


def _boxes(build: Build, use: str) -> list[Box]:
    return [piece.box for piece in build.pieces.values() if piece.use == use]


def _bent(build: Build, part: str, push: float, span: float) -> float:
    """A board flat against a push in the middle of its span, held at both ends: P l / 4 against what is allowed."""
    section = build.part(part).section
    size = Size(float(section.thickness), float(section.width), True)
    return push * span / 4 / moment_limit(wood_of(build, section), size, DURATION).value


class Leaning:
    """One head post of a bed with a headboard, or one upright of a headboard that is bolted on."""

    def __init__(self, outcome: Outcome) -> None:
        self.outcome, self.build = outcome, outcome.build
        self.bolts = next((outcome.fixings.of(joint) for joint in self.build.joints_of("upright")), None)
        self.leg = next(leg for leg in self.build.legs if leg.label == "L1") if self.bolts is None else None
        self.piece = self.leg.pieces[0] if self.leg else self.build.joints_of("upright")[0].near

    @property
    def name(self) -> str:
        """What is pushed: "a head post", "an upright"."""
        return "a head post" if self.leg else "an upright"

    @cached_property
    def top(self) -> float:
        """Where it is pushed, above the floor: the headboard's top edge [in]."""
        boards = [piece.box for piece in self.build.pieces.values() if piece.use == "headboard"]
        return float(max(box.hi[2] for box in boards))

    @cached_property
    def corner(self) -> float:
        """Middle of the side rail, above the floor [in]."""
        high = self.build.heights
        return float(high.rail_top + high.rail_bottom) / 2

    @property
    def bent(self) -> Cantilever:
        """The post over its corner, one person leaning beside it."""
        return Cantilever(SHARE * self.outcome.person, self.top - self.corner)

    @cached_property
    def used(self) -> float:
        """Bending of the post against what is allowed."""
        section = self.build.section_of(self.piece)
        size = Size(float(section.thickness), float(section.width), self.leg is None)  # an upright bends over its flat
        return self.bent.moment / moment_limit(wood_of(self.build, section), size, DURATION).value

    @cached_property
    def panel(self) -> float:
        """Bending of the panel where its middle is leaned on, against what is allowed: slats, then what they lie on."""
        build, push = self.build, self.bent.push
        boards, slats = _boxes(build, "headboard"), _boxes(build, "headboard_slat")
        mattress = build.heights.sleeping or build.heights.rail_top
        behind = _boxes(build, "batten") or _boxes(build, "upright")
        span = float(behind[1].centre[1] - behind[0].centre[1])
        leaned = [box for box in boards if slats or box.hi[2] > mattress]
        found = [_bent(build, "headboard", push / len(leaned), span)]
        if slats:
            low, high = sorted(box.centre[2] for box in boards)
            found.append(_bent(build, "headboard_slat", push / min(BACK, len(slats)), float(high - low)))
        return max(found)

    @cached_property
    def held(self) -> float:
        """The push at the top that corner and floor hold at one post [lb]; 0 where the corner has no value."""
        couple = self.couple
        if not couple:
            return 0.0
        return (couple + self.foot * self.corner) / (self.top - self.corner)

    @cached_property
    def couple(self) -> float:
        """What the corner holds against turning, or the bolts over the rail's lower edge [lb in]."""
        if self.bolts is None:
            couples = self.outcome.racking.couples("along")
            return next((c.value for c in couples if self.leg and c.leg == self.leg.label), 0.0)
        wood = wood_of(self.build, self.build.section_of(self.piece))
        low = float(self.build.heights.rail_bottom)
        arms = sum(float(driven.head[2]) - low for driven in self.bolts.driven)
        return wood.Fc_perp * head_area(self.bolts.fastener) * arms

    @cached_property
    def foot(self) -> float:
        """What the floor holds of the foot [lb]: friction under the person who leans, and the bed."""
        if self.leg is None:
            return 0.0  # nobody's weight stands on an upright
        loads = [load for load in self.outcome.leg_loads() if load.leg.label == self.leg.label]
        return FRICTION * min((load.whole.dead for load in loads), default=0.0)

    @property
    def working(self) -> Working:
        """To the push that is held."""
        terms = (
            Term("friction at the foot", self.foot, "force"),
            Term("corner above the floor", self.corner, "calculated"),
            Term("top above the corner", self.top - self.corner, "calculated"),
        )
        words, held = "couple of the corner and friction at the foot, about the corner", Term("", self.held, "force")
        return step("push on one post", "(couple + foot x height) / arm", terms, held, OURS, words)


def leaning(outcome: Outcome) -> Leaning | None:
    """The check of a headboard; None for a bed without one."""
    has = any(piece.use == "headboard" for piece in outcome.build.pieces.values())
    return Leaning(outcome) if has and outcome.fell is None else None
