"""Rules of the frame and what it stands on: each is judged on the finished build and reported as a Finding."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor

from tutorial_lib.design.mattress_rules import OURS, Rule, written
from tutorial_lib.design.model import Build, Leg, Piece, SupportLine
from tutorial_lib.findings import Finding, Remedy, Severity
from tutorial_lib.measures import mm, writer
from tutorial_lib.records import dataclass

TWO_A_LINE = Remedy.setting("Put two legs under each centre line", centre__legs=2, centre__setback=None)
SLENDER = 5  # times as long as it is wide, for a leg that is screwed on; our choice


def _rail_ends(build: Build) -> Iterator[Finding]:
    """A rail end or line end stands on a leg, runner, block or hanger, not on end-grain screws alone."""
    if build.lines[0].kind == "runner":
        return
    yield from _line_ends(build)
    if build.options.frame.posts:
        return  # rails hang on posts by their blocks or fittings, which the strength step judges
    yield from _side_rails(build)
    hung = [rail for rail in build.part("end_rail").pieces if not _held_at_both_ends(build, rail)]
    if hung:
        loaded = _end_rails_loaded(build)
        severity: Severity = "stop" if loaded else "caution"
        yield Finding(
            rule="rail end",
            severity=severity,
            what="The end rails hang on screws into end grain alone"
            + (" and carry the centre line." if loaded else "; don't sit on an end rail."),
            whose="NDS 12.2.2.3 and our choice",
            remedy="Let the corner legs stand under the end rails"
            + (", or give the line legs of its own." if loaded else ", or leave them unloaded."),
            parts=("end_rail",),
            remedies=_other_places(build),
        )


def _end_rails_loaded(build: Build) -> bool:
    """True if a centre line hangs on the end rails."""
    return any(line.ends in ("hanger", "block") for line in build.lines if line.central)


def _other_places(build: Build) -> tuple[Remedy, ...]:
    """Legs that the end rails too stand on or are fastened to; tried like all remedies."""
    if build.options.support.kind == "runners":
        return ()
    return (
        Remedy.setting("Put the legs inside the corner, up to the slats", legs__place="inside", legs__setback=None),
        Remedy.setting(
            "Put the legs under the rails", legs__place="under the rail", legs__setback=None, screws__leg=None
        ),
    )


def _legs_back(build: Build) -> tuple[Remedy, ...]:
    count = max(build.options.legs.per_side, 2)
    return (Remedy.setting("Leave no leg of the sides out", legs__omit=None, legs__per_side=count),)


def _line_ends(build: Build) -> Iterator[Finding]:
    for line in build.lines:
        if line.central and line.ends == "leg" and len(line.legs) < 2:
            yield Finding(
                rule="rail end",
                severity="stop",
                what=f"The ends of {line.name} stand on nothing but screws into end grain.",
                value=f"{len(line.legs)} legs",
                limit="2 legs, blocks or hangers",
                whose="NDS 12.2.2.3 and our choice",
                remedy="Give the line legs near its ends, hangers or blocks.",
                parts=line.members,
                remedies=(TWO_A_LINE,),
            )


def _side_rails(build: Build) -> Iterator[Finding]:
    """The side rails, which carry the slats, are fastened to their legs or stand on them."""
    capped = build.options.frame.corners == "end rails cap"
    if capped and any(not line.central and len(line.legs) < 2 for line in build.lines):
        yield Finding(
            rule="rail end",
            severity="stop",
            what="The side rails carry the slats and end on screws into their end grain alone.",
            whose="NDS 12.2.2.3 and our choice",
            remedy="Put a leg near each end of the side rails.",
            parts=("side_rail",),
            remedies=_legs_back(build),
        )
    yield from _side_rails_apart(build)


def _side_rails_apart(build: Build) -> Iterator[Finding]:
    """Side rails that share no joint with any leg."""
    held = {label for j in build.joints if j.kind in ("leg", "flange") for label in (j.near, j.far)}
    apart = [rail.label for rail in build.part("side_rail").pieces if rail.label not in held]
    if apart:
        yield Finding(
            rule="rail and leg apart",
            severity="stop",
            what=f"{'No side rail shares' if len(apart) > 1 else f'The {apart[0]} shares no'} "
            f"{'a joint with any leg: they hang' if len(apart) > 1 else 'joint with any leg: it hangs'} "
            "on the cleats' screws.",
            whose=OURS,
            remedy="Let the legs stand under the rail or run up beside it, or take a shallower cleat or deeper rails.",
            parts=("side_rail",),
            remedies=_other_places(build),
        )


def _held_at_both_ends(build: Build, rail: Piece) -> bool:
    """True if the rail stands on, or is fastened across its grain to, a leg near each of its ends."""
    halves = {
        joint.contact.centre[1] < rail.box.centre[1]
        for joint in build.joints
        if joint.kind in ("leg", "flange") and rail.label in (joint.near, joint.far)
    }
    return len(halves) == 2


def _overhang(build: Build) -> Iterator[Finding]:
    """A line or rail runs on past its last leg by at most a quarter of the next span."""
    legs = {leg.label: leg for leg in build.legs}
    past: list[_Past] = []
    for line in build.lines:
        mine = [legs[label] for label in line.legs]
        if line.ends in ("hanger", "block"):
            continue
        if len(mine) >= 2:
            past += _runs_past(build, line, mine)
        elif mine or not line.central:
            yield _one_leg_at_most(build, line, len(mine))
    worst = max(past, key=lambda end: end.by / end.span, default=None)
    if worst:
        yield _too_far(build, worst, len(past))


def _too_far(build: Build, worst: _Past, ends: int) -> Finding:
    """The end that runs past its last leg most, and how many do."""
    more = f", and {ends - 1} more such ends" if ends > 2 else ", and one more such end"
    return Finding(
        rule="overhang",
        severity="caution",
        what=f"The {worst.line.name} line runs {written(build, worst.by)} past its last leg at the {worst.at}"
        f"{more if ends > 1 else ''}.",
        value=written(build, worst.by),
        limit=f"at most {written(build, worst.span / 4)}, a quarter of the next span",
        whose=OURS,
        remedy="Use a smaller set-back.",
        parts=worst.line.members,
        remedies=(_no_setback(worst.line),),
    )


def _one_leg_at_most(build: Build, line: SupportLine, legs: int) -> Finding:
    """A line or rail on a single leg, or on none."""
    return Finding(
        rule="overhang",
        severity="stop",
        what=f"The {line.name} side or line has {'one leg' if legs else 'no leg'}; it would tip or hang.",
        value=f"{legs} {'leg' if legs else 'legs'}",
        limit="at least 2 legs",
        whose=OURS,
        remedy="Put back a leg.",
        parts=line.members,
        remedies=(TWO_A_LINE,) if line.central else _legs_back(build),
    )


def _no_setback(line: SupportLine) -> Remedy:
    text = "Leave the set-back open: the outer legs stand as far out as they can"
    return Remedy.setting(text, centre__setback=None) if line.central else Remedy.setting(text, legs__setback=None)


@dataclass(frozen=True)
class _Past:
    """The end of a line that runs on past its last leg."""

    line: SupportLine
    at: str  # "head", "foot"
    by: Fraction  # [in]
    span: Fraction  # [in] the next one


def _runs_past(build: Build, line: SupportLine, legs: list[Leg]) -> Iterator[_Past]:
    ends = line.x if line.central else (Fraction(0), build.outside[1])
    over = (legs[0].near_edge - ends[0], ends[1] - (legs[-1].near_edge + legs[-1].size[0]))
    spans = (legs[1].x - legs[0].x, legs[-1].x - legs[-2].x)
    for name, past, span in zip(("head", "foot"), over, spans, strict=True):
        if past > span / 4:
            yield _Past(line, name, past, span)


def _slender(build: Build) -> Iterator[Finding]:
    """Tall thin legs rack."""
    low = build.heights.rail_bottom  # above it a post is held by its rails
    sizes = [
        (low if leg.post else build.pieces[leg.pieces[0]].length, min(leg.size)) for leg in build.legs
    ]  # a tube's is its flange
    tall, across = max(sizes, key=lambda size: size[0] / size[1])
    if tall > SLENDER * across:
        yield Finding(
            rule="slender leg",
            severity="caution",
            what=f"The legs are {written(build, tall)} long and {written(build, across)} across.",
            value=f"{float(tall / across):.2f} times",
            limit=f"at most {SLENDER} times",
            whose=OURS,
            remedy="Brace them, or use thicker or shorter legs.",
            parts=("leg",),
        )


def _closes(build: Build) -> Iterator[Finding]:
    """The chain of sizes closes to nothing."""
    thick = build.part("side_rail").section.thickness
    for inside, outside in zip(build.opening, build.outside, strict=True):
        if inside + 2 * thick != outside:
            yield Finding(
                rule="closing chain",
                severity="stop",
                what="The opening and two rails don't add up to the outside size.",
                value=written(build, outside),
                limit=written(build, inside + 2 * thick),
                whose="arithmetic",
                remedy="Report this.",
                parts=("side_rail",),
            )


def _flange_seat(build: Build) -> Iterator[Finding]:
    """A tube leg's flange needs wood over all of it to be screwed to."""
    plate = build.options.legs.flange
    for flange in build.part("flange").pieces if build.has("flange") else ():
        faces = [joint.contact.size for joint in build.joints_of("flange") if joint.near == flange.label]
        covered = sum((size[0] * size[1] for size in faces), Fraction(0))
        if covered < plate * plate:
            share = covered / (plate * plate)
            yield Finding(
                rule="flange seat",
                severity="stop",
                what=f"Only {round(float(share) * 100)} % of the {flange.label} has wood above it to be screwed to.",
                value=f"{round(float(share) * 100)} %",
                limit="100 %",
                whose=OURS,
                remedy="Use flat runners and lines as wide as the flange, or a smaller flange.",
                parts=("flange",),
            )
            return


