"""How a number sits in its sentence: per what it is counted, part of a sum, a share of a count, beside a name."""

from __future__ import annotations

import re

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.transcript import Around, Transcript
from tutorial_lib.narration.numbers.words import Gap
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Place:
    """What stands right around a number."""

    per: tuple[str, ...] = ()  # stems of the thing each of which has so many ("six screws in a shoe")
    split: bool = False  # a share of a count given beside it ("two at each end and one in the middle")
    operand: bool = False  # added, taken away or multiplied
    touching: int = -1  # the last word of what stands right before it ("the tall posts 900"), or -1


NOWHERE = Place()


def place_of(transcript: Transcript, item: Expression, around: Around) -> Place:
    """How a number sits in its sentence."""
    return Place(
        per_what(transcript, item),
        is_split(item, around),
        is_operand(around),
        touching(transcript, item),
    )


OF_EACH = frozenset("each every per either a an one any".split())
INTO = frozenset("in to on for at into through of per under across along".split())
ENDS = frozenset(
    "is are that's so and it's they're gets takes has needs goes go which with from at in on to for by you i we then "
    "because but or if get take want wants carries of long wide each apiece".split()
)
TAKES = frozenset("gets get takes take has have needs need wants want carries holds you've i've".split())
NOT_THINGS = frozenset("side end corner time one row way joint place spot hole day coat".split())


def per_what(transcript: Transcript, item: Expression) -> tuple[str, ...]:
    """The thing a count is of one of: "three bolts per angle", "six screws in a shoe", "each rib gets four"."""
    words = transcript.words
    for at in range(item.last, min(item.last + 5, len(words))):
        if words[at].gap >= Gap.COMMA:
            break
        low = words[at].low
        opens = low == "per" or (low in OF_EACH and (low in ("each", "every") or words[at - 1].low in INTO))
        if opens and at >= item.last:
            found = noun_from(transcript, at + 1)
            if found:
                return found
    return takes_before(transcript, item)


def takes_before(transcript: Transcript, item: Expression) -> tuple[str, ...]:
    """The thing in "each slat gets four", "a rib takes six"."""
    words = transcript.words
    at = item.first - 1
    if at < 2 or words[at].low not in TAKES or words[item.first].gap >= Gap.COMMA:
        return ()
    back = at - 1
    while back > 0 and at - back < 4 and words[back].gap < Gap.COMMA and words[back - 1].low not in OF_EACH:
        back -= 1
    return noun_from(transcript, back) if words[back - 1].low in ("each", "every", "a", "an", "one") else ()


def noun_from(transcript: Transcript, at: int) -> tuple[str, ...]:
    """Stems of the noun phrase that starts at a word, () for none or for no thing ("each side")."""
    out: list[str] = []
    words = transcript.words
    while at < len(words) and len(out) < 3 and words[at].gap < Gap.COMMA and words[at].low not in ENDS:
        if at in transcript.covered:
            break
        out.append(transcript.stems[at])
        at += 1
    return tuple(out) if out and not set(out) & NOT_THINGS else ()


SHARE = re.compile(
    r"\b(?:one|two|three|1|2|3|a couple|a pair|another|half)(?: (?:screws?|bolts?|of them|more|goes|go|sits?))?,? "
    r"(?:at|on|in|to|through|into|from|under|for|down|up|along|left|right) "
    r"(?:each|either|every|both|the|one|this|that|your|my|a|side|middle)\b"
)


SHARED = re.compile(
    r"(?:(?:screws?|bolts?|of them|more|goes?|sits?) )?"
    r"(?:at|on|in|to|through|into|from|under|for|down|up|along|left|right)\b"
)


def is_split(item: Expression, around: Around) -> bool:
    """Whether a small count is one of the shares another count is made up of."""
    if item.unit or item.value > 4 or item.value.denominator > 1 or not SHARED.match(around.after):
        return False
    return len(SHARE.findall(around.sentence)) > 1


OPERATOR = r"(?:plus|minus|times|less|take away|take off|add|adding|subtract|multiplied by|divided by|over)"
BEFORE_SUM = re.compile(rf"\b{OPERATOR}(?: (?:a|an|the|another|your|two of))?$")
TIMES_SO_MANY = r"(?:twos|threes|fours|fives|sixes|eights)\b"
AFTER_SUM = re.compile(
    rf"^,?(?:{OPERATOR}\b|lots of|{TIMES_SO_MANY}|and \S+(?: and an? (?:half|quarter))? (?:is|makes|are|gives)\b)"
)


def is_operand(around: Around) -> bool:
    """Whether a number is part of a sum said aloud."""
    return bool(BEFORE_SUM.search(around.before) or AFTER_SUM.match(around.after))


FILLS = frozenset(
    "at are is to of cut all be that's they're it's get gets go goes sit sits lie lies run runs stand stands "
    "take takes".split()
)


def touching(transcript: Transcript, item: Expression) -> int:
    """The word right before a number, past one of "at", "are", "is"; -1 where a sentence begins."""
    words, at = transcript.words, item.first
    if words[at].gap >= Gap.SENTENCE or at == 0:
        return -1
    if words[at - 1].low in FILLS and words[at - 1].gap <= Gap.STOP and at > 1:
        return at - 2
    return at - 1
