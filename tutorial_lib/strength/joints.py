"""Screws and bolts of the joints: what each carries against what it is allowed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Build, Joint
from tutorial_lib.strength import screws
from tutorial_lib.strength.beams import Beam, PointLoad, bend
from tutorial_lib.strength.checks import Use
from tutorial_lib.strength.demands import Demand, JointDemand
from tutorial_lib.strength.members import Check
from tutorial_lib.strength.model import leg_joints, member, wood_of
from tutorial_lib.strength.working import Working, figure


@dataclass(frozen=True)
class Capacity:
    """Reference values of one fastener in its joint, before the duration factor."""

    lateral: float  # [lb]
    pull: float  # [lb]
    workings: tuple[Working, ...]


def capacity(build: Build, fastening: Fastening) -> Capacity:
    """Reference lateral and withdrawal value of one fastener of a joint.

    Below 6 D of penetration the standard gives no value across, so that is 0. The full value holds from 10 D, in
    between it falls in proportion: note 3 of Table 12L, the more careful of the two ways it allows, and the one that
    screw spacing is chosen by. End grain: 0.67 across, nothing along. NDS 2018 chapter 12.
    """
    joint = fastening.joint
    near, far = (
        wood_of(build, build.section_of(p)).gravity if not build.section_of(p).steel else 0.5
        for p in (joint.near, joint.far)
    )
    return _capacity(
        fastening.fastener, near, far, float(fastening.near_thickness), float(fastening.penetration), joint.end_grain
    )


def holding(
    fastener: Fastener, near: float, penetration: float, gravity: float, end_grain: bool
) -> tuple[float, float]:
    """Lateral and withdrawal value of one fastener at duration factor 1 [lb], both pieces of the same wood.

    Args:
        fastener: what is driven.
        near: wood under the head along the axis [in].
        penetration: length in the far piece, tip included [in].
        gravity: specific gravity of both woods.
        end_grain: the point ends in end grain.
    """
    known = _capacity(fastener, gravity, gravity, near, penetration, end_grain)
    return known.lateral, known.pull


@cache
def _capacity(
    fastener: Fastener, near: float, far: float, side: float, penetration: float, end_grain: bool
) -> Capacity:
    bolt = fastener.kind == "carriage bolt"
    if not bolt and penetration < 6 * fastener.diameter - 1e-9:
        # the least penetration is asked for sideways only; a slat's screw that is pulled has what its thread holds
        pull, how = _pull(fastener, far, penetration, end_grain)
        return Capacity(
            0.0,
            pull,
            (
                Working(
                    "penetration",
                    "at least 6 D",
                    f"{figure(penetration)} in against 6 x {figure(fastener.diameter)}",
                    penetration,
                    "in",
                    "NDS 12.1.5.6",
                ),
                how,
            ),
        )
    dowel = dowel_of(fastener, near, far, side, penetration)
    found = screws.lateral(dowel)
    value, shown = found.value, [found.working]
    if not bolt and penetration < 10 * fastener.diameter:
        part = screws.penetration_factor(penetration, fastener.diameter)
        full = screws.lateral(dowel_of(fastener, near, far, side, 10 * fastener.diameter))
        if full.value * part < value:
            value = full.value * part
            shown = [
                full.working,
                Working(
                    "at this penetration",
                    "Z p / 10 D",
                    f"{figure(full.value)} x {figure(part)}",
                    value,
                    "lb",
                    "NDS 2018 Table 12L, note 3",
                ),
            ]
    lateral = value * (screws.END_GRAIN if end_grain else 1.0)
    if end_grain:
        shown.append(Working("in end grain", "Z Ceg", f"{figure(value)} x 0.67", lateral, "lb", "NDS 12.5.2.2"))
    pull, how = _pull(fastener, far, penetration, end_grain)
    return Capacity(lateral, pull, (*shown, how))


def dowel_of(fastener: Fastener, near: float, far: float, side: float, penetration: float) -> screws.Dowel:
    """One fastener in its woods, for the yield equations: near and far gravity, side thickness, penetration [in]."""
    d = fastener.diameter
    if fastener.kind == "carriage bolt":  # rail across its grain, leg along its own
        return screws.Dowel(
            d,
            d,
            fastener.yield_strength,
            penetration,
            side,
            screws.wood_bearing(far, d),
            screws.wood_bearing(near, d, across=True),
            90.0,
        )
    lost = d  # tip of 2 D, half of it lost
    return screws.Dowel(
        d,
        fastener.root,
        fastener.yield_strength,
        penetration - lost,
        side,
        screws.wood_bearing(far, d, across=True),
        screws.wood_bearing(near, d, across=True),
        90.0 if d >= 0.25 else 0.0,
    )


def _pull(fastener: Fastener, far: float, penetration: float, end_grain: bool) -> tuple[float, Working]:
    if end_grain:
        return 0.0, Working("pull out of end grain", "not allowed", "wood screws", 0.0, "lb", "NDS 12.2.2.3")
    if fastener.kind == "carriage bolt":
        return 1000.0, Working(
            "pull on a bolt", "washer and nut hold", "bearing under the washer not checked", 1000.0, "lb", "our choice"
        )
    thread = min(float(fastener.thread), penetration)
    if fastener.kind == "lag screw":
        each = screws.lag_withdrawal(far, fastener.diameter)
    else:
        each = screws.withdrawal(far, fastener.diameter)
    return each * thread, Working(
        "pull value of one screw",
        "2850 G^2 D x thread",
        f"{figure(each)} lb/in x {figure(thread)} in",
        each * thread,
        "lb",
        "NDS Eq. 12.2-2",
    )


def joint_uses(demand: Demand, fastenings: Sequence[Fastening]) -> Iterator[Use]:
    """Utilisation of every joint that carries load by its fasteners, in its worst case of each kind."""
    build = demand.model.build
    held = {f.joint: f for f in fastenings}
    asked: dict[Joint, list[JointDemand]] = {}
    for d in demand.joints:
        asked.setdefault(d.joint, []).append(d)
    for joint, demands in asked.items():
        if joint in held and joint.fastener != "bracket":
            yield from _worst(build, held[joint], demands)


def _worst(build: Build, fastening: Fastening, demands: Sequence[JointDemand]) -> Iterator[Use]:
    known = capacity(build, fastening)
    best: dict[str, tuple[float, JointDemand, float, float]] = {}
    for d in demands:
        across, along = _on_one(build, fastening, d)
        ratio = screws.combined(known.pull * d.duration, known.lateral * d.duration, along, across)
        if ratio > best.get(d.kind, (0.0,))[0] + 1e-6:
            best[d.kind] = (ratio, d, across, along)
    part = build.pieces[fastening.joint.near].part
    dead = best.pop("dead", (0.0,))[0]
    for kind, (ratio, d, across, along) in best.items():
        yield Use(
            part,
            fastening.joint.label,
            d.case,
            kind,
            _check(known, d, ratio, across, along),
            min(ratio, dead / d.duration),
        )


def _check(known: Capacity, d: JointDemand, ratio: float, across: float, along: float) -> Check:
    def how() -> tuple[Working, ...]:
        return (
            *known.workings,
            Working(
                "one screw",
                "load over allowed",
                f"{figure(across)} lb across, {figure(along)} lb along; allowed "
                f"{figure(known.lateral * d.duration)} and {figure(known.pull * d.duration)} lb "
                f"at CD {figure(d.duration)}",
                ratio,
                "",
                "NDS Eq. 12.4-1",
            ),
        )

    return Check("screws" if d.joint.fastener != "bolt" else "bolts", ratio, d.duration, how)


def without_leg(demand: Demand, fastening: Fastening, label: str) -> float:
    """Greatest utilisation of a cleat's screws, lying or sitting, when one leg no longer carries the cleat."""
    build, known = demand.model.build, capacity(demand.model.build, fastening)
    found = [0.0]
    for d in demand.of(fastening.joint):
        if d.kind in ("lying", "sitting"):
            across, along = _on_one(build, fastening, d, label)
            found.append(screws.combined(known.pull * d.duration, known.lateral * d.duration, along, across))
    return max(found)


