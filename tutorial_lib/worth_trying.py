"""Changes of the build file that are worth trying, by what was found.

The slightest comes first: other screws, more of them, another set-back; then a line, another section, another kind of
leg. What can't be enough by far isn't tried.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.measures import Writer, writer
from tutorial_lib.plan import Plan

THICKER = {"#6": "#8", "#7": "#9", "#8": "#10", "#9": "#10", "#10": "#12", "#12": "#14"}
CLOSER = (Fraction(5, 6), Fraction(2, 3), Fraction(1, 2), Fraction(1, 3))  # of the spacing there is
LOWER = (2, 4)  # [in]
BY_FAR = 1.1  # times what is allowed, by the rule of three: no use trying; our choice
FASTENED = {"cleat": "cleat", "runner": "runner", "leg": "leg", "corner": "corner"}  # part to table of the build file
RUNNER_PLACES = ("screws.runner.inset", "screws.runner.spacing", "screws.runner.count")
STOCK_STEPS = {"1x3": "1x4", "1x4": "2x4", "1x6": "2x6", "2x3": "2x4", "2x4": "2x6", "2x6": "2x8"}


def candidates(before: Plan, finding: Finding) -> Iterator[tuple[str, Remedy]]:
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
            yield from _closer(units, table, places, finding.ratio)


def _closer(units: Writer, table: str, places: list[Fraction], ratio: float) -> Iterator[Remedy]:
    """The same row with its screws nearer to each other, each carrying so much less."""
    now = max(b - a for a, b in pairwise(places))
    for part in (part for part in CLOSER if ratio * part <= BY_FAR):
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
    yield Remedy.setting(
        f"Put {count + 2} {'bolts' if _bolted(before) else 'screws'} in each leg", screws__leg__count=count + 2
    )
    if _bolted(before):
        yield Remedy.setting("Use 1/2 in bolts in the legs", screws__leg__diameter="1/2 in", screws__leg__length=None)
    else:
        yield Remedy("Bolt the legs with 3/8 in carriage bolts",
                     (("screws.leg", {"kind": "carriage bolt", "diameter": "3/8 in", "count": 2}),))  # fmt: skip


def _bolted(before: Plan) -> bool:
    return before.options.screws.leg.kind == "carriage bolt"


def _legs(before: Plan, finding: Finding) -> Iterator[Remedy]:
    options = before.options
    if options.legs.omit:
        yield Remedy.setting("Put back the legs that are left out", legs__omit=None)
    elif options.legs.per_side < 5:
        count = options.legs.per_side + 1
        yield Remedy.setting(f"Put {count} legs on each side", legs__per_side=count)


def _line(before: Plan, finding: Finding) -> Iterator[Remedy]:
    lines = before.options.centre.lines
    if lines < 3:
        name = "a centre line" if lines == 0 else f"{lines + 1} centre lines in place of {lines}"
        yield Remedy.setting(f"Give it {name}", centre__lines=lines + 1)


def _line_legs(before: Plan, finding: Finding) -> Iterator[Remedy]:
    yield Remedy.setting("Let the centre line stand on legs of its own", centre__ends="leg",
                  centre__legs=max(2, before.options.centre.legs))  # fmt: skip


def _slats(before: Plan, finding: Finding) -> Iterator[Remedy]:
    now = before.options.slats.lumber
    if now in STOCK_STEPS:
        yield Remedy.setting(f"Use {STOCK_STEPS[now]} slats", slats__lumber=STOCK_STEPS[now], screws__slat__length=None)


def _support(before: Plan, finding: Finding) -> Iterator[Remedy]:
    now, runners = before.options.support.lumber, before.options.support.kind == "runners"
    if now in STOCK_STEPS and ({"runner", "cleat"} & set(finding.parts)):
        name = "runners" if runners else "cleats"
        yield Remedy.setting(f"Use {STOCK_STEPS[now]} {name}", support__lumber=STOCK_STEPS[now])


def _rail(before: Plan, finding: Finding) -> Iterator[Remedy]:
    now = before.options.frame.rail
    if now in STOCK_STEPS and {"side_rail", "corner_block"} & set(finding.parts):
        yield Remedy.setting(f"Use {STOCK_STEPS[now]} rails", frame__rail=STOCK_STEPS[now])


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
    text = "Stand the legs inside the corners, up to the slats"
    place: tuple[tuple[str, object], ...] = (("legs.place", "inside"), ("legs.setback", None))
    yield Remedy(text, (*place, ("screws.leg", None)))
    yield Remedy(f"{text}, with 3/8 in bolts",
                 (*place, ("screws.leg", {"kind": "carriage bolt", "diameter": "3/8 in"})))  # fmt: skip


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
        yield Remedy.setting("Put two screws in each slat end", screws__slat__count=2)


def _wide_leg(before: Plan, finding: Finding) -> Iterator[Remedy]:
    if before.options.legs.kind != "corner L":
        yield Remedy.setting("Use L legs of two 2x4s", legs__kind="corner L", legs__lumber="2x4")


def _set_back(before: Plan, finding: Finding) -> Iterator[Remedy]:
    if before.options.legs.setback:
        yield Remedy.setting("Stand the end legs at the very ends", legs__setback="0 in")


def _lower(before: Plan, finding: Finding) -> Iterator[Remedy]:
    """The bed lower, as far as the file states a height: what pushes it turns its legs by so much less."""
    heights, units = before.options.heights, writer(before.options.build.units)
    for name in heights.given:
        value = getattr(heights, name)
        for less in LOWER:
            if value > less + 6 and finding.ratio * (1 - less / before.build.heights.slat_top) <= BY_FAR:
                lower = units.length(value - less)
                yield Remedy(f"Build it lower: {name} {lower}", ((f"heights.{name}", lower),))
