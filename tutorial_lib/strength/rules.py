"""What the strength rules find, told once and grouped by what a builder does about it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from tutorial_lib.findings import Finding, Remedy, Severity
from tutorial_lib.measures import writer
from tutorial_lib.strength.headboard_rules import of_headboard
from tutorial_lib.strength.loads import SAFETY
from tutorial_lib.strength.names import leg_name, leg_of, line_name, piece_name
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.rating import NUMBERS, rating_uses
from tutorial_lib.strength.use import FOREVER, Use, worst_of
from tutorial_lib.strength.working import OURS, in_words, times

if TYPE_CHECKING:
    from tutorial_lib.strength.result import Strength

CHOICE = "our choice, after NDS 2018"
ROWS = ("cleat-screws", "tie-screws")  # a row shares what its worst screw can't hold: the rating falls, no stop
SHALLOW = 0.25  # [in] a deeper sag is felt; our choice
NAMED_AT_MOST = 3
HOLDERS = {  # of rails, by posts.joint
    "hooks": "bed-rail hooks hold the rails",
    "barrel nuts": "bolts in barrel nuts hold the rails' ends",
}


def findings_of(strength: Strength) -> Iterator[Finding]:
    """All findings of the strength step."""
    outcome = strength.outcome
    if outcome is None:
        yield _no_values(strength)
        return
    yield from _path(outcome)
    yield from _balance(outcome)
    yield from _racking(outcome)
    yield from _too_weak(outcome)
    yield from _fittings(outcome)
    yield from of_headboard(outcome)
    yield from _kneeling(outcome)
    yield from _moving(outcome)
    yield from _across(outcome)
    yield from _hold_down(outcome)
    yield from _comfort(outcome)
    yield from _scope(strength)


def trips(strength: Strength, rule: str) -> bool:
    """True where a rule finds something to be careful of; asks for no more checks than tell it."""
    outcome = strength.outcome
    found: Iterable[Finding] = strength.findings if outcome is None or rule not in TOLD_BY else TOLD_BY[rule](outcome)
    return any(finding.rule == rule and finding.severity != "note" for finding in found)


def _no_values(strength: Strength) -> Finding:
    woods = " and ".join(strength.unknown_woods)
    return Finding(
        rule="no design values",
        severity="caution",
        what=f"There is no load figure: {woods} is known by its weight alone, no design values are tabled for it.",
        whose="NDS Supplement 2018",
        remedy="Take graded softwood for the parts that carry people, or have it judged.",
        parts=("slat", "side_rail", "leg"),
    )


def _listed(names: Sequence[str]) -> str:
    kept = list(dict.fromkeys(names))
    more = len(kept) - NAMED_AT_MOST
    text = " and ".join(kept[:NAMED_AT_MOST]) if len(kept) < 3 else ", ".join(kept[:NAMED_AT_MOST])
    return f"{text} and {more} more" if more > 0 else text


def _path(outcome: Outcome) -> Iterator[Finding]:
    """Whatever has no way to the floor, by its name."""
    build, gaps = outcome.build, outcome.gaps
    legs = [gap for gap in gaps if gap.why == "leg"]
    if legs:
        names = _listed([leg_name(build, leg_of(build, gap.leg)) for gap in legs])
        yield Finding(
            rule="rail and leg apart",
            severity="stop",
            what=f"No rail is fastened to or stands on the {names}: people there have no way to the floor.",
            whose=OURS,
            parts=("side_rail",),
        )
    if outcome.fell is not None or any(gap.why in ("legs", "screws", "seat") for gap in gaps):
        loose = [f"the {piece_name(outcome.build, gap.what)}" for gap in gaps if gap.why in ("legs", "screws")]
        seats = [f"{gap.what} on {line_name(build, gap.leg)}" for gap in gaps if gap.why == "seat"]
        if outcome.fell is not None and not (loose or seats or legs):
            loose = [f"the {piece_name(outcome.build, outcome.fell.what)}"]
        if loose or seats:
            told, verb = _listed([*loose, *seats]), "has" if len(loose + seats) == 1 else "have"
            yield Finding(
                rule="no way to the floor",
                severity="stop",
                what=f"{told[:1].upper()}{told[1:]} {verb} nothing to stand on.",
                whose="statics",
                parts=("leg",),
            )


def _balance(outcome: Outcome) -> Iterator[Finding]:
    """The bed tips, or a part of it lifts off its legs."""
    tip = min(outcome.tippings, key=lambda t: round(t.ratio, 6), default=None)
    fallen = outcome.found[1]
    if tip is not None and tip.ratio < SAFETY:
        yield Finding(
            rule="tipping",
            severity="stop",
            what=f"The bed tips, {tip.name}: what holds it down is {tip.ratio:.2f} of what tips it.",
            value=f"{tip.ratio:.2f}",
            limit=f"{SAFETY} times",
            whose=OURS,
            remedy="",
            parts=("leg",),
        )
    elif fallen and outcome.fell is None:
        yield Finding(
            rule="balance",
            severity="stop",
            what=f"The bed has no balance with people {fallen[0].case.name}: the "
            f"{piece_name(outcome.build, fallen[0].tips.what)} lifts off its legs.",
            whose="statics",
            parts=("leg",),
        )


def _racking(outcome: Outcome) -> Iterator[Finding]:
    uses = [use for use in outcome.pushed if use.what == "racking" and use.kind in ("lying", "sitting")]
    worst = worst_of(uses)
    if worst is not None and worst.ratio > 1:
        yield Finding(
            rule="racking",
            severity="stop",
            what=f"The legs don't hold the bed upright, {worst.case.name}: a sideways push is {times(worst.ratio)} "
            "what they hold.",
            value=in_words(worst.ratio),
            ratio=worst.ratio,
            limit="1",
            whose=OURS,
            remedy="",
            parts=("leg",),
        )


def _too_weak(outcome: Outcome) -> Iterator[Finding]:
    """Lying or sitting over what is allowed for the stated people: once for parts, once for rows of screws."""
    over = [use for use in _over(outcome.uses) if use.key not in ROWS]
    if over:
        yield _weak(outcome, over, "strength", "stop")
    yield from _rows(outcome)


def _rows(outcome: Outcome) -> Iterator[Finding]:
    """Rows of screws over what is allowed."""
    over = [use for use in _over((*outcome.joints, *outcome.alone)) if use.key in ROWS]
    if over:
        yield _weak(outcome, over, "rows of screws", "caution")


def _over(uses: Sequence[Use]) -> list[Use]:
    """Those of the checks that rate that are over 1, lying or sitting."""
    return [
        use
        for use in rating_uses(uses)
        if use.kind in ("lying", "sitting") and use.what != "racking" and use.ratio > 1 + 1e-9
    ]


def _weak(outcome: Outcome, over: Sequence[Use], rule: str, severity: Severity) -> Finding:
    options = outcome.build.options
    units = writer(options.build.units)
    worst: dict[tuple[str, str], Use] = {}
    for use in sorted(over, key=lambda u: -round(u.ratio, 6)):
        worst.setdefault((use.part, use.what), use)
    parts = [f"{use.title}, {use.case.name}: {times(use.ratio)}" for use in worst.values()]
    shown = "; ".join(parts[:NAMED_AT_MOST])
    each = " each" if options.load.people > 1 else ""
    who = NUMBERS.get(options.load.people, str(options.load.people))
    people = f"{who} of {units.weight(options.load.person)}{each}"
    first = next(iter(worst.values()))
    value = in_words(first.ratio) if first.ratio < FOREVER else "no value"
    return Finding(
        rule=rule,
        severity=severity,
        what=f"For {people} this is more than is allowed: {shown}.",
        value=value,
        ratio=first.ratio,
        limit="1",
        whose=CHOICE,
        remedy="",
        parts=tuple(dict.fromkeys(use.part for use in worst.values())),
    )


def _fittings(outcome: Outcome) -> Iterator[Finding]:
    """Lines that hang in fittings nobody has published a value for."""
    if outcome.bed.fitted:
        yield Finding(
            rule="no published value",
            severity="caution",
            what=f"There is no load figure: {HOLDERS[outcome.build.options.posts.joint]} on the posts, and what they "
            "carry is not published.",
            whose=OURS,
            remedy="Ask their maker for a tested load.",
            parts=("post",),
            remedies=(Remedy.setting("Screw corner blocks to posts and rails", posts__joint="corner blocks",
                                     posts__reveal=None),),
        )  # fmt: skip
    if outcome.unpublished:
        hung = any(line.ends == "hanger" for line in outcome.build.lines)
        by = "hangers whose worth isn't published here" if hung else "blocks on end rails that no leg holds up"
        names = _listed([line_name(outcome.build, name) for name in outcome.unpublished])
        yield Finding(
            rule="no published value",
            severity="caution",
            what=f"There is no load figure: the ends of {names} are carried by {by}.",
            whose=OURS,
            parts=("centre_beam",),
        )


def _kneeling(outcome: Outcome) -> Iterator[Finding]:
    knee = worst_of([use for use in outcome.knees if use.key == "kneeling"])
    bare = worst_of([use for use in outcome.knees if use.key == "bare-315"])
    if knee is not None and knee.ratio > 1:
        yield Finding(
            rule="kneeling",
            severity="caution",
            what="Nobody may kneel or stand on a slat, not even through the mattress: "
            f"{times(knee.ratio)} what is allowed.",
            value=in_words(knee.ratio),
            limit="1",
            whose=CHOICE,
            remedy="",
            parts=("slat",),
        )
    elif bare is not None and bare.ratio > 1:
        units = writer(outcome.build.options.build.units)
        yield Finding(
            rule="bare slats",
            severity="note",
            what=f"While building, don't stand on a bare slat: {units.weight(315)} on one is {times(bare.ratio)} what "
            "is allowed.",
            value=in_words(bare.ratio),
            limit="1",
            whose=CHOICE,
            remedy="Step beside the lines that carry the slats.",
            parts=("slat",),
        )


def _moving(outcome: Outcome) -> Iterator[Finding]:
    worst = worst_of([use for use in outcome.pushed if use.what == "racking" and use.kind == "moving"])
    if worst is not None and worst.ratio > 1:
        yield Finding(
            rule="moving",
            severity="caution",
            what=f"Lift the bed, never drag it: {worst.case.name} turns its legs with {times(worst.ratio)} what "
            "they hold.",
            value=in_words(worst.ratio),
            ratio=worst.ratio,
            limit="1",
            whose=OURS,
            remedy="Carry it, or take it apart.",
            parts=("leg",),
        )


def _across(outcome: Outcome) -> Iterator[Finding]:
    """A runner bent across its grain beyond its legs."""
    worst = worst_of([use for use in outcome.alone if use.key in ("cross-grain", "cross-grain-slat")])
    if worst is not None and worst.ratio > 1:
        yield Finding(
            rule="across the grain",
            severity="caution",
            what=f"The runners may split along the legs: {worst.label} bends across the grain by {times(worst.ratio)} "
            "a careful limit (no design value exists).",
            value=in_words(worst.ratio),
            limit="1",
            whose=OURS,
            remedy="",
            parts=("runner",),
        )


def _hold_down(outcome: Outcome) -> Iterator[Finding]:
    """A slat's screw that a knee would pull out: a matter of fastening."""
    worst = worst_of([use for use in outcome.lifted if use.key == "hold-down"])
    if worst is not None and worst.ratio > 1:
        yield Finding(
            rule="hold-down screws",
            severity="caution",
            what=f"A knee on one span of {worst.label} pulls the screw at its far end with {times(worst.ratio)} what "
            "it holds.",
            value=in_words(worst.ratio),
            limit="1",
            whose=CHOICE,
            parts=("slat",),
        )


