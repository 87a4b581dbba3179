"""What numbers said aloud come to: a product, a sum, a run added up, boards for so many pieces."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import combinations, pairwise, product
from typing import TypeVar

from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.slips import rough
from tutorial_lib.narration.linking.subjects import Subject

NEAR = 4  # numbers before, of which two make a product or a sum
RUN = 9  # numbers at most that are added up in a row
REACH, FAR = 30, 60  # [words] from a number to what it comes to; from the first of a run
STEP = 14  # [words] between two numbers of a run
Number = TypeVar("Number", Fraction, float)
Come = set[tuple[Fraction | int, str]]  # what numbers come to: value (inches for a length), unit
PLAIN = ("number", "dozen", "one")

SUMS_UP = re.compile(
    r"\b(?:that's|thats|therefore|is|makes|so|for|equals|total|to|through|,?and|you'll|up|(?<!ran )(?<!run )out|need|"
    r"bought|buy|grab|are)(?: \S+){0,2}$"
)
IN_ALL = re.compile(r"^(?:\S+ ){0,2}?,?(?:altogether|in all|all told|all up|in total|of them|the lot|total)\b")


@lru_cache(maxsize=8192)
def sums_up(claim: Claim) -> bool:
    """Whether a number may be the result of a sum: after "that's" or "makes", before "in all", or on its own."""
    around = claim.around
    return not around.before or bool(SUMS_UP.search(around.before) or IN_ALL.search(around.after))


def worked_out(claims: Sequence[Claim], subject: Subject, at: int) -> bool:
    """Whether the numbers just said come to a fact's value, and this one is said as what they come to."""
    return sums_up(claims[at]) and before(claims, at).of(subject)


class Made:
    """What a few numbers come to: roughly for a quick look, exactly where that finds something."""

    def __init__(self, said: Sequence[Claim]) -> None:
        self.last = said[-NEAR:]
        self.counted = [counts(claim) for claim in self.last]
        self.in_a_row: Come = set(runs(said))
        self.shares: Come = set(shared(self.counted))
        near = pairs(self.counted, [[rough(v) for v in lengths(claim)] for claim in self.last])
        self.roughly = {place(value) for value, _ in (*near, *self.in_a_row, *self.shares)}

    @cached_property
    def sums(self) -> Come:
        """Products, sums and differences, and runs added up."""
        return {*pairs(self.counted, [lengths(claim) for claim in self.last]), *self.in_a_row}

    def gives(self, reading: Reading) -> bool:
        """Whether a value is such a sum."""
        return place(rough(reading[0])) in self.roughly and reading in self.sums

    def of(self, subject: Subject) -> bool:
        """Whether it is a fact's value, of the kind that such sums give: boards for pieces by a share."""
        if place(subject.floats[0]) not in self.roughly:
            return False
        value = (subject.value, "in" if subject.is_length else subject.unit)
        whole = subject.value > 0 and (subject.is_length or subject.scope in ("total", "bed", ""))
        return whole and (value in self.sums or (subject.kind == "stock_count" and value in self.shares))


def place(value: Fraction | float) -> int:
    """Where a value stands, so that sums of floats meet the same sum of fractions; no mark lies at a step's edge."""
    return math.floor(value * 4096 + 0.25)


def before(claims: Sequence[Claim], at: int) -> Made:
    """What the numbers within thirty words before one come to."""
    return made(*claims[max(0, at - RUN) : at + 1])


@lru_cache(maxsize=8192)
def made(*claims: Claim) -> Made:
    """What the numbers before the last one come to."""
    first = claims[-1].item.first
    said: list[Claim] = []
    for claim in reversed(claims[:-1]):
        if first - claim.item.last > (REACH if len(said) < NEAR else FAR):
            break
        said.insert(0, claim)
    return Made(said)


@lru_cache(maxsize=8192)
def counts(claim: Claim) -> int:
    """A plain whole number without a unit; 0 for any other."""
    item = claim.item
    plain = item.form in PLAIN and not item.unit and item.value.denominator == 1 and not item.decimal
    return int(item.value) if plain and item.value > 0 else 0


def lengths(claim: Claim) -> list[Fraction]:
    """A number as a length, as it is likeliest meant [in]."""
    return [value for value, unit in claim.readings[:2] if unit == "in"]


def pairs(counted: Sequence[int], measured: Sequence[Sequence[Number]]) -> Iterator[tuple[Number | int, str]]:
    """Products and sums of two counts, sums and differences of two lengths."""
    for x, y in combinations(counted, 2):
        if min(x, y) > 1:
            yield x * y, "count"
            yield x + y, "count"
    for a, b in combinations(measured, 2):
        for v, w in product(a, b):
            yield v + w, "in"
            yield abs(v - w), "in"


def runs(said: Sequence[Claim]) -> Iterator[tuple[int, str]]:
    """The last three counts and more added up ("two here, two here, two and two")."""
    total, many = 0, 0
    for after, claim in pairwise([None, *reversed(said)]):
        assert claim is not None
        one = counts(claim)
        if not one or (after is not None and after.item.first - claim.item.last > STEP):
            return
        total, many = total + one, many + 1
        if many > 2:
            yield total, "count"


def shared(counted: Sequence[int]) -> Iterator[tuple[int, str]]:
    """How many boards give so many pieces ("sixteen slats, four from each")."""
    for x, y in combinations(counted, 2):
        if 1 < y < x:
            yield math.ceil(x / y), "count"


TIMES = re.compile(r"\b(?:times|by|multiplied by|lots of)$")
FOR_SO_MANY = re.compile(r"\bfor (?:the|all|both)$")
ONE_AND_OTHER = re.compile(r"^,?(?:\S+ )?(?:in|on|at|for|to|here|there|behind|over)\b")
CLOSE, WIDE = 12, 14  # [words] from the last of two numbers to what they come to; between the two


def spoken_sums(claims: Sequence[Claim], at: int) -> set[Fraction]:
    """What the counts right before a number come to by the words between them: times, one side and the other, a run.

    "Sixteen times four is", "seventeen on this side, seventeen on that side", "two here, two here, two and two".
    """
    out: set[Fraction] = set()
    if at > 1 and claims[at].item.first - claims[at - 1].item.last <= CLOSE:
        out |= set(of_two(claims[at - 2], claims[at - 1]))
        out |= set(of_run(claims, at))
    return out


def of_two(a: Claim, b: Claim) -> Iterator[Fraction]:
    """Two counts multiplied, or the same count twice."""
    x, y = counts(a), counts(b)
    if not x or not y or b.item.first - a.item.last > WIDE:
        return
    if TIMES.search(b.around.before) or FOR_SO_MANY.search(b.around.before):
        yield Fraction(x * y)
    if x == y and ONE_AND_OTHER.search(a.around.after) and ONE_AND_OTHER.search(b.around.after):
        yield Fraction(x + y)


def of_run(claims: Sequence[Claim], at: int) -> Iterator[Fraction]:
    """Three counts and more in a row, all the same but perhaps the last."""
    total, values, last = 0, list[int](), claims[at].item.first
    for claim in reversed(claims[max(0, at - RUN) : at]):
        one = counts(claim)
        if not one or last - claim.item.last > CLOSE - 3:
            return
        total, last = total + one, claim.item.first
        values.append(one)
        if len(values) > 2 and len(set(values[1:])) == 1:
            yield Fraction(total)
