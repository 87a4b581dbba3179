"""What the strength rules find: over its limit, unsupported, unstable, end grain that carries."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build, Piece
from tutorial_lib.findings import Finding
from tutorial_lib.strength.checks import GREATEST_SAG, SPAN_PART, Use
from tutorial_lib.strength.demands import Demand, end_rail_supported
from tutorial_lib.strength.working import figure

CHOICE = "our choice, after NDS 2018"


def findings_of(demand: Demand, uses: Sequence[Use], fastenings: Sequence[Fastening]) -> Iterator[Finding]:
    """All findings of the strength step, the worst of a kind once."""
    yield from _unstable(demand)
    yield from _over(uses)
    yield from _springy(demand, uses)
    yield from _standing(uses)
    yield from _rail_ends(demand, uses)
    yield from _no_value(demand, fastenings)
    yield from _scope(demand)


def _unstable(demand: Demand) -> Iterator[Finding]:
    tipping: dict[str, str] = {}
    for response in demand.responses:
        for on in response.lines:
            if on.bent is None:
                tipping.setdefault(on.line.name, response.case.name)
    for name, case in tipping.items():
        few = len(demand.model.line(name).supports) < 2
        what = (
            f"The {name} line stands on fewer than two legs and tips."
            if few
            else f"The {name} line tips over its legs when {case}."
        )
        yield Finding(
            "stability",
            "stop",
            what,
            f"{len(demand.model.line(name).supports)} supports",
            "2 supports",
            "statics",
            "Put a leg near each end of the line.",
            ("leg",),
        )


def _over(uses: Sequence[Use]) -> Iterator[Finding]:
    worst: dict[tuple[str, str], Use] = {}
    for use in uses:
        if use.kind in ("lying", "sitting") and use.ratio > 1 + 1e-9:
            key = (use.part, use.what)
            if key not in worst or use.ratio > worst[key].ratio + 1e-6:
                worst[key] = use
    for use in worst.values():
        rule = "sag" if use.what == "sag" else "joint" if use.what in ("screws", "bolts") else "strength"
        row = use.what == "screws" and use.part.startswith(("cleat", "runner"))  # a row shares; the rating is lowered
        yield Finding(
            rule,
            "caution" if row else "stop",
            f"{use.label}: {use.what} at {_times(use)} what is allowed, {use.case}.",
            f"{use.ratio:.2f}" if use.ratio < float("inf") else "no value",
            f"1 at CD {figure(use.duration)}",
            CHOICE,
            remedy_for(use),
            (use.part,),
        )


def _springy(demand: Demand, uses: Sequence[Use]) -> Iterator[Finding]:
    """A slat within 1/4 in may still go down more than a part of its span that people notice."""
    span = max(demand.model.slat_spans)
    sags = [u for u in uses if u.part == "slat" and u.what == "sag" and u.kind in ("lying", "sitting")]
    worst = max(sags, key=lambda u: round(u.ratio, 6), default=None)
    if worst is None or worst.ratio > 1:
        return
    sag = worst.ratio * GREATEST_SAG
    if sag > span / SPAN_PART:
        yield Finding(
            "springy slats",
            "caution",
            f"The slats are springy: they go down {sag:.2f} in, {worst.case}.",
            f"{sag:.2f} in",
            f"{span / SPAN_PART:.2f} in, span / {SPAN_PART}",
            "our choice",
            "Add a centre line, or use 2x4 slats.",
            ("slat",),
        )


def _times(use: Use) -> str:
    return "beyond" if use.ratio == float("inf") else f"{use.ratio:.2f} times"


def remedy_for(use: Use) -> str:
    """What to change for one use over its limit."""
    if use.what in ("screws", "bolts"):
        return "Set the screws closer, or take a longer or thicker one."
    if use.part == "slat":
        return "Add a centre line, or use 2x4 slats."
    if use.what == "column":
        return "Use thicker or shorter legs."
    if use.what == "bearing":
        return "Use a wider leg or seat."
    return "Add a leg at mid-side, or use a deeper board."


def _standing(uses: Sequence[Use]) -> Iterator[Finding]:
    text = {
        "standing": (
            "kneeling",
            "Nobody kneels or stands on a slat, even through the mattress",
            "Add a centre line, or use 2x4 slats; until then say so.",
        ),
        "bare": (
            "bare slats",
            "Nobody kneels or stands on a bare slat while building",
            "Put weight over the lines only.",
        ),
        "moving": ("moving", "Moving the bed works its joints hard", "Lift it; don't push it or lift one end."),
    }
    for kind, (rule, words, remedy) in text.items():
        found = [u for u in uses if u.kind == kind and u.what != "sag"]
        worst = max(found, key=lambda u: round(u.ratio, 6), default=None)
        if worst is not None and worst.ratio > 1:
            yield Finding(
                rule,
                "caution",
                f"{words}: {worst.label}, {worst.what} would be {_times(worst)} what is allowed.",
                figure(worst.ratio),
                f"1 at CD {figure(worst.duration)}",
                CHOICE,
                remedy,
                (worst.part,),
            )


def _rail_ends(demand: Demand, uses: Sequence[Use]) -> Iterator[Finding]:
    """A rail end that carries load stands on a leg, block or runner, not on end-grain screws."""
    build = demand.model.build
    unheld = [p.label for p in _end_rails(build) if not end_rail_supported(build, p.label)]
    if not unheld:
        return
    hung = [line.name for line in demand.model.lines if any(s.kind != "leg" for s in line.supports)]
    screws = [u for u in uses if u.kind == "end rail" and u.what in ("screws", "bolts")]
    worst = max(screws, key=lambda u: u.ratio, default=None)
    value = figure(worst.ratio) if worst else ""
    if hung:
        yield Finding(
            "rail end",
            "stop",
            f"{' and '.join(hung)} bears on the end rails, which only their corner screws hold up.",
            value,
            "a leg, block or runner below",
            CHOICE,
            "Put a leg under each end of the line, or legs under the end rails.",
            ("end_rail",),
        )
        return
    yield Finding(
        "rail end",
        "caution",
        "Nobody sits on the end rails: only screws in their corners hold them up.",
        value,
        "1" if value else "",
        CHOICE,
        "Put a leg or block under each end of the end rails.",
        ("end_rail",),
    )


def _end_rails(build: Build) -> tuple[Piece, ...]:
    return build.part("end_rail").pieces if build.has("end_rail") else ()


def _no_value(demand: Demand, fastenings: Sequence[Fastening]) -> Iterator[Finding]:
    """Screws that are pulled out of end grain have no value at all."""
    for fastening in fastenings:
        if not fastening.joint.end_grain:
            continue
        pulled = [d for d in demand.of(fastening.joint) if d.kind in ("lying", "sitting") and d.withdrawal > 1]
        if pulled:
            yield Finding(
                "end grain",
                "stop",
                f"{fastening.joint.label}: screws would be pulled out of end grain.",
                f"{figure(max(d.withdrawal for d in pulled))} lb",
                "0 lb",
                "NDS 12.2.2.3",
                "Screw into side grain, or use a bracket.",
                (),
            )


def _scope(demand: Demand) -> Iterator[Finding]:
    build, slat = demand.model.build, demand.model.slat
    if slat.size.board:
        yield Finding(
            "outside the table",
            "note",
            f"The slats are 1x boards: the strength tables cover 2 to 4 in "
            f"lumber, so {slat.wood.grade} values with the size factor and none for flat use are our choice.",
            whose="NDS Supplement 2018, Table 4A",
            remedy="Choose clear boards, without knots at mid-span.",
            parts=("slat",),
        )
    if any(part.section.steel for part in build.parts):
        yield Finding(
            "outside the table",
            "note",
            "The steel legs themselves are not checked, only the wood around them.",
            whose="no data for the tube",
            remedy="Ask the maker of the legs for their load.",
            parts=("leg",),
        )
    yield Finding(
        "calculated, not tested",
        "note",
        "Load figures are calculated, not tested, for the bed as drawn, "
        "dry, sound boards of the grade named, all legs on the floor. Where someone could be hurt, "
        "ask a licensed engineer.",
        whose="our choice",
    )
