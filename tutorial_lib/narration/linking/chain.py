"""Each claim linked to the fact it speaks of: one talk is one problem, solved over all its claims together."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache

from tutorial_lib.narration.linking.aspects import cues_wanted
from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.mentions import Mentions
from tutorial_lib.narration.linking.scoring import (
    counted_by,
    features,
    part_salience,
    reading_for,
    rest_salience,
    stock_name,
)
from tutorial_lib.narration.linking.slips import close
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.weights import KINDS, NONE, TURNS, WEIGHTS
from tutorial_lib.narration.linking.wording import NONE as NOTHING
from tutorial_lib.narration.linking.wording import classes_of, evidence, wording
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS

COMMON_CUES = frozenset("long longways wide thick deep tall each total offset spacing stock gap depth".split())
METRIC = ("mm", "cm", "m")
KEEP = 7  # candidates kept a claim
HOPELESS = 11.0  # [log-odds] so far below the best no turn of the talk can lift a candidate
WIDTH = 16  # talks kept side by side while reading on


@dataclass(frozen=True)
class Candidate:
    """A fact a claim may speak of (None: nothing in the plan), and how well it fits."""

    subject: Subject | None
    reading: Reading | None
    score: float
    why: tuple[str, ...] = ()
    equal: bool = False


@dataclass
class Line:
    """One way to link the talk so far."""

    score: float
    picks: tuple[Candidate, ...]
    last_use: dict[str, int] = field(default_factory=dict)


def candidates(mentions: Mentions, claim: Claim, subjects: Sequence[Subject], doubt: frozenset[str]) -> list[Candidate]:
    """The facts that fit a claim best, and the choice of none."""
    words = evidence(wording(mentions.transcript, claim.item, mentions.parts))
    found = [Candidate(None, None, none_score(claim, doubt) + words.get(NOTHING, 0.0))]
    scored = []
    front = most_present(mentions, claim, subjects)
    for subject, reading in prospects(mentions, claim, subjects):
        named = features(mentions, claim, subject, reading, front)
        score = sum(WEIGHTS.get(n, 0.0) * v for n, v in named if v)
        score += sum(words.get(c, 0.0) + KINDS.get(c, 0.0) for c in classes_of(subject))
        scored.append(Candidate(subject, reading, score, (), close(reading[0], subject)))
    scored.sort(key=lambda c: -c.score)
    least = scored[0].score - HOPELESS if scored else 0.0
    return found + [c for c in scored[:KEEP] if c.score > least]


def prospects(mentions: Mentions, claim: Claim, subjects: Sequence[Subject]) -> Iterator[tuple[Subject, Reading]]:
    """The facts a claim may speak of, each with the reading that fits it; marks in a row are said one by one."""
    for subject in subjects:
        reading = reading_for(claim, subject)
        if reading is None or (len(subject.values) > 1 and not close(reading[0], subject)):
            continue
        if not value_alone(mentions, claim, subject):
            yield subject, reading


def most_present(mentions: Mentions, claim: Claim, subjects: Sequence[Subject]) -> float:
    """The salience of the part spoken of most at a claim."""
    return max((part_salience(mentions, claim, s) for s in subjects), default=0.0)


def value_alone(mentions: Mentions, claim: Claim, subject: Subject) -> bool:
    """Whether nothing but the value, or a word as common as "long", speaks for a fact: then it is no candidate."""
    if part_salience(mentions, claim, subject) >= 0.08 or rest_salience(mentions, claim, subject) >= 0.08:
        return False
    if (cues_wanted(subject) & claim.cues) - COMMON_CUES or claim.item.unit == subject.unit == "grit":
        return False
    if subject.is_count and counted_by(subject) & set(claim.noun):
        return False
    stock = subject.kind in ("stock_count", "stock_length")
    return not (stock and (claim.item.unit in ("ft", "m") or stock_name(subject)[0] in claim.names[:1]))


def none_score(claim: Claim, doubt: frozenset[str]) -> float:
    """How well "speaks of nothing in the plan" fits."""
    return sum(NONE.get(name, 0.0) * value for name, value in none_features(claim, doubt))


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


def link(claims: Sequence[Claim], options: Sequence[Sequence[Candidate]]) -> list[Candidate]:
    """The best choice for every claim, weighing the whole talk (beam search; bounded by claims x KEEP x WIDTH)."""
    lines = [Line(0.0, ())]
    for at in range(len(claims)):
        grown = [
            (line.score + option.score + turn(claims, line, at, option), line, option)
            for line in lines
            for option in options[at]
        ]
        grown.sort(key=lambda g: -g[0])
        lines = [extend(score, line, option, at) for score, line, option in grown[:WIDTH]]
    return untangled(lines[0].picks) if claims else []


def untangled(picks: Sequence[Candidate]) -> list[Candidate]:
    """Two lengths of stock said in one list, each wrong for its own board and right for the other's, change places."""
    out = list(picks)
    for i, a in enumerate(out):
        for j in range(i + 1, min(i + 5, len(out))):
            b = out[j]
            if crossed(a, b) and crossed(b, a):
                out[i], out[j] = replace(a, subject=b.subject, equal=True), replace(b, subject=a.subject, equal=True)
                break
    return out


