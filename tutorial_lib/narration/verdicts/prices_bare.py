"""Prices said without their currency: "two by sixes, eight thirty each"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.linking.hearing import Heard
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.cardinals import near
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.verdicts.prices_said import A_BOARD, board_meant, choice
from tutorial_lib.narration.verdicts.ruled import ELSEWHERE, Ruled, judged

LEAST, MOST = 100, 99_999  # in the small coin
BEYOND = Fraction(3, 2)  # times what is longest in the plan: no length of the bed
NO_PRICE = Fraction(2)  # times too much or too little: no price of that board
PRICED = re.compile(r"\b(?:at|for|were|was|are|is|run|cost|costs)$")


def bare_price(
    heard: Heard, i: int, prices: Sequence[Subject], lumber: Sequence[Subject], longest: Fraction
) -> Ruled | None:
    """What the plan says of a number that may be a price without its currency; None where it isn't surely one.

    Args:
        heard: the talk.
        i: the number's place among those heard.
        prices: facts of what one board costs.
        lumber: facts of the boards that parts are cut from.
        longest: the greatest length of the plan, in its unit.
    """
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    price = coins(item)
    if price is None or heard.doubts(claim) & ELSEWHERE:
        return None
    said = replace(claim, item=replace(item, values=(price,)))
    found = sorted(
        (choice(said, s) for s in board_meant(heard, i, prices, lumber)), key=lambda c: abs(c.plan_value[0] - price)
    )
    if not found:
        return None
    unit, nearest = found[0].unit, found[0].plan_value[0]
    if nearest == price:
        return judged((price,), unit, found[:1], sure=True)
    told = A_BOARD.search(claim.around.after) or (
        PRICED.search(claim.around.before) and not near(heard.transcript.words, item.last)
    )
    likely = nearest / NO_PRICE <= price <= nearest * NO_PRICE
    if not told or not likely or item.value <= longest * BEYOND:
        return None
    return judged((price,), unit, found, sure=len(found) == 1 and bool(A_BOARD.search(claim.around.after)))


def coins(item: Expression) -> Fraction | None:
    """A number in the large coin: "eight thirty", "325", "8.30"; None for what is no price."""
    if item.unit or item.pair or item.form != "number":
        return None
    if item.decimal:
        return item.value if item.value * 100 % 1 == 0 and item.value < LEAST else None
    return item.value / 100 if item.value.denominator == 1 and LEAST <= item.value <= MOST else None
