"""How likely a number is a slip about a fact: what the words say of the fact, what the value says against it."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from tutorial_lib.measures import Units
from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.linked import shares
from tutorial_lib.narration.linking.local import Candidate, is_marked, is_named, weigh
from tutorial_lib.narration.linking.slips import (
    differs,
    may_slip,
)
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.sums import before
from tutorial_lib.narration.linking.tally import Tally
from tutorial_lib.narration.linking.weights import SLIPS
from tutorial_lib.narration.verdicts import evidence
from tutorial_lib.narration.verdicts.judging import verdict
from tutorial_lib.narration.verdicts.partly import is_called, is_part_of_more

LEAST_CHANCE, WORDED = 2e-4, 0.2  # a fact less likely is suspected only when it is named, or this likely by the words
HOLDS = ("agrees", "rounded")
SIZED = ("length", "height", "part_count")
DOUBTFUL = frozenset("another_bed other_size left supposed slack taken_back reported foreign_per".split())
UNLIKELY = 0.05  # chance of another fact that the value is right for, to be left out of account
JUST = 8  # [words] from the fact's own value to a number said right after it
SOON, SOON_WORDS = 3, 25  # numbers and words within which the right value takes a wrong one back
BESIDE = 4  # [words] between two numbers said of one part
SAID_RIGHT, PRESENT = 0.9, 0.7  # chance of the right value elsewhere; presence of the part
PAIRED = 0.1  # chance that the number beside is right for another fact of a part
RIGHTLY = 0.3  # chance of the fact that the number said just before was right for
RIVAL, LEAD = 0.5, 1.0  # chance of another fact that forbids a sure conflict; how much better this one is worded


class Weighed(NamedTuple):  # quick to make: there are a dozen to a number
    """One thing a number may be about: its chance, and the verdict if it is meant."""

    candidate: Candidate
    chance: float
    verdict: str  # agrees, rounded, conflicts; far: no slip of this fact; none: nothing in the plan
    key: str = ""  # the fact's, "" for nothing


def weighed(claim: Claim, candidate: Candidate, chance: float, units: Units) -> Weighed:
    """A candidate with its chance and verdict."""
    subject, reading = candidate.subject, candidate.reading
    if subject is None or reading is None:
        return Weighed(candidate, chance, "none")
    result = verdict(reading[0], subject, claim.hedge, units)[0]
    if result == "conflicts" and not may_slip(reading[0], subject) and not candidate.has("swapped_kind"):
        result = "far"
    return Weighed(candidate, chance, result, subject.key)


class Overview:
    """All claims of a talk with what they may be about, ready to be asked how suspicious one is."""

    def __init__(
        self,
        claims: Sequence[Claim],
        rows: Sequence[Sequence[Weighed]],
        doubts: Sequence[frozenset[str]],
        units: Units,
    ) -> None:
        self.claims, self.rows, self.doubts, self.units = claims, rows, doubts, units
        self.said = Counter(c.readings[0] for c in claims if c.readings)
        self.by_value: dict[Reading, dict[str, Tally]] = defaultdict(lambda: defaultdict(Tally))
        self.right: dict[str, Tally] = defaultdict(Tally)
        for at, row in enumerate(rows):
            self.take(at, row)
        self.of = [{w.key: w for w in row} for row in rows]
        self.equal_here = [[w for w in row if w.candidate.equal] for row in rows]
        self.looked_at = -1  # the number in hand
        self.changes: dict[str, list[tuple[int, Weighed]]] = {}  # what each fact may have changed places with there
        self.beyond_doubt: dict[str, bool] = {}
        self.right_here = [right_in(row) for row in rows]
        self.counted = counts_spoken_of(rows)
        self.wording = [worded_shares(row) for row in rows]
        self.parts_right = [right_by_part(row) for row in self.right_here]
        self.most_worded = [max(found.values(), default=0.0) for found in self.wording]
        self.rival_worded = list(map(best_worded, self.wording, self.right_here))

    def take(self, at: int, row: Sequence[Weighed]) -> None:
        """Notes what one claim may say, and rightly."""
        for w in row:
            if w.candidate.reading is not None and w.chance > 1e-3:
                self.by_value[w.candidate.reading][w.key].add(w.chance, at)
            if w.verdict in HOLDS and w.chance > 0.01:
                self.right[w.key].add(w.chance, at)

    def suspects(self, at: int) -> list[tuple[Weighed, float]]:
        """The facts a claim may be a slip about, each with its probability, the likeliest first."""
        meant = [w for w in self.rows[at] if self.may_be_meant(at, w)]
        about = weigh(SLIPS, self.of_claim(at)) if meant else 0.0
        found = [(w, 1 / (1 + math.exp(-about - weigh(SLIPS, self.of_fact(at, w))))) for w in meant]
        return sorted(found, key=lambda f: -f[1])

    def may_be_meant(self, at: int, w: Weighed) -> bool:
        """Whether a slip about a fact is worth a thought."""
        likely = w.chance >= LEAST_CHANCE or is_marked(w.candidate) or self.worded(at, w) >= WORDED
        return w.verdict == "conflicts" and likely and not self.other_side_said(at, w)

    def other_side_said(self, at: int, w: Weighed) -> bool:
        """Whether a fact was said rightly as the first of a pair that this number is the second of, rightly too."""
        item = self.claims[at].item
        if item.pair < 2 or not at or self.claims[at - 1].item.pair != item.pair - 1:
            return False
        before = self.of[at - 1].get(w.key)
        right = before is not None and before.verdict == "agrees"
        return right and any(o.verdict == "agrees" and same_part(o, w) for o in self.right_here[at])

    def of_claim(self, at: int) -> list[tuple[str, float]]:
        """Named features of a claim, whatever fact is meant."""
        claim, row, holds = self.claims[at], self.rows[at], self.right_here[at]
        again = self.said[claim.readings[0]] if claim.readings else 1
        out = [
            ("bias", 1.0),
            ("none", log_odds(row[0].chance)),
            ("holds", log_odds(max((w.chance for w in holds), default=0.0))),
            ("a_fact", float(any(w.verdict == "agrees" for w in holds))),
            ("wrong", log_odds(sum(w.chance for w in row if w.verdict == "conflicts"))),
            ("said_again", float(again > 1)),
            ("said_often", math.log(again)),
            ("no_holds", float(not holds)),
            ("sum_right", float(self.sum_right(at))),
            *self.of_place(at),
        ]
        return out + [(f"doubt_{name}", 1.0) for name in sorted(self.doubts[at])]

    def of_place(self, at: int) -> Iterator[tuple[str, float]]:
        """How a claim stands in its sentence and in the talk."""
        claim, claims = self.claims[at], self.claims
        item = claim.item
        yield "hedge", float(claim.hedge != 0)
        yield "unit", float(bool(item.unit))
        yield "next_close", float(at + 1 < len(claims) and claims[at + 1].item.first - item.last <= 1)
        yield "before_close", float(at > 0 and item.first - claims[at - 1].item.last <= 1)
        yield "operand", float(claim.place.operand)
        yield "recap", float(claim.recap)
        yield "decimal", float(item.decimal)
        yield "late", float(at > 0.85 * len(claims))
        yield "long", float(item.value > 12 or item.value.denominator > 1)

    def of_fact(self, at: int, w: Weighed) -> Iterator[tuple[str, float]]:
        """Named features of a claim as a slip about one fact."""
        candidate, claim, holds = w.candidate, self.claims[at], self.right_here[at]
        subject, reading = candidate.subject, candidate.reading
        if subject is None or reading is None:
            return
        beside = self.beside_right(at, subject)
        yield "chance", log_odds(w.chance)
        yield "chance_plain", w.chance
        yield "named", float(self.named_alone(at, w))
        for name in ("touches", "part", "part_behind", "cue_hit", "noun_hit", "noun_own", "made"):
            yield name, candidate.has(name)
        yield "typical", float(candidate.has("typical") > 0)
        yield from against(candidate, [o.candidate for o in holds])
        yield from self.of_words(at, w)
        yield from form(claim, subject, reading, any(o.chance > UNLIKELY for o in holds), self.worded(at, w))
        yield "exchanged", self.exchanged(at, w)
        yield "settled", float(self.settled(at, w))
        yield "right_soon", float(self.right_soon(at, w))
        yield "beside_right", beside
        yield "pair_right", beside * float(claim.item.pair > 1)
        yield from self.of_kind(claim, subject)
        yield from self.elsewhere(at, subject, reading)

    def of_words(self, at: int, w: Weighed) -> Iterator[tuple[str, float]]:
        """How much the words alone speak for a fact, and against those that the value is right for."""
        mine = self.worded(at, w)
        yield "worded", mine
        yield "worded_log", log_odds(mine)
        yield "worded_most", float(mine >= self.most_worded[at] - 1e-9)
        yield "worded_lead", self.lead(at, w) if self.right_here[at] else 0.0

    def worded(self, at: int, w: Weighed) -> float:
        """The chance of a fact by the words alone, among the facts in question."""
        return self.wording[at].get(w.key, 0.0)

    def lead(self, at: int, w: Weighed) -> float:
        """How much more the words speak for a fact than for any that the value is right for [log-odds, up to 4]."""
        return min(4.0, max(-4.0, math.log((self.worded(at, w) + 1e-3) / (self.rival_worded[at] + 1e-3))))

    def sum_right(self, at: int) -> bool:
        """Whether the numbers just said come to the value said."""
        made = before(self.claims, at)
        return any(map(made.gives, self.claims[at].readings))

    def right_soon(self, at: int, w: Weighed) -> bool:
        """Whether the fact's own value follows soon: then the speaker corrects it or adds up to it."""
        for j in range(at + 1, min(at + 1 + SOON, len(self.claims))):
            if self.claims[j].item.first - self.claims[at].item.last > SOON_WORDS:
                return False
            same = self.of[j].get(w.key)
            if same is not None and same.verdict in HOLDS and same.chance > UNLIKELY:
                return True
        return False

    def beside_right(self, at: int, subject: Subject) -> float:
        """The chance that the number right before or after is right for another fact of the same part."""
        claims, best = self.claims, 0.0
        for low in (at - 1, at):
            if 0 <= low < len(claims) - 1 and claims[low + 1].item.first - claims[low].item.last <= BESIDE:
                right = self.parts_right[low if low < at else low + 1].get(subject.group, ())
                best = max(best, max((chance for key, chance in right if key != subject.key), default=0.0))
        return best

    def look_at(self, at: int) -> None:
        """Forgets what was found of the number before: one is looked at after another."""
        if self.looked_at != at:
            self.looked_at, self.changes, self.beyond_doubt = at, {}, {}

    def exchanges(self, at: int, w: Weighed) -> list[tuple[int, Weighed]]:
        """The numbers close by that may have changed places with one: each is right for what the other is said of."""
        self.look_at(at)
        found = self.changes.get(w.key)
        if found is None:
            found = self.changes[w.key] = list(self.exchanged_with(at, w))
        return found

    def exchanged_with(self, at: int, w: Weighed) -> Iterator[tuple[int, Weighed]]:
        """Looks for those numbers."""
        rivals = [o.key for o in self.equal_here[at] if evidence.may_change_places(w, o)]
        near = range(max(0, at - evidence.EXCHANGED), min(at + evidence.EXCHANGED + 1, len(self.rows)))
        for j in near if rivals else ():
            right = self.of[j].get(w.key)
            if j != at and right is not None and right.candidate.equal:
                yield from ((j, o) for o in self.wrong_about(j, rivals))

    def wrong_about(self, at: int, keys: Sequence[str]) -> Iterator[Weighed]:
        """The facts of some that a number is wrong about."""
        found = (self.of[at].get(key) for key in keys)
        yield from (o for o in found if o is not None and o.verdict in ("conflicts", "far"))

    def exchanged(self, at: int, w: Weighed) -> float:
        """Whether two values said close by have changed places: each right for the other's fact; by how many named."""
        found = next(((j, o) for j, o in self.exchanges(at, w) if o.verdict == "conflicts"), None)
        return 0.0 if found is None else float(self.named_alone(at, w)) + float(self.named_alone(*found))

    def named_alone(self, at: int, w: Weighed) -> bool:
        """Whether a fact is named right beside a number, and none that the value is right for."""
        return is_named(w.candidate) and not any(is_named(o.candidate) for o in self.right_here[at])

    def may_be_sure(self, at: int, w: Weighed) -> bool:
        """Whether a conflict may be called sure at all: the subject is plain, and the value no other likely fact's.

        Nothing around speaks of something else, and the right value doesn't follow.
        """
        subject = w.candidate.subject
        if subject is None or self.doubts[at] & DOUBTFUL or self.right_soon(at, w) or self.repeats(at):
            return False
        if is_called(self.claims[at]) or self.just_said(at, w):
            return False
        return not (is_part_of_more(self.claims[at], subject) or self.rivalled(at, w))

    def just_said(self, at: int, w: Weighed) -> bool:
        """Whether the fact's own value was said right before, and its part isn't named again: of what else, then?"""
        if at == 0 or is_named(w.candidate) or self.claims[at].item.first - self.claims[at - 1].item.last > JUST:
            return False
        o = self.of[at - 1].get(w.key)
        return o is not None and o.verdict == "agrees" and o.chance > RIGHTLY

    def repeats(self, at: int) -> bool:
        """Whether a number is the one just said, and that one rightly: then it is said of the same thing again."""
        said = self.claims[at].readings[:1]
        before = (j for j in (at - 1, at - 2) if j >= 0 and self.claims[j].readings[:1] == said)
        return any(w.chance > RIGHTLY for j in before for w in self.right_here[j])

    def contradicts(self, at: int, w: Weighed) -> bool:
        """Whether a number, sure enough, contradicts what is said rightly elsewhere of a part spoken of right here."""
        right = self.right[w.key].best_but(at)
        return right >= SAID_RIGHT and w.candidate.has("part") >= PRESENT and self.may_be_sure(at, w)

    def rivalled(self, at: int, w: Weighed) -> bool:
        """Whether the value is right for another fact that is as likely meant."""
        rivals = self.right_here[at]
        if self.is_paired(at, rivals):
            return True
        plain = not rivals or (self.named_alone(at, w) and is_sized(w))
        return not plain and (max(o.chance for o in rivals) >= RIVAL or self.lead(at, w) < LEAD)

    def is_paired(self, at: int, rivals: Sequence[Weighed]) -> bool:
        """Whether the number beside is right for another fact of a part that this one is right for."""
        parts = [o.candidate.subject for o in rivals if o.candidate.subject is not None]
        return any(self.beside_right(at, part) > PAIRED for part in parts)

    def is_settled(self, at: int, w: Weighed) -> bool:
        """Whether a claim is wrong about a fact beyond doubt: two values changed places, or ``evidence`` says so."""
        named = self.exchanged(at, w) == 2 and not self.doubts[at] & DOUBTFUL
        return named or self.settled(at, w)

    def settled(self, at: int, w: Weighed) -> bool:
        """Whether ``evidence`` says so."""
        self.look_at(at)
        found = self.beyond_doubt.get(w.key)
        if found is None:
            found = self.beyond_doubt[w.key] = evidence.settled(self, at, w)
        return found

    def of_kind(self, claim: Claim, subject: Subject) -> Iterator[tuple[str, float]]:
        """What kind of fact it is."""
        yield "count", float(subject.is_count)
        yield "small_count", float(subject.is_count and claim.item.value <= 4)
        yield "each", float(subject.is_count and subject.scope == "each")
        yield "total", float(subject.scope == "total")
        yield "stock", float(subject.kind.startswith("stock"))

    def elsewhere(self, at: int, subject: Subject, reading: Reading) -> Iterator[tuple[str, float]]:
        """The fact said rightly elsewhere, and the same value said of this fact or another."""
        right = self.right[subject.key]
        yield "right_elsewhere", right.best_but(at)
        yield "right_often", math.log1p(right.likely)
        said = self.by_value[reading]
        mine = said[subject.key]
        yield "again_this", mine.best_but(at)
        yield "again_other", max((other.best_but(at) for other in said.values() if other is not mine), default=0.0)


