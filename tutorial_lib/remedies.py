"""Remedies tried before they are told: the build file is changed, the bed worked out anew, and what comes of it said.

Worked out when someone asks to see them, not at every redraw. One that cures nothing, adds a stop or lowers a rating
isn't told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import Any
from weakref import WeakKeyDictionary

from tutorial_lib.design.build_file import change
from tutorial_lib.errors import TutorialError
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.plan import Plan, plan
from tutorial_lib.strength.rules import trips
from tutorial_lib.strength.words import held
from tutorial_lib.strength.working import times
from tutorial_lib.worth_trying import candidates

TOLD_AT_MOST = 2  # of one finding
TRIED_AT_MOST = 24  # changes of one plan, so that the oddest bed is answered soon; the first found are helped first
LARGE, MANY = 100, 1000  # joints, fasteners, from which on fewer are tried: it takes with their square, or more
_KNOWN: WeakKeyDictionary[Plan, dict[tuple[object, ...], tuple[Remedy, ...]]] = WeakKeyDictionary()
_MEMORY: WeakKeyDictionary[Plan, _Memory] = WeakKeyDictionary()
_TRIED: WeakKeyDictionary[Plan, dict[str, Plan]] = WeakKeyDictionary()


def told(before: Plan, finding: Finding) -> Finding:
    """The finding with what was tried and helps as its remedy; as it was where nothing helps."""
    cures = _helping(before, finding)
    return replace(finding, remedies=cures, remedy=" ".join(map(str, cures)) if cures else finding.remedy)


def _helping(before: Plan, finding: Finding) -> tuple[Remedy, ...]:
    """What was tried and helps, once for each plan: a booklet and a kit ask again."""
    known = _KNOWN.setdefault(before, {})
    key = (finding.rule, finding.parts, finding.what, *map(str, finding.remedies))
    if key not in known:
        memory = _MEMORY.get(before)
        sequence = repr([*known, key])  # what was tried before counts: no more than so many are
        known[key] = memory.helping(before, finding, sequence) if memory else tuple(tried(before, finding))
    return known[key]


class _Memory:
    """What earlier commands found to help one plan."""

    def __init__(self, options: str) -> None:
        self.options = options
        self.untried: list[Finding] = []  # those whose remedies were recalled, in order

    def helping(self, before: Plan, finding: Finding, sequence: str) -> tuple[Remedy, ...]:
        """What helps a finding that is asked for after others: recalled, or tried and kept."""
        from tutorial_lib.remembered import keep, recalled

        asked = (self.options, sequence)
        found = recalled("remedies", asked, _remedies_of)
        if found is not None:
            self.untried.append(finding)
            return found
        while self.untried:  # as if none had been recalled
            tuple(tried(before, self.untried.pop(0)))
        found = tuple(tried(before, finding))
        keep("remedies", asked, [[remedy.text, remedy.changes, remedy.outcome] for remedy in found])
        return found


def _remedies_of(kept: Any) -> tuple[Remedy, ...]:
    return tuple(Remedy(text, tuple(map(tuple, changes)), outcome) for text, changes, outcome in kept)


def remember(before: Plan) -> None:
    """From now on what helps a plan is kept for the next command, and what an earlier one kept needs no trial."""
    _MEMORY.setdefault(before, _Memory(repr(before.options)))


def helped(before: Plan, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Findings one by one, each stop and caution with what was tried and helps."""
    for finding in findings:
        yield finding if finding.severity == "note" else told(before, finding)


