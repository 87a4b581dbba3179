"""The finishing of a bed: faces, sanding, coats, time and what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.design.model import Build
from tutorial_lib.findings import Finding
from tutorial_lib.finishing.cans import SOLD, Can
from tutorial_lib.finishing.coats import KINDS, Coats, coats, meant
from tutorial_lib.finishing.exposure import FaceMap, FaceState, expose, face_maps, total
from tutorial_lib.finishing.sanding import Sanding, sanding
from tutorial_lib.finishing.timeline import Task, timeline
from tutorial_lib.records import dataclass

AMBIENT_F = (50, 90)  # air and wood while finishing; common label range, from memory
AMBIENT_C = (10, 32)
HUMIDITY = 70  # [%] at most while finishing; common label figure, from memory


@dataclass(frozen=True, kw_only=True)
class Finishing:
    """What shows, how it is sanded and coated, how much of everything and how long."""

    states: tuple[FaceState, ...]
    maps: tuple[FaceMap, ...]
    sanding: Sanding
    coats: Coats
    recoat: tuple[float, float]  # [h] as stated, or the usual range
    tasks: tuple[Task, ...]
    findings: tuple[Finding, ...]
    hazards: tuple[Finding, ...]  # what can hurt someone at this work, whatever the build

    @property
    def seen(self) -> Fraction:
        """Faces that show, end grain included [sq ft]."""
        return total(self.states, "seen")

    @property
    def end_grain(self) -> Fraction:
        """End grain that shows [sq ft]."""
        return total(self.states, "seen", end_grain=True)

    @property
    def touched(self) -> Fraction:
        """Faces that hands meet and eyes don't [sq ft]."""
        return total(self.states, "touched")

    @property
    def hidden(self) -> Fraction:
        """Open faces that nobody sees or touches [sq ft]."""
        return total(self.states, "hidden")

    @property
    def days(self) -> tuple[float, float]:
        """From the first sanding to the mattress on [days of 24 h], drying overnight counted."""
        return (self.tasks[-1].end[0] / 24, self.tasks[-1].end[1] / 24)


def finish(build: Build) -> Finishing:
    """Work out the finishing of a build.

    Args:
        build: the placed pieces with their options.
    """
    options = build.options.finish
    states = expose(build)
    sand, minded = sanding(options.grits, total(states, "seen"), edges_to_break(states))
    offered = tuple(Can(row.size, row.gallons, row.price) for row in options.cans)
    area = coated_area(states, options.seal_hidden)
    coated = coats(options.kind, options.laid, *area, offered or SOLD[build.options.build.units])
    stated = float(options.recoat) if options.recoat is not None else None
    recoat = (stated, stated) if stated is not None else (float(coated.known.recoat[0]), float(coated.known.recoat[1]))
    findings = (*minded, *_coat_findings(coated, stated))
    return Finishing(
        states=states,
        maps=face_maps(build, states),
        sanding=sand,
        coats=coated,
        recoat=recoat,
        tasks=timeline(sand, coated, stated),
        findings=findings,
        hazards=tuple(_hazards(coated)),
    )


def coated_area(states: tuple[FaceState, ...], seal_hidden: bool) -> tuple[Fraction, Fraction]:
    """Side grain and end grain that get a coat [sq ft]: what shows, or every open face when hidden ones are sealed."""
    if seal_hidden:
        return total(states, None, end_grain=False), total(states, None, end_grain=True)
    return total(states, "seen", end_grain=False), total(states, "seen", end_grain=True)


def edges_to_break(states: tuple[FaceState, ...]) -> Fraction:
    """Length of edges along the grain beside a face that is seen or touched [ft], each edge once."""
    edges = {
        (s.face.piece.label, frozenset({(s.face.axis, s.face.sign), (axis, sign)})): s.face.piece.length
        for s in states
        if s.state in ("seen", "touched") and not s.face.end_grain
        for axis in range(3)
        if axis not in (s.face.axis, s.face.piece.axis)
        for sign in (-1, 1)
    }
    return sum(edges.values(), Fraction(0)) / 12


def _coat_findings(coated: Coats, recoat: float | None) -> Iterator[Finding]:
    if coated.coats and not coated.known.known:
        yield Finding(
            rule="finish",
            severity="note",
            what=f'No coverage or drying time is known here for "{coated.kind}"; known are {", ".join(KINDS)}.',
            remedy=f"{meant(coated.kind)}Read the can: coverage, time between coats, time to full cure.",
        )
    least, most = coated.known.recoat
    if coated.coats > 1 and recoat is not None and recoat < least:
        yield Finding(
            rule="recoat",
            severity="caution",
            what=f"{recoat:g} h between coats is less than usual for {coated.kind}.",
            value=f"{recoat:g} h",
            limit=f"{least} to {most} h",
            whose="labels, from memory",
            remedy="Read the can, and wait longer when it is cold or damp.",
        )


def _hazards(coated: Coats) -> Iterator[Finding]:
    """What can hurt someone while sanding and finishing."""
    yield Finding(
        rule="wood dust",
        severity="caution",
        what="Sanding dust harms the lungs.",
        value="",
        limit="1 mg/m³ over a day of work of up to 10 h",
        whose="NIOSH recommended limit",
        remedy="Wear a mask for fine dust, collect the dust at the sander, air the room.",
    )
    if coated.coats and coated.known.oily:
        yield Finding(
            rule="oily rags",
            severity="caution",
            what="Rags wet with drying oil heat up by themselves and can catch fire within hours.",
            remedy="Dry them flat outdoors, one layer, or keep them under water in a lidded metal "
            "can. Never in a pile or a bin.",
        )
    if coated.coats and coated.known.solvent:
        yield Finding(
            rule="solvents",
            severity="caution",
            what="Fumes are harmful and burn.",
            remedy="Open windows, no flame or pilot light, gloves; sleep elsewhere until the smell is gone.",
        )
