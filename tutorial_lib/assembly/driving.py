"""What is driven in a step: screws, bolts and brackets with their count and every bit they take."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.design.brackets import corner_of, hangs
from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Build, Joint
from tutorial_lib.measures import Writer
from tutorial_lib.records import dataclass

HANGER, ANGLE = "joist hanger", "angle bracket"


@dataclass(frozen=True, kw_only=True)
class Screws:
    """One kind of fastener driven in a step."""

    count: int
    name: str  # "#9 x 2 1/2 in wood screw"
    each: int | None = None  # in each joint, None where joints differ
    pilot: Fraction | None = None  # [in] bit for the thread, or the one bit of a bolt
    clearance: Fraction | None = None  # [in] bit for the near board
    countersink: Fraction | None = None  # [in] width of the sink for the head
    tool: str = "driver"  # what drives it
    plate: bool = False  # driven through the holes of a steel plate
    where: str = ""  # "16 side rail to leg, 4 end rail to leg", where a step has several kinds or joints

    @property
    def counted(self) -> str:
        """ "20 × 3/8 x 5 1/2 in carriage bolt, 16 side rail to leg, 4 end rail to leg"."""
        where = f", {self.where}" if self.where else ""
        alike = self.each not in (None, 1, self.count) and "," not in self.where
        per = f", {self.each} a joint" if alike else ""
        return f"{self.count} × {self.name}{where}{per}"

    def bits(self, w: Writer) -> str:
        """Every hole it takes, in words."""
        if self.pilot is None:
            return ""
        if self.plate:
            return f"bore {w.bit(self.pilot)} pilot through the plate's holes"
        if self.clearance is None:
            return f"bore {w.bit(self.pilot)} through"
        holes = [
            f"{w.bit(self.clearance)} clearance through the near board",
            f"{w.bit(self.pilot)} pilot in the far one",
        ]
        holes += [f"countersink {w.bit(self.countersink)}"] if self.countersink else []
        return "bore " + ", ".join(holes)

    def told(self, w: Writer) -> str:
        """The whole line: how many of what, the bits, the tool."""
        verb, how = "Fix" if self.pilot is None else "Drive", "; ".join(filter(None, (self.bits(w), self.tool)))
        return f"{verb} {self.counted}: {how}."


def screws(build: Build, joints: Sequence[Joint], fastenings: Sequence[Fastening], w: Writer) -> tuple[Screws, ...]:
    """The fasteners of a step by kind and bits, with count and tool; brackets and hangers last."""
    kinds: dict[tuple[Fastener, float, Fraction | None, Fraction | None], list[Fastening]] = {}
    for fastening in fastenings:
        bits = (fastening.pilot, fastening.clearance, fastening.countersink)
        kinds.setdefault((fastening.fastener, *bits), []).append(fastening)
    several = len(kinds) > 1
    driven = [
        Screws(
            count=sum(f.count for f in mine),
            name=fastener.told(w),
            each=_same([f.count for f in mine]),
            pilot=Fraction(pilot).limit_denominator(6400) if pilot else None,
            clearance=clearance,
            countersink=sink,
            tool=tool(fastener),
            plate=mine[0].joint.kind == "flange",
            where=_where(build, mine, several),
        )
        for (fastener, pilot, clearance, sink), mine in kinds.items()
    ]
    return (*driven, *brackets(build, joints, w))


def brackets(build: Build, joints: Sequence[Joint], w: Writer) -> tuple[Screws, ...]:
    """Hangers and angle brackets, each named by the board it holds, with the screws that come with it."""
    counts: Counter[tuple[str, str]] = Counter()
    for joint in joints:
        if joint.fastener == "bracket":
            counts[bracket_name(build, joint, w), _in_corner(build, joint, w)] += 1
    return tuple(Screws(count=n, name=name, where=where, tool="every hole filled with the screws its maker names")
                 for (name, where), n in counts.items())  # fmt: skip


def _in_corner(build: Build, joint: Joint, w: Writer) -> str:
    """Where a bracket goes, and how wide it may be; "" for what has a place of its own."""
    corner = corner_of(build, joint)
    if corner is None:
        return ""
    ends, runs = (build.part_of(label).name for label in (corner.ends, corner.runs))
    return f"{w.length(corner.width)} wide at most, in the corner between the {ends}'s {corner.face} and the {runs}"


def bracket_name(build: Build, joint: Joint, w: Writer) -> str:
    """ "joist hanger for 1 1/2 x 5 1/2 in" under the end of a beam, else an angle bracket for the board it holds."""
    section = build.part_of(joint.near).section
    kind = HANGER if hangs(joint) else ANGLE
    return f"{kind} for a board {w.length(section.thickness)} thick"


def _where(build: Build, fastenings: Sequence[Fastening], several: bool) -> str:
    """The parts that are joined, with how many go in each pair: "16 side rail to leg, 4 end rail to leg"."""

    def name(label: str) -> str:
        feet = {piece for leg in build.legs if not leg.post for piece in leg.pieces}
        return "leg" if label in feet else build.part_of(label).name

    pairs: Counter[str] = Counter()
    for made in fastenings:
        pairs[f"{name(made.joint.near)} to {name(made.joint.far)}"] += made.count
    if len(pairs) > 1:
        return ", ".join(f"{count} {pair}" for pair, count in pairs.items())
    return next(iter(pairs), "") if several else ""


def _same(counts: Sequence[int]) -> int | None:
    return counts[0] if len(set(counts)) == 1 else None


def tool(fastener: Fastener) -> str:
    """What drives it, its bits aside."""
    if fastener.kind == "carriage bolt":
        return "hammer the head home, washer under the nut, wrench"
    if fastener.kind == "hex bolt":
        return "on into the rail's end, and across for the nut; washer under the head, screwdriver in its slot, wrench"
    if fastener.kind == "lag screw":
        return "socket wrench"
    return "driver"