def tried(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """Remedies of one finding that cure it, each with what comes of it; at most two."""
    found: list[str] = []
    for kind, remedy in (*(("own", r) for r in finding.remedies), *candidates(before, finding)):
        if kind in found and kind != "own":
            continue  # a slighter one of its kind already helps
        after = _cured(before, remedy, finding)
        if after is None:
            continue
        yield replace(remedy, outcome=_outcome(after, finding))
        found.append(kind)
        if len(found) == TOLD_AT_MOST:
            return


def _cured(before: Plan, remedy: Remedy, finding: Finding) -> Plan | None:
    """The plan with the remedy done; None where it can't be built or doesn't cure."""
    try:
        after = _after(before, remedy)
        return after if after is not None and _cures(before, after, finding) else None
    except TutorialError:
        return None


def _after(before: Plan, remedy: Remedy) -> Plan | None:
    """The plan with the remedy done, worked out once for all that is found; None past the last to be tried."""
    known = _TRIED.setdefault(before, {})
    key = repr(remedy.changes)
    size = max(len(before.build.joints) / LARGE, sum(len(job.spots) for job in before.drilling.jobs) / MANY, 1)
    most = max(2, round(TRIED_AT_MOST / size**3))
    if key not in known and len(known) < most:
        known[key] = plan(change(before.options, dict(remedy.changes)), like=before)
    return known.get(key)


def _cures(before: Plan, after: Plan, finding: Finding) -> bool:
    """The finding is gone, no stop is new, no rating lower. What is soon told is asked first, the dear rooms last."""

    def sound(room: Room) -> bool:
        """True where the room finds no stop that wasn't there, nor what is to be cured."""
        return _stops(room(after)) <= _stops(room(before)) and not _stays(room(before), room(after), finding)

    return (
        not any(f.rule == finding.rule and f.severity != "note" for f in after.build.findings)
        and sound(_drilled)
        and not trips(after.strength, finding.rule)
        and (finding.rule != "long board" or _cheaper(before, after))
        and _no_weaker(before, after)
        and all(map(sound, DEAR))
    )


Room = Callable[[Plan], tuple[Finding, ...]]
DEAR: tuple[Room, ...] = (
    lambda p: p.build.findings + p.strength.findings,
    lambda p: p.assembly.findings,
    lambda p: p.cutting.findings,
)


def _drilled(made: Plan) -> tuple[Finding, ...]:
    return made.drilling.findings


def _no_weaker(before: Plan, after: Plan) -> bool:
    """Whether no rating is lower."""
    old, new = before.strength, after.strength
    return new.lying.pounds >= old.lying.pounds and new.sitting.pounds >= old.sitting.pounds


def _cheaper(before: Plan, after: Plan) -> bool:
    """Whether the lumber costs less, all of what is new being priced."""
    old, new = before.cutting, after.cutting
    return new.unpriced <= old.unpriced and new.cost < old.cost


def _stays(before: Iterable[Finding], after: Iterable[Finding], finding: Finding) -> bool:
    """Whether the room that found it still finds it, of the same parts."""
    now = [f for f in after if (f.rule, f.parts) == (finding.rule, finding.parts)]
    here = any((f.rule, f.parts) == (finding.rule, finding.parts) for f in before)
    return here and any(f.severity != "note" or finding.severity == "note" for f in now)


def _stops(findings: Iterable[Finding]) -> set[tuple[str, tuple[str, ...]]]:
    return {(finding.rule, finding.parts) for finding in findings if finding.severity == "stop"}


def _outcome(after: Plan, finding: Finding) -> str:
    """ "two people of 220 lb each lying, two people of 150 lb each sitting on the edge"."""
    strong = after.strength
    if finding.rule == "long board":
        return f"all lumber {after.cutting.money.write(after.cutting.cost)}, {held(strong)}"
    use = strong.worst("standing") if finding.rule == "kneeling" else strong.governing
    figure = f"{_used(use.ratio)}, " if use is not None and finding.rule != "moving" else ""
    return f"{figure}{held(strong)}" if strong.lying.pounds or strong.sitting.pounds else f"{figure}no load figure"


def _used(ratio: float) -> str:
    return f"{ratio:.2f} of what is allowed" if ratio <= 1 else f"still {times(ratio)} what is allowed"


__all__ = ["helped", "remember", "told", "tried"]
