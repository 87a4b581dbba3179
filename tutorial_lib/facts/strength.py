"""Facts of strength: ratings, the greatest utilisations, sag, leg loads. Calculated, not tested."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.measures import Writer, figure, writer
from tutorial_lib.strength.working import in_words

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan
    from tutorial_lib.strength.rating import Rating
    from tutorial_lib.strength.result import Strength
    from tutorial_lib.strength.use import Use

SAID = {"lying": ("rating", "load", "weight limit", "holds"), "sitting": ("edge", "sitting on the edge")}
KINDS = (("lying", "lying", "lying"), ("sitting", "sitting", "sitting on the edge"),
         ("standing", "kneeling", "kneeling on a slat"))  # fmt: skip


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the strength room."""
    strong, units = plan.strength, writer(plan.options.build.units)
    yield _rating("rating.lying", strong.lying, "people lying: each may weigh, calculated, not tested", units)
    seated = "people sitting on the edge: each may weigh, calculated, not tested"
    yield _rating("rating.sitting", strong.sitting, seated, units)
    yield Fact("rating.people", strong.lying.people, "count", "people_count", "people the ratings are for", (),
               "stated in the load, or two")
    for kind, key, words in KINDS:
        use = strong.worst(kind)
        if use is not None:
            yield _use(f"strength.{key}", use, f"greatest utilisation, {words}", units)
    yield from _sag(strong, units)
    for entry in strong.legs:
        yield Fact(f"leg.{entry.leg.label}.load", round(units.convert("weight", entry.load)), units.unit("weight"),
                   "leg_load", f"greatest load on the {entry.name}", (),
                   f"{entry.case}: {units.weight(entry.load)}; {entry.words(units)}")


def _rating(key: str, rating: Rating, what: str, units: Writer) -> Fact:
    value = round(units.convert("weight", rating.pounds))
    return Fact(key, value, units.unit("weight"), "load_rating", what, SAID[rating.kind], rating.working.told(units))


def _use(key: str, use: Use, what: str, units: Writer) -> Fact:
    ratio = round(use.ratio, 2) if use.ratio < float("inf") else in_words(use.ratio)
    named = f"{what} ({use.title}, duration factor {figure(use.duration)})"
    return Fact(key, ratio, "", "utilisation", named, (), "; ".join(step.told(units) for step in use.workings))


def _sag(strong: Strength, units: Writer) -> Iterator[Fact]:
    """The deepest sag of the deck: comfort, told to a hundredth of an inch, no finer."""
    sag = None if strong.outcome is None else strong.outcome.sag
    if sag is None:
        return
    value = Fraction(round(sag.value * 100), 100)
    rest, people = (units.calculated(x) for x in (sag.dead, float(strong.build.options.load.person) * sag.live))
    how = f"1.5 x bed and mattress {rest} + (1 + 0.5 / 3) x people {people}: comfort, not strength"
    yield Fact("strength.sag", value, "in", "sag", f"greatest sag of the slats, {sag.case.name}, with creep", (), how)
