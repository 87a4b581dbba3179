"""Screws' gauges said ("number twelve screws", "number eights") against those of the plan."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.linking.hearing import Heard
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.verdicts.items import Choice
from tutorial_lib.narration.verdicts.parts_named import named_within
from tutorial_lib.narration.verdicts.ruled import ELSEWHERE, Ruled, judged

SOLD = range(2, 15)  # gauges that wood screws are sold in


def gauge_said(heard: Heard, i: int, gauges: Sequence[Subject], screws: Sequence[Subject]) -> Ruled | None:
    """What the plan says of a gauge; None where it isn't said of this bed.

    Args:
        heard: the talk.
        i: the number's place among those heard.
        gauges: facts of the gauges of screws.
        screws: facts of the lengths of screws.
    """
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    if item.value not in SOLD or not gauges:
        return None
    of, sure = meant(heard, i, gauges, screws)
    spoken = set(claim.around.sentence.split())
    of = sorted(of, key=lambda s: -len(spoken.intersection(re.split(r"\W", s.what))))  # the part by its own word first
    made = judged((item.value,), "gauge", sorted((choice(item.value, s) for s in of), key=is_wrong), sure)
    doubtful = bool(heard.doubts(claim) & ELSEWHERE)
    return None if doubtful and made.verdict in ("conflicts", "unsure") else made


def meant(heard: Heard, i: int, gauges: Sequence[Subject], screws: Sequence[Subject]) -> tuple[Sequence[Subject], bool]:
    """The gauges that may be meant, and whether it is sure: of the part named, of the length said; else any."""
    item, claim, said = heard.sorted_out.found[i], heard.sorted_out.claims[i], heard.transcript
    for stretch in (said.comma, said.sentence):
        of = named_within(said, item.first, gauges, stretch)
        if of:
            return of, len({s.value for s in of}) == 1
    long = {s.group for s in screws if any(abs(s.value - v) < Fraction(1, 32) for v in claim.lengths)}
    of = [s for s in gauges if s.group in long]
    return (of, len(of) == 1) if of else (gauges, len(gauges) == 1)


def is_wrong(choice: Choice) -> bool:
    """Whether the number is wrong if that is meant."""
    return choice.verdict == "conflicts"


def choice(gauge: Fraction, subject: Subject) -> Choice:
    """What a gauge means if it is said of a kind of screw."""
    right = gauge == subject.value
    return Choice(
        subject=subject.key,
        what=subject.what,
        plan_value=(subject.value,),
        unit="gauge",
        kind=subject.kind,
        verdict="agrees" if right else "conflicts",
        why="the plan has the same" if right else f"the plan has #{subject.value}",
    )