def crossed(a: Candidate, b: Candidate) -> bool:
    """Whether a length of stock is wrong for its own fact and right for another's."""
    if a.subject is None or b.subject is None or a.reading is None or a.subject is b.subject:
        return False
    stock = a.subject.kind == b.subject.kind == "stock_length"
    return stock and not a.equal and close(a.reading[0], b.subject)


def extend(score: float, line: Line, option: Candidate, at: int) -> Line:
    """A line with one more choice."""
    used = line.last_use
    if option.subject is not None:
        used = {**used, option.subject.key: at}
    return Line(score, (*line.picks, option), used)


def turn(claims: Sequence[Claim], line: Line, at: int, option: Candidate) -> float:
    """What the choices before say about this one."""
    return sum(
        TURNS.get(name, 0.0) * value for name, value in turn_features(claims, line.picks, line.last_use, at, option)
    )


def turn_features(
    claims: Sequence[Claim], picks: Sequence[Candidate], last_use: dict[str, int], at: int, option: Candidate
) -> list[tuple[str, float]]:
    """Named features of a choice given the choices before it."""
    subject = option.subject
    if subject is None:
        return []
    out: list[tuple[str, float]] = []
    before = picks[-1] if picks else None
    used = last_use.get(subject.key)
    again = next((i for i in (at - 1, at - 2) if i >= 0 and restated(claims[i], claims[at])), None)
    if again is not None and picks[again].subject is not None:
        return [("restated", float(picks[again].subject is subject))]
    if before is not None and before.subject is subject and recalled(claims[at]):
        return [("recalled", 1.0)]
    if used is not None:
        out.append(("again", 1.0))
        out.append(("again_recap", float(claims[at].recap)))
        out.append(("again_late", float(at > 0.8 * len(claims))))  # talks end with the numbers once more
        out.append(("again_named", float(names_part(claims[at], subject))))
        out.append(("again_equal", float(option.equal and at - used > 5)))
        near = claims[at].item.first - claims[used].item.last < 25
        out.append(("clash", float(near and option.reading is not None and picks[used].reading != option.reading)))
    if before is not None and before.subject is not None:
        beside = neighbour(claims, before.subject, subject, at)
        out += beside if before.equal else [(n, v) for n, v in beside if n != "same_group"]  # a slip proves no part
    out.append(("summed", float(summed(claims, picks, subject, at))))
    out.append(("worked_out", float(worked_out(claims, subject, at))))
    out.append(("summed_right", out[-1][1] * out[-2][1]))
    recent = [p.subject.group == subject.group for p in picks[-5:] if p.subject is not None and p.equal]
    out.append(("recent", sum(recent) / 5))
    return out


