"""A rating that may be said: so many people of so many pounds, rounded down, with what governs it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import floor
from typing import Literal

from tutorial_lib.measures import Writer, factor
from tutorial_lib.records import dataclass
from tutorial_lib.strength.use import FOREVER, Use
from tutorial_lib.strength.working import OURS, Term, Working, step

STEP, HIGHEST = Fraction(10), Fraction(300)  # [lb] rounded down to this; nothing higher is printed; our choice
METRIC_STEP, METRIC_HIGHEST = 5, 135  # [kg] the same in a metric plan; our choice
KNEELING_MOST = 1.6  # nobody is rated who uses more than this of a slat by kneeling; about fifth-percentile strength
NUMBERS = {1: "one person", 2: "two people", 3: "three people", 4: "four people"}
WHOLE_BED = "the bed with all its legs"
Position = Literal["lying", "sitting"]
# why there is no rating, by the rule that stands against it
REASONS = {
    "height": "it stands so high that it needs guard rails, which are not designed here",
    "path": "something in it has nothing to stand on",
    "support": "it falls by its own weight",
    "tipping": "it tips when people sit on its edge",
    "racking": "its legs don't hold it upright sideways",
    "balance": "a part of it lifts off its legs with people on it",
    "no value": "a part that carries people has no published value",
}


@dataclass(frozen=True, kw_only=True)
class Rating:
    """The greatest person, all of them lying or all sitting on the edge, for whom strength stays within 1."""

    kind: Position
    people: int
    pounds: Fraction  # [lb] each, rounded down; 0: none can be given
    exact: float  # [lb] each before rounding and caps
    governing: Use | None  # the check that would fail first; None when there is no rating
    capped: str = ""  # "the highest we give", "kneeling on a slat" or "the bed with all its legs" where that is less
    why: str = ""  # why there is none

    def each(self, units: Writer) -> str:
        """ "170 lb", or "no rating"."""
        return units.weight(self.pounds) if self.pounds else "no rating"

    def words(self, units: Writer) -> str:
        """The rating as it may be said: "two people of 170 lb each lying"."""
        place = "lying" if self.kind == "lying" else "sitting on the edge"
        if not self.pounds:
            return f"no rating for {place}"
        each = " each" if self.people > 1 else ""
        return f"{NUMBERS.get(self.people, str(self.people))} of {units.weight(self.pounds)}{each} {place}"

    @property
    def working(self) -> Working:
        """How it came about."""
        what = f"rating {self.kind}"
        if self.governing is None:
            words = REASONS.get(self.why, self.why) or "nothing limits it"
            return step(what, "none", (), Term("", 0.0, "weight"), OURS, words)
        use = self.governing
        first = use.first
        terms = (
            Term("person", use.person, "weight"),
            Term("allowed", use.limit.value, use.unit),
            Term("bed", first.dead if first.live > 0 else -first.dead, use.unit),
            Term("people", use.person * (abs(first.live) - use.relief), use.unit),
        )
        cap = f", capped by {self.capped}" if self.capped else ""
        words = f"{use.title}, {use.case.name}{cap}"
        return step(what, "person x (allowed - bed) / people, rounded down", terms,
                       Term("", float(self.pounds), "weight"), OURS, words)  # fmt: skip


def rounded_down(pounds: float, units: str) -> Fraction:
    """The step at or below a weight, and no more than the highest that is printed [lb].

    >>> rounded_down(170.45, "in"), rounded_down(517, "in"), float(round(rounded_down(170.45, "mm"), 2))
    (Fraction(170, 1), Fraction(300, 1), 165.35)
    """
    if units == "mm":
        kilograms = pounds / float(factor("kg", "lb")) if pounds < FOREVER else FOREVER
        steps = METRIC_HIGHEST if kilograms >= METRIC_HIGHEST else floor(kilograms / METRIC_STEP + 1e-9) * METRIC_STEP
        return steps * factor("kg", "lb")
    return HIGHEST if pounds >= HIGHEST else floor(pounds / float(STEP) + 1e-9) * STEP


def least(reduced: Rating, whole: Rating) -> Rating:
    """A reduced bed's rating, never above the whole bed's."""
    if reduced.pounds <= whole.pounds:
        return reduced
    return replace(reduced, pounds=whole.pounds, capped=WHOLE_BED)


def kneeling_cap(uses: Sequence[Use]) -> float:
    """The greatest person whose kneeling on a slat stays within 1.6 [lb]."""
    found = FOREVER
    for use in uses:
        if use.key == "kneeling":
            for effect in use.effects:
                ahead = KNEELING_MOST * use.limit.value - abs(effect.dead)
                found = min(found, max(0.0, ahead) / max(abs(effect.live), 1e-12))
    return found


def rate(kind: Position, people: int, uses: Sequence[Use], units: str, why: str = "") -> Rating:
    """The rating of one kind of case, from every check that rates.

    Args:
        kind: lying or sitting.
        people: how many.
        uses: all checks.
        units: the plan's units.
        why: why there can be none; "" when there can.
    """
    if why:
        return Rating(kind=kind, people=people, pounds=Fraction(0), exact=0.0, governing=None, why=why)
    rating = [use for use in rating_uses(uses) if use.kind == kind]
    governing = min(rating, key=lambda use: round(use.holds, 6), default=None)
    exact = governing.holds if governing is not None else FOREVER
    knees = kneeling_cap(uses)
    pounds = rounded_down(min(exact, knees), units)
    capped = ""
    if knees < exact and rounded_down(knees, units) < rounded_down(exact, units):
        capped = "kneeling on a slat"
    elif pounds == rounded_down(FOREVER, units):
        capped = "the highest we give"
    return Rating(kind=kind, people=people, pounds=pounds, exact=exact, governing=governing, capped=capped)


def rating_uses(uses: Sequence[Use]) -> list[Use]:
    """The checks that rate. Ties between rail and runner don't where the runner alone carries more than they do."""
    alone, ties = _least_held(uses, "runner-alone"), _least_held(uses, "tie-screws")
    relieved = {key for key, holds in ties.items() if alone.get(key, 0.0) >= holds}
    return [use for use in uses if use.rates and not (use.key == "tie-screws" and (use.piece, use.kind) in relieved)]


def _least_held(uses: Sequence[Use], key: str) -> dict[tuple[str, str], float]:
    """The least that one kind of check holds, by piece and kind of case [lb]."""
    found: dict[tuple[str, str], float] = {}
    for use in uses:
        if use.key == key:
            place = (use.piece, use.kind)
            found[place] = min(found.get(place, FOREVER), use.holds)
    return found
