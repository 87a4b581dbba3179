"""The first look at a number: the facts it may speak of, each weighed by the words and the value alone."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from tutorial_lib.narration.linking.aspects import cues_wanted
from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.fits import Fit, Right
from tutorial_lib.narration.linking.mentions import Mentions
from tutorial_lib.narration.linking.scoring import (
    counted_by,
    features,
    part_salience,
    rest_salience,
    touches_part,
)
from tutorial_lib.narration.linking.slips import may_slip
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.sums import Made
from tutorial_lib.narration.linking.weights import KINDS, NONE, WEIGHTS
from tutorial_lib.narration.linking.wording import NONE as NOTHING
from tutorial_lib.narration.linking.wording import all_classes_of, evidence, wording
from tutorial_lib.narration.numbers.lexicon import DURATIONS, MASSES, MONEY

COMMON_CUES = frozenset("long longways wide thick deep tall each total offset spacing stock gap depth".split())
OF_VALUE = frozenset(  # features that rest on the value said
    "equal equal_rare equal_stock equal_rivals equal_alone hedged typical slip far swapped_kind count_off sure_part "
    "cue_typical cue_slip cue_far touch_typical touch_slip touch_far noun_typical noun_slip noun_far split_off "
    "operand_off elsewhere_equal made".split()
)
Feature = tuple[str, float]
NOTHING_NAMED: Mapping[str, float] = {}
KEEP = 18  # candidates kept a claim
MOST = 40  # and of those whose part is named
WORDED = 2.0  # [log-odds] how near the best by the words alone a candidate stays whatever the value
HOPELESS = 9.0  # [log-odds] so far below the best nothing else in the talk can lift a candidate


class Candidate(NamedTuple):  # quick to make: there are a dozen to a number
    """A fact a claim may speak of (None: nothing in the plan), and how well it fits [log-odds]."""

    subject: Subject | None = None
    reading: Reading | None = None
    equal: bool = False  # the value said is the fact's
    score: float = 0.0
    words: float = 0.0  # the score without what the value says
    named: Mapping[str, float] = NOTHING_NAMED  # its features

    def has(self, name: str) -> float:
        """One of its features, 0 when it doesn't have it."""
        return self.named.get(name, 0.0)


def candidates(
    mentions: Mentions, claim: Claim, subjects: Sequence[Subject], doubt: frozenset[str], made: Made
) -> list[Candidate]:
    """The facts that fit a claim best, the choice of none before them; ``made``: what the numbers before come to."""
    words = evidence(wording(mentions.transcript, claim.item, mentions.parts))
    none = weigh(NONE, none_features(claim, doubt)) + words.get(NOTHING, 0.0)
    scored = [
        scored_one(subject, reading, named, told_of(words, subject))
        for subject, reading, named in described(mentions, claim, subjects, made)
    ]
    return kept(Candidate(score=none), scored)


def told_of(words: Mapping[str, float], subject: Subject) -> float:
    """How much the words around a number speak for a fact by its classes, and how often those are spoken of."""
    told = told_always(subject)
    for name in all_classes_of(subject):
        told += words.get(name, 0.0)
    return told


@lru_cache(maxsize=4096)
def told_always(subject: Subject) -> float:
    """How often the classes of a fact are spoken of, whatever the words around a number [log-odds]."""
    return sum(KINDS.get(name, 0.0) for name in all_classes_of(subject))


def scored_one(subject: Subject, reading: Reading, named: Sequence[Feature], told: float) -> Candidate:
    """A fact as a candidate; ``told``: what the words say of its classes."""
    had, by_value = {}, 0.0
    for name, value in named:
        if value:
            had[name] = value
            weight = WEIGHTS.get(name, 0.0) * value
            told += weight
            if name in OF_VALUE:
                by_value += weight
    same = "equal" in had
    return Candidate(subject=subject, reading=reading, equal=same, score=told, words=told - by_value, named=had)


def kept(none: Candidate, scored: list[Candidate]) -> list[Candidate]:
    """The choice of none, then the candidates worth a second look, the best first; those that are named all stay."""
    ranked = sorted(scored, key=lambda c: -c.score)
    least = max(ranked[0].score, none.score) - HOPELESS if ranked else 0.0
    worded = max((c.words for c in ranked), default=0.0) - WORDED
    likely = [
        c
        for n, c in enumerate(ranked)
        if (n < KEEP and c.score > least) or (n < MOST and (c.words > worded or is_marked(c)))
    ]
    return [none, *likely]


def is_named(candidate: Candidate) -> bool:
    """Whether the fact's part is named right beside the number: then it stays a candidate whatever the value."""
    counted = candidate.subject is not None and candidate.subject.kind == "part_count"
    return candidate.has("touches") > 0.9 or (counted and candidate.has("noun_hit") > 0)