def _on_one(build: Build, fastening: Fastening, d: JointDemand, without: str = "") -> tuple[float, float]:
    """Load across and along the most loaded fastener [lb]."""
    count = max(1, fastening.count)
    if not d.places:
        return d.shear / count, d.withdrawal / count
    own = tuple(sorted({float(driven.head[0]) for driven in fastening.driven}))
    rows = max(1.0, count / max(1, len(own)))
    quarter = float(build.slats.width) / 4  # a slat rests on its whole width: half its push at each quarter
    halves = tuple(x + side * quarter for x, _ in d.places for side in (-1, 1))
    loads = [load / 2 for _, load in d.places for _ in (-1, 1)]
    piece = member(build, d.joint.near)
    spring = rows * slip(fastening.fastener.diameter)
    seats = _leg_seats(build, d.joint, without)
    shares = _shares(piece.start, piece.end, piece.stiffness, own, seats, halves, spring)
    peak = max((sum(s * p for s, p in zip(row, loads, strict=True)) for row in shares), default=0.0) / rows
    return (0.0, max(0.0, peak)) if d.joint.kind == "runner" else (max(0.0, peak), 0.0)


def slip(diameter: float) -> float:
    """What a screw gives sideways [lb/in]: 180 000 D^1.5, wood to wood. NDS 11.3.6, from memory."""
    return float(180000 * diameter**1.5)


@cache
def _shares(
    start: float,
    end: float,
    stiffness: float,
    own: tuple[float, ...],
    seats: tuple[float, ...],
    places: tuple[float, ...],
    spring: float,
) -> tuple[tuple[float, ...], ...]:
    """Load on each screw from 1 lb at each place: the cleat or runner is a beam on its screws, which give a little.

    By Maxwell's rule a pound at a place moves a screw as much as a pound at the screw moves the place.
    """
    beam = Beam(start, end, ((end, stiffness),), seats, tuple((x, spring) for x in own if x not in seats))
    if len(beam.supports) + len(beam.springs) < 2:
        return tuple((1.0,) * len(places) for _ in own)
    found = []
    for x, _ in beam.springs:
        bent = bend(beam, (PointLoad(x, 1.0),))
        found.append(tuple(spring * bent.sag(min(max(p, start), end)) for p in places))
    return tuple(found)


def _leg_seats(build: Build, joint: Joint, without: str) -> tuple[float, ...]:
    """Middles of the leg tops that carry a cleat themselves [in]."""
    if joint.kind != "cleat":
        return ()
    return tuple(
        sorted(
            float(j.contact.centre[0])
            for leg in build.legs
            if leg.label != without
            for j in leg_joints(build, leg.label)
            if j.bears and joint.near in (j.near, j.far)
        )
    )
