"""The check report: every number said, what it speaks of, whether it holds, and how sure that is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import field
from fractions import Fraction
from typing import Any

from tutorial_lib.findings import Finding
from tutorial_lib.measures import Units
from tutorial_lib.narration.captions.cues import Talk, clock
from tutorial_lib.records import dataclass

VERDICTS = ("agrees", "rounded", "fits", "unsure", "conflicts", "not_in_plan", "not_a_claim")
RIGHT = ("agrees", "rounded", "fits")
CLAIMS = ("agrees", "rounded", "fits", "unsure", "conflicts", "not_in_plan")


@dataclass(frozen=True, kw_only=True, slots=True)
class Choice:
    """One fact that a number may be about, and what it would mean."""

    subject: str
    what: str
    plan_value: tuple[Fraction, ...]  # in the plan's unit
    unit: str
    kind: str
    verdict: str  # agrees, rounded or conflicts, if it is meant
    why: str
    certainty: float = 0.0

    def as_json(self) -> dict[str, Any]:
        """The choice in the form of the check report."""
        return {
            "subject": self.subject,
            "plan_value": numbers(self.plan_value),
            "verdict": self.verdict,
            "why": self.why,
        }


@dataclass(frozen=True, kw_only=True, slots=True)
class Item:
    """One number said, what it speaks of, and whether it holds."""

    place: int  # cue number, or line of a script
    t: float | None  # [s]
    quote: str
    value: tuple[Fraction, ...]  # in the plan's unit
    unit: str
    kind: str
    subject: str | None = None
    plan_value: tuple[Fraction, ...] = ()
    verdict: str
    why: str
    before: str = ""  # the sentence it is said in, up to the number
    after: str = ""  # and from it
    start: int  # place in the talk's text
    end: int
    what: str = ""  # what the fact is, in words
    certainty: float = 1.0  # that this is what the number speaks of (conflicts, unsure: that it is wrong), 0 to 1
    choices: tuple[Choice, ...] = ()  # the facts it may be about, best first
    hedge: int = 0  # -1 just under what follows, +1 just over, 2 either way, 0 none
    answered: bool = False  # by the person, not by the check

    @property
    def time(self) -> str | None:
        """m:ss, or None in a script."""
        return None if self.t is None else clock(self.t)

    @property
    def sentence(self) -> str:
        """The sentence it is said in, as captioned."""
        return f"{self.before}{self.quote}{self.after}"

    @property
    def where(self) -> str:
        """ "2:05", or "line 12" of a script."""
        return self.time or f"line {self.place}"

    @property
    def difference(self) -> Fraction | None:
        """Said minus plan."""
        if not self.value or not self.plan_value or self.unit == "nominal":  # a timber's name is no measure
            return None
        return self.value[0] - min(self.plan_value, key=lambda v: abs(v - self.value[0]))

    def as_json(self, place: str) -> dict[str, Any]:
        """The item in the form of the check report; ``place`` is "cue" or "line"."""
        made = {
            "time": self.time,
            "t": self.t,
            place: self.place,
            "quote": self.quote,
            "value": numbers(self.value),
            "unit": self.unit,
            "kind": self.kind,
            "subject": self.subject,
            "plan_value": numbers(self.plan_value),
            "difference": None if self.difference is None else plain(self.difference),
            "verdict": self.verdict,
            "why": self.why,
            "certainty": round(self.certainty, 3),
        }
        return made | ({"choices": [c.as_json() for c in self.choices]} if self.verdict in ("fits", "unsure") else {})


def plain(value: Fraction) -> int | float:
    """A Fraction as a JSON number."""
    return int(value) if value.denominator == 1 else float(value)


def numbers(values: Sequence[Fraction]) -> Any:
    """One value as a number, several as a list, none as null."""
    made = [plain(v) for v in values]
    return None if not made else made[0] if len(made) == 1 else made


@dataclass(frozen=True)
class Report:
    """All numbers of a talk in spoken order, and what was found across them."""

    talk: Talk
    units: Units
    items: tuple[Item, ...]
    cross: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = field(default=())  # answers that no longer fit, lines that could not be read

    @property
    def counts(self) -> dict[str, int]:
        """How many items have each verdict."""
        found = Counter(item.verdict for item in self.items)
        return {name: found[name] for name in VERDICTS}

    def with_verdict(self, *verdicts: str) -> tuple[Item, ...]:
        """The items with one of the verdicts, in spoken order."""
        return tuple(i for i in self.items if i.verdict in verdicts)

    @property
    def conflicts(self) -> tuple[Item, ...]:
        """The sure slips of the talk: what contradicts the plan, with the fact it speaks of."""
        return self.with_verdict("conflicts")

    @property
    def doubtful(self) -> tuple[Item, ...]:
        """What may be wrong and only a person can tell."""
        return self.with_verdict("unsure")

    def as_json(self) -> dict[str, Any]:
        """The check report."""
        place = "cue" if self.talk.timed else "line"
        return {
            "items": [i.as_json(place) for i in self.items],
            "counts": self.counts,
            "cross": [f.as_json() for f in self.cross],
        }
