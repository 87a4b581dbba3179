"""Facts of strength: ratings, the greatest utilisations, sag, leg loads. Calculated, not tested."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller
from tutorial_lib.measures import figure
from tutorial_lib.strength.working import in_words

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan
    from tutorial_lib.strength.result import Strength
    from tutorial_lib.strength.use import Use

SAID = {"lying": ("rating", "load", "weight limit", "holds"), "sitting": ("edge", "sitting on the edge")}
KINDS = (("lying", "lying", "lying"), ("sitting", "sitting", "sitting on the edge"),
         ("standing", "kneeling", "kneeling on a slat"))  # fmt: skip


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the strength room."""
    tell, strong = Teller(plan.options), plan.strength
    if plan.build.bed_stands:
        return  # what the bed carries is told by its own plan
    yield from _ratings(tell, strong)
    for kind, key, words in KINDS:
        use = strong.worst(kind)
        if use is not None:
            yield _use(tell, f"strength.{key}", use, f"greatest utilisation, {words}")
    yield from _sag(tell, strong)
    for leg in strong.leg_loads:
        yield tell.measure("weight", f"leg.{leg.leg.label}.load", leg.load, "leg_load",
                           f"greatest resting load on the {leg.name}", f"{leg.case}: {tell.w.weight(leg.load)}",
                           said=())  # fmt: skip


def _ratings(tell: Teller, strong: Strength) -> Iterator[Fact]:
    """What people may weigh; nothing where the bed has no rating: "0 lb" would be a figure nobody worked out."""
    for rating, where in ((strong.lying, "lying"), (strong.sitting, "sitting on the edge")):
        if rating.pounds:
            what = f"people {where}: each may weigh, calculated, not tested"
            yield tell.measure("weight", f"rating.{rating.kind}", rating.pounds, "load_rating", what,
                               rating.working.told(tell.w), said=SAID[rating.kind])  # fmt: skip
    if strong.lying.pounds or strong.sitting.pounds:
        yield tell.count("rating.people", strong.lying.people, "people_count", "people the ratings are for",
                         "stated in the load, or two", said=())  # fmt: skip


def _use(tell: Teller, key: str, use: Use, what: str) -> Fact:
    ratio = round(use.ratio, 2) if use.ratio < float("inf") else in_words(use.ratio)
    named = f"{what} ({use.title}, duration factor {figure(use.duration)})"
    working = "; ".join(step.told(tell.w) for step in use.workings)
    return tell.bare(key, ratio, "", "utilisation", named, working, said=())


def _sag(tell: Teller, strong: Strength) -> Iterator[Fact]:
    """The deepest sag of the deck: comfort, told to a hundredth of an inch, no finer."""
    sag = None if strong.outcome is None else strong.outcome.sag
    if sag is None:
        return
    dead = 1.5 * sag.dead
    working = (
        f"{tell.w.calculated(dead)} from bed and mattress, creep in it, + {tell.w.calculated(sag.value - dead)} from "
        "the people, a third of their weight counted for creep: comfort, not strength"
    )
    yield tell.length("strength.sag", Fraction(round(sag.value * 100), 100), "sag",
                      f"greatest sag of the slats, {sag.case.name}, with creep", working, said=())  # fmt: skip
