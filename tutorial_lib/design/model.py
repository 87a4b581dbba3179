"""The bed as parts and pieces placed in space, and the joints between them.

Axes: x along the length from the outer face of the head rail, y across from the outer face of the
left side rail (left as seen from the foot), z up from the floor. All lengths are exact Fraction inches.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.options import Options
    from tutorial_lib.findings import Finding

Point = tuple[Fraction, Fraction, Fraction]
Floats = tuple[float, float, float]
Axis = Literal[0, 1, 2]
APART = 1e-6  # [in] far more than a float is wrong by
SIDES = ("left", "right")
LATER = ("upright", "headboard", "headboard_slat")  # what a headboard that is bolted to a bed is made of
LINE_LETTERS = "ABC"  # of the legs of each centre line


@dataclass(frozen=True)
class Box:
    """An upright box given by its lowest and highest corner [in]."""

    lo: Point
    hi: Point

    @cached_property
    def size(self) -> Point:
        """Extent along x, y and z [in]."""
        (a, b, c), (d, e, f) = self.lo, self.hi
        return (d - a, e - b, f - c)

    @cached_property
    def centre(self) -> Point:
        """Middle of the box [in]."""
        (a, b, c), (d, e, f) = self.lo, self.hi
        return ((a + d) / 2, (b + e) / 2, (c + f) / 2)

    @cached_property
    def floats(self) -> tuple[Floats, Floats]:
        """Both corners in floats, for what only asks whether one thing is in another's way [in]."""
        (a, b, c), (d, e, f) = self.lo, self.hi
        return (float(a), float(b), float(c)), (float(d), float(e), float(f))

    def overlaps(self, other: Box) -> bool:
        """True if the two share some volume; touching is not overlapping."""
        if self._far_from(other):
            return False
        return all(self.lo[i] < other.hi[i] and other.lo[i] < self.hi[i] for i in range(3))

    def contact(self, other: Box) -> Box | None:
        """The shared rectangle of two touching boxes as a flat box, or None when they don't touch in a face."""
        if self._far_from(other):
            return None
        (mine, top), (its, its_top) = self.floats, other.floats
        flat = 0
        lo, hi = [], []
        for i in (0, 1, 2):
            low, high = _greater(self, other, i, mine[i] - its[i]), _lesser(self, other, i, top[i] - its_top[i])
            if min(top[i], its_top[i]) - max(mine[i], its[i]) < APART:  # else it is clear in floats that they overlap
                if low > high:
                    return None
                flat += low == high
            lo.append(low)
            hi.append(high)
        return Box((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2])) if flat == 1 else None

    def _far_from(self, other: Box) -> bool:
        """True if some clear distance is seen in floats already: most pairs have, and exact figures take their time."""
        (a, b, c), (d, e, f) = self.floats
        (k, m, n), (p, q, r) = other.floats
        return a > p + APART or k > d + APART or b > q + APART or m > e + APART or c > r + APART or n > f + APART

    def gap(self, other: Box, axis: Axis) -> Fraction:
        """Clear distance along one axis [in]; negative when they run past each other."""
        return max(self.lo[axis], other.lo[axis]) - min(self.hi[axis], other.hi[axis])


def _greater(one: Box, other: Box, axis: int, off: float) -> Fraction:
    """The greater of two lowest corners along an axis; in floats it is greater by so much [in]."""
    if abs(off) > APART:
        return (one if off > 0 else other).lo[axis]
    return max(one.lo[axis], other.lo[axis])


def _lesser(one: Box, other: Box, axis: int, off: float) -> Fraction:
    """The lesser of two highest corners along an axis; in floats the first is higher by so much [in]."""
    if abs(off) > APART:
        return (other if off > 0 else one).hi[axis]
    return min(one.hi[axis], other.hi[axis])


