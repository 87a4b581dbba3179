"""What settles by itself that a number is wrong, whatever else it may be right for: a sum said aloud that is wrong,
two values in each other's place, a length given again wrongly in the other system.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.sums import counts, spoken_sums, sums_up
from tutorial_lib.narration.linking.turns import is_total_of, restated

if TYPE_CHECKING:
    from tutorial_lib.narration.verdicts.suspicion import Overview, Weighed

EXCHANGED = 6  # claims apart, at most, for two values to have changed places
SMALL = 4  # whole numbers up to this are right for many facts
PREFERRED, PREFERRED_BOTH = 1.5, 5.5  # how much more the words speak for the other place [log-odds]: each, together
FIRST, NEXT = 0.3, 0.1  # of the chance of the fact that the words speak for most
SUM_REACH, SUM_BACK, PAIR_APART = 40, 6, 3  # [words], [numbers] before a total that it may be made of; between two
OF_LENGTH = 3  # [words] between a count and the length of what it counts
LEAST = 0.01  # chance of a fact that a spoken sum comes to
RESTATED = 0.2  # chance of the fact that the length before was right for


def settled(overview: Overview, at: int, w: Weighed) -> bool:
    """Whether a claim is wrong about a fact beyond doubt."""
    found = exchanged_by_words(overview, at, w) or exchanged_by_counts(overview, at, w)
    return found or reckoned(overview, at, w) or converted(overview, at, w)


def exchanged_by_words(overview: Overview, at: int, w: Weighed) -> bool:
    """Whether two values said close by are in each other's place, and the words at both speak for their places."""
    return may_have_moved(overview, at) and any(
        in_each_others_place(overview, at, w, j, o) for j, o in overview.exchanges(at, w) if may_have_moved(overview, j)
    )


def may_have_moved(overview: Overview, at: int) -> bool:
    """Whether a number can have changed places: no small one, none that is halved aloud or just said rightly."""
    claim = overview.claims[at]
    return not (is_small(claim) or HALF_OF.search(claim.around.before) or overview.repeats(at))


HALF_OF = re.compile(r"\bhalf (?:of|the)(?: the)?$")


def exchanged_by_counts(overview: Overview, at: int, w: Weighed) -> bool:
    """Whether so many of one length and so many of another are said, and the plan has them the other way round.

    "Twelve boards at 252 and six at 302", where the plan has three pieces of 252 and six of 302.
    """
    return any(counts_exchanged(overview, at, there, w) for there in (at + 2, at - 2))


def counts_exchanged(overview: Overview, at: int, there: int, w: Weighed) -> bool:
    """Whether the counts before two lengths are as many as the plan has of the other one."""
    if min(at, there) < 1 or max(at, there) >= len(overview.claims) or not right_length(overview, there, w.key):
        return False
    many, other = count_before(overview, at), count_before(overview, there)
    if many == other or min(many, other) == 0:
        return False
    mine, theirs = (pieces_of(overview, j, w.candidate.subject) for j in (at, there))
    return mine > 0 and many * mine == other * theirs


def count_before(overview: Overview, at: int) -> int:
    """The count said right before a length, of pieces that have it; 0 for none."""
    claims = overview.claims
    return counts(claims[at - 1]) if 0 <= claims[at].item.first - claims[at - 1].item.last <= OF_LENGTH else 0


def right_length(overview: Overview, at: int, key: str) -> bool:
    """Whether a number is right for a length."""
    o = overview.of[at].get(key)
    return o is not None and o.verdict == "agrees" and o.candidate.subject is not None and o.candidate.subject.is_length


def pieces_of(overview: Overview, at: int, like: Subject | None) -> int:
    """How many pieces of the plan have the length said; 0 where its keys don't tell which count goes with which."""
    if like is None:
        return 0
    said = [o.candidate.subject for o in overview.rows[at] if o.verdict == "agrees" and o.candidate.subject]
    parts = {part(s) for s in said if s.kind == like.kind}
    return sum(int(s.value) for s in overview.counted if part(s) in parts)


def part(subject: Subject) -> str:
    """The part a fact belongs to, by its key."""
    return subject.key.rpartition(".")[0]


def is_small(claim: Claim) -> bool:
    """Whether a number is a small whole one, right for many facts."""
    return claim.item.value.denominator == 1 and claim.item.value <= SMALL


def in_each_others_place(overview: Overview, at: int, w: Weighed, j: int, o: Weighed) -> bool:
    """Whether the words at two numbers speak for each other's values."""
    if each_and_total(w.candidate.subject, o.candidate.subject):
        return False
    here, there = preference(overview, at, w, o.key), preference(overview, j, o, w.key)
    return min(here, there) >= PREFERRED and here + there >= PREFERRED_BOTH and in_front(overview, at, w, j, o)


