"""Each number linked to the facts it may speak of, each with its chance: a first look, then one over the whole talk."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tutorial_lib.narration.linking.again import Talk
from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.local import Candidate, weigh
from tutorial_lib.narration.linking.weights import AGAIN

Chances = list[list[float]]


def link(claims: Sequence[Claim], options: Sequence[Sequence[Candidate]]) -> Chances:
    """The chance of every candidate of every claim; the chances of one claim add up to 1."""
    first = [shares([c.score for c in found]) for found in options]
    talk = Talk(claims, options, first)
    return [
        shares([weigh(AGAIN, talk.features(at, place)) for place in range(len(found))])
        for at, found in enumerate(options)
    ]


def shares(scores: Sequence[float]) -> list[float]:
    """Log-odds as chances that add up to 1."""
    top = max(scores)
    odds = [math.exp(s - top) for s in scores]
    total = sum(odds)
    return [o / total for o in odds]
