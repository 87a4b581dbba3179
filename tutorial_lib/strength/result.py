"""Utilisations, sag, ratings, the leg map and what the rules find: the strength step's second half."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build
from tutorial_lib.findings import Finding
from tutorial_lib.strength import members
from tutorial_lib.strength.checks import Use, leg_uses, line_uses, slat_uses
from tutorial_lib.strength.demands import Demand
from tutorial_lib.strength.joints import joint_uses
from tutorial_lib.strength.leg_map import LegEntry, leg_map
from tutorial_lib.strength.model import longest_clear, member
from tutorial_lib.strength.rating import Rating, rate
from tutorial_lib.strength.rules import findings_of
from tutorial_lib.strength.spans import SpanLimit, span_limits


@dataclass(frozen=True)
class Strength:
    """Everything the strength step says of one build."""

    demand: Demand
    uses: tuple[Use, ...]
    lying: Rating
    sitting: Rating
    findings: tuple[Finding, ...]
    fastenings: tuple[Fastening, ...] = ()

    def worst(self, *kinds: str, what: str = "") -> Use | None:
        """The governing utilisation over kinds of case."""
        found = [u for u in self.uses if u.kind in kinds and (not what or u.what == what)]
        return max(found, key=lambda u: round(u.ratio, 6), default=None)  # the first of equals

    @property
    def governing(self) -> Use | None:
        """The utilisation that governs when lying or sitting."""
        return self.worst("lying", "sitting")

    @property
    def unstable(self) -> tuple[str, ...]:
        """Lines that would tip in some case."""
        return tuple(dict.fromkeys(on.line.name for r in self.demand.responses for on in r.lines if on.bent is None))

    @cached_property
    def by_part(self) -> dict[str, Use]:
        """Governing utilisation of each part, lying or sitting."""
        found: dict[str, Use] = {}
        for use in self.uses:
            if use.kind in ("lying", "sitting") and (use.part not in found or use.ratio > found[use.part].ratio + 1e-6):
                found[use.part] = use
        return found

    @cached_property
    def legs(self) -> tuple[LegEntry, ...]:
        """Each leg's load, and what happens without it."""
        return leg_map(self.demand, self.uses, self.fastenings)

    @cached_property
    def spans(self) -> tuple[SpanLimit, ...]:
        """Longest slat span by slat stock, for this wood and this load."""
        return span_limits(self.demand.model.build)


def results(build: Build, demand: Demand, fastenings: Sequence[Fastening]) -> Strength:
    """Utilisations, ratings and findings of a build with its screws.

    An unstable layout is a stop among the findings and has no rating (0 lb), never a silent number.
    """
    uses = (
        *slat_uses(demand),
        *line_uses(demand),
        *leg_uses(demand),
        *end_rail_uses(build, demand),
        *cleat_uses(demand, fastenings),
        *joint_uses(demand, fastenings),
    )
    unstable = any(on.bent is None for r in demand.responses for on in r.lines)
    person = float(build.options.load.person)
    lying, sitting = (rate(kind, person, build.options.load.people, uses, unstable) for kind in ("lying", "sitting"))
    return Strength(demand, uses, lying, sitting, tuple(findings_of(demand, uses, fastenings)), tuple(fastenings))


def end_rail_uses(build: Build, demand: Demand) -> Iterable[Use]:
    """An end rail with a person on its middle, and the side rails when one end is lifted."""
    careful = build.options.load.careful
    end = next(r.case for r in demand.responses if r.case.kind == "end rail")
    for piece in build.part("end_rail").pieces if build.has("end_rail") else ():
        rail = member(build, piece.label)
        span = longest_clear(build, rail)
        check = members.bending(rail.wood, rail.size, end.end_rail * span / 4, end.duration)
        yield Use(rail.part, rail.label, end.name, end.kind, check, 0.0)
    for piece in build.part("side_rail").pieces if build.has("side_rail") else ():
        rail = member(build, piece.label)
        moment = demand.weight / 2 * (rail.end - rail.start) / 8
        check = members.bending(rail.wood, rail.size, moment, 1.0 if careful else 1.6)
        yield Use(rail.part, rail.label, "lifted by one end", "moving", check, 0.0)


def cleat_uses(demand: Demand, fastenings: Sequence[Fastening]) -> Iterable[Use]:
    """A cleat between two screws with a slat on its middle, as a simple span: the safe side."""
    build = demand.model.build
    for fastening in (f for f in fastenings if f.joint.kind == "cleat"):
        places = sorted({float(d.head[0]) for d in fastening.driven})
        gap = max((b - a for a, b in pairwise(places)), default=0.0)
        cleat = member(build, fastening.joint.near)
        for kind in ("lying", "sitting"):
            asked = [d for d in demand.of(fastening.joint) if d.kind == kind and d.places]
            if gap and asked:
                worst = max(asked, key=lambda d: max(p for _, p in d.places))
                push = max(p for _, p in worst.places)
                check = members.bending(cleat.wood, cleat.size, push * gap / 4, worst.duration)
                yield Use(cleat.part, f"{cleat.label} between screws", worst.case, kind, check, 0.0)
