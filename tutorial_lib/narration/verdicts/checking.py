"""The numbers of a talk checked against a plan's facts: reading, sorting, linking, verdicts, one report."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from tutorial_lib.findings import Finding
from tutorial_lib.narration.captions.cues import Talk, clock
from tutorial_lib.narration.linking.chain import Candidate, candidates, link
from tutorial_lib.narration.linking.claims import Claim, claim_of
from tutorial_lib.narration.linking.corrections_said import hedge_of, withdrawn
from tutorial_lib.narration.linking.mentions import Mentions
from tutorial_lib.narration.linking.sorting import doubts, leftover_reason, own_total, surely_no_claim
from tutorial_lib.narration.linking.subjects import Subject, nominal_names, plan_units, subjects_of
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.expressions import expressions
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.numbers.misheard import with_misheard
from tutorial_lib.narration.numbers.stems import stem
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.units_meant import restated_bare, units_meant
from tutorial_lib.narration.numbers.words import words_of
from tutorial_lib.narration.verdicts.judging import verdict
from tutorial_lib.narration.verdicts.writing import written

VERDICTS = ("agrees", "rounded", "conflicts", "not_in_plan", "not_a_claim")


@dataclass(frozen=True)
class Item:
    """One number said, what it speaks of, and whether it holds."""

    place: int  # cue number, or line of a script
    t: float | None  # [s]
    quote: str
    value: tuple[Fraction, ...]  # in the plan's unit
    unit: str
    kind: str
    subject: str | None
    plan_value: tuple[Fraction, ...]
    verdict: str
    why: str
    sentence: str
    start: int  # place in the talk's text
    end: int
    what: str = ""  # what the fact is, in words
    decided: bool = False  # by the person, not by the check

    @property
    def time(self) -> str | None:
        """m:ss, or None in a script."""
        return None if self.t is None else clock(self.t)

    @property
    def difference(self) -> Fraction | None:
        """Said minus plan."""
        if not self.value or not self.plan_value:
            return None
        return self.value[0] - min(self.plan_value, key=lambda v: abs(v - self.value[0]))

    def as_json(self, place: str) -> dict[str, Any]:
        """The item in the form of the check report; ``place`` is "cue" or "line"."""
        return {
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
        }


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
    units: str
    items: tuple[Item, ...]
    cross: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = field(default=())  # decisions that no longer fit, lines that could not be read

    @property
    def counts(self) -> dict[str, int]:
        """How many items have each verdict."""
        found = Counter(item.verdict for item in self.items)
        return {name: found[name] for name in VERDICTS}

    @property
    def conflicts(self) -> tuple[Item, ...]:
        """The items that contradict the plan."""
        return tuple(i for i in self.items if i.verdict == "conflicts")

    def as_json(self) -> dict[str, Any]:
        """The check report."""
        place = "cue" if self.talk.timed else "line"
        return {
            "items": [i.as_json(place) for i in self.items],
            "counts": self.counts,
            "cross": [f.as_json() for f in self.cross],
        }


def check(
    talk: Talk, facts: Any, planner: Callable[..., Any] | None = None, decisions: Mapping[str, Any] | None = None
) -> Report:
    """Checks every number said in a talk against a plan.

    Args:
        talk: what was said.
        facts: the plan's Facts, or the content of a facts file.
        planner: tells whether pieces come out of boards; called as planner(pieces, boards, kerf), lengths in inches.
        decisions: what the person decided before (``decisions.read``).
    """
    from tutorial_lib.narration.verdicts.across import across
    from tutorial_lib.narration.verdicts.decisions import apply

    units = plan_units(facts)
    subjects = subjects_of(facts)
    items = tuple(find(talk, subjects, units, nominal_names(facts)))
    notes = [str(f) for f in talk.faults]
    if decisions:
        items, stale = apply(items, decisions, {s.key: s for s in subjects}, units)
        notes += stale
    return Report(talk, units, items, tuple(across(items, subjects, units, planner)), tuple(notes))


def foreign(mentions: Mentions, claim: Claim) -> frozenset[str]:
    """Doubts that rest on the plan's vocabulary: something else counted, something else that "is" so much."""
    out = set()
    if not claim.item.unit and claim.noun and not mentions.vocabulary & set(claim.noun):
        out.add("foreign_noun")
    found = SUBJECT_SAID.search(claim.around.before)
    if found and stem(found[1]) not in mentions.vocabulary:
        out.add("foreign_subject")
    if re.search(r"(?:^| )an?$", claim.around.before) and not claim.item.unit and claim.item.form == "number":
        out.add("a_number")
    if claim.place.per and not mentions.vocabulary & set(claim.place.per):
        out.add("foreign_per")
    return frozenset(out)


