"""Each leg's load, and the whole bed worked out without it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from tutorial_lib.design.model import Leg
from tutorial_lib.measures import Writer
from tutorial_lib.records import dataclass
from tutorial_lib.strength.loads import SAFETY
from tutorial_lib.strength.names import leg_name, line_name, piece_name
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.rating import Rating, least

Word = Literal["may go", "keep", "must stay"]
UNRATED = "the bed has no load figure as it stands"


@dataclass(frozen=True)
class LegsLoad:
    """The greatest load on one leg."""

    leg: Leg
    name: str  # "middle left leg"
    load: float  # [lb] for the stated people lying or sitting
    case: str


@dataclass(frozen=True, kw_only=True)
class LegEntry:
    """One leg on the map."""

    leg: Leg
    name: str  # "middle left leg"
    load: float  # [lb] greatest, for the stated people lying or sitting
    case: str
    lying: Rating  # of the bed without it, never above the whole bed's
    sitting: Rating
    word: Word
    why: str  # what happens without it: "the bed tips when someone sits near the head"

    def words(self, units: Writer) -> str:
        """What happens without it, in a sentence."""
        name = self.name[0].upper() + self.name[1:]
        if self.word == "must stay":
            return f"{name} ({self.leg.label}) must stay: without it {self.why}."
        if self.why == UNRATED:
            return f"{name} ({self.leg.label}) stays: {self.why}."
        both = f"{_each(self.lying, units)} lying, {_each(self.sitting, units)} sitting on the edge"
        verb = "may go" if self.word == "may go" else "keep it"
        why = "" if self.word == "may go" else f"; {self.why}"
        return f"{name} ({self.leg.label}) {verb}: without it {both}{why}."


def _each(rating: Rating, units: Writer) -> str:
    return f"{units.weight(rating.pounds)}{' each' if rating.people > 1 else ''}" if rating.pounds else "nobody"


def leg_map(whole: Outcome, lying: Rating, sitting: Rating) -> Iterator[LegEntry]:
    """All legs with their greatest load and the bed without each of them.

    A leg may go when there is no stop without it and both ratings are at least the lesser of the stated person and
    the whole bed's rating (our choice).
    """
    person = whole.build.options.load.person
    for greatest in leg_loads(whole):
        leg = greatest.leg
        if not (lying.pounds or sitting.pounds):
            yield LegEntry(leg=leg, name=greatest.name, load=greatest.load, case=greatest.case, lying=lying,
                           sitting=sitting, word="keep", why=UNRATED)  # fmt: skip
            continue
        if leg.post:
            none = [replace(rating, pounds=Fraction(0), why="support") for rating in (lying, sitting)]
            yield LegEntry(leg=leg, name=greatest.name, load=greatest.load, case=greatest.case, lying=none[0],
                           sitting=none[1], word="must stay", why="two rails end in the air")  # fmt: skip
            continue
        less = whole.without(leg.label)
        after = (least(less.lying, lying), least(less.sitting, sitting))
        enough = _enough(after, (lying, sitting), person)
        fallen = _falls(less, leg) or _lifts(less, leg)
        yield LegEntry(
            leg=leg, name=greatest.name, load=greatest.load, case=greatest.case, lying=after[0], sitting=after[1],
            word=_word(enough, bool(fallen)), why=fallen or _weakest(less, after),
        )  # fmt: skip


def _enough(after: tuple[Rating, Rating], before: tuple[Rating, Rating], person: Fraction) -> bool:
    """True where both ratings stay at the stated person's weight, or at the whole bed's."""
    return all(now.pounds and now.pounds >= min(person, was.pounds) for now, was in zip(after, before, strict=True))


def _word(enough: bool, fallen: bool) -> Word:
    """What is said of a leg, by what comes of the bed without it."""
    if fallen:
        return "must stay"
    return "may go" if enough else "keep"


def leg_loads(whole: Outcome) -> Iterator[LegsLoad]:
    """All legs with the greatest load each carries."""
    found, person = dict[str, tuple[float, str]](), float(whole.build.options.load.person)
    for load in whole.leg_loads():
        size = load.whole.at(person)
        if size > found.get(load.leg.label, (0.0, ""))[0] + 1e-6:
            found[load.leg.label] = (size, load.cases[0].name)
    for leg in whole.build.legs:
        yield LegsLoad(leg, leg_name(whole.build, leg), *found.get(leg.label, (0.0, "")))


def _falls(less: Outcome, leg: Leg) -> str:
    """What falls, tips or rocks without a leg; "" when nothing does."""
    if less.fell:  # which part goes first hangs on the last digits: its own line in any case
        return f"{line_name(less.build, leg.line)} has nothing to stand on"
    hanging = next((gap for gap in less.gaps if gap.why in ("legs", "leg")), None)
    if hanging is not None:
        return f"the {piece_name(less.build, hanging.what)} hangs in the air"
    tip = min(less.tippings, key=lambda t: round(t.ratio, 6), default=None)
    if tip is not None and tip.ratio < SAFETY:
        return f"the bed tips, {tip.name}"
    if any(barrier.rule == "racking" for barrier in less.barriers):
        return "the bed rocks over sideways"
    return ""


def _lifts(less: Outcome, leg: Leg) -> str:
    """In what case a part of the bed lifts off its legs without one; "" in none."""
    cases = [barrier.what for barrier in less.barriers if barrier.rule == "balance"]
    near = next((case for case in cases if f" {leg.line} " in case), cases[0] if cases else "")
    return f"a part of the bed lifts off its legs, people {near}" if near else ""


def _weakest(less: Outcome, after: tuple[Rating, Rating]) -> str:
    """What gives first without a leg."""
    worst = min(after, key=lambda rating: rating.pounds)
    use = worst.governing
    if use is None:
        return "there is no rating"
    verb = "sags and bends too far" if use.unit == "moment" else "would carry too much"
    plural = bool(use.fasteners)
    return f"the {use.label} {verb.replace('sags and bends', 'sag and bend') if plural else verb}"
