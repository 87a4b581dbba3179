"""How likely a number is a slip about a fact: what the words say of the fact, what the value says against it."""

from __future__ import annotations

import math
import re
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tutorial_lib.measures import Units
from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.local import Candidate, is_named, weigh
from tutorial_lib.narration.linking.slips import close, may_slip, nearest, roughly
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.turns import worked_out
from tutorial_lib.narration.linking.weights import SLIPS
from tutorial_lib.narration.numbers.lexicon import CARDINALS
from tutorial_lib.narration.verdicts.judging import verdict

LEAST_CHANCE = 2e-4  # a fact less likely than this is suspected only when it is named
HOLDS = ("agrees", "rounded")
DOUBTFUL = frozenset("another_bed other_size left supposed slack taken_back reported".split())
PLAIN = 0.5  # presence of a part at a number from which on it is plain what is spoken of
UNLIKELY, SAID_RIGHT, PRESENT = 0.05, 0.9, 0.7  # chances of other facts, of the right value elsewhere; of the part
EXCHANGED = 6  # claims apart, at most, for two values to have changed places


@dataclass(frozen=True, eq=False)
class Weighed:
    """One thing a number may be about: its chance, and the verdict if it is meant."""

    candidate: Candidate
    chance: float
    verdict: str  # agrees, rounded, conflicts; far: no slip of this fact; none: nothing in the plan

    @property
    def key(self) -> str:
        """The fact's key, "" for nothing."""
        return self.candidate.subject.key if self.candidate.subject else ""


def weighed(claim: Claim, candidate: Candidate, chance: float, units: Units) -> Weighed:
    """A candidate with its chance and verdict."""
    subject, reading = candidate.subject, candidate.reading
    if subject is None or reading is None:
        return Weighed(candidate, chance, "none")
    result = verdict(reading[0], subject, claim.hedge, units)[0]
    if result == "conflicts" and not may_slip(reading[0], subject) and not candidate.has("swapped_kind"):
        result = "far"
    return Weighed(candidate, chance, result)