SUBJECT_SAID = re.compile(
    r"\b(?:the|my|your|their|that|his|her|our|an?)(?: \S+)? (\S+) (?:is|was|are|were|turns|needs|needed|stands|"
    r"takes|wants)(?: at| only)?$"
)


def unsure(pick: Candidate | None) -> bool:
    """A misheard word is read as a number only where the plan has just that number for it."""
    return pick is None or pick.subject is None or not pick.equal


@dataclass(frozen=True)
class Sorted:
    """Every expression with its claim form and, where it is surely no claim, the reason."""

    found: tuple[Expression, ...]
    claims: tuple[Claim, ...]
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class Heard:
    """The numbers of a talk, read and sorted, before any is linked."""

    transcript: Transcript
    mentions: Mentions
    sorted_out: Sorted
    kept: tuple[int, ...]  # those that may be claims

    @property
    def claims(self) -> list[Claim]:
        """The numbers that may be claims."""
        return [self.sorted_out.claims[i] for i in self.kept]

    def doubts(self, claim: Claim) -> frozenset[str]:
        """What speaks against a number being about this build."""
        return doubts(claim.around) | foreign(self.mentions, claim)


def hear(talk: Talk, subjects: Sequence[Subject], units: str, nominals: frozenset[tuple[Fraction, ...]]) -> Heard:
    """Reads and sorts the numbers of a talk."""
    words = words_of(talk)
    transcript = Transcript(words)
    mentions = Mentions(transcript, subjects)
    found = with_misheard(transcript, expressions(words, nominals, units == "mm"), mentions.vocabulary)
    found = restated_bare(transcript, [without_part(transcript, e, mentions.parts) for e in found], units)
    mentions.name_timber(found)
    transcript.feet_are_legs = bool({("feet",), ("foot",)} & set(mentions.places))
    transcript.foot_things = {p[1] for p in mentions.places if len(p) > 1 and p[0] == stem("foot")}
    transcript.covered = {w for e in found for w in range(e.first, e.last)}
    lengths = frozenset(v for s in subjects if s.is_length for v in s.values)
    sorted_out = sort_out(transcript, found, units, lengths)
    kept = tuple(i for i, reason in enumerate(sorted_out.reasons) if not reason)
    return Heard(transcript, mentions, sorted_out, kept)


def without_part(transcript: Transcript, item: Expression, parts: frozenset[str]) -> Expression:
    """Leaves a word that is both a unit and the creator's name for a part out of the number ("13 teeth")."""
    word = transcript.words[item.last - 1].low
    if item.unit in LENGTHS or not item.unit or stem(word) not in parts or item.last - item.first < 2:
        return item
    return replace(item, last=item.last - 1, unit="")


def find(talk: Talk, subjects: Sequence[Subject], units: str, nominals: frozenset[tuple[Fraction, ...]]) -> list[Item]:
    """Items of a talk, linked and judged."""
    heard = hear(talk, subjects, units, nominals)
    claims, found = heard.claims, heard.sorted_out.found
    options = [candidates(heard.mentions, c, subjects, heard.doubts(c)) for c in claims]
    picks = dict(zip(heard.kept, link(claims, options), strict=True))
    return [
        judged(talk, heard.transcript, heard.sorted_out, i, picks.get(i), units)
        for i in range(len(found))
        if not (found[i].form == "misheard" and unsure(picks.get(i)))
    ]


def sort_out(
    transcript: Transcript, found: Sequence[Expression], units: str, lengths: frozenset[Fraction]
) -> Sorted:
    """Sets apart what is surely no claim."""
    taken_back = withdrawn(transcript, found)
    claims: list[Claim] = []
    reasons: list[str] = []
    meant = units_meant(transcript, found, units, lengths)
    for i, item in enumerate(found):
        claim = claim_of(transcript, found, i, units, meant[i], hedge_of(transcript, item))
        apart = taken_apart(transcript, found, i)
        reason = (
            "taken back by the correction that follows"
            if i in taken_back
            else apart or surely_no_claim(transcript, item, claim.around)
        )
        if i and i - 1 in taken_back:
            claim = as_before(claim, claims[-1])
        claims.append(claim)
        reasons.append(reason)
    return Sorted(tuple(found), tuple(claims), tuple(reasons))


def as_before(claim: Claim, before: Claim) -> Claim:
    """A corrected value speaks of what the value taken back spoke of."""
    noun, place = claim.noun or before.noun, claim.place if claim.noun else before.place
    return replace(claim, cues=claim.cues | before.cues, noun=noun, place=place)