RAISED = Fraction(30)  # [in] underside of a raised bed's foundation: 16 CFR 1213 and 1513, seen in a transcription
RAISED_METRIC = Fraction(600) * mm(1)  # [in] slat top from which EN 747-1 speaks of raised beds, from memory
FALL = Fraction(47, 2)  # [in] slat top over which a fall out of bed hurts; our choice, a little under 600 mm


def _height(build: Build) -> Iterator[Finding]:
    """A raised bed needs guards and rules of its own; a high one is a long way to fall."""
    heights, metric = build.heights, build.options.build.units == "mm"
    high, limit, whose, what = (
        (heights.slat_top >= RAISED_METRIC, RAISED_METRIC, "EN 747-1, from memory", "slats' top")
        if metric
        else (heights.slat_bottom > RAISED, RAISED, "16 CFR 1213 and 1513", "slats' underside")
    )
    value = heights.slat_top if metric else heights.slat_bottom
    if high:
        yield Finding(
            rule="raised bed",
            severity="stop",
            what=f"The {what} is {written(build, value)} above the floor: a raised bed, which needs guard rails and "
            "rules "
            "of its own; none of it is designed here, and no load is stated.",
            value=written(build, value),
            limit=f"{'under' if metric else 'at most'} {written(build, limit)}",
            whose=whose,
            remedy="Lower the bed.",
            parts=("slat",),
            remedies=(_lowered(build, limit - build.grid),),
        )
    elif heights.slat_top > FALL:
        yield Finding(
            rule="fall height",
            severity="caution",
            what=f"The slats lie {written(build, heights.slat_top)} above the floor, the mattress on top of them: "
            "falling "
            "out of bed hurts.",
            value=written(build, heights.slat_top),
            limit=f"at most {written(build, FALL)}",
            whose=OURS,
            remedy="Lower the bed for children and for people unsteady on their feet.",
            parts=("slat",),
            remedies=(_lowered(build, FALL),),
        )


def _lowered(build: Build, top: Fraction) -> Remedy:
    text = writer(build.options.build.units).length(build.grid * floor(top / build.grid))
    return Remedy.setting(f"Lower the slats' top to {text} above the floor", heights__sleeping=text)


def _base_frame(build: Build) -> Iterator[Finding]:
    """What an inner frame takes off the legs isn't counted."""
    if build.options.plinth.carries:
        yield Finding(
            rule="base frame",
            severity="note",
            what="The base frame carries the deck beside the legs; the load figures count on the legs alone.",
            whose=OURS,
            parts=("plinth_side",),
        )


RULES: tuple[Rule, ...] = (_base_frame, _rail_ends, _overhang, _slender, _closes, _flange_seat, _height)
