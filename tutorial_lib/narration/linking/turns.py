"""How a number follows the ones before it: given again, the other side of a pair, each and then the total."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.local import Candidate
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.sums import REACH, sums_up
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS

METRIC = ("mm", "cm", "m")
RECALLED = re.compile(
    r"\b(?:tape|call(?:s|ed)?|say|round(?:s|ed)? (?:it|that)?)\b(?: (?:it|that|says|will|a|an|fat|to|about)){0,4},?$"
)


@lru_cache(maxsize=8192)
def recalled(claim: Claim) -> bool:
    """Whether a value is another way to put the one before ("call it a metre", "on the tape, 20 3/16")."""
    return bool(RECALLED.search(claim.around.before))


@lru_cache(maxsize=8192)
def restated(before: Claim, claim: Claim) -> bool:
    """Whether a length is given again in the other system right away ("55 inches (1397 mm)", "38, or 965 mil")."""
    a, b = before.item, claim.item
    if (
        a.unit not in ("", *LENGTHS)
        or b.unit not in LENGTHS
        or (b.unit in METRIC) == ((a.unit or "in") in METRIC)
        or b.first - a.last > 9
    ):
        return False
    if not alike(a, b):
        return False
    return (claim.aside and b.first - a.last <= 4) or b.pair == a.pair > 0


def alike(a: Expression, b: Expression) -> bool:
    """Whether two measures are the same length within a sixth, or in a unit ten times too large or small."""
    if a.value <= 0:
        return False
    ratio = b.value * LENGTHS[b.unit] / (a.value * LENGTHS[a.unit or "in"])
    return any(Fraction(5, 6) <= ratio * scale <= Fraction(6, 5) for scale in (1, 10, Fraction(1, 10)))


def beside(claims: Sequence[Claim], before: Subject, subject: Subject, at: int) -> list[tuple[str, float]]:
    """Features of a fact after the fact before it, of the same part: a pair's other side, each and then total."""
    if before.group != subject.group:
        return []
    return [
        ("pair", float(claims[at].item.pair > 1 and before.key != subject.key and other_side(before, subject))),
        ("each_total", float(is_total_of(before, subject))),
        ("count_at", float(count_then_length(claims, before, subject, at))),
    ]


def other_side(before: Subject, subject: Subject) -> bool:
    """Whether two facts are said as a pair: width by length, a screw's diameter by its length."""
    if before.kind == subject.kind and ordered(before.axis, subject.axis):
        return True
    sizes = ("screw_length", "bolt_length", "section", "length")
    return before.kind in ("diameter", "section") and subject.kind in sizes


def count_then_length(claims: Sequence[Claim], before: Subject, subject: Subject, at: int) -> bool:
    """ "Fourteen slats at 38 1/4"."""
    kinds = before.kind == "part_count" and subject.kind == "length"
    near = claims[at].item.first - claims[at - 1].item.last <= 5
    return kinds and near and bool(LENGTH_NEXT.search(claims[at].around.before))


LENGTH_NEXT = re.compile(r"\b(?:at|they're|are|cut|length|all)(?: to)?$")


def summed(claims: Sequence[Claim], picks: Sequence[Candidate], subject: Subject, at: int) -> bool:
    """Whether a count sums up an "each" said a moment before, with what it is multiplied by in between."""
    if subject.scope not in ("total", "bed") or claims[at].item.unit or not sums_up(claims[at]):
        return False
    start = claims[at].item.first
    for i in range(at - 1, max(-1, at - 5), -1):
        each = picks[i].subject
        if start - claims[i].item.last > REACH:
            return False
        if each is not None and each.scope == "each" and each.group == subject.group and is_total_of(each, subject):
            return True
    return False


def is_total_of(before: Subject, subject: Subject) -> bool:
    """Whether a count is the total of the one before."""
    scopes = before.scope in ("each", "bed", "") and subject.scope in ("bed", "total")
    return before.kind == subject.kind and subject.is_count and scopes


def ordered(first: str, second: str) -> bool:
    """Whether two axes come in the order people say a size: width by length, thickness by width, width by thickness."""
    return (first, second) in {
        ("width", "length"),
        ("thickness", "width"),
        ("width", "thickness"),
        ("thickness", "depth"),
        ("depth", "thickness"),
        ("length", "width"),
        ("", ""),
        ("width", "height"),
    }
