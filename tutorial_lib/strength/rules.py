"""What the strength rules find, told once and grouped by what a builder does about it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tutorial_lib.findings import Finding, Severity
from tutorial_lib.measures import writer
from tutorial_lib.strength.loads import SAFETY
from tutorial_lib.strength.names import leg_name, leg_of, line_name, piece_name
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.rating import NUMBERS, rating_uses
from tutorial_lib.strength.result import Strength
from tutorial_lib.strength.use import FOREVER, Use, worst_of
from tutorial_lib.strength.working import OURS, in_words

CHOICE = "our choice, after NDS 2018"
ROWS = ("cleat-screws", "tie-screws")  # a row shares what its worst screw can't hold: the rating falls, no stop
SHALLOW = 0.25  # [in] a deeper sag is felt; our choice
NAMED_AT_MOST = 3


def findings_of(strength: Strength) -> Iterator[Finding]:
    """All findings of the strength step."""
    outcome = strength.outcome
    if outcome is None:
        yield _no_values(strength)
        return
    yield from _path(outcome)
    yield from _balance(outcome)
    yield from _racking(outcome)
    yield from _too_weak(strength)
    yield from _fittings(outcome)
    yield from _kneeling(outcome)
    yield from _moving(outcome)
    yield from _across(outcome)
    yield from _hold_down(outcome)
    yield from _comfort(outcome)
    yield from _scope(strength)


def _no_values(strength: Strength) -> Finding:
    woods = " and ".join(strength.unknown_woods)
    return Finding(
        "no design values",
        "caution",
        f"There is no load figure: {woods} is known by its weight alone, no design values are tabled for it.",
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
            "rail and leg apart",
            "stop",
            f"No rail is fastened to or stands on the {names}: people there have no way to the floor.",
            whose=OURS,
            remedy="Let the legs run up beside the rail or stand under it.",
            parts=("side_rail",),
        )
    if outcome.fell is not None or any(gap.why in ("legs", "screws", "seat") for gap in gaps):
        loose = [piece_name(gap.what) for gap in gaps if gap.why in ("legs", "screws")]
        seats = [f"{gap.what} on the {line_name(build, gap.leg)}" for gap in gaps if gap.why == "seat"]
        if outcome.fell is not None and not (loose or seats or legs):
            loose = [piece_name(outcome.fell.what)]
        if loose or seats:
            yield Finding(
                "no way to the floor",
                "stop",
                f"The {_listed([*loose, *seats])} {'has' if len(loose + seats) == 1 else 'have'} nothing to stand on.",
                whose="statics",
                remedy="Put legs, screws or a seat under it.",
                parts=("leg",),
            )


def _balance(outcome: Outcome) -> Iterator[Finding]:
    """The bed tips, or a part of it lifts off its legs."""
    tip = min(outcome.tippings, key=lambda t: t.ratio, default=None)
    fallen = outcome.found[1]
    if tip is not None and tip.ratio < SAFETY:
        yield Finding(
            "tipping",
            "stop",
            f"The bed tips, {tip.name}: what holds it down is {tip.ratio:.2f} of what tips it.",
            f"{tip.ratio:.2f}",
            f"{SAFETY} times",
            OURS,
            "",
            ("leg",),
        )
    elif fallen and outcome.fell is None:
        yield Finding(
            "balance",
            "stop",
            f"The bed has no balance with people {fallen[0].case.name}: the {piece_name(fallen[0].tips.what)} lifts "
            "off its legs.",
            whose="statics",
            remedy="Put a leg near each end of it.",
            parts=("leg",),
        )


def _racking(outcome: Outcome) -> Iterator[Finding]:
    uses = [use for use in outcome.uses if use.what == "racking" and use.kind in ("lying", "sitting")]
    worst = worst_of(uses)
    if worst is not None and worst.ratio > 1:
        yield Finding(
            "racking",
            "stop",
            f"The legs don't hold the bed upright, {worst.case.name}: {in_words(worst.ratio)} of what they hold.",
            in_words(worst.ratio),
            "1",
            OURS,
            "",
            ("leg",),
        )


def _too_weak(strength: Strength) -> Iterator[Finding]:
    """Lying or sitting over what is allowed for the stated people: once for parts, once for rows of screws."""
    outcome = strength.outcome
    assert outcome is not None
    over = [
        use
        for use in rating_uses(outcome.uses)
        if use.kind in ("lying", "sitting") and use.what != "racking" and use.ratio > 1 + 1e-9
    ]
    for severity, keys, rule in (("stop", False, "strength"), ("caution", True, "rows of screws")):
        found = [use for use in over if (use.key in ROWS) == keys]
        if found:
            yield _weak(strength, found, rule, severity)  # type: ignore[arg-type]


def _weak(strength: Strength, over: Sequence[Use], rule: str, severity: Severity) -> Finding:
    options = strength.build.options
    units = writer(options.build.units)
    worst: dict[tuple[str, str], Use] = {}
    for use in sorted(over, key=lambda u: -u.ratio):
        worst.setdefault((use.part, use.what), use)
    parts = [str(use) for use in worst.values()]
    shown = "; ".join(parts[:NAMED_AT_MOST])
    people = f"{NUMBERS.get(options.load.people, str(options.load.people))} of {units.weight(options.load.person)}"
    first = next(iter(worst.values()))
    value = in_words(first.ratio) if first.ratio < FOREVER else "no value"
    return Finding(
        rule,
        severity,
        f"For {people} this is more than is allowed: {shown}.",
        value,
        "1",
        CHOICE,
        "",
        tuple(dict.fromkeys(use.part for use in worst.values())),
    )


def _fittings(outcome: Outcome) -> Iterator[Finding]:
    """Lines that hang in fittings nobody has published a value for."""
    if outcome.unpublished:
        names = _listed([line_name(outcome.build, name) for name in outcome.unpublished])
        yield Finding(
            "no published value",
            "caution",
            f"There is no load figure: the ends of the {names} are carried by hangers or blocks whose worth isn't "
            "published here.",
            whose=OURS,
            remedy="Give the line legs of its own near its ends.",
            parts=("centre_beam",),
        )


def _kneeling(outcome: Outcome) -> Iterator[Finding]:
    knee = worst_of([use for use in outcome.uses if use.key == "kneeling"])
    bare = worst_of([use for use in outcome.uses if use.key == "bare-315"])
    if knee is not None and knee.ratio > 1:
        yield Finding(
            "kneeling",
            "caution",
            "Nobody kneels or stands on a slat, not even through the mattress: "
            f"it would use {in_words(knee.ratio)} of what is allowed.",
            in_words(knee.ratio),
            "1",
            CHOICE,
            "",
            ("slat",),
        )
    elif bare is not None and bare.ratio > 1:
        units = writer(outcome.build.options.build.units)
        yield Finding(
            "bare slats",
            "note",
            f"While building, don't stand on a bare slat: {units.weight(315)} on one uses {in_words(bare.ratio)} of "
            "what is allowed.",
            in_words(bare.ratio),
            "1",
            CHOICE,
            "Step beside the lines that carry the slats.",
            ("slat",),
        )


def _moving(outcome: Outcome) -> Iterator[Finding]:
    worst = worst_of([use for use in outcome.uses if use.what == "racking" and use.kind == "moving"])
    if worst is not None and worst.ratio > 1:
        yield Finding(
            "moving",
            "caution",
            f"Lift the bed, never drag it: {worst.case.name}, its legs' joints take {in_words(worst.ratio)} of what "
            "they hold.",
            in_words(worst.ratio),
            "1",
            OURS,
            "Carry it, or take it apart.",
            ("leg",),
        )


def _across(outcome: Outcome) -> Iterator[Finding]:
    """A runner bent across its grain beyond its legs."""
    worst = worst_of([use for use in outcome.uses if use.key.startswith("cross-grain")])
    if worst is not None and worst.ratio > 1:
        yield Finding(
            "across the grain",
            "caution",
            f"The runners may split along the legs: {worst.label} bends across the grain, {in_words(worst.ratio)} of a "
            "careful limit (no design value exists).",
            in_words(worst.ratio),
            "1",
            OURS,
            "",
            ("runner",),
        )


def _hold_down(outcome: Outcome) -> Iterator[Finding]:
    """A slat's screw that a knee would pull out: a matter of fastening."""
    worst = worst_of([use for use in outcome.uses if use.key == "hold-down"])
    if worst is not None and worst.ratio > 1:
        yield Finding(
            "hold-down screws",
            "caution",
            f"A knee on one span of {worst.label} pulls the screw at its far end by {in_words(worst.ratio)} of what it "
            "holds.",
            in_words(worst.ratio),
            "1",
            CHOICE,
            "Take a longer screw there.",
            ("slat",),
        )


