"""The numbers of a talk read and sorted: which may speak of the build, and why the others don't."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.captions.cues import Talk
from tutorial_lib.narration.linking.claims import Claim, claim_of, legs_counted
from tutorial_lib.narration.linking.corrections_said import hedge_of, withdrawn
from tutorial_lib.narration.linking.mentions import Mentions
from tutorial_lib.narration.linking.other_beds import OtherBeds
from tutorial_lib.narration.linking.scoring import PIECES
from tutorial_lib.narration.linking.sorting import doubts, surely_no_claim
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.expressions import expressions
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.numbers.misheard import with_misheard
from tutorial_lib.narration.numbers.stems import stem
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.units_meant import restated_bare, units_meant
from tutorial_lib.narration.numbers.words import words_of
from tutorial_lib.records import dataclass


def foreign(mentions: Mentions, claim: Claim) -> frozenset[str]:
    """Doubts that rest on the plan's vocabulary: something else counted, something else that "is" so much."""
    known, before = mentions.vocabulary, claim.around.before
    found = SUBJECT_SAID.search(before)
    bare = not claim.item.unit
    checks = {
        "foreign_noun": bare and bool(claim.noun) and known.isdisjoint(claim.noun) and PIECES.isdisjoint(claim.noun),
        "foreign_subject": found is not None and stem(found[1]) not in known,
        "a_number": bare and claim.item.form == "number" and bool(A_NUMBER.search(before)),
        "foreign_per": bool(claim.place.per) and not known & set(claim.place.per),
    }
    return frozenset(name for name, raised in checks.items() if raised)


A_NUMBER = re.compile(r"(?:^| )an?$")
SUBJECT_SAID = re.compile(
    r"\b(?:the|my|your|their|that|his|her|our|an?)(?: \S+)? (\S+) (?:is|was|are|were|turns|needs|needed|stands|"
    r"takes|wants)(?: at| only)?$"
)


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
    other_beds: OtherBeds

    @property
    def claims(self) -> list[Claim]:
        """The numbers that may be claims."""
        return [self.sorted_out.claims[i] for i in self.kept]

    def doubts(self, claim: Claim) -> frozenset[str]:
        """What speaks against a number being about this build."""
        other = {"another_bed"} if self.other_beds.near(claim.item) else set()
        return doubts(claim.around) | foreign(self.mentions, claim) | other


def hear(talk: Talk, subjects: Sequence[Subject], units: str, nominals: frozenset[tuple[Fraction, ...]]) -> Heard:
    """Reads and sorts the numbers of a talk."""
    words = words_of(talk)
    transcript = Transcript(words)
    mentions = Mentions(transcript, subjects)
    found = with_misheard(transcript, expressions(words, nominals, units == "mm"), mentions.vocabulary)
    lengths = frozenset(v for s in subjects if s.is_length for v in s.values)
    found = with_eights(transcript, found, lengths)
    found = restated_bare(transcript, [without_part(transcript, e, mentions.parts) for e in found], units)
    mentions.name_timber(found)
    tell_feet(transcript, mentions, found)
    transcript.covered = {w for e in found for w in range(e.first, e.last)}
    sorted_out = sort_out(transcript, found, units, lengths)
    kept = tuple(i for i, reason in enumerate(sorted_out.reasons) if not reason)
    return Heard(transcript, mentions, sorted_out, kept, OtherBeds(transcript))


EIGHTS_ELSE = re.compile(r"\b(?:screws?|number|boards?|buy|bought|store|sticks?|foot|footers?|lengths?|lumber)\b")


def with_eights(transcript: Transcript, found: Sequence[Expression], lengths: Collection[Fraction]) -> list[Expression]:
    """ "Three eights at each end" as three eighths: where the plan has that length and no board is spoken of."""
    out: list[Expression] = []
    for item in found:
        part = eighths(transcript, out[-1], item) if out else Fraction(0)
        if part and part in lengths and not EIGHTS_ELSE.search(transcript.around(item).sentence):
            out[-1] = replace(out[-1], last=item.last, values=(part,))
        else:
            out.append(item)
    return out


def eighths(transcript: Transcript, a: Expression, b: Expression) -> Fraction:
    """The fraction that a number and "eights" right after it may be; 0 for none."""
    plain = a.form == b.form == "number" and not (a.unit or b.unit) and b.first == a.last
    said = plain and transcript.words[b.first].low == "eights" and a.value in (1, 3, 5, 7)
    return a.value / 8 if said else Fraction(0)


def tell_feet(transcript: Transcript, mentions: Mentions, found: Sequence[Expression]) -> None:
    """Tells feet as a measure from feet, foot boards and foot posts of the bed."""
    transcript.feet_are_legs = bool({("feet",), ("foot",)} & set(mentions.places))
    transcript.foot_things = {p[1] for p in mentions.places if len(p) > 1 and p[0] == stem("foot")}
    for item in found:
        if item.unit == "ft" and not legs_counted(transcript, item):
            mentions.take_back(item.last - 1)


def without_part(transcript: Transcript, item: Expression, parts: frozenset[str]) -> Expression:
    """Leaves a word that is both a unit and the creator's name for a part out of the number ("13 teeth")."""
    word = transcript.words[item.last - 1].low
    if item.unit in LENGTHS or not item.unit or stem(word) not in parts or item.last - item.first < 2:
        return item
    return replace(item, last=item.last - 1, unit="")


TAKEN_BACK = "taken back by the correction that follows"


def sort_out(transcript: Transcript, found: Sequence[Expression], units: str, lengths: frozenset[Fraction]) -> Sorted:
    """Sets apart what is surely no claim."""
    taken_back = withdrawn(transcript, found)
    claims: list[Claim] = []
    reasons: list[str] = []
    meant = units_meant(transcript, found, units, lengths)
    listed = endless(found)
    for i, item in enumerate(found):
        claim = claim_of(transcript, found, i, units, meant[i], hedge_of(transcript, item))
        apart = taken_apart(transcript, found, i)
        reason = TAKEN_BACK if i in taken_back else apart or surely_no_claim(transcript, item, claim.around)
        if not reason and i in listed and claim.cell is None:
            reason = "one of many numbers with no word between them"
        if i and i - 1 in taken_back:
            claim = as_before(claim, claims[-1])
        claims.append(claim)
        reasons.append(reason)
    return Sorted(tuple(found), tuple(claims), tuple(reasons))


ENDLESS = 60  # numbers; the marks of a bed's slats, read out, are fewer


def endless(found: Sequence[Expression]) -> set[int]:
    """The numbers in longer rows than anyone says of a bed, with no word between: nothing is said of them."""
    out: set[int] = set()
    start = 0
    for at, item in enumerate(found, 1):
        if at == len(found) or found[at].first > item.last:
            out |= set(range(start, at)) if at - start > ENDLESS else set()
            start = at
    return out


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