class Overview:
    """All claims of a talk with what they may be about, ready to be asked how suspicious one is."""

    def __init__(self, claims: Sequence[Claim], rows: Sequence[Sequence[Weighed]], doubts: Sequence[frozenset[str]]):
        self.claims, self.rows, self.doubts = claims, rows, doubts
        self.said = Counter(c.readings[0] for c in claims if c.readings)
        self.by_value: dict[Reading, list[tuple[int, Weighed]]] = defaultdict(list)
        self.right: dict[str, list[tuple[int, float]]] = defaultdict(list)
        for at, row in enumerate(rows):
            for w in row:
                if w.candidate.reading is not None and w.chance > 1e-3:
                    self.by_value[w.candidate.reading].append((at, w))
                if w.verdict in HOLDS and w.chance > 0.01:
                    self.right[w.key].append((at, w.chance))

    def suspects(self, at: int) -> list[tuple[Weighed, float]]:
        """The facts a claim may be a slip about, each with its probability, the likeliest first."""
        about = self.of_claim(at)
        found = [
            (w, 1 / (1 + math.exp(-weigh(SLIPS, [*about, *self.of_fact(at, w)]))))
            for w in self.rows[at]
            if may_be_meant(w)
        ]
        return sorted(found, key=lambda f: -f[1])

    def of_claim(self, at: int) -> list[tuple[str, float]]:
        """Named features of a claim, whatever fact is meant."""
        claim, row = self.claims[at], self.rows[at]
        holds = [w for w in row if w.verdict in HOLDS]
        again = self.said[claim.readings[0]] if claim.readings else 1
        out = [
            ("bias", 1.0),
            ("none", log_odds(row[0].chance)),
            ("holds", log_odds(max((w.chance for w in holds), default=0.0))),
            ("a_fact", float(any(w.verdict == "agrees" for w in holds))),
            ("wrong", log_odds(sum(w.chance for w in row if w.verdict == "conflicts"))),
            ("said_again", float(again > 1)),
            ("said_often", math.log(again)),
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
        candidate, claim, row = w.candidate, self.claims[at], self.rows[at]
        subject, reading = candidate.subject, candidate.reading
        if subject is None or reading is None:
            return
        rivals = [o.candidate for o in row if o.verdict in HOLDS]
        named = float(self.named_alone(at, w))
        yield "chance", log_odds(w.chance)
        yield "named", named
        for name in ("touches", "part", "part_behind", "cue_hit", "noun_hit", "noun_own"):
            yield name, candidate.has(name)
        yield "typical", float(candidate.has("typical") > 0)
        yield from against(candidate, rivals)
        late = float(at > 0.85 * len(self.claims))
        yield "late_named", late * named
        yield "recap_named", float(claim.recap) * named
        yield "worked_out", float(worked_out(self.claims, subject, at))
        yield "exchanged", self.exchanged(at, w)
        yield "off", abs(math.log(roughly(reading[0], nearest(reading[0], subject))))
        yield from self.of_kind(claim, subject)
        yield from self.elsewhere(at, subject, reading)

    def exchanged(self, at: int, w: Weighed) -> float:
        """Whether two values said close by have changed places: each right for the other's fact; by how many named."""
        near = range(max(0, at - EXCHANGED), min(at + EXCHANGED + 1, len(self.rows)))
        others = ((i, o) for i in near if i != at for o in self.rows[i] if o.verdict == "conflicts")
        found = next(((i, o) for i, o in others if changed_places(w.candidate, o.candidate)), None)
        return 0.0 if found is None else float(self.named_alone(at, w)) + float(self.named_alone(*found))

    def named_alone(self, at: int, w: Weighed) -> bool:
        """Whether a fact is named right beside a number, and none that the value is right for."""
        return is_named(w.candidate) and not any(is_named(o.candidate) for o in self.rows[at] if o.verdict in HOLDS)

    def may_be_sure(self, at: int, w: Weighed) -> bool:
        """Whether a conflict may be called sure at all: the subject is plain, and the value no other likely fact's.

        Nothing around speaks of something else; the part is named in the sentence, or the numbers before come to the
        plan's value; where the value is another fact's, this one is named right beside it.
        """
        subject = w.candidate.subject
        if subject is None or self.doubts[at] & DOUBTFUL:
            return False
        named = self.named_alone(at, w)
        if any(o.verdict in HOLDS for o in self.rows[at]) and not named:
            return False
        return named or w.candidate.has("part") >= PLAIN or worked_out(self.claims, subject, at)

    def contradicts(self, at: int, w: Weighed) -> bool:
        """Whether a number plainly contradicts: its part is present, the right value is said elsewhere in the talk.

        Or it counts boards right before their section and length; and no other fact is likely.
        """
        subject, candidate = w.candidate.subject, w.candidate
        rivals = max((o.chance for o in self.rows[at] if o.verdict in HOLDS), default=0.0)
        if subject is None or rivals >= UNLIKELY or self.doubts[at] & DOUBTFUL:
            return False
        if AND_MORE.match(self.claims[at].around.after):  # it may be half of a number
            return False
        right = max((chance for i, chance in self.right[subject.key] if i != at), default=0.0)
        boards = candidate.has("name_next") and candidate.has("stock_length_hit")
        return bool(boards) or (right >= SAID_RIGHT and candidate.has("part") >= PRESENT)

    def surely_exchanged(self, at: int, w: Weighed) -> bool:
        """Whether two values changed places, each said right beside the name of the other's part."""
        return self.exchanged(at, w) == 2 and not self.doubts[at] & DOUBTFUL

    def of_kind(self, claim: Claim, subject: Subject) -> Iterator[tuple[str, float]]:
        """What kind of fact it is."""
        yield "count", float(subject.is_count)
        yield "small_count", float(subject.is_count and claim.item.value <= 4)
        yield "each", float(subject.is_count and subject.scope == "each")
        yield "total", float(subject.scope == "total")
        yield "stock", float(subject.kind.startswith("stock"))

    def elsewhere(self, at: int, subject: Subject, reading: Reading) -> Iterator[tuple[str, float]]:
        """The fact said rightly elsewhere, and the same value said of this fact or another."""
        right = [chance for i, chance in self.right[subject.key] if i != at]
        yield "right_elsewhere", max(right, default=0.0)
        yield "right_often", math.log1p(sum(c > 0.5 for c in right))
        again = [w for i, w in self.by_value[reading] if i != at]
        yield "again_this", max((w.chance for w in again if w.key == subject.key), default=0.0)
        yield "again_other", max((w.chance for w in again if w.key != subject.key), default=0.0)


def against(candidate: Candidate, rivals: Sequence[Candidate]) -> Iterator[tuple[str, float]]:
    """How much better a fact is named than those that the value is right for."""
    touches, noun = candidate.has("touches") > 0.9, candidate.has("noun_hit") > 0
    yield "touches_alone", float(touches and not any(r.has("touches") > 0.5 for r in rivals))
    yield "noun_alone", float(noun and not any(r.has("noun_hit") for r in rivals))
    yield "part_lead", candidate.has("part") - max((r.has("part") for r in rivals), default=0.0)


AND_MORE = re.compile(r"and (?:\d|(?:" + "|".join(CARDINALS) + r")\b)")


def changed_places(one: Candidate, other: Candidate) -> bool:
    """Whether each of two numbers is right for the other's fact."""
    if one.subject is None or one.reading is None or other.subject is None or other.reading is None:
        return False
    if one.subject is other.subject or one.subject.unit != other.subject.unit:
        return False
    return close(other.reading[0], one.subject) and close(one.reading[0], other.subject)


def may_be_meant(w: Weighed) -> bool:
    """Whether a slip about a fact is worth a thought."""
    return w.verdict == "conflicts" and (w.chance >= LEAST_CHANCE or is_named(w.candidate))


def log_odds(chance: float) -> float:
    """A chance as log-odds, no surer than one in ten thousand."""
    held = min(max(chance, 1e-4), 1 - 1e-4)
    return math.log(held / (1 - held))
