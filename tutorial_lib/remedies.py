"""Remedies tried before they are told: the build file is changed, the bed worked out anew, and what comes of it said.

Worked out when someone asks to see them, not at every redraw. One that cures nothing, adds a stop or lowers a rating
isn't told. The slightest comes first: other screws, more of them, another set-back; then a line, another section,
another kind of leg.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Any
from weakref import WeakKeyDictionary

from tutorial_lib.design.build_file import change
from tutorial_lib.errors import TutorialError
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.measures import Writer, writer
from tutorial_lib.plan import Plan, plan
from tutorial_lib.strength.rules import trips
from tutorial_lib.strength.words import held
from tutorial_lib.strength.working import times

TOLD_AT_MOST = 2  # of one finding
TRIED_AT_MOST = 24  # changes of one plan, so that the oddest bed is answered soon; the first found are helped first
LARGE, MANY = 100, 1000  # joints, fasteners, from which on fewer are tried: it takes with their square, or more
THICKER = {"#6": "#8", "#7": "#9", "#8": "#10", "#9": "#10", "#10": "#12", "#12": "#14"}
CLOSER = (Fraction(5, 6), Fraction(2, 3), Fraction(1, 2), Fraction(1, 3))  # of the spacing there is
FASTENED = {"cleat": "cleat", "runner": "runner", "leg": "leg", "corner": "corner"}  # part to table of the build file
RUNNER_PLACES = ("screws.runner.inset", "screws.runner.spacing", "screws.runner.count")
_KNOWN: WeakKeyDictionary[Plan, dict[tuple[object, ...], tuple[Remedy, ...]]] = WeakKeyDictionary()
_MEMORY: WeakKeyDictionary[Plan, _Memory] = WeakKeyDictionary()
_TRIED: WeakKeyDictionary[Plan, dict[str, Plan]] = WeakKeyDictionary()
STOCK_STEPS = {"1x3": "1x4", "1x4": "2x4", "1x6": "2x6", "2x3": "2x4", "2x4": "2x6", "2x6": "2x8"}


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
    for kind, remedy in (*(("own", r) for r in finding.remedies), *_candidates(before, finding)):
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


# What is worth trying, by what was found.


def _candidates(before: Plan, finding: Finding) -> Iterator[tuple[str, Remedy]]:
    """(kind of remedy, remedy), the slightest first."""
    makers = {
        "rows of screws": (_screws, _legs, _line, _slats),
        "strength": (_screws, _blocks, _bolts, _legs, _line, _under_rail, _slats, _support, _rail),
        "kneeling": (_line, _slats),
        "comfort": (_line, _slats),
        "across the grain": (_under_rail, _wide_leg),
        "hold-down screws": (_slat_screws,),
        "racking": (_bolts, _lower, _line, _inside, _under_rail, _wide_leg, _beside, _flange),
        "moving": (_bolts, _lower, _inside, _beside, _flange),
        "tipping": (_set_back,),
        "balance": (_set_back, _legs),
        "rail and leg apart": (_inside, _under_rail, _beside),
        "no way to the floor": (_legs, _set_back),
        "no published value": (_line_legs,),
    }.get(finding.rule, ())
    for make in makers:
        yield from ((make.__name__, remedy) for remedy in make(before, finding))


def _remedy(text: str, **changes: object) -> Remedy:
    return Remedy(text, tuple((key.replace("__", "."), value) for key, value in changes.items()))


def _screws(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """A thicker screw, then closer ones."""
    units = writer(before.options.build.units)
    for table in (FASTENED[part] for part in finding.parts if part in FASTENED and part != "leg"):
        jobs = before.drilling.of(table)
        if not jobs:
            continue
        gauge = jobs[0].fastener.gauge
        if gauge in THICKER:
            yield Remedy(
                f"Use {THICKER[gauge]} screws through the {table}",
                ((f"screws.{table}.gauge", THICKER[gauge]), (f"screws.{table}.length", None),
                 (f"screws.{table}.pilot", None)),
            )  # fmt: skip
        places = sorted(spot.at[0] for spot in jobs[0].spots)
        if len(places) > 1:
            yield from _closer(units, table, places)


def _closer(units: Writer, table: str, places: list[Fraction]) -> Iterator[Remedy]:
    """The same row with its screws nearer to each other."""
    now = max(b - a for a, b in pairwise(places))
    for part in CLOSER:
        spacing = Fraction(int(now * part * 4), 4)
        yield Remedy(
            f"Set the {table}'s screws {units.length(spacing)} apart",
            ((f"screws.{table}.spacing", units.length(spacing)),),
        )


def _blocks(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """Thicker screws through corner blocks, into posts and rails alike; deeper rails take more of them."""
    tables = ("post", "block") if "corner_block" in finding.parts else ()
    gauges = [jobs[0].fastener.gauge for table in tables if (jobs := before.drilling.of(table))]
    wanted = next((THICKER[gauge] for gauge in gauges if gauge in THICKER), None)
    if wanted is not None:
        yield Remedy(f"Use {wanted} screws through the corner blocks",
                     tuple((f"screws.{table}.gauge", wanted) for table in tables))  # fmt: skip


def _bolts(before: Plan, finding: Finding) -> Iterator[Remedy]:
    options = before.options
    if "leg" not in finding.parts or options.leg_place != "under":
        return
    count = options.screws.leg.count or 2
    yield _remedy(
        f"Put {count + 2} {'bolts' if _bolted(before) else 'screws'} in each leg", screws__leg__count=count + 2
    )
    if _bolted(before):
        yield _remedy("Use 1/2 in bolts in the legs", screws__leg__diameter="1/2 in", screws__leg__length=None)
    else:
        yield Remedy("Bolt the legs with 3/8 in carriage bolts",
                     (("screws.leg", {"kind": "carriage bolt", "diameter": "3/8 in", "count": 2}),))  # fmt: skip


def _bolted(before: Plan) -> bool:
    return before.options.screws.leg.kind == "carriage bolt"


def _legs(before: Plan, finding: Finding) -> Iterator[Remedy]:
    options = before.options
    if options.legs.omit:
        yield _remedy("Put back the legs that are left out", legs__omit=None)
    elif options.legs.per_side < 5:
        count = options.legs.per_side + 1
        yield _remedy(f"Put {count} legs on each side", legs__per_side=count)


def _line(before: Plan, finding: Finding) -> Iterator[Remedy]:
    lines = before.options.centre.lines
    if lines < 3:
        name = "a centre line" if lines == 0 else f"{lines + 1} centre lines in place of {lines}"
        yield _remedy(f"Give it {name}", centre__lines=lines + 1)


def _line_legs(before: Plan, finding: Finding) -> Iterator[Remedy]:
    yield _remedy("Let the centre line stand on legs of its own", centre__ends="leg",
                  centre__legs=max(2, before.options.centre.legs))  # fmt: skip


def _slats(before: Plan, finding: Finding) -> Iterator[Remedy]:
    now = before.options.slats.lumber
    if now in STOCK_STEPS:
        yield _remedy(f"Use {STOCK_STEPS[now]} slats", slats__lumber=STOCK_STEPS[now])


def _support(before: Plan, finding: Finding) -> Iterator[Remedy]:
    now, runners = before.options.support.lumber, before.options.support.kind == "runners"
    if now in STOCK_STEPS and ({"runner", "cleat"} & set(finding.parts)):
        name = "runners" if runners else "cleats"
        yield _remedy(f"Use {STOCK_STEPS[now]} {name}", support__lumber=STOCK_STEPS[now])


def _rail(before: Plan, finding: Finding) -> Iterator[Remedy]:
    now = before.options.frame.rail
    if now in STOCK_STEPS and {"side_rail", "corner_block"} & set(finding.parts):
        yield _remedy(f"Use {STOCK_STEPS[now]} rails", frame__rail=STOCK_STEPS[now])


def _under_rail(before: Plan, finding: Finding) -> Iterator[Remedy]:
    if before.options.leg_place == "under the rail":
        return
    keys = ["legs.side_setback", "legs.setback"]
    if before.options.support.kind == "runners":  # their screws stand where the legs were; the program places them anew
        keys += RUNNER_PLACES
    yield Remedy("Put the legs under the rail", (("legs.place", "under the rail"), *((key, None) for key in keys)))


def _inside(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """Legs up to the slats, screwed or bolted to the rail beside them; how many follows from the load."""
    options = before.options
    if options.support.kind != "cleats" or options.leg_place == "inside":
        return
    text, place = "Stand the legs inside the corners, up to the slats", ("legs.place", "inside")
    yield Remedy(text, (place, ("screws.leg", None)))
    yield Remedy(f"{text}, with 3/8 in bolts",
                 (place, ("screws.leg", {"kind": "carriage bolt", "diameter": "3/8 in"})))  # fmt: skip


def _beside(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """Posts beside the rail, bolted through it; how many bolts follows from the load."""
    options = before.options
    if options.support.kind != "cleats" or (options.leg_place == "under" and _bolted(before)):
        return
    changes: list[tuple[str, object]] = [("legs.place", "under")]
    if options.legs.kind != "post":
        changes += [("legs.kind", "post"), ("legs.lumber", "4x4")]
    if options.centre.lines and options.centre.ends != "leg":  # the end rails then stand on no leg
        changes += [("centre.ends", "leg"), ("centre.legs", max(2, options.centre.legs))]
    for size in ("3/8 in", "1/2 in"):
        bolts = {"kind": "carriage bolt", "diameter": size}
        yield Remedy(f"Stand 4x4 legs beside the rail and bolt them through it with {size} bolts",
                     (*changes, ("screws.leg", bolts)))  # fmt: skip


def _flange(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """Legs screwed on by a plate, which wide runners and flat lines have room for."""
    options = before.options
    if options.legs.kind != "tube" and options.support.kind == "runners":
        keys = ("legs.place", "legs.lumber", "legs.side_setback", "legs.setback", "centre.setback", *RUNNER_PLACES)
        wide = (("support.lumber", "2x6"), ("centre.kind", "flat"), ("centre.lumber", "2x6"))
        yield Remedy("Take steel legs with flanges under 2x6 runners",
                     (("legs.kind", "tube"), *wide, *((key, None) for key in keys)))  # fmt: skip


def _slat_screws(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """A thicker screw, a longer one, then two."""
    jobs = before.drilling.of("slat")
    if jobs and jobs[0].fastener.gauge in THICKER:
        thicker = THICKER[jobs[0].fastener.gauge]
        yield Remedy(f"Use {thicker} screws in the slats",
                     (("screws.slat.gauge", thicker), ("screws.slat.length", None)))  # fmt: skip
    if jobs and len(jobs[0].spots) == 1:
        yield _remedy("Put two screws in each slat end", screws__slat__count=2)


def _wide_leg(before: Plan, finding: Finding) -> Iterator[Remedy]:
    if before.options.legs.kind != "corner L":
        yield _remedy("Use L legs of two 2x4s", legs__kind="corner L", legs__lumber="2x4")


def _set_back(before: Plan, finding: Finding) -> Iterator[Remedy]:
    if before.options.legs.setback:
        yield _remedy("Stand the end legs at the very ends", legs__setback="0 in")


def _lower(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """The bed lower by two and by four inches, as far as the file states a height."""
    heights, units = before.options.heights, writer(before.options.build.units)
    for name in heights.given:
        value = getattr(heights, name)
        for less in (2, 4):
            if value > less + 6:
                lower = units.length(value - less)
                yield Remedy(f"Build it lower: {name} {lower}", ((f"heights.{name}", lower),))


__all__ = ["helped", "remember", "told", "tried"]
