"""The second look at a number: what the rest of the talk says of the facts it may speak of.

Four numbers in ten repeat one said before, often with no part named; a number belongs to what is spoken of around it.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.local import Candidate
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.sums import sums_up, worked_out
from tutorial_lib.narration.linking.tally import Tally
from tutorial_lib.narration.linking.turns import beside, recalled, restated, summed

Chances = Sequence[Sequence[float]]  # a row each claim, a chance each candidate
Feature = tuple[str, float]
LEAST = math.exp(-9.0)
CUT = 2  # numbers before a count of pieces among which their length is
SMALL, CLOSE = 4, 3  # a value up to this is right for many facts; words between two numbers of a pair


class Talk:
    """What the first look found in a whole talk, ready to be asked."""

    def __init__(self, claims: Sequence[Claim], options: Sequence[Sequence[Candidate]], chances: Chances) -> None:
        self.claims, self.options, self.chances = claims, options, chances
        self.none = [row[0] for row in chances]
        self.by_fact: list[dict[str, tuple[float, Reading]]] = []
        self.by_group: list[dict[object, float]] = []
        self.by_kind: list[dict[str, float]] = []
        self.values: dict[Reading, dict[str, Tally]] = defaultdict(lambda: defaultdict(Tally))
        self.nones: dict[Reading, list[float]] = defaultdict(list)  # of the claims that may have said a value
        self.right: dict[str, Tally] = defaultdict(Tally)
        self.best: list[Candidate] = []
        self.equal_groups: list[set[object]] = []
        for at, (found, row) in enumerate(zip(options, chances, strict=True)):
            self.take(at, found, row)
        self.none_sums = {reading: (sum(found), len(found)) for reading, found in self.nones.items()}

    def take(self, at: int, found: Sequence[Candidate], row: Sequence[float]) -> None:
        """Notes one claim."""
        fact: dict[str, tuple[float, Reading]] = {}
        group: dict[object, float] = defaultdict(float)
        kind: dict[str, float] = defaultdict(float)
        for candidate, chance in zip(found, row, strict=True):
            subject, reading = candidate.subject, candidate.reading
            if subject is not None and reading is not None:
                fact[subject.key] = (chance, reading)
                group[subject.group] += chance
                kind[subject.kind] += chance
                self.values[reading][subject.key].add(chance, at)
                if candidate.equal:
                    self.right[subject.key].add(chance, at)
        for reading in {reading for _, reading in fact.values()}:
            self.nones[reading].append(row[0])
        self.equal_groups.append(groups_right(found))
        self.by_fact.append(fact)
        self.by_group.append(group)
        self.by_kind.append(kind)
        self.best.append(found[max(range(len(row)), key=row.__getitem__)])

    def features(self, at: int, place: int) -> list[Feature]:
        """Named features of one candidate of one claim."""
        candidate, chance = self.options[at][place], self.chances[at][place]
        first = ("first", math.log(max(chance, LEAST)))
        if candidate.subject is None or candidate.reading is None:
            return [("none_first", first[1]), *self.of_none(at)]
        return [
            first,
            *self.heard(at, candidate.subject, candidate.reading),
            *self.near(at, candidate.subject, candidate.reading, candidate.equal),
            *self.turns(at, candidate.subject, candidate.equal),
        ]

    def of_none(self, at: int) -> Iterator[Feature]:
        """Whether the numbers around speak of nothing either, and the same value elsewhere."""
        yield "none_bias", 1.0
        before, after = self.none[max(0, at - 2) : at], self.none[at + 1 : at + 2]
        yield "none_before", sum(before) / len(before) if before else 0.5
        yield "none_after", after[0] if after else 0.5
        total, count = self.nones_elsewhere(at)
        yield "none_heard", total / count if count else 0.5
        yield "none_alone", float(not count)

    def nones_elsewhere(self, at: int) -> tuple[float, int]:
        """The other claims that may have said a value: their chances of speaking of nothing summed, and how many."""
        reading = next(iter(self.claims[at].readings), None)
        if reading is None or reading not in self.none_sums:
            return 0.0, 0
        total, count = self.none_sums[reading]
        mine = any(said == reading for _, said in self.by_fact[at].values())
        return total - mine * self.none[at], count - mine

    def heard(self, at: int, subject: Subject, reading: Reading) -> Iterator[Feature]:
        """The same value elsewhere in the talk, said of this fact or of another."""
        said = self.values[reading]
        mine = said[subject.key]
        yield "heard", math.log1p(max(0.0, mine.total - self.by_fact[at][subject.key][0]))
        yield "heard_best", mine.best_but(at)
        yield "heard_rival", max((other.best_but(at) for other in said.values() if other is not mine), default=0.0)

    def near(self, at: int, subject: Subject, reading: Reading, equal: bool) -> Iterator[Feature]:
        """The same fact a few numbers before or after, with the same value or another."""
        for name, close in (("before", self.by_fact[max(0, at - 3) : at]), ("after", self.by_fact[at + 1 : at + 3])):
            found = [said[subject.key] for said in close if subject.key in said]
            if found:
                yield f"same_{name}", max((p for p, r in found if r == reading), default=0.0)
                yield f"other_{name}", max((p for p, r in found if r != reading), default=0.0)
        if not equal:
            yield "right_elsewhere", self.right[subject.key].best_but(at)

    def turns(self, at: int, subject: Subject, equal: bool) -> Iterator[Feature]:
        """The part and the kind of thing spoken of just before and after; sums; values given again."""
        last = len(self.claims)
        yield "part_before", self.presence(range(at - 1, max(-1, at - 4), -1), subject, (0.5, 0.3, 0.2))
        yield "part_after", self.presence(range(at + 1, min(at + 3, last)), subject, (0.6, 0.4))
        yield "kind_before", self.by_kind[at - 1].get(subject.kind, 0.0) if at else 0.0
        yield "kind_after", self.by_kind[at + 1].get(subject.kind, 0.0) if at + 1 < last else 0.0
        yield "equal_beside", float(equal and self.equal_beside(at, subject))
        yield "pieces_of", self.pieces_of(at, subject)
        yield from self.said_anew(at, subject)
        if sums_up(self.claims[at]):
            yield from self.as_sum(at, subject, equal)

    def as_sum(self, at: int, subject: Subject, equal: bool) -> Iterator[Feature]:
        """A number said as what those before it come to."""
        added = summed(self.claims, self.best, subject, at)
        worked = worked_out(self.claims, subject, at)
        yield "summed", float(added)
        yield "worked_out", float(worked)
        yield "summed_right", float(added and worked)
        yield "summed_off", float(added and not equal)

    def equal_beside(self, at: int, subject: Subject) -> bool:
        """Whether a number right beside is another fact's of the same part ("900 wide by 1900 long")."""
        claims = self.claims
        if claims[at].item.value <= SMALL:
            return False
        for low, high in ((at - 1, at), (at, at + 1)):
            if low >= 0 and high < len(claims) and claims[high].item.first - claims[low].item.last <= CLOSE:
                other = low + high - at
                if subject.group in self.equal_groups[other] and claims[other].item.value != claims[at].item.value:
                    return True
        return False

    def pieces_of(self, at: int, subject: Subject) -> float:
        """The chance that pieces counted without a name are those whose length was just said."""
        if subject.kind != "part_count" or "piece" not in self.claims[at].noun:
            return 0.0
        lengths = ((self.best[j].subject, max(self.chances[j])) for j in range(max(0, at - CUT), at))
        same = (p for s, p in lengths if s is not None and s.kind == "length" and s.group == subject.group)
        return max(same, default=0.0)

    def presence(self, places: Sequence[int], subject: Subject, shares: Sequence[float]) -> float:
        """How much a few claims speak of a fact's part."""
        group, total = subject.group, 0.0
        for share, j in zip(shares, places, strict=False):
            total += share * self.by_group[j].get(group, 0.0)
        return total

    def said_anew(self, at: int, subject: Subject) -> Iterator[Feature]:
        """A value given again in the other system, or put another way; a fact beside the one before."""
        claims = self.claims
        again = next((i for i in (at - 1, at - 2) if i >= 0 and restated(claims[i], claims[at])), None)
        if again is not None:
            yield "restated", self.by_fact[again].get(subject.key, (0.0, None))[0]
        if at:
            yield from self.after_one(at, subject)

    def after_one(self, at: int, subject: Subject) -> Iterator[Feature]:
        """The number before put another way; a fact beside that number's."""
        if recalled(self.claims[at]):
            yield "recalled", self.by_fact[at - 1].get(subject.key, (0.0, None))[0]
        before = self.best[at - 1].subject
        if before is not None:
            sure = self.by_fact[at - 1][before.key][0]
            yield from ((name, value * sure) for name, value in beside(self.claims, before, subject, at) if value)


def groups_right(found: Sequence[Candidate]) -> set[object]:
    """The parts that a value is a length of."""
    right = [c.subject for c in found if c.equal]
    return {s.group for s in right if s is not None and s.is_length}
