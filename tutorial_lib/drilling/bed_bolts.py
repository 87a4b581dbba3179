"""Bed bolts: through a post along the rail into its end, where a barrel nut lies across.

The nut's hole is bored into the rail's inside face, clear of the cleat that comes to lie there. A side rail's two bolts
pass through the post above and below its end rail's.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from tutorial_lib.design.end_distances import ROW
from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.design.model import Axis, Build, Joint, Piece
from tutorial_lib.design.options import Options
from tutorial_lib.design.screw_options import ScrewOptions
from tutorial_lib.drilling import bits, placing
from tutorial_lib.drilling.clashes import WOOD_BETWEEN
from tutorial_lib.drilling.job import BitSet, Job
from tutorial_lib.drilling.screws import Choice, Stack
from tutorial_lib.drilling.sizes import ScrewSize, by_shank, screw_sizes
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass
from tutorial_lib.tables import BarrelNut, barrel_nut

TABLE = "bed_bolt"
OPEN_SIZE = {"in": "3/8", "mm": "M10"}
FROM_END = Fraction(5, 2)  # [in] the nut's middle from the rail's end (common practice, no source)
EDGE = Fraction(5, 4)  # [in] bolts from the rail's edges, where nothing else is asked (our choice)
PAST = Fraction(1, 2)  # [in] the hole goes on past the bolt's end
LEFT = Fraction(1, 8)  # [in] wood left behind the nut


def size_of(options: Options) -> ScrewSize:
    """The bolt's size: as stated, or the usual one.

    Raises:
        InputError: a diameter that no barrel nut is listed for.
    """
    stated, units = options.screws.bed_bolt.diameter, options.build.units
    name, known = OPEN_SIZE[units], None
    if stated is not None:
        known = by_shank("carriage bolt", float(stated))
        name = known.size if known else writer(units).bit(stated)
    barrel_nut(name, f"screws.{TABLE}.diameter")
    return known or screw_sizes()["carriage bolt", name]


def nut_of(job: Job) -> BarrelNut:
    """The barrel nut that goes with a bed bolt."""
    known = by_shank("carriage bolt", job.fastener.diameter)
    assert known is not None
    return barrel_nut(known.size)


def job_for(build: Build, joint: Joint) -> Job:
    """Two bolts of one rail's end."""
    options = build.options.screws.bed_bolt
    size, units, near = size_of(build.options), build.options.build.units, build.pieces[joint.near].box.size[joint.axis]
    nut = barrel_nut(size.size)
    least = near + size.washer + FROM_END + nut.width / 2
    length = options.length or next((sold for sold in size.lengths if sold >= least), size.lengths[-1])
    w = writer(units)
    why = f"shorter ones end before the nut, {w.calculated(least)} behind the head"
    fastener = Fastener(
        kind="hex bolt", gauge="", length=length, diameter=size.diameter, root=size.diameter, head=size.washer_width,
        thread=Fraction(2), yield_strength=size.yield_strength, stated=options.length is not None,
        source="hex bolt, lengths as carriage bolts; common practice, no source",
    )  # fmt: skip
    hole = bits.bolt_hole(size.diameter, units)
    return Job(
        joint=joint, table=TABLE, options=ScrewOptions(), fastener=fastener,
        choice=Choice(length, length >= least, why, "a longer one reaches past the nut into the hole's end"),
        stack=Stack(near, length - near + PAST, units=units), least=0.0, gravity=0.42,
        bits=BitSet(hole, hole, None), spots=tuple(_spots(build, joint)), widest=float("inf"),
    )  # fmt: skip


def _spots(build: Build, joint: Joint) -> Iterator[placing.Spot]:
    rail = build.pieces[joint.far]
    across: Axis = 1 if joint.axis == 0 else 0
    for level in levels(build, rail):
        yield placing.spot(joint, {across: rail.box.centre[across], 2: level}, ())


def levels(build: Build, rail: Piece) -> tuple[Fraction, Fraction]:
    """Heights of a rail's lower and upper bolt [in]: a side rail's clear of its cleat, an end rail's between them.

    Raises:
        DesignError: rails so shallow that no nut has room beside the cleat.
    """
    low, high = _beside_cleat(build)
    if rail.use == "side_rail":
        return low, high
    span, shank = high - low, Fraction(size_of(build.options).diameter).limit_denominator(1000)
    off = min(span / 3, (span - Fraction(ROW.full) * shank) / 2) // build.grid * build.grid
    clear = -(-(shank + WOOD_BETWEEN) // build.grid) * build.grid  # from the side rail's bolts, which they cross
    off = max(off, clear)
    return low + off, high - off


def _beside_cleat(build: Build) -> tuple[Fraction, Fraction]:
    rail, cleat = build.part("side_rail").pieces[0].box, build.part("cleat").pieces[0].box
    size = size_of(build.options)
    half, least = barrel_nut(size.size).width / 2, Fraction(size.diameter).limit_denominator(1000) * 3 / 2
    low = min(rail.lo[2] + EDGE, cleat.lo[2] - half)
    high = max(rail.hi[2] - EDGE, cleat.hi[2] + half)
    low, high = low // build.grid * build.grid, -(-high // build.grid) * build.grid
    if low - rail.lo[2] < least or rail.hi[2] - high < least:
        w, wanted = writer(build.options.build.units), -(-(least + half) // build.grid) * build.grid
        raise DesignError(
            Fault(
                "posts.joint",
                f'= "barrel nuts" wants {w.length(wanted)} of rail above and below the cleats, where no cleat covers '
                "the nuts; use deeper rails, thinner bolts, or another recess.",
            )
        )
    return low, high


@dataclass(frozen=True)
class Cross:
    """The hole that a barrel nut lies in."""

    at: tuple[Fraction, Fraction, Fraction]
    axis: Axis
    into: Literal[1, -1]
    width: Fraction
    depth: Fraction


def crosses(build: Build, job: Job) -> Iterator[Cross]:
    """The nuts' holes in the rail's inside face, and how deep they go [in]."""
    rail, joint, nut = build.pieces[job.joint.far].box, job.joint, nut_of(job)
    axis: Axis = 1 if joint.axis == 0 else 0
    inside = build.outside[1 - axis] / 2 > rail.centre[axis]  # the inner face looks toward higher places
    for spot in job.spots:
        at = list(spot.at)
        at[joint.axis] += joint.sign * FROM_END
        at[axis] = rail.hi[axis] if inside else rail.lo[axis]
        deep = min(rail.size[axis] - LEFT, rail.size[axis] / 2 + nut.length / 2)
        yield Cross((at[0], at[1], at[2]), axis, -1 if inside else 1, nut.width, deep)
