"""Each leg's load, and what happens without it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Leg
from tutorial_lib.strength.checks import Use, leg_loads, line_uses, slat_uses, uses_on_line
from tutorial_lib.strength.demands import Demand
from tutorial_lib.strength.joints import without_leg
from tutorial_lib.strength.loads import Case
from tutorial_lib.strength.response import OnLine, Responder, loads_on, settle
from tutorial_lib.strength.working import in_words

Word = Literal["may go", "keep", "must stay"]


@dataclass(frozen=True)
class LegEntry:
    """One leg on the map."""

    leg: Leg
    load: float  # [lb] greatest, lying or sitting
    case: str
    before: float  # greatest utilisation of its line, lying or sitting
    after: float  # the same without this leg; infinite where the line tips
    worst: str  # what governs without it
    word: Word
    of: str = "its line"  # what the two figures are the greatest of
    eased: tuple[str, ...] = ()  # members that are used less without it, where that happens

    @property
    def place(self) -> str:
        """Its line as a person names it."""
        return f"{self.leg.line} side" if self.leg.line in ("left", "right") else self.leg.line

    @property
    def words(self) -> str:
        """What happens without it, in a sentence."""
        if self.word == "must stay":
            return f"{self.leg.label} must stay: without it the {self.place} tips."
        verb = "may go" if self.word == "may go" else "keep it"
        text = (
            f"{self.leg.label} {verb}: without it the most that is used of {self.of} goes from "
            f"{in_words(self.before)} to {in_words(self.after)} ({self.worst})."
        )
        return text + (f" Used less without it: {', '.join(self.eased)}." if self.eased else "")


def leg_map(demand: Demand, uses: Sequence[Use], fastenings: Sequence[Fastening] = ()) -> tuple[LegEntry, ...]:
    """All legs with their greatest load and the bed without each of them.

    A leg may go when nothing on its line is then used beyond its limit, lying or sitting, its joints included.
    """
    build = demand.model.build
    greatest = {leg.label: (0.0, "") for leg in build.legs}
    judged = [r for r in demand.responses if r.case.kind in ("lying", "sitting")]
    for response in judged:
        for found in leg_loads(response, build):
            if found.load > greatest[found.leg.label][0] + 1e-6:
                greatest[found.leg.label] = (found.load, found.case.name)
    cleats = [f for f in fastenings if f.joint.kind == "cleat"]
    return tuple(_entry(demand, leg, uses, greatest, cleats) for leg in build.legs)


def _entry(
    demand: Demand, leg: Leg, uses: Sequence[Use], greatest: dict[str, tuple[float, str]], cleats: Sequence[Fastening]
) -> LegEntry:
    load, case = greatest[leg.label]
    line = demand.model.line(leg.line)
    own = {m.label for m in line.members}
    joined = len(demand.model.lines) > 2  # then slats hand on to the other lines what this one no longer takes
    before = [u for u in uses if u.kind in ("lying", "sitting") and (joined or any(name in u.label for name in own))]
    now = max((u.ratio for u in before), default=0.0)
    lost = _without(demand, leg)
    if lost is None:
        return LegEntry(leg, load, case, now, float("inf"), "it tips", "must stay")
    found = _shared(demand, leg) if joined else [u for on, known in lost for u in uses_on_line(demand, on, known)]
    after = [(f"{u.label}, {u.what}, {u.case}", u.ratio) for u in found]
    members = next(line.members for line in demand.model.build.lines if line.name == leg.line)
    screws = [
        (f"{f.joint.label}, screws", without_leg(demand, f, leg.label)) for f in cleats if f.joint.near in members
    ]
    joints = _joints_without(demand, lost, leg, uses, greatest)
    worst = max([*after, *joints, *screws], key=lambda pair: round(pair[1], 6))
    return LegEntry(
        leg,
        load,
        case,
        now,
        worst[1],
        worst[0],
        "may go" if worst[1] <= 1 else "keep",
        "the bed" if joined else f"the {leg.line} side",
        _eased(before, after),
    )


def _without(demand: Demand, leg: Leg) -> list[tuple[OnLine, Case]] | None:
    """The leg's line without it in every lying and sitting case; None where it tips."""
    found = []
    for response in demand.responses:
        if response.case.kind in ("lying", "sitting"):
            on = response.on(leg.line)
            line = on.line.without(leg.label)
            bent = settle(line.beam, loads_on(line, demand.model.slat_places, on.slats))
            resting = settle(line.beam, loads_on(line, demand.model.slat_places, on.dead))
            if bent is None or resting is None:
                return None
            found.append((OnLine(line, on.slats, on.dead, bent, resting), response.case))
    return found


def _shared(demand: Demand, leg: Leg) -> list[Use]:
    """Slats and all lines without one leg, in the lying cases and those of sitting at mid-side."""
    known = demand.model
    less = replace(known, lines=tuple(line.without(leg.label) for line in known.lines))
    answers = Responder(less)
    chosen = [r.case for r in demand.responses if r.case.kind == "lying" or r.case.key.endswith("-middle")]
    after = replace(demand, model=less, responses=tuple(answers.answer(case) for case in chosen))
    return [*slat_uses(after), *line_uses(after)]


def _joints_without(
    demand: Demand,
    lost: Sequence[tuple[OnLine, Case]],
    leg: Leg,
    uses: Sequence[Use],
    greatest: dict[str, tuple[float, str]],
) -> list[tuple[str, float]]:
    """Joints and tops of the line's other legs, grown with the load on them."""
    found = []
    for other in demand.model.build.legs:
        if other.line != leg.line or other.label == leg.label:
            continue
        peak = max(on.bent.reaction(float(other.x)) for on, _ in lost if on.bent is not None)
        growth = peak / max(greatest[other.label][0], 1e-9)
        found += [
            (f"{u.label}, {u.what}", u.ratio * growth)
            for u in uses
            if u.kind in ("lying", "sitting") and f"leg {other.label}" in u.label
        ]
    return found


def _eased(before: Sequence[Use], after: Sequence[tuple[str, float]]) -> tuple[str, ...]:
    grown = dict(after)
    return tuple(
        dict.fromkeys(
            u.label
            for u in before
            if u.what == "bending"
            and u.ratio > 0.05
            and grown.get(f"{u.label}, {u.what}, {u.case}", 1.0) < u.ratio - 0.02
        )
    )
