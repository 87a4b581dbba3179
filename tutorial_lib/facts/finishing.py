"""Facts of sanding and finishing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller
from tutorial_lib.finishing.sanding import DISC

if TYPE_CHECKING:
    from tutorial_lib.finishing import Finishing
    from tutorial_lib.plan import Plan

PAPER = ("grit", "sandpaper")


def facts(plan: Plan) -> Iterator[Fact]:
    """Coats, grits, areas and time."""
    tell, finishing, options = Teller(plan.options), plan.finishing, plan.options.finish
    if not options.laid:
        yield tell.count("finish.coats", 0, "coats", "coats: the wood stays raw", "stated", said=("finish",))
    else:
        yield from _coats(plan)
    if options.grits:
        for key, grit in (("first", options.grits[0]), ("last", options.grits[-1])):
            yield tell.bare(f"finish.grit.{key}", grit, "grit", "grit", f"{key} sanding grit", "stated", said=PAPER)
    if finishing.coats.known.between and options.laid > 1:
        yield tell.bare("finish.grit.between", finishing.coats.known.between, "grit", "grit",
                        "grit to sand with between coats", "common practice, no source", said=PAPER)  # fmt: skip
    yield from _areas(tell, finishing)
    what = f"{DISC[tell.w.units]} discs of each grit, at most"
    yield tell.count("finish.discs", finishing.sanding.discs[1], "supply_count", what,
                     f"{tell.w.area(float(finishing.seen))} / {tell.w.area(8)} a disc, rounded up (from memory)",
                     said=("disc",))  # fmt: skip
    if finishing.coats.can:
        what = f"{options.kind} to buy, all coats from one batch"
        working = f"all coats take {finishing.coats.amount(plan.options.build.units)}; read the can"
        yield tell.bare("finish.can", finishing.coats.can, "", "supply", what, working, said=(options.kind, "finish"))
    yield tell.bare("finish.days", round(finishing.days[1], 1), "d", "duration",
                    "first sanding to mattress on, at most",
                    " + ".join(f"{task.hours[1]:.1f}" for task in finishing.tasks) + " h", said=())  # fmt: skip


def _coats(plan: Plan) -> Iterator[Fact]:
    """How many coats of what, and the hours between them."""
    tell, finishing, options = Teller(plan.options), plan.finishing, plan.options.finish
    words = (options.kind, "finish")
    yield tell.count("finish.coats", options.laid, "coats", f"coats of {options.kind}", "stated", said=words)
    if options.name:
        yield tell.bare("finish.name", options.name, "", "name", f"name of the {options.kind}", "stated", said=words)
    low, high = finishing.recoat
    usual = f"usual range {low:g} to {high:g} h, the longer one is safe; read the can"
    yield tell.bare("finish.recoat", int(high) if high == int(high) else high, "h", "time", "hours between coats",
                    usual if options.recoat is None else "stated", said=words)  # fmt: skip
    least, most = finishing.coats.known.cure
    for key, hours, which in (("least", least, "at least"), ("most", most, "at most")):
        what = f"time from the last coat until the mattress goes on, {which}"
        yield tell.bare(f"finish.mattress_{key}", hours, "h", "wait", what, "usual range, from memory; read the can",
                        said=words)  # fmt: skip


def _areas(tell: Teller, finishing: Finishing) -> Iterator[Fact]:
    for key, area, what in (
        ("finish.area", finishing.seen, "faces that show, end grain included"),
        ("finish.end_grain", finishing.end_grain, "end grain that shows"),
        ("finish.touched_area", finishing.touched, "faces that hands meet: edges broken only"),
    ):
        yield tell.measure("area", key, area, "area", what, "sum of open faces, net of contacts", said=())