def is_marked(candidate: Candidate) -> bool:
    """Whether a fact stays a candidate whatever its score: it is named, or the numbers before come to it."""
    return is_named(candidate) or candidate.has("made") > 0


def weigh(weights: Mapping[str, float], named: Iterable[tuple[str, float]]) -> float:
    """The sum of named features with their weights [log-odds]."""
    return sum(weights.get(name, 0.0) * value for name, value in named if value)


def described(
    mentions: Mentions, claim: Claim, subjects: Sequence[Subject], made: Made
) -> Iterator[tuple[Subject, Reading, list[tuple[str, float]]]]:
    """The facts that compete for a claim, each with the reading that fits it and its named features."""
    front = front_of(mentions, claim, subjects)
    found = list(prospects(mentions, claim, made))
    equal = sum(same for _, _, same in found)
    for subject, reading, same in found:
        named = features(mentions, claim, subject, reading, front)
        if same:
            named.append(("equal_rivals", math.log(equal)))
            named.append(("equal_alone", float(equal == 1)))
        elif not may_slip(reading[0], subject):
            named.append(("swapped_kind", 1.0))
        elif made.of(subject):
            named.append(("made", 1.0))
        yield subject, reading, named


def front_of(mentions: Mentions, claim: Claim, subjects: Sequence[Subject]) -> float:
    """The salience of the part spoken of most at a claim."""
    if claim.cell is not None:
        return max((part_salience(mentions, claim, s) for s in subjects), default=0.0)
    return mentions.front(claim.item.first, claim.item.last)


def prospects(mentions: Mentions, claim: Claim, made: Made) -> Iterator[tuple[Subject, Reading, bool]]:
    """The facts a claim may speak of, each with the reading that fits it, and whether the value is the fact's.

    Marks in a row are said one by one.
    """
    fits, right = mentions.fits.of(claim.readings)
    for fit in fits:
        if fit.equal or may_be_wrong(mentions, claim, fit, right, made):
            yield fit.subject, fit.reading, fit.equal


def may_be_wrong(mentions: Mentions, claim: Claim, fit: Fit, right: Right, made: Made) -> bool:
    """Whether a value that isn't the fact's may be a slip about it; ``right``: what it is right for."""
    subject = fit.subject
    if not fit.slips:
        return swapped_kind(mentions, claim, subject, right)
    near = fit.missed or of_same_part(subject, right)
    return near or not value_alone(mentions, claim, subject) or made.of(subject)


def swapped_kind(mentions: Mentions, claim: Claim, subject: Subject, right: Right) -> bool:
    """Whether it is the value of another part's fact of the same kind and the part is named, or of the same part's."""
    if len(subject.floats) > 1 or subject.floats[0] <= 0:
        return False
    alike = subject.kind in right.kinds and touches_part(mentions, claim, subject) > 0.9
    return alike or of_same_part(subject, right)


def of_same_part(subject: Subject, right: Right) -> bool:
    """Whether a length is of the part that another fact, right for the value, belongs to."""
    return subject.is_length and subject.group in right.parts


def value_alone(mentions: Mentions, claim: Claim, subject: Subject) -> bool:
    """Whether nothing but the value, or a word as common as "long", could speak for a fact.

    Then it is no candidate for a number that differs from it.
    """
    if claim.item.unit == subject.unit and subject.unit in (*MASSES, *MONEY, *DURATIONS, "grit"):
        return False  # few facts have such a unit
    if part_salience(mentions, claim, subject) >= 0.08 or rest_salience(mentions, claim, subject) >= 0.08:
        return False
    if (cues_wanted(subject) & claim.cues) - COMMON_CUES:
        return False
    if subject.is_count and not counted_by(subject).isdisjoint(claim.noun):
        return False
    stock = subject.kind in ("stock_count", "stock_length")
    return not (stock and (claim.item.unit in ("ft", "m") or subject.timber in claim.names[:1]))


def none_features(claim: Claim, doubt: frozenset[str]) -> list[tuple[str, float]]:
    """Named features of the choice of none."""
    item, named = claim.item, claim.name_after
    out = [
        ("bias", 1.0),
        ("one", float(item.value == 1 and not item.unit and not ONE_BOARD.match(claim.around.after) and not named)),
        ("split", float(claim.place.split)),
        ("operand", float(claim.place.operand)),
        ("per_unknown", float("foreign_per" in doubt)),
        ("unit", float(bool(item.unit))),
        ("small", float(item.value in (2, 3) and not item.unit)),
    ]
    return out + [(name, 1.0) for name in sorted(doubt - {"foreign_per"})]


ONE_BOARD = re.compile(r",?(?:more|length|lump|piece|stick|board|plank|bit|of the same|of those|sheet)\b")