@lru_cache(maxsize=8192)
def names_part(claim: Claim, subject: Subject) -> bool:
    """Whether a count is followed by the name of the part it counts ("sixteen slats")."""
    own = {p[-1] for p in (*subject.said, subject.head) if p}
    return subject.kind == "part_count" and bool(claim.noun) and claim.noun[-1] in own


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


def neighbour(claims: Sequence[Claim], before: Subject, subject: Subject, at: int) -> list[tuple[str, float]]:
    """Features of a fact after the fact before it: same part, a pair's other side, each and then total."""
    same = before.group == subject.group
    paired = claims[at].item.pair > 1 and before.key != subject.key
    sides = paired and same and before.kind == subject.kind and ordered(before.axis, subject.axis)
    across = (
        paired
        and before.kind in ("diameter", "section")
        and subject.kind in ("screw_length", "bolt_length", "section", "length")
        and same
    )
    total = is_total_of(before, subject) and same
    told = (
        before.kind == "part_count"
        and subject.kind == "length"
        and same
        and claims[at].item.first - claims[at - 1].item.last <= 5
        and bool(LENGTH_NEXT.search(claims[at].around.before))
    )
    return [
        ("same_group", float(same)),
        ("pair", float(sides or across)),
        ("each_total", float(total)),
        ("count_at", float(told)),
    ]


LENGTH_NEXT = re.compile(r"\b(?:at|they're|are|cut|length|all)(?: to)?$")


def is_total_of(before: Subject, subject: Subject) -> bool:
    """Whether a count is the total of the one before."""
    scopes = before.scope in ("each", "bed", "") and subject.scope in ("bed", "total")
    return before.kind == subject.kind and subject.is_count and scopes


SUMS_UP = re.compile(
    r"\b(?:that's|thats|therefore|is|makes|so|for|equals|total|to|through|,?and|you'll|up|out|makes)(?: \S+){0,2}$"
)


def summed(claims: Sequence[Claim], picks: Sequence[Candidate], subject: Subject, at: int) -> bool:
    """Whether a count sums up an "each" said a moment before, with what it is multiplied by in between."""
    if subject.scope not in ("total", "bed") or claims[at].item.unit or not sums_up(claims[at]):
        return False
    start = claims[at].item.first
    for i in range(at - 1, max(-1, at - 5), -1):
        each = picks[i].subject
        if start - claims[i].item.last > 30:
            return False
        if each is not None and each.scope == "each" and each.group == subject.group and is_total_of(each, subject):
            return True
    return False


@lru_cache(maxsize=8192)
def sums_up(claim: Claim) -> bool:
    """Whether a number may be the result of a sum: after "that's" or "makes", or opening a sentence."""
    return not claim.around.before or bool(SUMS_UP.search(claim.around.before))


def worked_out(claims: Sequence[Claim], subject: Subject, at: int) -> bool:
    """Whether a fact is what two numbers said just before come to: a product of counts, a sum or rest of lengths."""
    if not (subject.is_length or subject.scope in ("total", "bed", "")) or not sums_up(claims[at]):
        return False
    return (subject.value, subject.unit) in results(*claims[max(0, at - 4) : at + 1])


@lru_cache(maxsize=8192)
def results(*claims: Claim) -> frozenset[Reading]:
    """What the numbers before the last one come to, two by two, when they stand within thirty words of it."""
    said = [c for c in claims[:-1] if claims[-1].item.first - c.item.last <= 30]
    known = [reading for c in said for reading in c.readings[:2]]
    out: set[Reading] = set()
    for n, (a, unit) in enumerate(known):
        for b, other in known[n + 1 :]:
            if unit == other == "count" and min(a, b) > 1:
                out.add((a * b, unit))
            elif unit == other == "in":
                out |= {(a + b, unit), (abs(a - b), unit)}
    return frozenset(out)


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