def taken_apart(transcript: Transcript, found: Sequence[Expression], at: int) -> str:
    """A timber name taken apart ("a two by six isn't really two inches by six")."""
    item = found[at]
    for other in found[max(0, at - 3) : at]:
        if (
            other.form == "nominal"
            and item.value in other.values
            and item.first - other.last < 14
            and item.form == "number"
        ):
            between = transcript.text(other.last, item.first)
            if re.search(
                r"\b(?:isn't|not|don't|doesn't|ain't|aren't|hadn't|hasn't|never|wasn't|nowhere near)\b", between
            ) and not re.search(r"\bit's\b|\bthey're\b|, it is", between.split("n't")[-1]):
                return "a timber name taken apart, not a measure"
    return ""


def judged(talk: Talk, transcript: Transcript, s: Sorted, i: int, pick: Candidate | None, units: str) -> Item:
    """One item of the report."""
    item, claim = s.found[i], s.claims[i]
    subject = pick.subject if pick else None
    if subject is None or pick is None or pick.reading is None:
        kind, result, why = unlinked(item, claim, s.reasons[i])
        value, unit = normal(item, claim, units, named=bool(s.reasons[i]))
        return place(talk, transcript, item, (value, unit, kind, None, (), result, why, ""))
    scale = 1 / LENGTHS["mm"] if units == "mm" and subject.is_length else Fraction(1)
    result, reason = verdict(pick.reading[0], subject, claim.hedge, units)
    unit = units if subject.is_length else subject.unit
    values = item.values if len(item.values) > 1 else (pick.reading[0] * scale,)
    plan = tuple(v * scale for v in subject.values)
    reason = f"the plan has {written(plan[0], unit, units)}" if result == "conflicts" else reason
    why = f"said of {subject.what or subject.key}: {reason}"
    return place(
        talk,
        transcript,
        item,
        (values, unit, subject.kind, subject.key, plan, result, why, subject.what),
    )


def unlinked(item: Expression, claim: Claim, reason: str) -> tuple[str, str, str]:
    """Kind, verdict and reason of a number that speaks of nothing in the plan."""
    if reason:
        return item.form if item.form != "number" else "other", "not_a_claim", reason
    total = own_total(item, claim.around)
    if total:
        return ("price" if "price" in total else "load"), "not_in_plan", f"{total}, which the plan doesn't hold"
    found = doubts(claim.around)
    if item.unit in LENGTHS and not found:
        return "measure", "not_in_plan", "a measure of something the plan doesn't hold"
    return "other", "not_a_claim", leftover_reason(item, found)


def normal(item: Expression, claim: Claim, units: str, named: bool) -> tuple[tuple[Fraction, ...], str]:
    """Values and unit as the report states them; a bare size is in the unit the speaker used last, a name isn't."""
    if item.unit in LENGTHS:
        scale = LENGTHS[item.unit] / LENGTHS[units]
        return tuple(v * scale for v in item.values), units
    if item.form == "nominal":
        return item.values, "nominal"
    if claim.meant.unit in LENGTHS and item.value.denominator > 1:
        return tuple(v * LENGTHS[claim.meant.unit] / LENGTHS[units] for v in item.values), units
    sized = claim.cues & {"wide", "tall", "long", "deep", "thick", "height", "longways", "gap", "outside", "opening"}
    if claim.meant.running == "cm" and not (item.unit or named or claim.noun) and (sized or item.value >= 10):
        return tuple(v * 10 for v in item.values), units
    return item.values, item.unit or ("count" if item.value.denominator == 1 else units)


def in_sentence(talk: Talk, transcript: Transcript, item: Expression) -> str:
    """The sentence a number is said in, as captioned; up to sixteen words either way where there are no sentences."""
    first, last = transcript.span(transcript.sentence, item.first, 16)
    last = max(last, item.last)
    return re.sub(r"\s+", " ", talk.text[transcript.words[first].start : transcript.words[last - 1].end])


def place(talk: Talk, transcript: Transcript, item: Expression, found: tuple[Any, ...]) -> Item:
    """Adds where it was said."""
    words = transcript.words
    cue = words[item.first].cue
    start, end = words[item.first].start, words[item.last - 1].end
    quote = re.sub(r"\s+", " ", talk.text[start:end])
    values, unit, kind, key, plan, result, why, what = found
    return Item(
        cue.number if talk.timed else cue.line,
        cue.start if talk.timed else None,
        quote,
        values,
        unit,
        kind,
        key,
        plan,
        result,
        why,
        in_sentence(talk, transcript, item),
        start,
        end,
        what,
    )
