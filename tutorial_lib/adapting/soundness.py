"""Is an adapted plan as sound as the creator's own?

A stop that the creator's build does not have, or a strength check over its limit and worse than in the
creator's build, is a reason to change more. What is cheap to find out is looked at first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from tutorial_lib.findings import Finding
from tutorial_lib.records import dataclass
from tutorial_lib.strength.rating import rating_uses
from tutorial_lib.strength.use import Use
from tutorial_lib.strength.working import in_words

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan

LIMIT = 1.0  # a check is used up at 1
SAME = 1.02  # 2 %: as sound as the creator's own, our choice
KNEELING = 1.0  # in a wider bed: its own limit, not the creator's; our choice
WIDER = "1.1"  # a bed this much wider is carried another way; our choice
STAGES = 5  # shape, slats, wood, screws, order of the work
FASTENED = ("screws", "bolts", "screws pulled")
BED_AT_REST = ("lying", "sitting", "standing")  # stepping on bare slats and moving it are cautions for builders

Key = tuple[str, str, str]  # part, what, kind of case


@dataclass(frozen=True)
class Trouble:
    """Why a plan won't do."""

    text: str
    part: str = ""  # key of the part it is about
    measure: Key | None = None  # the check that is over, when it is one
    ratio: float = 0.0
    rule: str = ""  # of the stop, or what the check is of


@dataclass(frozen=True)
class Judged:
    """How far a plan came, and what stands in its way; nothing does when it came through."""

    stage: int  # stages passed
    troubles: tuple[Trouble, ...]

    @property
    def rank(self) -> tuple[int, int]:
        """Less is better."""
        return (-self.stage, len(self.troubles))


class Soundness:
    """What the creator's own build reaches, to measure adapted plans by."""

    def __init__(self, creator: Plan) -> None:
        self.creator = creator

    @cached_property
    def _own_uses(self) -> dict[Key, float]:
        return _worst(_judged(self.creator))

    @cached_property
    def _own_stops(self) -> frozenset[str]:
        return frozenset(finding.rule for finding in self.creator.findings if finding.severity == "stop")

    def judge(self, plan: Plan) -> Judged:
        """Shape, slats, wood, screws, then whether it can be put together; the first that fails ends it."""
        for stage, found in enumerate((self._shape, self._slats, self._wood, self._screws, self._order)):
            troubles = tuple(found(plan))
            if troubles:
                return Judged(stage, troubles)
        return Judged(STAGES, ())

    def troubles(self, plan: Plan) -> tuple[Trouble, ...]:
        """All that stands in the way of a plan: every room's new stops and every check that is worse."""
        return tuple(dict.fromkeys((*self._stops(plan.findings), *self._worse(_judged(plan), plan))))

    def eased(self, trouble: Trouble, plan: Plan) -> str:
        """What was over and what it is now: "slat bending when people lie on it: 1.04 → 0.31 times what is allowed"."""
        if trouble.measure is None:
            return f"without it, {trouble.text[:1].lower()}{trouble.text[1:]}"
        part, what, kind = trouble.measure
        after = _worst(_judged(plan)).get(trouble.measure, 0.0)
        both = f"{in_words(trouble.ratio)} → {_times(after)}"
        return f"{part.replace('_', ' ')} {what} when {_case(kind)}: {both}"

    def _shape(self, plan: Plan) -> Iterator[Trouble]:
        return self._stops(plan.build.findings)

    def _slats(self, plan: Plan) -> Iterator[Trouble]:
        """Slats are judged before any screw is chosen."""
        return self._worse(rating_uses(plan.demand.slats), plan)

    def _wood(self, plan: Plan) -> Iterator[Trouble]:
        yield from self._worse([use for use in _judged(plan) if use.what not in FASTENED], plan)

    def _screws(self, plan: Plan) -> Iterator[Trouble]:
        yield from self._stops((*plan.drilling.findings, *plan.strength.findings))
        yield from self._worse(_judged(plan), plan)

    def _order(self, plan: Plan) -> Iterator[Trouble]:
        return self._stops(plan.assembly.findings)

    def _stops(self, findings: Iterable[Finding]) -> Iterator[Trouble]:
        for finding in findings:
            if finding.severity == "stop" and finding.rule not in self._own_stops:
                part = finding.parts[0] if finding.parts else ""
                yield Trouble(finding.what.rstrip("."), part, rule=finding.rule)

    def _worse(self, uses: Iterable[Use], plan: Plan) -> Iterator[Trouble]:
        wider = plan.build.opening[0] > self.creator.build.opening[0] * Fraction(WIDER)
        for (part, what, kind), ratio in _worst(uses).items():
            # Who kneels on a wide bed kneels in its middle: there the creator's own is no measure.
            own = self._own(part, what, kind)
            if wider and (part, kind) == ("slat", "standing"):
                own = min(own, KNEELING)
            if ratio > LIMIT and ratio > own * SAME:
                yield Trouble(
                    f"{part.replace('_', ' ')} {what} is {_times(ratio)} when {_case(kind)}, "
                    f"in the creator's build {in_words(own)}",
                    part,
                    (part, what, kind),
                    ratio,
                    what,
                )

    def _own(self, part: str, what: str, kind: str) -> float:
        """The creator's same check; for a part the creator has none of, its worst of this kind on any part."""
        own = self._own_uses.get((part, what, kind))
        if own is not None or any(key[0] == part for key in self._own_uses):
            return own or 0.0
        return max((ratio for (_, w, k), ratio in self._own_uses.items() if (w, k) == (what, kind)), default=0.0)


def _judged(plan: Plan) -> list[Use]:
    """The checks that rate a bed."""
    return rating_uses(plan.strength.uses)


def _worst(uses: Iterable[Use]) -> dict[Key, float]:
    """Highest utilisation by part, what and kind of load."""
    worst: dict[Key, float] = {}
    for use in uses:
        if use.kind not in BED_AT_REST:
            continue
        key = (use.part, use.what, use.kind)
        worst[key] = max(worst.get(key, 0.0), use.ratio)
    return worst


CASES = {
    "lying": "people lie on it",
    "sitting": "people sit on its edge",
    "standing": "someone kneels or stands on it",
    "bare": "someone steps on a bare slat",
}


def _case(kind: str) -> str:
    return CASES.get(kind, kind)


def _times(ratio: float) -> str:
    return f"{in_words(ratio)} times what is allowed" if ratio < float("inf") else in_words(ratio)
