"""A rating that may be said: so many people of so many pounds, rounded down, with its conditions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tutorial_lib.strength.checks import Use
from tutorial_lib.strength.working import Working, figure

STEP = 50  # [lb] ratings are rounded down to this; our choice
HIGHEST = 400  # [lb] no higher figure is given for one person, whatever the wood would bear; our choice


@dataclass(frozen=True)
class Rating:
    """People of this many pounds each, all of them lying or sitting on the edge."""

    kind: str  # lying, sitting
    people: int
    pounds: int  # [lb] each, rounded down to 50; 0: none can be given
    exact: float  # [lb] each before rounding
    governing: Use | None
    working: Working

    @property
    def words(self) -> str:
        """The rating as it may be said."""
        if not self.pounds:
            return f"no rating for {self.kind}"
        place = "lying" if self.kind == "lying" else "sitting on the edge"
        if self.people == 1:
            return f"one person of {self.pounds} lb {place}"
        number = {2: "two", 3: "three", 4: "four"}.get(self.people, str(self.people))
        return f"{number} people of {self.pounds} lb each {place}"


def rate(kind: str, person: float, people: int, uses: Iterable[Use], unstable: bool) -> Rating:
    """Rating for one kind of case: P (1 - dead) / (utilisation - dead), the lowest of all.

    Rounded down to 50 lb, at most 400 lb.

    Sag counts like stress. A use that people don't raise gives no limit.
    """
    best, governing = float("inf"), None
    for use in uses:
        if use.kind != kind:
            continue
        live = use.ratio - use.dead
        if use.dead >= 1 or use.ratio == float("inf"):
            allowed = 0.0
        elif live <= 1e-9:
            continue
        else:
            allowed = person * (1 - use.dead) / live
        if allowed < best - 1e-6:
            best, governing = allowed, use
    if unstable or governing is None:
        best = 0.0
    pounds = min(HIGHEST, int(best // STEP * STEP))
    return Rating(kind, people, pounds, best, governing, _working(kind, person, governing, best, pounds, unstable))


def _working(kind: str, person: float, use: Use | None, exact: float, pounds: int, unstable: bool) -> Working:
    if unstable or use is None:
        return Working(f"rating {kind}", "none", "the layout tips, so no figure is given", 0.0, "lb", "our choice")
    cap = "; no more than 400 is given" if exact > HIGHEST else ""
    ratio, dead = figure(use.ratio), figure(use.dead)
    return Working(
        f"rating {kind}",
        "P (1 - u of bed) / (u - u of bed), rounded down to 50 lb",
        f"{figure(person)} (1 - {dead}) / ({ratio} - {dead}) = {figure(exact)}{cap}; governing: {use}",
        float(pounds),
        "lb",
        "our choice; allowable-stress design",
    )
