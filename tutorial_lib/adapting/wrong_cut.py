"""Boards already cut wrong: keep, recut or shim, each with its consequences, found by planning again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Literal

from tutorial_lib.cutting import BedCutting, PieceDemand, plan_cuts
from tutorial_lib.design.build_file import change
from tutorial_lib.design.model import Build, Part
from tutorial_lib.design.parts import LEG_KEYS
from tutorial_lib.design.sizes import clearance
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.facts.figures import write_value
from tutorial_lib.findings import Finding
from tutorial_lib.measures import Units, exact_length, writer
from tutorial_lib.plan import Plan, plan
from tutorial_lib.records import dataclass

Way = Literal["keep", "recut", "shim"]
THICKEST_SHIM = Fraction(1, 2)  # [in] a taller stack of shims is a block, and wants a screw; our choice
THINNEST_CUT = Fraction(1, 8)  # [in] less than a kerf is planed or sanded off, not sawn; common practice, no source
SHOWN = ("length", "height", "clearance", "distance", "gap", "part_count")
ROUGH = {"corner_leg": "leg", "mid_leg": "leg"}


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """One thing to do about it."""

    way: Way
    possible: bool
    what: str  # what to do, or why it can't be done
    consequences: tuple[str, ...] = ()  # numbers that change: "floor to slat top: 16 in → 17 in"
    findings: tuple[Finding, ...] = ()  # what the rules find that they did not before
    boards: int = 0  # to buy
    cost: int | None = 0  # [cents] None where no price is known
    plan: Plan | None = None  # the bed with the boards as they are

    @property
    def sound(self) -> bool:
        """True if it can be done and no rule stops it."""
        return self.possible and not any(finding.severity == "stop" for finding in self.findings)


def wrong_cut(plan: Plan, part: str, actual: Fraction, count: int | None = None) -> tuple[Outcome, ...]:
    """What can be done about pieces that are not as long as planned.

    Args:
        plan: the bed as planned.
        part: key of the part, such as "leg" or "slat".
        actual: the length they have [in].
        count: how many are cut so; None means all of them.

    Raises:
        InputError: no such part, no length, or more pieces than the part has.
    """
    wanted = _part(plan.build, part)
    number = wanted.count if count is None else count
    length = writer(plan.options.build.units).length(actual, 64)
    if actual <= 0 or not 0 < number <= wanted.count:
        raise InputError(Fault(part, f"give a length over 0 and 1 to {wanted.count} pieces, not {number} of {length}."))
    if actual == wanted.length:
        return (Outcome(way="keep", possible=True, what="They are as planned."),)
    return (
        _keep(plan, wanted, actual, number),
        _recut(plan, wanted, actual, number),
        _shim(plan, wanted, actual, number),
    )


def _part(build: Build, key: str) -> Part:
    keys = [part.key for part in build.made if not part.section.steel]
    if key == "leg" and not build.has("leg") and build.has("corner_leg"):
        key = "corner_leg"
    if key not in keys:
        raise InputError(Fault(key, f"this bed has no such part; it has {', '.join(keys)}."))
    return build.part(key)


# --- keep ---


def _keep(plan_: Plan, part: Part, actual: Fraction, number: int) -> Outcome:
    if number < _alike(plan_.build, part):
        return Outcome(
            way="keep",
            possible=False,
            what=f"Not with {number} of {_alike(plan_.build, part)}: the others would be another length.",
        )
    changes = keeping(plan_.build, part, actual)
    if changes is None:
        why = (
            "nothing would be left between its end and the rail" if actual > part.length else "too little room is left"
        )
        return Outcome(way="keep", possible=False, what=f"It has no place in this bed: {why}.")
    try:
        made = plan(change(plan_.options, changes))
        findings = _new_findings(plan_, made)
    except InputError as error:
        return Outcome(way="keep", possible=False, what=f"It can't be built so: {error}")
    return Outcome(
        way="keep",
        possible=True,
        what="Use them as they are and build the rest to fit.",
        consequences=_differences(plan_, made),
        findings=findings,
        plan=made,
    )


def _alike(build: Build, part: Part) -> int:
    """How many pieces must be the same: all side legs, whatever they are called."""
    return sum(p.count for p in build.parts if ROUGH.get(p.key, p.key) == ROUGH.get(part.key, part.key))


def keeping(build: Build, part: Part, actual: Fraction) -> dict[str, Any] | None:
    """The choices of the build file that make the planned length the actual one; None when no choice does."""
    options, off = build.options, actual - part.length
    units, half = options.build.units, off / 2

    def moved(key: str, now: Fraction, by: Fraction) -> dict[str, Any] | None:
        return None if now + by < 0 else {key: exact_length(now + by, units)}

    if ROUGH.get(part.key, part.key) == "leg":
        return {"heights.leg": exact_length(actual, units)}
    if part.key == "slat":
        # a half slat gives up its play at the rail and half of it over the centre line
        return moved("slats.play", options.slats.play, -off * 2 / 3 if options.slats.halves else -half)
    if part.key == "cleat" and options.leg_place != "inside":
        return moved("support.end_play", options.support.end_play, -half)
    if part.key == "centre_beam":
        return moved("centre.play", options.centre.play, -half)
    if part.key == "side_rail" and options.support.kind == "cleats":
        return moved("clearance.end", clearance(options)[1], half)
    if part.key == "end_rail":
        return moved("clearance.side", clearance(options)[0], half)
    return None


def _new_findings(before: Plan, after: Plan) -> tuple[Finding, ...]:
    """The first finding of each rule that spoke up only now."""
    known = {(finding.rule, finding.severity) for finding in before.findings}
    fresh: dict[str, Finding] = {}
    for finding in after.findings:
        if (finding.rule, finding.severity) not in known and finding.severity != "note":
            fresh.setdefault(finding.rule, finding)
    return tuple(fresh.values())


def _differences(before: Plan, after: Plan) -> tuple[str, ...]:
    old, new = facts_of(before, ["design"]), facts_of(after, ["design"])
    return tuple(
        f"{fact.what}: {_fine(old[key], old.units)} → {_fine(fact, new.units)}"
        for key, fact in new.items()
        if key in old and old[key].value != fact.value and fact.kind in SHOWN
    )


def _fine(fact: Fact, units: Units) -> str:
    """To 1/64 in, so that a small change shows."""
    if fact.unit == "in" and not isinstance(fact.value, str | tuple):
        return writer(units).length(Fraction(fact.value), 64)
    return write_value(fact, units)


# --- recut ---


def _recut(plan_: Plan, part: Part, actual: Fraction, number: int) -> Outcome:
    units = plan_.options.build.units
    off = actual - part.length
    if off > 0:
        amount = writer(units).length(off, 64)
        how = "Plane or sand" if off < THINNEST_CUT else "Saw"
        return Outcome(way="recut", possible=True, what=f"{how} {amount} off {_them(number)}: no new board.")
    return _new_boards(plan_, part, number, actual)


def _them(number: int) -> str:
    return "it" if number == 1 else f"each of the {number}"


def _new_boards(plan_: Plan, part: Part, number: int, actual: Fraction) -> Outcome:
    """New pieces, from what is left of the boards first."""
    cutting, units = plan_.cutting, plan_.options.build.units
    spare = offcuts(cutting, part)
    left = min(number, spare)
    length = writer(units).length(part.length)
    if left == number:
        return Outcome(
            way="recut",
            possible=True,
            what=f"Cut {number} anew, {length} long: the offcuts of the plan give them.",
            consequences=(_shorter(part, actual, units),),
        )
    demand = PieceDemand(part.key, part.length, number - left, part.section.name)
    stocks = [s for s in cutting.stocks if s.section == part.section.name and s.available is None]
    try:
        made = plan_cuts([demand], stocks, cutting.plan.kerf, cutting.plan.trim, (), units=units)
    except InputError as error:
        return Outcome(way="recut", possible=False, what=str(error))
    boards, priced = len(made.boards), part.section.name not in cutting.unpriced
    cost = sum(board.price for board in made.boards) if priced else None
    some = f", {left} of them from offcuts" if left else ""
    names = ", ".join(f"{n} more {name}" for name, n in Counter(f"{b.stock} {b.section}" for b in made.boards).items())
    money = f", {cutting.money.write(cost)}" if cost is not None else ""
    what = f"Cut {number} anew, {length} long{some}: {names}{money}."
    return Outcome(
        way="recut",
        possible=True,
        what=what,
        consequences=(_shorter(part, actual, units),),
        findings=(),
        boards=boards,
        cost=cost,
    )


def _shorter(part: Part, actual: Fraction, units: str) -> str:
    return f"those of {writer(units).length(actual)} are left over, good for blocks or shorter parts"


def offcuts(cutting: BedCutting, part: Part) -> int:
    """Pieces of a part that the offcuts of the cut plan still give."""
    kerf = cutting.plan.kerf
    return sum(
        int((board.offcut + kerf) // (part.length + kerf))
        for board in cutting.plan.boards
        if board.section == part.section.name and board.offcut >= part.length
    )


# --- shim ---


def _shim(plan_: Plan, part: Part, actual: Fraction, number: int) -> Outcome:
    units = plan_.options.build.units
    short = part.length - actual
    thick = writer(units).length(abs(short), 64)
    if part.use in LEG_KEYS:
        return _shim_leg(plan_, part, short, number, thick)
    if short < 0:
        return Outcome(way="shim", possible=False, what="Too long can't be shimmed.")
    if part.key in ("slat", "centre_beam", "end_rail", "side_rail"):
        possible, what = _shim_end(part, short, number, thick)
        return Outcome(way="shim", possible=possible, what=what)
    return Outcome(way="shim", possible=False, what=f"A shim does not lengthen a {part.name}.")


def _shim_end(part: Part, short: Fraction, number: int, thick: str) -> tuple[bool, str]:
    if part.key in ("end_rail", "side_rail"):
        return False, "A shim in a corner joint leaves its screws in air; cut new rails or build to the short ones."
    if short > THICKEST_SHIM:
        return False, f"{thick} is too much to pack out at an end: it would hang on its screws."
    return (
        True,
        f"Glue a shim of {thick} on one end of {_them(number)}, so that it can't slide; its seat is that much less.",
    )


def _shim_leg(plan_: Plan, part: Part, short: Fraction, number: int, thick: str) -> Outcome:
    all_legs = _alike(plan_.build, part)
    if short < 0:
        others = all_legs - number
        if not others:
            return Outcome(way="shim", possible=False, what="All are too long alike: keep them or saw them off.")
        if -short > THICKEST_SHIM:
            return Outcome(
                way="shim",
                possible=False,
                what=f"The {others} others would need blocks of {thick} under them: saw the long ones off.",
            )
        return Outcome(
            way="shim",
            possible=True,
            what=f"Put a shim of {thick} under each of the {others} others: the bed stands {thick} higher.",
        )
    if short > THICKEST_SHIM:
        return Outcome(
            way="shim",
            possible=False,
            what=f"{thick} is a block and no shim: it works loose under a leg. Keep all short, or cut new.",
        )
    return Outcome(
        way="shim",
        possible=True,
        what=f"Glue and screw a hardwood shim of {thick}, as wide as the leg, under {_them(number)}.",
        consequences=(f"{number} {'shim' if number == 1 else 'shims'} of {thick}",),
    )


def lines(outcomes: tuple[Outcome, ...]) -> Iterator[str]:
    """The ways as lines of text."""
    for outcome in outcomes:
        yield f"{outcome.way}: {'' if outcome.possible else 'no. '}{outcome.what}"
        yield from (f"    {line}" for line in outcome.consequences)
        yield from (f"    {finding}" for finding in outcome.findings)
