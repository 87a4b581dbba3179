"""The tools a bed takes, as they follow from its holes, screws, cuts and finish."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.cutting.sawing import SAWING
from tutorial_lib.measures import Writer, writer

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan


def tools(plan: Plan, w: Writer | None = None) -> tuple[str, ...]:
    """Tools in the order of the job: measuring, saw, bits by their sold sizes, drivers, clamps, sander, brush.

    Args:
        plan: the bed.
        w: what writes their sizes; in the plan's units where none is given.
    """
    return tuple(_tools(plan, w or writer(plan.options.build.units)))


def _tools(plan: Plan, w: Writer) -> Iterator[str]:
    yield "tape measure, square, pencil"
    saw = SAWING[plan.options.saw.kind]
    yield saw.tools.format(w.stated(plan.options.saw.kerf))
    yield from _bits(plan, w)
    kinds = {job.fastener.kind for job in plan.drilling.jobs}
    yield "drill and driver"
    if kinds & {"carriage bolt", "lag screw"}:
        yield "hammer and a wrench for the bolts"
    if "hex bolt" in kinds:
        yield "a wrench for the bed bolts, a screwdriver for their nuts"
    yield "four clamps"
    grits = plan.finishing.sanding.grits
    if grits:
        yield f"sander, {' and '.join(f'P{grit.number}' for grit in grits)}"
    if plan.finishing.coats.coats:
        yield f"brush or rag for {plan.finishing.coats.kind}"
    yield saw.wear


def _bits(plan: Plan, w: Writer) -> Iterator[str]:
    def told(name: str, size: Fraction) -> str:
        return f"{name} ({w.other.nearest_bit(size)})" if w.both else name

    holes = [hole for group in plan.drilling.schedule for hole in group.holes]
    bits = {hole.bit: hole.diameter for hole in sorted(holes, key=lambda hole: (hole.diameter, hole.bit))}
    if bits:
        yield f"bits: {', '.join(told(name, size) for name, size in bits.items())}"
    sinks = sorted({hole.countersink for hole in holes if hole.countersink})
    if sinks:
        yield f"countersinks: {w.bits(sinks)}"