@dataclass(frozen=True, kw_only=True)
class Section:
    """A lumber section (or tube) with its actual sizes."""

    name: str  # as bought: "2x6", "45x95", "tube 1 1/2"
    thickness: Fraction  # [in] the smaller size
    width: Fraction  # [in] the larger size
    species: str = ""
    grade: str = ""
    steel: bool = False


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One piece of wood (or steel) where it stands in the finished bed."""

    label: str  # unique and readable: "side rail left", "slat 3", "leg L2", "leg L2 ply b"
    part: str  # key of its part: "side_rail", "leg_2" for a second length of legs
    box: Box
    axis: Axis  # direction of its length and grain
    shape: Literal["box", "tube", "plate"] = "box"
    use: str = ""  # what it is in the bed, whatever its length: "leg" for a piece of the part "leg_2"
    said: str = ""  # in a sentence, where that isn't its label: "left side rail"

    @property
    def name(self) -> str:
        """As a person says it: "left side rail", "slat 3"."""
        return self.said or self.label

    @property
    def length(self) -> Fraction:
        """Length along the grain [in]."""
        return self.box.size[self.axis]


@dataclass(frozen=True, kw_only=True)
class Part:
    """All pieces that are cut alike."""

    key: str  # "side_rail", "end_rail", "cleat", "runner", "slat", "leg", "corner_leg", "centre_beam" …
    name: str  # "side rail", "cleat (1138 mm)" where there are several lengths
    several: str  # more than one of it: "side rails", "cleats (1138 mm)"
    section: Section
    length: Fraction  # [in] cut length
    pieces: tuple[Piece, ...]
    stands: Literal["on edge", "flat", "upright"]
    use: str  # what its pieces are in the bed, whatever their length: "leg" for the part "leg_2"

    @property
    def count(self) -> int:
        """How many are cut."""
        return len(self.pieces)


JointKind = Literal[
    "corner",  # side rail to end rail
    "block",  # corner block to the rail beside it
    "post",  # corner block to its post; corner post to the end of a rail that dies into it
    "batten",  # batten of a headboard to its post
    "panel",  # batten or upright to a board of the headboard
    "panel_slat",  # rail of a headboard to a slat on its front
    "upright",  # upright of a headboard to the head rail
    "bed_bolt",  # corner post to the end of a rail, by bolts and barrel nuts
    "cleat",  # cleat to side rail
    "runner",  # runner or flat line to the rails above it
    "slat",  # slat end to cleat or runner
    "slat_line",  # slat to a centre line
    "leg",  # leg to the rail beside it; rail, cleat or runner to the leg below it
    "ply",  # the boards of a doubled or L leg to each other
    "line_end",  # centre line to the end rail
    "line_leg",  # centre line to its leg
    "flange",  # tube leg's flange to the wood above
    "plinth",  # board of a plinth to a leg behind it, or to the next board
]


@dataclass(frozen=True, kw_only=True)
class Joint:
    """Two pieces that meet, and how they are held.

    The fastener goes in through ``near`` (its head side) and ends in ``far``, along ``axis`` in direction
    ``sign``. ``contact`` is the shared rectangle; with a stated ``play`` the two stand apart by that much.
    """

    kind: JointKind
    near: str
    far: str
    axis: Axis
    sign: Literal[1, -1]
    contact: Box
    play: Fraction = Fraction(0)
    fastener: Literal["screw", "bolt", "bracket", "bearing", "glue"] = "screw"
    bears: bool = False  # near rests on far, or far on near: load goes down by contact
    end_grain: bool = False  # the point ends in end grain of far
    beyond: tuple[str, ...] = ()  # further boards of far's leg that a bolt goes through before its nut

    def __hash__(self) -> int:
        """By its names alone: joints are looked up far more often than exact corners can be hashed."""
        return hash((self.kind, self.near, self.far, self.axis))

    @property
    def label(self) -> str:
        """Readable name of the joint."""
        return f"{self.near} to {self.far}"


@dataclass(frozen=True, kw_only=True)
class SlatRow:
    """Slats laid with equal gaps, along the length."""

    count: int
    width: Fraction  # [in]
    gap: Fraction  # [in] clear
    edge: Fraction  # [in] from the end rail to the first slat
    start: Fraction  # [in] x of the inner face of the head rail
    opening: Fraction  # [in] clear length between the end rails

    @property
    def marks(self) -> tuple[Fraction, ...]:
        """Near edge of every slat from the inner face of the head rail [in], so that tape errors never add up."""
        return tuple(self.edge + i * (self.width + self.gap) for i in range(self.count))


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One leg: where it stands and the pieces it is made of."""

    label: str  # "L1" … "R3" on the sides from the head, "A1" … on the first centre line
    line: str  # name of its support line
    x: Fraction  # [in] centre
    y: Fraction  # [in] centre
    near_edge: Fraction  # [in] x of its edge nearest the head, for marking
    size: tuple[Fraction, Fraction]  # [in] footprint along x and y
    pieces: tuple[str, ...]
    corner: bool  # stands nearest an end of its side line
    blocks: tuple[str, ...] = ()  # glued into the corner of its boards; they carry nothing
    post: bool = False  # a corner post that the rails die into

    @property
    def boards(self) -> tuple[str, ...]:
        """All that is made up on the bench to be this leg."""
        return (*self.pieces, *self.blocks)


@dataclass(frozen=True, kw_only=True)
class SupportLine:
    """A line along the bed on which slat ends or middles bear."""

    name: str  # "left", "right", "line 1" …
    kind: Literal["cleat", "runner", "beam", "flat"]
    y: Fraction  # [in] centre of bearing
    seat: tuple[Fraction, Fraction]  # [in] y from, to of the seat under the slats
    x: tuple[Fraction, Fraction]  # [in] x from, to of the carrying member
    members: tuple[str, ...]  # labels of the pieces that carry: rail and cleat, rail and runner, or the line itself
    legs: tuple[str, ...]  # labels of its legs, from the head
    ends: Literal["rail", "leg", "hanger", "block", "runner"] = "rail"

    @property
    def central(self) -> bool:
        """True for a line along the middle, False for a side."""
        return self.kind in ("beam", "flat")


