"""Three answers to a number: sure that it is right, sure that it is wrong, or a question to the person.

The limits were chosen on talks left out of the fit by whole writers (tests/narration/fit_weights.py): of what is
called a conflict at least 95 in 100 are slips, of what is linked at least 97 in 100 are linked rightly.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence

from tutorial_lib.narration.linking.slips import close, may_slip
from tutorial_lib.narration.linking.weights import CERTAINTY, LIMITS
from tutorial_lib.narration.numbers.stems import stem
from tutorial_lib.narration.verdicts import evidence
from tutorial_lib.narration.verdicts.exchanged import exchanged_apart
from tutorial_lib.narration.verdicts.suspicion import HOLDS, Overview, Weighed, weighed
from tutorial_lib.records import dataclass

CHOICES = 3
CONTRADICTED = 0.35  # enough for a number that contradicts plainly what is said elsewhere in the talk
HEARD = 0.08  # the least presence of a word that counts as said
PLAIN, FAINT = 0.95, 0.015  # certainty of a link, and probability of a slip, with which nothing is asked
WORTH_OFFERING = 0.02  # a fact less likely than this is no help in a list of choices


@dataclass(frozen=True)
class Decision:
    """What the check says of a claim."""

    verdict: str  # agrees, rounded, fits, unsure, conflicts; none: nothing in the plan
    certainty: float
    meant: Weighed | None = None  # for agrees, rounded, conflicts
    choices: tuple[Weighed, ...] = ()  # for fits and unsure, best first


def decide(overview: Overview, at: int) -> Decision:
    """The answer to one claim."""
    row = overview.rows[at]
    best = max(row, key=lambda w: w.chance)
    suspects = overview.suspects(at)
    settled = next((w for w, _ in suspects if overview.is_settled(at, w)), None)
    if settled is not None:
        return Decision("conflicts", max(LIMITS["sure"], suspects[0][1]), settled)
    if suspects:
        suspect, probability = suspects[0]
        plain = probability >= CONTRADICTED and overview.contradicts(at, suspect)
        if plain or (probability >= LIMITS["sure"] and overview.may_be_sure(at, suspect)):
            return Decision("conflicts", probability, suspect)
        if probability >= LIMITS["ask"] and not (probability < FAINT and is_plain(best)):
            return Decision("unsure", probability, None, offered(row, suspect))
    held = holder_named(overview, at, best)
    return Decision("unsure", LIMITS["ask"], None, (best, held)) if held else plainly(row, best)


def is_plain(best: Weighed) -> bool:
    """Whether a value is right for a fact that is hardly another than the one meant."""
    return best.verdict == "agrees" and certainty(best.chance) >= PLAIN


IN_EACH = re.compile(r"^(?:[^ ,]+ ){0,2}?(?:in|into|to|on|at|per|for) (?:each|every) (.*)")


def holder_named(overview: Overview, at: int, best: Weighed) -> Weighed | None:
    """A fact of what is named as having so many each, where the value is right for another's: "in each corner".

    Four screws in each corner are none in each corner leg.
    """
    found = IN_EACH.match(overview.claims[at].around.after)
    if found is None or best.verdict not in HOLDS or not is_each(best):
        return None
    holder = tuple(stem(word) for word in found[1].split()[:3])
    if has(best, holder):
        return None
    least = overview.worded(at, best)
    of_it = (w for w in ranked(overview.rows[at]) if w.verdict == "conflicts" and is_each(w) and has(w, holder))
    return next((w for w in of_it if overview.worded(at, w) >= least), None)


def is_each(w: Weighed) -> bool:
    """Whether a fact counts what each of several has."""
    subject = w.candidate.subject
    return subject is not None and subject.is_count and subject.scope == "each"


def has(w: Weighed, holder: tuple[str, ...]) -> bool:
    """Whether words begin with a name for the part of a fact."""
    subject = w.candidate.subject
    return subject is not None and any(holder[: len(name)] == name for name in subject.said)


def decided(overview: Overview) -> list[Decision]:
    """The answers to all claims; what may have changed places with another number is asked about."""
    first = [decide(overview, at) for at in range(len(overview.rows))]
    apart = exchanged_apart(overview)
    return [
        other_half(overview, first, at) or (asked_apart(decision, apart[at]) if at in apart else decision)
        for at, decision in enumerate(first)
    ]


def asked_apart(decision: Decision, exchange: tuple[Weighed, Weighed]) -> Decision:
    """A question where a value may have changed places with one said elsewhere in the talk."""
    told = decision.verdict in ("conflicts", "unsure")
    return decision if told else Decision("unsure", LIMITS["ask"], None, exchange)


def other_half(overview: Overview, decisions: Sequence[Decision], at: int) -> Decision | None:
    """A question where a number is right for what one close by is surely wrong about, and that one for another fact."""
    if decisions[at].verdict not in (*HOLDS, "fits"):
        return None
    near = range(max(0, at - evidence.EXCHANGED), min(at + evidence.EXCHANGED + 1, len(decisions)))
    wrong = ((j, decisions[j].meant) for j in near if decisions[j].verdict == "conflicts")
    found = (half_of(overview, at, j, w) for j, w in wrong if w is not None)
    return next((question for question in found if question), None)


def half_of(overview: Overview, at: int, j: int, wrong: Weighed) -> Decision | None:
    """The question about one number, where another is surely wrong about a fact that it is right for."""
    mine = overview.of[at].get(wrong.key)
    theirs = next((o for o in ranked(overview.rows[j]) if o.verdict in HOLDS), None)
    if not (mine and theirs and mine.verdict in HOLDS and may_be_other_half(mine, theirs)):
        return None
    meant = theirs.candidate._replace(reading=mine.candidate.reading, equal=False)
    slip = weighed(overview.claims[at], meant, 0.0, overview.units)
    return Decision("unsure", LIMITS["ask"], None, (mine, slip)) if slip.verdict == "conflicts" else None


def may_be_other_half(mine: Weighed, theirs: Weighed) -> bool:
    """Whether a value can be a slip about a fact, and isn't a small number, right for many."""
    subject, reading = theirs.candidate.subject, mine.candidate.reading
    if subject is None or reading is None or subject.kind == "stock_length" or subject.unit != reading[1]:
        return False
    return reading[0] > evidence.SMALL and may_slip(reading[0], subject) and not close(reading[0], subject)


