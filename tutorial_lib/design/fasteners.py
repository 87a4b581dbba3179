"""Fasteners as they are chosen and placed: what the drilling step makes and the strength and assembly steps read."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from tutorial_lib.design.model import Floats, Joint, Point
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.measures import Writer

FastenerKind = Literal["wood screw", "structural screw", "lag screw", "carriage bolt", "hex bolt", "bracket"]


@dataclass(frozen=True, kw_only=True)
class Fastener:
    """One kind of screw or bolt as bought."""

    kind: FastenerKind
    gauge: str  # "#9", or "" for bolts and screws with their own data
    length: Fraction  # [in]
    diameter: float  # [in] shank
    root: float  # [in] thread root
    head: float  # [in] head diameter
    thread: Fraction  # [in] threaded length
    yield_strength: float  # [psi] bending yield
    stated: bool = False  # length stated in the build file, not chosen here
    source: str = ""  # where its data come from

    @property
    def shank(self) -> Fraction:
        """The shank's diameter as its size names it [in]: exact eighths or whole millimetres."""
        return Fraction(self.diameter).limit_denominator(10**4)

    @property
    def own_data(self) -> bool:
        """True for a proprietary screw described in the build file."""
        return self.kind == "structural screw"

    @property
    def bought(self) -> Fastener:
        """What is asked for in a shop: the same screw whether its length was stated or chosen."""
        return replace(self, stated=False)

    def told(self, w: Writer) -> str:
        """As it is asked for in a shop: "#9 x 2 1/2 in wood screw"."""
        if self.gauge:
            return f"{w.screw(self.gauge, self.length)} {self.kind}"
        if self.own_data:  # its shank is no size of a series
            return f"{w.own.stated(self.shank)} x {w.own.length(self.length)} {self.kind}"
        return f"{w.bolt(self.shank, self.length)} {self.kind}"


@dataclass(frozen=True)
class Driven:
    """One fastener in place: a straight line from the head to the tip."""

    head: Point  # [in] top of the head
    tip: Point  # [in]
    stated: bool = False  # its place was stated, so that it is reported and not moved

    @cached_property
    def floats(self) -> tuple[Floats, Floats]:
        """Head and tip in floats, for what only asks what is in the way [in]."""
        (a, b, c), (d, e, f) = self.head, self.tip
        return (float(a), float(b), float(c)), (float(d), float(e), float(f))


@dataclass(frozen=True, kw_only=True)
class Fastening:
    """All fasteners of one joint."""

    joint: Joint
    fastener: Fastener
    driven: tuple[Driven, ...]
    head_depth: Fraction  # [in] head below the surface
    near_thickness: Fraction  # [in] wood of the near piece along the axis
    penetration: Fraction  # [in] fastener length in the far piece, tip included; for a bolt all wood past the near one
    pilot: float  # [in] pilot hole diameter
    clearance: Fraction | None = None  # [in] bit for the near piece; None where the pilot goes through both
    countersink: Fraction | None = None  # [in] width of the sink for the head

    @property
    def count(self) -> int:
        """Fasteners in this joint."""
        return len(self.driven)
