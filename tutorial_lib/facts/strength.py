"""Facts of strength: ratings, the greatest utilisations, sag, leg loads. Calculated, not tested."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.strength.working import figure, in_words

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan
    from tutorial_lib.strength.checks import Use
    from tutorial_lib.strength.rating import Rating

SAID = {"lying": ("rating", "load", "weight limit", "holds"), "sitting": ("edge", "sitting on the edge")}


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the strength room."""
    strong = plan.strength
    yield _rating("rating.lying", strong.lying, "people lying: each may weigh, calculated, not tested")
    yield _rating("rating.sitting", strong.sitting,
                  "people sitting on the edge: each may weigh, calculated, not tested")
    yield Fact("rating.people", strong.lying.people, "count", "people_count", "people the ratings are for", (),
               "stated in the load, or two")
    for kind, key in (("lying", "lying"), ("sitting", "sitting"), ("standing", "kneeling")):
        use = strong.worst(kind)
        if use is not None:
            yield _use(f"strength.{key}", use, f"greatest utilisation, {_KINDS[kind]}")
    sag = max((u for u in strong.uses if u.what == "sag" and u.kind in ("lying", "sitting")),
              key=lambda u: round(u.workings[0].result, 6), default=None)
    if sag is not None:
        how = sag.workings[0]
        # a calculated sag is told to a hundredth of an inch, no finer
        value = Fraction(round(how.result * 100), 100)
        yield Fact("strength.sag", value, "in", "sag", f"greatest sag, {sag.label}, {sag.case}", (), str(how))
    for entry in strong.legs:
        yield Fact(f"leg.{entry.leg.label}.load", round(entry.load), "lb", "leg_load",
                   f"greatest load on leg {entry.leg.label}", (),
                   f"{entry.case}: {figure(entry.load)} lb; {entry.words}")


_KINDS = {"lying": "lying", "sitting": "sitting on the edge", "standing": "kneeling or standing on a slat"}


def _rating(key: str, rating: Rating, what: str) -> Fact:
    return Fact(key, rating.pounds, "lb", "load_rating", what, SAID[rating.kind], str(rating.working))


def _use(key: str, use: Use, what: str) -> Fact:
    ratio = round(use.ratio, 2) if use.ratio < float("inf") else in_words(use.ratio)
    return Fact(key, ratio, "", "utilisation", f"{what} ({use.label}, {use.what}, CD {figure(use.duration)})", (),
                "; ".join(map(str, use.workings)))