def against(candidate: Candidate, rivals: Sequence[Candidate]) -> Iterator[tuple[str, float]]:
    """How much better a fact is named than those that the value is right for."""
    touches, noun = candidate.has("touches") > 0.9, candidate.has("noun_hit") > 0
    yield "touches_alone", float(touches and not any(r.has("touches") > 0.5 for r in rivals))
    yield "noun_alone", float(noun and not any(r.has("noun_hit") for r in rivals))
    yield "part_lead", candidate.has("part") - max((r.has("part") for r in rivals), default=0.0)


def counts_spoken_of(rows: Sequence[Sequence[Weighed]]) -> list[Subject]:
    """The counts of parts that the numbers of a talk may speak of."""
    spoken = {w.key: w.candidate.subject for row in rows for w in row}
    return [s for s in spoken.values() if s is not None and s.kind == "part_count"]


def worded_shares(row: Sequence[Weighed]) -> dict[str, float]:
    """The chance of each fact in question by the words alone."""
    facts = [w for w in row if w.candidate.subject is not None]
    return dict(zip([w.key for w in facts], shares([w.candidate.words for w in facts]), strict=True)) if facts else {}


def right_in(row: Sequence[Weighed]) -> list[Weighed]:
    """The facts that a value is right for."""
    return [w for w in row if w.verdict in HOLDS]