def _comfort(outcome: Outcome) -> Iterator[Finding]:
    sag = outcome.sag
    if sag is not None and sag.value > SHALLOW:
        units = writer(outcome.build.options.build.units)
        yield Finding(
            "comfort",
            "note",
            f"The deck sags {units.calculated(round(sag.value, 2))}, {sag.case.name}: people feel it, and it is no "
            "matter of strength.",
            units.calculated(round(sag.value, 2)),
            units.calculated(SHALLOW),
            OURS,
            "",
            ("slat",),
        )


def _scope(strength: Strength) -> Iterator[Finding]:
    outcome = strength.outcome
    assert outcome is not None
    slat = outcome.bed.slat
    if slat.size.board:
        yield Finding(
            "outside the table",
            "note",
            f"The slats are thinner than the boards the strength tables cover: {slat.wood.grade} values with the size "
            "factor and none for flat use are our choice.",
            whose="NDS Supplement 2018, Table 4A",
            remedy="Choose clear boards, without knots at mid-span.",
            parts=("slat",),
        )
    if any(part.section.steel for part in strength.build.parts):
        yield Finding(
            "outside the table",
            "note",
            "The steel legs count as strong enough in straight push; only the wood and screws around them are checked.",
            whose=OURS,
            remedy="Ask the maker of the legs for their load.",
            parts=("leg",),
        )
    yield Finding(
        "calculated, not tested",
        "note",
        "Load figures are calculated, not tested, for the bed as drawn, dry, sound boards of the grade named, all legs "
        "on the floor. Where someone could be hurt, ask a licensed engineer.",
        whose=OURS,
    )
