"""Timber's names said of a part ("the plinth is a one by six") against the board the plan cuts it from."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.measures import to_mm
from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.hearing import TAKEN_BACK, Heard
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.cardinals import near
from tutorial_lib.narration.numbers.stems import stem
from tutorial_lib.narration.verdicts.items import Choice
from tutorial_lib.narration.verdicts.parts_named import named_beside, named_within
from tutorial_lib.narration.verdicts.ruled import ELSEWHERE, MOST, Ruled, judged
from tutorial_lib.narration.verdicts.writing import timber

Name = tuple[Fraction, ...]
BUYING = re.compile(
    r"\b(?:buy|bought|buying|need|pick(?:ed)? up|grab|get|shopping|store|yard|list|lumber run|load up|take home)\b"
)
APART = re.compile(  # another board is spoken of than the one used
    r"\b(?:could|might|would|wouldn't|can't|if|instead|rather|not|isn't|aren't|wasn't|don't|used to|scrap|offcut|spare|"
    r"left over|leftover|jig|stronger|stiffer|cheaper|thinner|thicker|than|swap|upgrade|too|also works?|or)\b"
)


def timber_said(heard: Heard, i: int, lumber: Sequence[Subject], stock: Sequence[Subject]) -> Ruled | None:
    """What the plan says of a timber's name; None where it isn't said of this bed, or it isn't plain of what.

    Args:
        heard: the talk.
        i: the number's place among those heard.
        lumber: facts of the boards that parts are cut from.
        stock: facts of boards to buy.
    """
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    name = item.values[:2]
    of = named_beside(heard.transcript, beginning(heard, i), item.last, lumber)
    doubts = heard.doubts(claim) & ELSEWHERE
    doubtful = bool(doubts - {"left"} or APART.search(claim.around.clause))  # an offcut is used as well as a board
    if of:
        made = judged(name, "nominal", [choice(name, s) for s in of], sure=not doubts)
        return None if doubtful and made.verdict in ("conflicts", "unsure") else made
    if doubts or doubtful or any(same(name, s.timber) for s in (*lumber, *stock) if s.timber):
        return None
    said = heard.transcript
    meant = named_within(said, item.first, lumber, said.comma, places=False)
    meant = meant or bought(claim, counts_before(heard, i), lumber, stock) or taken(heard, i, lumber)
    return judged(name, "nominal", [choice(name, s) for s in meant[:MOST]], sure=False) if meant else None


# Seldom looked for: compiled then, and kept by the library.
TAKES = (
    r"(?:^|,|\b(?:and|then|so|just|now|i|we|i'm|we're|gonna|to|i'll|we'll|you|let's|me) ,?)"
    r"(?:grab|take|get|use|using|cut|rip|chop|crosscut|start with|got|took|grabbed|used|pick up)"
    r"(?: (?:me|an?|the|my|your|some|our|that|this|these|those|another|first|long|one|\S+ (?:foot|footer)))*$"
)
ON_THE_BENCH = r"^(?:$|and\b|on\b|here\b|now\b|in\b|at\b|then\b|like\b|so\b)"
FOR_THING = r"\b(?:for|as) (?:an?|the|my|your|our)(?: \S+)? (\S+?)(?= |$)"
REFERS = r"\b(?:it's|they're|(?:those|these|they) are|(?:it|this) is)(?: (?:all|just|plain|your|my|an?))*$"


def taken(heard: Heard, i: int, lumber: Sequence[Subject]) -> list[Subject]:
    """The lumber that may be meant by a board that is taken up ("grab a two by eight") or pointed back from.

    A board that is taken for something ("for the jig", "to check it", "as a spacer") is none of the bed's.
    """
    item, around, said = heard.sorted_out.found[i], heard.sorted_out.claims[i].around, heard.transcript
    things = (stem(thing) for thing in re.findall(FOR_THING, around.sentence))
    pause = not near(said.words, item.last)
    if not (pause or re.match(ON_THE_BENCH, around.after)) or not heard.mentions.vocabulary.issuperset(things):
        return []
    if re.search(REFERS, around.before):
        before = said.span(said.sentence, item.first, 40)[0] - 1
        return named_within(said, before, lumber, said.sentence, places=False) if before >= 0 else []
    name = item.values[:2]
    like = [s for s in lumber if min(s.values) == min(name)] or list(lumber)
    return like if re.search(TAKES, around.before) else []


def beginning(heard: Heard, i: int) -> int:
    """The word where a timber's name begins; a corrected one is said where the one taken back began."""
    corrected = i > 0 and heard.sorted_out.reasons[i - 1] == TAKEN_BACK
    before = heard.sorted_out.found[i - 1] if corrected else None
    return (before if before is not None and before.form == "nominal" else heard.sorted_out.found[i]).first


def same(said: Name, plan: Name) -> bool:
    """Whether two names are one size of timber, whichever side is said first; "four by two" is 44x94 too."""
    a, b = sorted(said), sorted(plan)
    return a == b or (b[0] > INCHES >= a[1] and all(sawn(x, y) for x, y in zip(a, b, strict=True)))


INCHES = 12  # no timber is named by more inches, and none by so few millimetres
PLANED = (Fraction(-3), Fraction(13))  # [mm] what is left off a nominal inch size: planing, and the metric sawn size


def sawn(inches: Fraction, planed: Fraction) -> bool:
    """Whether a side in millimetres is what is sold as so many inches."""
    return PLANED[0] <= to_mm(inches) - planed <= PLANED[1]


def counts_before(heard: Heard, i: int) -> list[Fraction]:
    """The bare numbers right before a timber's name ("five 8-foot 2x4s")."""
    found = heard.sorted_out.found
    return [e.value for e in found[max(0, i - 2) : i] if not e.unit and found[i].first - e.last <= 4]


def bought(
    claim: Claim, counts: Sequence[Fraction], lumber: Sequence[Subject], stock: Sequence[Subject]
) -> list[Subject]:
    """The lumber that may be meant by boards to buy of a size the plan hasn't: of their length, and their count."""
    sold = {b.timber for b in stock if any(abs(b.value - v) < 1 for v in claim.lengths if b.is_length)}
    counted = {b.timber for b in stock if b.is_count and b.value in counts and b.timber in sold}
    buying = BUYING.search(f"{claim.around.previous} {claim.around.sentence}")
    meant = counted or (sold if buying else set())
    return [s for s in lumber if s.timber in meant]


def choice(name: Name, subject: Subject) -> Choice:
    """What a timber's name means if it is said of a part."""
    right = same(name, subject.values)
    return Choice(
        subject=subject.key,
        what=subject.what,
        plan_value=subject.values,
        unit="nominal",
        kind=subject.kind,
        verdict="agrees" if right else "conflicts",
        why="the plan has the same" if right else f"the plan has {timber(subject.values)}",
    )