def _comfort(outcome: Outcome) -> Iterator[Finding]:
    sag = outcome.sag
    if sag is not None and sag.value > SHALLOW:
        units = writer(outcome.build.options.build.units)
        yield Finding(
            rule="comfort",
            severity="note",
            what=f"The deck sags {units.calculated(round(sag.value, 2))}, {sag.case.name}: people feel it, and it is "
            "no matter of strength.",
            value=units.calculated(round(sag.value, 2)),
            limit=units.calculated(SHALLOW),
            whose=OURS,
            remedy="",
            parts=("slat",),
        )


def _scope(strength: Strength) -> Iterator[Finding]:
    outcome = strength.outcome
    assert outcome is not None
    slat = outcome.bed.slat
    if slat.size.board and slat.wood.flat_use:
        yield Finding(
            rule="outside the table",
            severity="note",
            what=f"The slats are thinner than the boards the strength tables cover: {slat.wood.grade} values with "
            "the size factor and none for flat use are our choice.",
            whose="NDS Supplement 2018, Table 4A",
            remedy="Choose clear boards, without knots at mid-span.",
            parts=("slat",),
        )
    if any(part.section.steel for part in strength.build.parts):
        yield Finding(
            rule="outside the table",
            severity="note",
            what="The steel legs count as strong enough in straight push; only the wood and screws around them are "
            "checked.",
            whose=OURS,
            remedy="Ask the maker of the legs for their load.",
            parts=("leg",),
        )
    yield Finding(
        rule="calculated, not tested",
        severity="note",
        what="Load figures are calculated, not tested, for the bed as drawn, dry, sound boards of the grade named, "
        "all legs on the floor. Where someone could be hurt, ask a licensed engineer.",
        whose=OURS,
    )


# Rules told by a few of the checks; what the others find takes all of them.
TOLD_BY: dict[str, Callable[[Outcome], Iterator[Finding]]] = {
    "tipping": _balance,
    "balance": _balance,
    "racking": _racking,
    "rows of screws": _rows,
    "kneeling": _kneeling,
    "moving": _moving,
    "across the grain": _across,
    "hold-down screws": _hold_down,
}
