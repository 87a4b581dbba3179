"""Facts of sanding and finishing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact

if TYPE_CHECKING:
    from tutorial_lib.finishing import Finishing
    from tutorial_lib.plan import Plan

SQUARE_METRE = 10.763910416709722  # [sq ft], from 0.3048 m exactly


def facts(plan: Plan) -> Iterator[Fact]:
    """Coats, grits, areas and time."""
    finishing, options = plan.finishing, plan.options.finish
    words = (options.kind, "finish")
    yield Fact("finish.coats", options.coats, "count", "coats", f"coats of {options.kind}", words, "stated")
    yield _recoat(finishing, options.recoat is not None, words)
    if options.grits:
        yield Fact(
            "finish.grit.first", options.grits[0], "grit", "grit", "first sanding grit", ("grit", "sandpaper"), "stated"
        )
        yield Fact(
            "finish.grit.last", options.grits[-1], "grit", "grit", "last sanding grit", ("grit", "sandpaper"), "stated"
        )
    yield from _areas(finishing, plan.options.build.units)
    yield Fact(
        "finish.discs",
        finishing.sanding.discs[1],
        "count",
        "supply_count",
        "5 in discs of each grit, at most",
        ("disc",),
        f"{float(finishing.seen):.1f} sq ft / 8 sq ft a disc, rounded up (from memory)",
    )
    if finishing.coats.can:
        yield Fact(
            "finish.can",
            finishing.coats.can,
            "",
            "supply",
            f"{options.kind} to buy, both coats from one batch",
            words,
            f"all coats take {finishing.coats.amount(plan.options.build.units)}; read the can",
        )
    yield Fact(
        "finish.days",
        round(finishing.days[1], 1),
        "d",
        "duration",
        "first sanding to mattress on, at most",
        (),
        " + ".join(f"{task.hours[1]:.1f}" for task in finishing.tasks) + " h",
    )


def _recoat(finishing: Finishing, stated: bool, words: tuple[str, ...]) -> Fact:
    low, high = finishing.recoat
    working = "stated" if stated else f"usual range {low:g} to {high:g} h, the longer one is safe; read the can"
    return Fact(
        "finish.recoat", int(high) if high == int(high) else high, "h", "time", "hours between coats", words, working
    )


def _areas(finishing: Finishing, units: str) -> Iterator[Fact]:
    factor, unit = (1 / SQUARE_METRE, "m2") if units == "mm" else (1.0, "sq ft")
    named = (
        ("finish.area", finishing.seen, "faces that show, end grain included"),
        ("finish.end_grain", finishing.end_grain, "end grain that shows"),
        ("finish.touched_area", finishing.touched, "faces that hands meet: edges broken only"),
    )
    for key, area, what in named:
        yield Fact(key, round(float(area) * factor, 2), unit, "area", what, (), "sum of open faces, net of contacts")