def plainly(row: Sequence[Weighed], best: Weighed) -> Decision:
    """The answer where no slip is suspected: linked when sure, else it fits some fact or speaks of nothing."""
    sure = certainty(best.chance)
    if best.verdict in HOLDS and sure >= LIMITS["commit"] and is_spoken_of(best):
        return Decision(best.verdict, sure, best)
    if best.verdict == "none":
        return Decision("none", best.chance)
    fits = tuple(w for w in ranked(row) if w.verdict in HOLDS and w.chance >= WORTH_OFFERING)[:CHOICES]
    return Decision("fits", sum(w.chance for w in fits), None, fits) if fits else Decision("none", row[0].chance)


def is_spoken_of(w: Weighed) -> bool:
    """Whether anything but the value speaks for a fact: its part, other words of it, or words for its kind."""
    return max(w.candidate.has(name) for name in ("part", "rest", "cue_hit")) >= HEARD


def offered(row: Sequence[Weighed], suspect: Weighed) -> tuple[Weighed, ...]:
    """The two or three facts a doubtful number may be about: the likeliest, the suspected one among them."""
    likely = [w for w in ranked(row) if w.verdict in (*HOLDS, "conflicts") and w.chance >= WORTH_OFFERING]
    return tuple(ranked([suspect, *[w for w in likely if w is not suspect][: CHOICES - 1]]))


def ranked(row: Sequence[Weighed]) -> list[Weighed]:
    """The likeliest first."""
    return sorted(row, key=lambda w: -w.chance)


def certainty(chance: float) -> float:
    """A link's chance as the share of such links that were right on talks left out of the fit."""
    at = bisect_left(CERTAINTY, (chance, -1.0))
    if at == 0:
        return CERTAINTY[0][1]
    if at == len(CERTAINTY):
        return CERTAINTY[-1][1]
    (x0, y0), (x1, y1) = CERTAINTY[at - 1], CERTAINTY[at]
    return y0 + (y1 - y0) * (chance - x0) / (x1 - x0)
