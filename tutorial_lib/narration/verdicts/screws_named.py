"""Metric screws and bolts by their names: "five by sixty", "5x60", "M8" against those of the plan."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from fractions import Fraction

from tutorial_lib.measures import Units
from tutorial_lib.narration.linking.hearing import Heard
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.verdicts.choosing import choice_of
from tutorial_lib.narration.verdicts.items import Choice
from tutorial_lib.narration.verdicts.parts_named import named_within
from tutorial_lib.narration.verdicts.ruled import ELSEWHERE, Ruled, judged

THICK, LONG, SLENDER = (Fraction(2), Fraction(12)), Fraction(400), 3  # [mm], [mm], length by thickness at least
BOLT = re.compile(r"\bbolts?\b")


def screw_named(
    heard: Heard, i: int, gauges: Sequence[Subject], screws: Sequence[Subject], units: Units
) -> Ruled | None:
    """What the plan says of a thickness or length out of a metric screw's name; None where it names none of its own.

    Args:
        heard: the talk.
        i: the number's place among those heard.
        gauges: facts of how thick screws are, in metric plans a length.
        screws: facts of how long.
        units: the plan's unit of length.
    """
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    gauges = [s for s in gauges if s.is_length]
    name = name_at(heard.sorted_out.found, i)
    if name is None or not gauges or heard.doubts(claim) & ELSEWHERE:
        return None
    thick, long, sure = meant(heard, i, name, gauges, screws)
    told = [choice(s, name[0], units) for s in thick], [choice(s, name[1], units) for s in long]
    side = int(item.pair == 2 or (item.form == "pair" and bool(right(told[0]))))  # written in one: what is wrong of it
    return judged((name[side],), units, right(told[side]) or told[side], sure) if told[side] else None


def right(choices: Sequence[Choice]) -> list[Choice]:
    """The first that a number is right for."""
    return [c for c in choices if c.verdict == "agrees"][:1]


def name_at(found: Sequence[Expression], i: int) -> tuple[Fraction, Fraction] | None:
    """Thickness and length of the screw's name that a number is part of [mm]."""
    item = found[i]
    if item.form == "pair" and len(item.values) == 2:
        thick, long = item.values
    elif item.pair == 1 and found[i + 1 : i + 2] and found[i + 1].pair == 2:
        thick, long = item.value, found[i + 1].value
    elif item.pair == 2:
        thick, long = found[i - 1].value, item.value
    else:
        return None
    slender = THICK[0] <= thick <= THICK[1] and SLENDER * thick <= long <= LONG
    return (thick, long) if slender and item.unit in ("", "mm") else None


def meant(
    heard: Heard, i: int, name: tuple[Fraction, Fraction], gauges: Sequence[Subject], screws: Sequence[Subject]
) -> tuple[list[Subject], list[Subject], bool]:
    """Thicknesses and lengths of the screws meant, by the part or their own name; and whether it is sure which."""
    item, said = heard.sorted_out.found[i], heard.transcript
    for stretch in (said.comma, said.sentence):
        thick = named_within(said, item.first, gauges, stretch)
        if thick:
            long = of_tables(screws, {table(s) for s in thick})
            return thick, long, len({s.value for s in thick}) == len({s.value for s in long}) == 1
    fits, reaches = ({table(s) for s in some if is_close(s, v)} for some, v in zip((gauges, screws), name, strict=True))
    like = fits & reaches or fits | reaches or {table(s) for s in gauges}
    return of_tables(gauges, like), of_tables(screws, like), False


def of_tables(subjects: Sequence[Subject], tables: Collection[str]) -> list[Subject]:
    """The facts of some kinds of screw."""
    return [s for s in subjects if table(s) in tables]


def is_close(subject: Subject, said: Fraction) -> bool:
    """Whether a fact is so many millimetres."""
    return abs(subject.value - said * MM) < CLOSE


MM, CLOSE = LENGTHS["mm"], Fraction(1, 100)  # [in]


def table(subject: Subject) -> str:
    """Which kind of screw a fact is of, by its key."""
    return subject.key.partition(".")[0]


def is_thread(heard: Heard, i: int) -> bool:
    """Whether a number is a bolt's thread ("M8")."""
    item = heard.sorted_out.found[i]
    return item.unit == "mm" and heard.transcript.words[item.first].low == "m"


def thread_named(heard: Heard, i: int, bolts: Sequence[Subject], units: Units) -> Ruled | None:
    """What the plan says of a bolt's thread ("M8"); None where it isn't plain that one of its bolts is meant."""
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    if not bolts or heard.doubts(claim) & ELSEWHERE:
        return None
    choices = [choice(s, item.value, units) for s in bolts]
    sure = bool(BOLT.search(claim.around.sentence)) and len({s.value for s in bolts}) == 1
    made = judged((item.value * MM / LENGTHS[units],), units, choices, sure)
    return None if made.verdict == "unsure" else made


def choice(subject: Subject, said: Fraction, units: Units) -> Choice:
    """What so many millimetres mean if they are said of a fact."""
    return choice_of(subject, said * MM, 0, units)
