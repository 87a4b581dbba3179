"""Loads said on camera against the plan's rating: how much it holds, each or all together, lying or sitting."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.measures import factor
from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import MASSES
from tutorial_lib.narration.verdicts.items import Choice, Item
from tutorial_lib.records import dataclass

HOLDS = re.compile(
    r"\b(?:holds?|held|hold up|carry|carries|takes?|good for|rated (?:for|at|to)|rating|trust it with|"
    r"safe (?:for|to|at)|load|weight limit|supports?|bears?|up to|limit|"
    r"(?:people|persons|adults|sleepers) (?:of|at|weighing)|put\b.* on it|"
    r"(?:sat|sit|sitting|lay|lie|lying|laid|stood|stand|standing|slept|jumped|jump)(?: \S+)? (?:on|in) "
    r"(?:it|this bed))\b"
)
PEOPLE = r"(?:people|persons|adults|sleepers|grown-ups|guys|friends)"
OF_SO_MUCH, SO_HEAVY = re.compile(rf"\b{PEOPLE} (?:of|at|weighing)$"), re.compile(rf"^,?{PEOPLE}\b")
ANOTHER = frozenset(("other", "other_size", "another_bed", "supposed", "left"))  # doubts: an anecdote, not this bed
EACH = re.compile(r"\b(?:each|apiece|a person|per person|a head|a body|one person|somebody|someone|anybody|a man)\b")
SITTING = re.compile(r"\b(?:sit|sits|sitting|sat|edge|perch|perched)\b")
LYING = re.compile(r"\b(?:lie|lies|lying|lay|laid|sleep|sleeps|sleeping|asleep|in it|in bed)\b")
RIGHT_AFTER = re.compile(r"^(?:,?(?:each|apiece|a person|when \S+) )?,?(?:sit|sitting|lie|lying)\b")
SAME_BREATH = 12  # [words] from a load to the next, said without its unit
USED = re.compile(r"^,?(?:each )?(?:sitting|lying|on the edge)\b")
USE_BEFORE, SO_MUCH = re.compile(r"\b(?:sitting|lying)(?: \S+){0,3}$"), re.compile(r"^(?:each|apiece)\b|^$")
SURE = 0.97  # certainty of what the words say plainly (judgement, no source)
BIG = {"tonne": ("kg", 1000), "ton": ("lb", 2000), "stone": ("lb", 14)}


@dataclass(frozen=True)
class Allowed:
    """A rating, and what it allows as the load was said: each person, or all of them together [the rating's unit]."""

    rating: Subject
    load: Fraction
    people: Fraction

    @property
    def what(self) -> str:
        """What is allowed, in words."""
        use = "sitting on the edge" if SITTING.search(self.rating.what) else "lying"
        return f"load {use}, {'one person' if self.people == 1 else f'{self.people} people together'}"


def load_said(
    claim: Claim, doubts: frozenset[str], subjects: Sequence[Subject], follows: bool = False
) -> list[Allowed]:
    """The ratings a load is said of, with what each allows as it was said; ``follows``: it goes on from another load.

    Nothing when the number is no load, tells an anecdote, or the plan has no rating.
    """
    if claim.item.unit not in MASSES or doubts & ANOTHER or not (follows or is_load(claim)):
        return []
    ratings = [s for s in subjects if s.kind == "load_rating" and s.value > 0]
    times = Fraction(1) if of_each(claim) else people_of(subjects)
    return [Allowed(s, s.value * times, times) for s in as_used(claim, ratings)]


def goes_on(claim: Claim, before: Claim) -> Claim:
    """A bare number after a load, said of another use, as a load in its unit ("... lying down, and 240 sitting")."""
    near = 0 <= claim.item.first - before.item.last <= SAME_BREATH
    bare = not claim.item.unit and claim.item.form == "number" and USED.match(claim.around.after)
    alone = USE_BEFORE.search(claim.around.before) and SO_MUCH.match(claim.around.after)
    return replace(claim, item=replace(claim.item, unit=before.item.unit)) if near and (bare or alone) else claim


def is_load(claim: Claim) -> bool:
    """Whether a weight is said as what the bed holds, or right after ("We sat on it. That's 380 pounds.")."""
    around = claim.around
    goes_on = around.before in ("that's", "that is", "together that's", "that was")
    return bool(HOLDS.search(around.sentence) or (goes_on and HOLDS.search(around.previous)))


def people_of(subjects: Sequence[Subject]) -> Fraction:
    """How many people the bed is for, by the plan."""
    return next((s.value for s in subjects if s.kind == "people_count"), Fraction(1))


def as_used(claim: Claim, ratings: Sequence[Subject]) -> Sequence[Subject]:
    """The ratings for lying or for sitting where one is spoken of, the one right after the load first; else all."""
    right_after, around = RIGHT_AFTER.match(claim.around.after), claim.around
    for text in (right_after.group() if right_after else "", around.sentence, f"{around.previous} {around.sentence}"):
        sitting, lying = bool(SITTING.search(text)), bool(LYING.search(text))
        if sitting != lying:
            wanted = SITTING if sitting else LYING
            return [s for s in ratings if wanted.search(s.what)] or ratings
    return ratings


def of_each(claim: Claim) -> bool:
    """Whether a load is said of each person ("150 pounds each", "two people of 200 pounds", "two 200-pound people")."""
    return of_people(claim) or bool(EACH.search(claim.around.sentence))


def of_people(claim: Claim) -> bool:
    """Whether a weight is surely people's, and so nothing of the bed's own ("two people at 300 pounds")."""
    around = claim.around
    return claim.item.unit in MASSES and bool(OF_SO_MUCH.search(around.before) or SO_HEAVY.search(around.after))


def in_unit(claim: Claim, unit: str) -> Fraction:
    """A load said, in the rating's unit."""
    value, said = claim.item.value, claim.item.unit
    base, many = BIG.get(said, (said, 1))
    return value * many if base == unit else value * many * factor(base, unit)


def verdict_on(said: Fraction, allowed: Sequence[Fraction]) -> str:
    """agrees: within every rating it may be about; conflicts: over all of them; unsure: over some."""
    over = [said > limit for limit in allowed]
    return "conflicts" if all(over) else "unsure" if any(over) else "agrees"


def judged(at: Item, claim: Claim, allowed: Sequence[Allowed]) -> Item:
    """The item of a load said, ``at`` its place."""
    unit = allowed[0].rating.unit
    said = in_unit(claim, unit)
    choices = tuple(choice(said, a) for a in sorted(allowed, key=lambda a: a.load))
    result = verdict_on(said, [a.load for a in allowed])
    made = replace(at, value=(said,), unit=unit, kind="load_rating", verdict=result, certainty=SURE)
    about = choices[0]
    if result == "unsure":
        return replace(made, certainty=0.5, choices=choices, why=f"too much if it is the {about.what} ({about.why})")
    return replace(
        made,
        subject=about.subject,
        plan_value=about.plan_value,
        what=about.what,
        why=f"said of the {about.what}: {about.why}",
    )


def choice(said: Fraction, allowed: Allowed) -> Choice:
    """What a load means if it is said of one rating."""
    return Choice(
        subject=allowed.rating.key,
        what=allowed.what,
        plan_value=(allowed.load,),
        unit=allowed.rating.unit,
        kind=allowed.rating.kind,
        verdict="agrees" if said <= allowed.load else "conflicts",
        why=f"the plan allows {float(allowed.load):g} {allowed.rating.unit}",
    )