def in_front(overview: Overview, at: int, w: Weighed, j: int, o: Weighed) -> bool:
    """Whether the words speak for both facts nearly as much as for any other."""
    here = overview.worded(at, w) >= FIRST * overview.most_worded[at]
    return here and overview.worded(j, o) >= NEXT * overview.most_worded[j]


def preference(overview: Overview, at: int, w: Weighed, key: str) -> float:
    """How much more the words speak for a fact than for another [log-odds]."""
    other = overview.wording[at].get(key, 0.0)
    return math.log((overview.worded(at, w) + 1e-6) / (other + 1e-6))


def may_change_places(one: Weighed, other: Weighed) -> bool:
    """Whether the values of two facts can be taken for each other's; a timber is bought in several lengths."""
    a, b = one.candidate.subject, other.candidate.subject
    return a is not None and b is not None and a is not b and a.unit == b.unit and a.kind != "stock_length"


def each_and_total(one: Subject | None, other: Subject | None) -> bool:
    """Whether one of two facts is the total of the other."""
    return one is not None and other is not None and (is_total_of(one, other) or is_total_of(other, one))


def converted(overview: Overview, at: int, w: Weighed) -> bool:
    """Whether the length just said rightly is given again in the other system, and wrongly."""
    claims = overview.claims
    before = [j for j in (at - 1, at - 2) if j >= 0 and restated(claims[j], claims[at])]
    return any(
        o.key == w.key and o.verdict == "agrees" and o.chance > RESTATED for j in before for o in overview.rows[j]
    )


def reckoned(overview: Overview, at: int, w: Weighed) -> bool:
    """Whether the numbers just said come to the fact's value, said as their total or as boards to buy, and it isn't."""
    claim, subject = overview.claims[at], w.candidate.subject
    if subject is None or not counts(claim) or claim.place.operand or not sums_up(claim):
        return False
    if overview.right_soon(at, w) or claim.item.value in spoken_sums(overview.claims, at):
        return False
    return boards_reckoned(overview, at, subject) if subject.kind == "stock_count" else total_reckoned(overview, at, w)


def total_reckoned(overview: Overview, at: int, w: Weighed) -> bool:
    """Whether so many of each said just before come to a total, or a sum said aloud does; no other fact is meant."""
    subject = w.candidate.subject
    if subject is None or not subject.is_count or subject.scope not in ("total", "bed") or w.chance < LEAST:
        return False
    best = max(overview.rows[at], key=lambda o: o.chance)
    if best.verdict in ("agrees", "rounded") or (best.verdict == "conflicts" and best.key != w.key):
        return False
    return subject.value in spoken_sums(overview.claims, at) or subject.value in products(overview, at, subject)


def products(overview: Overview, at: int, total: Subject) -> Iterator[Fraction]:
    """What so many of each of a part, said just before, come to with the counts beside."""
    each = said_right(overview, at, lambda s: s.scope == "each" and s.group == total.group and is_total_of(s, total))
    for j, _ in each:
        beside = (i for i in before(overview, at) if i != j and abs(i - j) <= PAIR_APART)
        yield from (Fraction(counts(overview.claims[i]) * counts(overview.claims[j])) for i in beside)


def boards_reckoned(overview: Overview, at: int, subject: Subject) -> bool:
    """Whether so many pieces, so many from a board, take the boards of the plan ("sixteen slats, four from each")."""
    for j, rate in said_right(overview, at, lambda s: s.kind == "pieces_per_board"):
        pieces = said_right(overview, j, lambda s, of=rate: s.kind == "part_count" and s.group == of.group)  # type: ignore[misc]
        if j == at - 1 and any(boards(p.value, rate.value) == subject.value for _, p in pieces):
            return True
    return False


def boards(pieces: Fraction, a_board: Fraction) -> int:
    """How many boards so many pieces take."""
    return math.ceil(pieces / a_board)


def before(overview: Overview, at: int) -> list[int]:
    """The few numbers before one that it may be made of, the nearest first."""
    claims = overview.claims
    places = range(at - 1, max(-1, at - 1 - SUM_BACK), -1)
    return [j for j in places if claims[at].item.first - claims[j].item.last <= SUM_REACH]


def said_right(overview: Overview, at: int, wanted: Callable[[Subject], bool]) -> list[tuple[int, Subject]]:
    """The facts wanted that the numbers before one are right for, with their places."""
    return [
        (j, w.candidate.subject)
        for j in before(overview, at)
        for w in overview.rows[j]
        if w.verdict == "agrees" and w.candidate.subject is not None and wanted(w.candidate.subject)
    ]