@dataclass(frozen=True, kw_only=True)
class Heights:
    """Heights above the floor [in]."""

    rail_top: Fraction
    rail_bottom: Fraction
    slat_top: Fraction
    slat_bottom: Fraction
    leg: Fraction  # side leg's wooden (or tube) length
    underside: Fraction  # lowest of rail and cleat, or the runner, along the sides
    storage: Fraction  # lowest thing anywhere between the legs
    recess: Fraction  # rail top above slat top
    sleeping: Fraction | None  # top of the mattress, when its thickness is known
    leveller: Fraction = Fraction(0)


@dataclass(frozen=True, kw_only=True)
class Build:
    """The whole bed that follows from the options."""

    options: Options
    mattress: tuple[Fraction, Fraction]  # [in] width, length that the bed is made for
    opening: tuple[Fraction, Fraction]  # [in] width, length inside the rails, on the grid
    outside: tuple[Fraction, Fraction]  # [in] width, length over the rails
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    lines: tuple[SupportLine, ...]
    legs: tuple[Leg, ...]
    slats: SlatRow
    heights: Heights
    grid: Fraction  # [in] 1/16 in or 1 mm
    findings: tuple[Finding, ...] = ()

    @cached_property
    def pieces(self) -> dict[str, Piece]:
        """All pieces by label."""
        return {piece.label: piece for part in self.parts for piece in part.pieces}

    @cached_property
    def slat_rows(self) -> tuple[tuple[Piece, ...], ...]:
        """The pieces of each slat from the head on, a slat in two halves left one first."""
        rows: dict[Fraction, list[Piece]] = {}
        for part in self.parts:
            for piece in part.pieces if part.use == "slat" else ():
                rows.setdefault(piece.box.lo[0], []).append(piece)
        return tuple(tuple(sorted(rows[x], key=lambda piece: piece.box.lo[1])) for x in sorted(rows))

    @cached_property
    def overall(self) -> tuple[Fraction, Fraction]:
        """Width and length over the rails and the posts that stand beyond them [in]."""
        out = max([-leg.near_edge for leg in self.legs if leg.post], default=Fraction(0))
        return self.outside[0] + 2 * out, self.outside[1] + 2 * out + self.behind

    @cached_property
    def behind(self) -> Fraction:
        """How far uprights of a headboard stand out behind the head rail [in]."""
        return max([-p.box.lo[0] for p in self.pieces.values() if p.use == "upright"], default=Fraction(0))

    @cached_property
    def between_corners(self) -> tuple[Fraction, Fraction]:
        """Width and length between the inside corners: of rails, or of posts that stand into the opening [in]."""
        inner = [leg for leg in self.legs if leg.post]
        if not inner:
            return self.opening
        head = min(inner, key=lambda leg: (leg.x, leg.y))
        rails, (width, length) = (self.outside[0] - self.opening[0]) / 2, self.opening
        into = (head.y + head.size[1] / 2 - rails, head.x + head.size[0] / 2 - rails)
        return width - 2 * max(into[0], Fraction(0)), length - 2 * max(into[1], Fraction(0))

    @property
    def bed_stands(self) -> bool:
        """True where the bed is there already and a headboard alone is made."""
        return self.options.headboard.bed == "stands"

    @cached_property
    def made(self) -> tuple[Part, ...]:
        """The parts that are bought, cut and finished: all, or those of the headboard alone."""
        return tuple(part for part in self.parts if not self.bed_stands or part.use in LATER)

    def makes(self, joint: Joint) -> bool:
        """True for a joint that is made with this build, False for one that is there already."""
        return not self.bed_stands or self.pieces[joint.near].use in LATER

    def part(self, key: str) -> Part:
        """The part with this key; KeyError when the build has none."""
        return self._by_key[key]

    @cached_property
    def _by_key(self) -> dict[str, Part]:
        return {part.key: part for part in self.parts}

    def has(self, key: str) -> bool:
        """True if the build has this part."""
        return key in self._by_key

    def part_of(self, label: str) -> Part:
        """The part a piece belongs to."""
        return self.part(self.pieces[label].part)

    def section_of(self, label: str) -> Section:
        """The section a piece is cut from."""
        return self.part_of(label).section

    def joints_of(self, kind: JointKind) -> tuple[Joint, ...]:
        """All joints of one kind, in build order."""
        return self._joints.get(kind, ())

    @cached_property
    def _joints(self) -> dict[JointKind, tuple[Joint, ...]]:
        kinds = dict.fromkeys(joint.kind for joint in self.joints)
        return {kind: tuple(joint for joint in self.joints if joint.kind == kind) for kind in kinds}
