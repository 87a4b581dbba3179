"""Screws and bolts of the joints: what each carries against what it is allowed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Build, Joint
from tutorial_lib.strength import screws
from tutorial_lib.strength.checks import Use
from tutorial_lib.strength.demands import Demand, JointDemand
from tutorial_lib.strength.members import Check
from tutorial_lib.strength.model import leg_joints, wood_of
from tutorial_lib.strength.working import Working, figure


@dataclass(frozen=True)
class Capacity:
    """Reference values of one fastener in its joint, before the duration factor."""

    lateral: float  # [lb]
    pull: float  # [lb]
    workings: tuple[Working, ...]


def capacity(build: Build, fastening: Fastening) -> Capacity:
    """Reference lateral and withdrawal value of one fastener of a joint.

    Below 6 D of penetration the standard gives no value, so both are 0. From 6 D the yield equations run with the
    real penetration, as note 3 of Table 12L allows. End grain: 0.67 across, nothing along. NDS 2018 chapter 12.
    """
    joint = fastening.joint
    near, far = (wood_of(build, build.section_of(p)).gravity if not build.section_of(p).steel else 0.5
                 for p in (joint.near, joint.far))
    return _capacity(fastening.fastener, near, far, float(fastening.near_thickness), float(fastening.penetration),
                     joint.end_grain)


def holding(fastener: Fastener, near: float, penetration: float, gravity: float, end_grain: bool
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
def _capacity(fastener: Fastener, near: float, far: float, side: float, penetration: float,
              end_grain: bool) -> Capacity:
    bolt = fastener.kind == "carriage bolt"
    if not bolt and penetration < 6 * fastener.diameter - 1e-9:
        return Capacity(0.0, 0.0, (Working("penetration", "at least 6 D", f"{figure(penetration)} in against 6 x "
                                           f"{figure(fastener.diameter)}", penetration, "in", "NDS 12.1.5.6"),))
    dowel = _dowel(fastener, near, far, side, penetration)
    found = screws.lateral(dowel)
    lateral = found.value * (screws.END_GRAIN if end_grain else 1.0)
    shown = [found.working]
    if end_grain:
        shown.append(Working("in end grain", "Z Ceg", f"{figure(found.value)} x 0.67", lateral, "lb", "NDS 12.5.2.2"))
    pull, how = _pull(fastener, far, penetration, end_grain)
    return Capacity(lateral, pull, (*shown, how))


def _dowel(fastener: Fastener, near: float, far: float, side: float, penetration: float) -> screws.Dowel:
    d = fastener.diameter
    if fastener.kind == "carriage bolt":  # rail across its grain, leg along its own
        return screws.Dowel(d, d, fastener.yield_strength, penetration, side, screws.wood_bearing(far, d),
                            screws.wood_bearing(near, d, across=True), 90.0)
    lost = d  # tip of 2 D, half of it lost
    return screws.Dowel(d, fastener.root, fastener.yield_strength, penetration - lost, side,
                        screws.wood_bearing(far, d, across=True), screws.wood_bearing(near, d, across=True),
                        90.0 if d >= 0.25 else 0.0)


def _pull(fastener: Fastener, far: float, penetration: float, end_grain: bool) -> tuple[float, Working]:
    if end_grain:
        return 0.0, Working("pull out of end grain", "not allowed", "wood screws in end grain", 0.0, "lb",
                            "NDS 12.2.2.3")
    if fastener.kind == "carriage bolt":
        return 1000.0, Working("pull on a bolt", "washer and nut hold", "bearing under the washer not checked", 1000.0,
                               "lb", "our choice")
    thread = min(float(fastener.thread), penetration)
    if fastener.kind == "lag screw":
        each = screws.lag_withdrawal(far, fastener.diameter)
    else:
        each = screws.withdrawal(far, fastener.diameter)
    return each * thread, Working("pull value of one screw", "2850 G^2 D x thread",
                                  f"{figure(each)} lb/in x {figure(thread)} in", each * thread, "lb", "NDS Eq. 12.2-2")


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
        if ratio > best.get(d.kind, (0.0,))[0]:
            best[d.kind] = (ratio, d, across, along)
    part = build.pieces[fastening.joint.near].part
    for kind, (ratio, d, across, along) in best.items():
        yield Use(part, fastening.joint.label, d.case, kind, _check(known, d, ratio, across, along), 0.0)


def _check(known: Capacity, d: JointDemand, ratio: float, across: float, along: float) -> Check:
    def how() -> tuple[Working, ...]:
        return (*known.workings,
                Working("one screw", "load over allowed",
                        f"{figure(across)} lb across, {figure(along)} lb along; allowed {figure(known.lateral * d.duration)}"
                        f" and {figure(known.pull * d.duration)} lb at CD {figure(d.duration)}", ratio, "",
                        "NDS Eq. 12.4-1"))

    return Check("screws" if d.joint.fastener != "bolt" else "bolts", ratio, d.duration, how)


def _on_one(build: Build, fastening: Fastening, d: JointDemand) -> tuple[float, float]:
    """Load across and along the most loaded fastener [lb]."""
    count = max(1, fastening.count)
    if not d.places:
        return d.shear / count, d.withdrawal / count
    own = sorted({float(driven.head[0]) for driven in fastening.driven})
    rows = max(1.0, count / max(1, len(own)))
    seats = _leg_seats(build, d.joint) if d.joint.kind == "cleat" else []
    peak = _levered(d.places, own, seats) / rows
    return (0.0, peak) if d.joint.kind == "runner" else (peak, 0.0)


def _leg_seats(build: Build, joint: Joint) -> list[tuple[float, float]]:
    """Stretches where a leg carries the cleat itself [in]."""
    return [(float(j.contact.lo[0]), float(j.contact.hi[0])) for leg in build.legs
            for j in leg_joints(build, leg.label) if j.bears and joint.near in (j.near, j.far)]


def _levered(places: Sequence[tuple[float, float]], own: Sequence[float], seats: Sequence[tuple[float, float]]) -> float:
    """Greatest load on one screw when each load goes to its two neighbours by the lever, or to a leg right below."""
    holds = sorted([(x, True) for x in own] + [((a + b) / 2, False) for a, b in seats])
    carried = dict.fromkeys(own, 0.0)
    for x, load in places:
        if any(a <= x <= b for a, b in seats) or not holds:
            continue
        left = max((h for h in holds if h[0] <= x), default=None)
        right = min((h for h in holds if h[0] > x), default=None)
        if left is None or right is None:
            shares = [(left or right, 1.0)]
        else:
            t = (x - left[0]) / (right[0] - left[0])
            shares = [(left, 1 - t), (right, t)]
        for hold, share in shares:
            if hold is not None and hold[1]:
                carried[hold[0]] += load * share
    return max(carried.values(), default=0.0)
