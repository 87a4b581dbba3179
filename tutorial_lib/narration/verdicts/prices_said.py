"""Prices said: of one board, by the board it is said of, and of all lumber, against the plan's."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.hearing import Heard
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import LENGTHS, MONEY
from tutorial_lib.narration.verdicts.items import Choice
from tutorial_lib.narration.verdicts.judging import is_whole_of
from tutorial_lib.narration.verdicts.parts_named import named_within
from tutorial_lib.narration.verdicts.ruled import ELSEWHERE, Ruled, judged
from tutorial_lib.narration.verdicts.writing import written

A_BOARD = re.compile(
    r"^,?(?:for )?(?:(?:a|the|per|each|one) (?:board|stick|length|piece|plank|two by|one by|four by|\dx\d+|\S+ footer)|"
    r"apiece|each|a pop)\b"
)
COST_BEFORE = re.compile(r"\b(?:boards?|sticks?|lengths?|they|those|these|footers?) (?:are|were|run|cost|ran|go for)$")
IN_ALL = re.compile(
    r"\b(?:(?:came|comes|come|added up|adds up) to|total\w*|rang (?:\S+ )?up|spent|paid|cost|costs|cost me|was)"
    r"(?: \S+){0,3}$"
)
IN_ALL_AFTER = re.compile(
    r"^(?:,?\S+ ){0,2}?,?(?:altogether|all in|in all|the (?:whole )?lot|total|"
    r"(?:for|of) (?:all )?(?:the |my |your )?(?:\S+ )?(?:lumber|timber|wood|boards))\b"
)
OF_WOOD = re.compile(r"\b(?:lumber|timber|wood|boards)\b")
WITH_MORE = re.compile(
    r"(?<!without the )(?<!without )\b(?:screws|finish|oil|varnish|mattress|delivery|hardware|bolts|tools?|sandpaper|"
    r"everything|steel|ones)\b"
)


def price_said(
    heard: Heard, i: int, prices: Sequence[Subject], lumber: Sequence[Subject], costs: Sequence[Subject]
) -> Ruled | None:
    """What the plan says of a price; None where it is of nothing that the plan has a price of.

    Args:
        heard: the talk.
        i: the number's place among those heard.
        prices: facts of what one board costs.
        lumber: facts of the boards that parts are cut from.
        costs: facts of what all lumber costs.
    """
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    prices, costs = in_currency(prices, item.unit), in_currency(costs, item.unit)
    doubtful = bool(heard.doubts(claim) & ELSEWHERE)
    if A_BOARD.search(claim.around.after) or COST_BEFORE.search(claim.around.before):
        return None if doubtful or not prices else of_one(heard, i, prices, lumber)
    meant = [choice(claim, s) for s in costs]
    if meant and not doubtful and is_total(heard, claim, any(c.verdict != "conflicts" for c in meant)):
        sure = bool(OF_WOOD.search(claim.around.sentence))
        return judged((item.value,), item.unit, meant, sure)
    return None


def of_else(heard: Heard, i: int, costs: Sequence[Subject]) -> bool:
    """Whether a price is surely not of the plan's lumber: another's, or of the lumber and more."""
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    if item.unit not in MONEY or any(choice(claim, s).verdict != "conflicts" for s in costs):
        return False
    other = heard.doubts(claim) & {"other", "other_size", "another_bed"}
    return bool(other or WITH_MORE.search(claim.around.sentence))


def is_total(heard: Heard, claim: Claim, right: bool) -> bool:
    """Whether a price is said of all lumber, or of the whole and of nothing beside; ``right``: that costs so much."""
    around = claim.around
    said_so = OF_WOOD.search(around.sentence) or right
    summed = IN_ALL_AFTER.match(around.after) or (IN_ALL.search(around.before) and said_so)
    return bool(summed) and not WITH_MORE.search(around.sentence) and "foreign_subject" not in heard.doubts(claim)


def in_currency(facts: Sequence[Subject], currency: str) -> list[Subject]:
    """The facts in a currency."""
    return [s for s in facts if s.unit == currency]


def of_one(heard: Heard, i: int, prices: Sequence[Subject], lumber: Sequence[Subject]) -> Ruled:
    """The price of one board: of the board named or of the part's, else of any."""
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    of = board_meant(heard, i, prices, lumber)
    found = sorted((choice(claim, s) for s in of or prices), key=lambda c: abs(c.plan_value[0] - item.value))
    return judged((item.value,), item.unit, found, sure=len(of) == 1)


def board_meant(heard: Heard, i: int, prices: Sequence[Subject], lumber: Sequence[Subject]) -> list[Subject]:
    """The prices of the board named right after a number or last before it, or of the part its sentence names."""
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    parts = named_within(heard.transcript, item.first, lumber, heard.transcript.sentence)
    here, before = name_here(heard, i), claim.name_last
    for names in ([here] if here else [], [s.timber for s in parts], [before] if before else []):
        of = [s for s in prices if any(sorted(s.timber) == sorted(name) for name in names)]
        if of:
            return of_length(of, length_here(heard, i)) or of_length(of, claim.lengths) or of
    return []


def of_length(prices: Sequence[Subject], lengths: Sequence[Fraction]) -> list[Subject]:
    """The prices of boards of some lengths [in]."""
    return [s for s in prices if any(s.board_length and abs(s.board_length - v) < 2 for v in lengths)]


def length_here(heard: Heard, i: int) -> list[Fraction]:
    """The length of board that a price stands at [in]: right after it ("a ten-footer"), else last before it."""
    found, said = heard.sorted_out.found, heard.transcript
    after = [e for e in found[i + 1 : i + 2] if LEADS_ON.match(said.text(found[i].last, e.first))]
    before = [e for e in found[max(0, i - NEAR) : i] if said.sentence[e.first] == said.sentence[found[i].first]]
    return [e.value * LENGTHS[e.unit] for e in (*after, *reversed(before)) if e.unit in LENGTHS][:1]


NEAR = 3  # numbers before a price, among them the length of its board


def name_here(heard: Heard, i: int) -> tuple[Fraction, ...]:
    """The timber's name that a price stands at: right after it ("a 2x6"), else before it in the sentence."""
    found, said = heard.sorted_out.found, heard.transcript
    for after in found[i + 1 : i + 3]:
        if after.form == "nominal" and LEADS_ON.match(said.text(found[i].last, after.first)):
            return after.values[:2]
    before = (e for e in reversed(found[:i]) if e.form == "nominal")
    name = next(before, None)
    same = name is not None and said.sentence[name.first] == said.sentence[found[i].first]
    return name.values[:2] if name is not None and same else ()


LEADS_ON = re.compile(r"^(?:for |per )?(?:an?|each|the|one|those|these)?(?: \S+[ -](?:foot|footer))?$")


def choice(claim: Claim, subject: Subject) -> Choice:
    """What a price means if it is said of one of the plan's."""
    said, true = claim.item.value, subject.value
    near = is_whole_of(said, true, subject.unit) or (claim.hedge != 0 and abs(said - true) <= true * Fraction(6, 100))
    verdict = "agrees" if said == true else "rounded" if near else "conflicts"
    return Choice(
        subject=subject.key,
        what=subject.what,
        plan_value=(true,),
        unit=subject.unit,
        kind=subject.kind,
        verdict=verdict,
        why={"agrees": "the plan has the same", "rounded": "the plan's price, rounded"}.get(
            verdict, f"the plan has {written(true, subject.unit, 'in')}"
        ),
    )
