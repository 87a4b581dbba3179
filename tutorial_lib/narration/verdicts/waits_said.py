"""Days and hours of waiting said of this bed against the plan's: between coats, for the mattress, until the screws."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.hearing import Heard
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.verdicts.items import Choice
from tutorial_lib.narration.verdicts.ruled import ELSEWHERE, Ruled, judged
from tutorial_lib.narration.verdicts.writing import written

HOURS = {"min": Fraction(1, 60), "h": Fraction(1), "d": Fraction(24), "days": Fraction(24), "weeks": Fraction(168),
         "months": Fraction(720)}  # fmt: skip
TOPICS = (  # words that a wait is told with, in the talk and in the plan
    re.compile(
        r"\b(?:(?:re)?-?tighten\w*|snug\w* up|nip\w* up|(?:go|gone|going|went) (?:back )?(?:over|round|around)"
        r" (?:\S+ ){0,3}?(?:screws|bolts)|(?:screws|bolts) (?:\S+ ){0,2}?again|screws are gone over)\b"
    ),
    re.compile(
        r"\b(?:mattress (?:\S+ ){0,2}?(?:goes|go|back|on)|(?:before|until|till) (?:\S+ ){0,5}?mattress|cures?|"
        r"cured|curing)\b"
    ),
    re.compile(
        r"\b(?:between (?:the |those |two )?(?:coats|layers)|between (?:them|each)|(?:coat|layer)s?\b.*\bbetween|"
        r"recoat\w*|(?:second|next|another) (?:coat|layer))\b"
    ),
)


def wait_said(heard: Heard, i: int, waits: Sequence[Subject]) -> Ruled | None:
    """What the plan says of a time of waiting; None where the plan has no such.

    Args:
        heard: the talk.
        i: the number's place among those heard.
        waits: facts that are times.
    """
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    if item.unit not in HOURS or not is_wait(claim) or heard.doubts(claim) & ELSEWHERE:
        return None
    topic = topic_of(claim)
    said = item.value * HOURS[item.unit]
    of = [s for s in waits if topic is not None and is_told(s, item.unit, said) and topic.search(s.what)]
    if not of:
        return None
    times = sorted(s.value * HOURS[s.unit] for s in of)
    if len(of) > 1 and times[0] <= said <= times[-1]:
        nearest = min(of, key=lambda s: abs(s.value * HOURS[s.unit] - said))
        return judged((item.value,), item.unit, [choice(claim, nearest, within=True)], sure=True)
    ordered = sorted(of, key=lambda s: abs(s.value * HOURS[s.unit] - said))
    sure = len(of) == 1 or said < times[0]
    return judged((item.value,), item.unit, [choice(claim, s) for s in ordered[:1]], sure)


def is_told(wait: Subject, unit: str, said: Fraction) -> bool:
    """Whether a rule tells a wait said in a unit; hours near those of a "time" are linked as any other number.

    Args:
        wait: a fact that is a time.
        unit: that it is said in.
        said: what is said [h].
    """
    if wait.unit not in HOURS:
        return False
    true = wait.value * HOURS[wait.unit]
    return wait.kind == "wait" or HOURS[unit] >= HOURS["days"] or not true / 2 <= said <= true * 2


WAITS = re.compile(
    r"\b(?:wait\w*|leave|leaving|let|give|allow|after|in|within|for|least|needs?|takes?|until|till|once|every|dr(?:y|ies))"
    r"(?: \S+){0,3}$"
)
WAITS_AFTER = re.compile(
    r"^(?:,?\S+ ){0,2}?,?(?:later|before|between|until|till|after|then|from now|on|to (?:dry|cure))\b"
)


WENT_BY = re.compile(r"\b(?:all|those|these|last|past|took)$")


def is_wait(claim: Claim) -> bool:
    """Whether a time is said as one to wait, and not as one that went by ("it rained all three days")."""
    if WENT_BY.search(claim.around.before):
        return False
    return bool(WAITS.search(claim.around.before) or WAITS_AFTER.match(claim.around.after))


def topic_of(claim: Claim) -> re.Pattern[str] | None:
    """What a time is said of: by its clause, else by the words near it; None where no wait or more than one is told."""
    around = claim.around
    for text in (around.clause, f"{around.before} {around.after}"):
        found = [topic for topic in TOPICS if topic.search(text)]
        if found:
            return found[0] if len(found) == 1 else None
    return None


def choice(claim: Claim, subject: Subject, within: bool = False) -> Choice:
    """What a time means if it is said of a wait; the plan's value in the unit it is said in."""
    scale = HOURS[subject.unit] / HOURS[claim.item.unit]
    said, true = claim.item.value, subject.value * scale
    near = within or abs(said - true) <= true * Fraction(7, 100)
    verdict = "agrees" if said == true else "rounded" if near else "conflicts"
    reasons = {"agrees": "the plan has the same", "rounded": "the plan's time, near enough"}
    return Choice(
        subject=subject.key,
        what=subject.what,
        plan_value=(true,),
        unit=claim.item.unit,
        kind=subject.kind,
        verdict=verdict,
        why=reasons.get(verdict, f"the plan has {written(subject.value, subject.unit, 'in')}"),
    )
