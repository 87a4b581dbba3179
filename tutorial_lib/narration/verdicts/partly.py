"""Numbers that can't surely be wrong by themselves: part of more that is said, or a thing's name."""

from __future__ import annotations

import re

from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import CARDINALS
from tutorial_lib.narration.verdicts import evidence

CALLED = re.compile(r"(?:^| )(?:an?|any)$")


def is_called(claim: Claim) -> bool:
    """Whether a thing is called by its size, to the inch at best ("a five inch block")."""
    whole = claim.item.value.denominator == 1 and claim.item.unit == "in" and bool(claim.noun)
    return whole and bool(CALLED.search(claim.around.before))


def is_part_of_more(claim: Claim, subject: Subject) -> bool:
    """Whether a number is part of another or of a whole said elsewhere, or counts nothing by itself."""
    if AND_MORE.match(claim.around.after) or evidence.HALF_OF.search(claim.around.before) or claim.item.value == 1:
        return True
    share = claim.place.per and subject.scope != "each"  # "three to a beam"
    return subject.is_count and bool(claim.item.unit or share)


AND_MORE = re.compile(r"and (?:\d|(?:" + "|".join(CARDINALS) + r")\b)")