def best_worded(wording: Mapping[str, float], right: Sequence[Weighed]) -> float:
    """The chance by the words alone of the fact that they speak for most, of those a value is right for."""
    return max((wording[w.key] for w in right), default=0.0)


def right_by_part(right: Sequence[Weighed]) -> dict[object, list[tuple[str, float]]]:
    """The facts that a value is right for, by their part, each with its chance."""
    out: dict[object, list[tuple[str, float]]] = defaultdict(list)
    for w in right:
        if w.candidate.subject is not None:
            out[w.candidate.subject.group].append((w.key, w.chance))
    return out


def form(
    claim: Claim, subject: Subject, reading: Reading, rivalled: bool, worded: float
) -> Iterator[tuple[str, float]]:
    """In which way a value differs from the fact's, and how telling that is."""
    wrong = differs(reading[0], subject)
    yield "off", wrong.off
    yield "units", float(wrong.mixed)
    yield "units_worded", float(wrong.mixed) * worded
    yield "digits", float(wrong.digits)
    yield "swapped", float(wrong.swapped)
    yield "swapped_alone", float(wrong.swapped and not rivalled)
    yield "fraction", float(wrong.fraction)
    yield "fraction_alone", float(wrong.fraction and not rivalled)
    yield "one_off", float(wrong.one_off)
    yield "choice", math.log(max(1.0, float(claim.item.value) * min(claim.item.value.denominator, 64)))


def same_part(one: Weighed, other: Weighed) -> bool:
    """Whether two facts are of one kind and part."""
    a, b = one.candidate.subject, other.candidate.subject
    return a is not None and b is not None and (a.group, a.kind) == (b.group, b.kind)


def is_sized(w: Weighed) -> bool:
    """Whether the name of a part alone says which of its facts is meant, or words for the kind of quantity do."""
    subject = w.candidate.subject
    return subject is not None and (subject.kind in SIZED or w.candidate.has("cue_hit") > 0)


def log_odds(chance: float) -> float:
    """A chance as log-odds, no surer than one in ten thousand."""
    held = min(max(chance, 1e-4), 1 - 1e-4)
    return math.log(held / (1 - held))
