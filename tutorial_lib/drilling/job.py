"""One joint with its fastener chosen and its places on the shared face."""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property

from tutorial_lib.design.fasteners import Driven, Fastener, Fastening
from tutorial_lib.design.model import Box, Build, Floats, Joint, Point
from tutorial_lib.design.screw_options import ScrewOptions
from tutorial_lib.drilling import bits, placing, screws
from tutorial_lib.drilling.clashes import Row, Shank, row
from tutorial_lib.findings import Remedy
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class BitSet:
    """The bits for one kind of joint."""

    pilot: bits.Bit
    clearance: bits.Bit
    countersink: bits.Bit | None
    stated: Fraction | None = None  # pilot bit stated in the build file [in]

    @property
    def pilot_used(self) -> Fraction:
        """The pilot bit that is taken [in]: the stated one, else the chosen one."""
        return self.stated if self.stated is not None else self.pilot.size


@dataclass(frozen=True, kw_only=True)
class Job:
    """One joint with its fastener chosen, before and after its holes are placed."""

    joint: Joint
    table: str
    options: ScrewOptions
    fastener: Fastener
    choice: screws.Choice
    stack: screws.Stack
    least: float  # [in] least penetration
    gravity: float
    bits: BitSet
    spots: tuple[placing.Spot, ...]
    widest: float  # [in] the spacing the load allows
    needed: int = 0  # how many the load asks for, 0 where it was not asked
    taken: tuple[tuple[Fraction, Fraction], ...] = ()  # [in] along the near piece, where no driver gets in
    moved: tuple[tuple[int, Point, Point], ...] = ()  # hole, from, to

    @property
    def loaded(self) -> bool:
        """True when its screws carry load, False when they only hold a slat in place."""
        return not self.stack.holds_down

    @property
    def loaded_across(self) -> float:
        """Its length in the thinner of the two pieces that load it across [in]; 0 where it stands upright."""
        if self.joint.axis == 2:
            return 0.0
        far = self.stack.far if self.bolted else self.stack.penetration(self.fastener.length)
        return float(min(self.stack.near - self.joint.play, far))

    @property
    def is_bolt(self) -> bool:
        """True for a bolt of any kind, with whatever nut."""
        return self.fastener.kind in ("carriage bolt", "hex bolt")

    @property
    def bolted(self) -> bool:
        """True for a bolt, whose hole goes through all it holds."""
        return self.fastener.kind == "carriage bolt"

    @cached_property
    def ends(self) -> tuple[Fraction, Fraction]:
        """Where head and tip stand along the joint's axis, from the shared face [in]."""
        sign, sunk = self.joint.sign, Fraction(0) if self.bolted else self.stack.head_depth
        head = -sign * (self.stack.near - self.joint.play - sunk)
        return head, head + sign * self.fastener.length

    @cached_property
    def driven(self) -> tuple[Driven, ...]:
        """Its fasteners in place, head depth and length counted [in]."""
        return tuple(driven(self, spot.at, spot.stated) for spot in self.spots)

    @cached_property
    def _float_ends(self) -> tuple[float, float]:
        return float(self.ends[0]), float(self.ends[1])

    def line(self, at: Point) -> tuple[Floats, Floats]:
        """Head and tip of a fastener through one place of the shared face, in floats [in]."""
        axis, (back, ahead) = self.joint.axis, self._float_ends
        head, tip = list(map(float, at)), list(map(float, at))
        head[axis] += back
        tip[axis] += ahead
        return (head[0], head[1], head[2]), (tip[0], tip[1], tip[2])

    def row(self, at: Point) -> Row:
        """A fastener through one place as it counts among those placed."""
        return row(*self.line(at), self.fastener.diameter)

    def takes(self, length: Fraction) -> bool:
        """True where a fastener of this length [in] reaches far enough into the wood and stays inside."""
        if self.bolted:
            return self.choice.fits and length >= self.fastener.length
        return not screws.faults_of(length, self.stack, self.least)


def left_open(job: Job, *keys: str) -> tuple[Remedy, ...]:
    """The remedy that leaves some of a joint's stated keys to the program; none where nothing of it was stated."""
    keys = (*keys, "or_length") if "length" in keys else keys
    stated = [key for key in keys if getattr(job.options, key) is not None]
    if not stated:
        return ()
    named = [key for key in stated if key != "or_length"] or ["length"]
    words = " and ".join(filter(None, [", ".join(named[:-1]), named[-1]])).replace("_", " ")
    text = f"Leave the {job.table} fastener's {words} open"
    return (Remedy(text, tuple((f"screws.{job.table}.{key}", None) for key in stated)),)


def driven(job: Job, at: Point, stated: bool) -> Driven:
    """A fastener through one place of the shared face, head depth and length counted [in]."""
    axis, (back, ahead) = job.joint.axis, job.ends
    head, tip = list(at), list(at)
    head[axis], tip[axis] = at[axis] + back, at[axis] + ahead
    return Driven((head[0], head[1], head[2]), (tip[0], tip[1], tip[2]), stated)


def shanks(job: Job) -> list[Shank]:
    """The job's fasteners as the clash check sees them."""
    word = "bolt" if job.is_bolt else "screw"
    return [
        Shank(head=line.head, tip=line.tip, diameter=job.fastener.diameter, joint=job.joint, number=number, word=word)
        for number, line in enumerate(job.driven, 1)
    ]


def seams_of(build: Build, joint: Joint) -> list[Box]:
    """The seams between a leg's boards that a joint's fasteners run along; those that cross a seam are no matter."""
    legs = [leg for leg in build.legs if joint.far in leg.pieces or joint.near in leg.pieces]
    return [
        j.contact for j in build.joints_of("ply") if j.axis != joint.axis and any(j.near in leg.pieces for leg in legs)
    ]


def fastening(job: Job) -> Fastening:
    """The job as the strength and assembly steps read it."""
    return Fastening(
        joint=job.joint,
        fastener=job.fastener,
        driven=job.driven,
        head_depth=Fraction(0) if job.bolted else job.stack.head_depth,
        near_thickness=job.stack.near - job.joint.play,
        penetration=job.stack.far if job.bolted else job.stack.penetration(job.fastener.length),
        pilot=float(job.bits.pilot_used),
        clearance=None if job.is_bolt else job.bits.clearance.size,
        countersink=job.bits.countersink.size if job.bits.countersink else None,
    )
