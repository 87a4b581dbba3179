"""What a number means if it speaks of a fact: the plan's value beside it, and the verdict."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.measures import Units
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.verdicts.items import Choice
from tutorial_lib.narration.verdicts.judging import verdict
from tutorial_lib.narration.verdicts.writing import written_whole


def choice_of(subject: Subject, value: Fraction, hedge: int, units: Units, chance: float = 1.0) -> Choice:
    """What a value [in, or the fact's unit] means if it is said of a fact."""
    scale = LENGTHS[units] if subject.is_length else Fraction(1)
    plan = tuple(v / scale for v in subject.values)
    unit = units if subject.is_length else subject.unit
    result, reason = verdict(value, subject, hedge, units)
    return Choice(
        subject=subject.key,
        what=subject.what or subject.key,
        plan_value=plan,
        unit=unit,
        kind=subject.kind,
        verdict=result,
        why=f"the plan has {written_whole(plan, unit, units)}" if result == "conflicts" else reason,
        certainty=chance,
    )
