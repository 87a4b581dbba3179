"""Numbers that may be claims: the ways each can be read, the noun it counts, the timber named beside it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.captions.cues import Cell
from tutorial_lib.narration.linking.aspects import cues_around
from tutorial_lib.narration.linking.phrases import NOWHERE, Place, place_of
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.numbers.stems import stem
from tutorial_lib.narration.numbers.transcript import Around, Transcript
from tutorial_lib.narration.numbers.units_meant import AS_SAID, Meant
from tutorial_lib.narration.numbers.words import Gap
from tutorial_lib.records import dataclass

Reading = tuple[Fraction, str]  # value (inches for a length), unit


@dataclass(frozen=True, eq=False, kw_only=True)  # one object a number: quick to look up by
class Claim:
    """A number that may speak of the plan, with what stands around it and the ways it can be read."""

    item: Expression
    around: Around
    cues: frozenset[str]
    readings: tuple[Reading, ...]
    noun: tuple[str, ...]  # stems of the words that follow it, up to the end of the noun phrase
    hedge: int  # -1 just under what follows, +1 just over, 2 either way, 0 none
    cell: Cell | None = None  # where it stands in a table
    names: tuple[tuple[Fraction, ...], ...] = ()  # timber sizes named beside it
    name_after: tuple[Fraction, ...] = ()  # the timber size right after it
    name_before: tuple[Fraction, ...] = ()  # and right before it
    name_last: tuple[Fraction, ...] = ()  # the last one named before it
    lengths: tuple[Fraction, ...] = ()  # lengths with a unit said right beside it [in]
    aside: bool = False  # follows a bracket, a comma or "that's"
    footer: bool = False  # said as "a twelve-footer"
    counting: bool = False  # a bare whole number before a plural ("four sticks")
    meant: Meant = AS_SAID  # the unit a bare number is in
    place: Place = NOWHERE  # how it sits in its sentence
    recap: bool = False  # the speaker goes over what was said before


def readings_of(item: Expression, units: str, local: Meant, legs: bool = False) -> tuple[Reading, ...]:
    """The ways a number can be meant: with its unit, the declared or the plan's unit, or as a bare count."""
    value, unit = item.value, item.unit
    if item.form == "dozen":
        return ((value, "count"), *paired(item))
    if item.form == "misheard" and not unit:
        return ((value, "count"),)
    if unit in LENGTHS:
        length = (value * LENGTHS[unit], "in")
        return (length, (value, "count")) if unit == "ft" and legs else (length,)  # "three feet" under a beam
    if unit in SPANS:
        return spans(value, unit)
    return ((value, unit),) if unit else bare(item, units, local)


def spans(value: Fraction, unit: str) -> tuple[Reading, ...]:
    """A span of time in its own unit, then in the others."""
    return ((value, unit), *((value * SPANS[unit] / SPANS[other], other) for other in SPANS if other != unit))


def paired(item: Expression) -> tuple[Reading, ...]:
    """ "Four pair" of slides are four."""
    even = item.value > 2 and item.value % 2 == 0
    return ((item.value / 2, "count"),) if item.last - item.first > 1 and even else ()


def bare(item: Expression, units: str, local: Meant) -> tuple[Reading, ...]:
    """The ways a number without a unit can be meant."""
    value = item.value
    ways: list[Reading] = [(v * LENGTHS[local.unit or units], "in") for v in reversed(item.values)]
    ways += [(value * LENGTHS[other], "in") for other in local.also]
    if units == "mm" and value < 10 and (item.decimal or value.denominator > 1):
        ways.append((value * LENGTHS["m"], "in"))
    if value.denominator == 1 and not item.decimal:
        ways += [(value, "count"), (value, "grit")]
    return tuple(ways)


SPANS = {"min": Fraction(1, 60), "h": Fraction(1), "days": Fraction(24)}


def claim_of(
    transcript: Transcript, found: Sequence[Expression], at: int, units: str, local: Meant, hedge: int
) -> Claim:
    """A claim from an expression."""
    item = found[at]
    around = transcript.around(item)
    return Claim(
        item=item,
        around=around,
        cues=cues_around(around.before, around.after),
        readings=readings_of(item, units, local, legs_counted(transcript, item)),
        noun=() if counts_next(found, at) else noun_of(transcript, item, around),
        hedge=hedge,
        cell=transcript.words[item.first].cue.cell,
        names=named_beside(transcript, found, at),
        name_after=name_after(transcript, found, at),
        name_before=name_before(found, at),
        name_last=name_last(found, at),
        lengths=lengths_beside(found, at),
        aside=is_aside(transcript, item, around),
        footer=transcript.words[item.last - 1].low in ("footer", "footers"),
        counting=is_counting(transcript, item),
        meant=local,
        place=place_of(transcript, item, around),
        recap=transcript.recap[item.first],
    )


def legs_counted(transcript: Transcript, item: Expression) -> bool:
    """Whether "four feet" or "four foot posts" may count parts; "an 8-foot post", "an 8 foot board", "a foot" can't."""
    said = transcript.words[item.last - 1]
    if said.hyphen or said.low.startswith("footer") or item.value < 2 or item.value.denominator > 1:
        return False
    if said.low == "feet" and transcript.words[item.last - 2].low == "of":  # "every couple of feet"
        return False
    return (transcript.feet_are_legs and said.low == "feet") or foot_things_follow(transcript, item.last)


def foot_things_follow(transcript: Transcript, at: int) -> bool:
    """Whether parts called "foot ..." are named in the plural here ("four foot posts")."""
    words = transcript.words[at : at + 1]
    return any(is_plural(w.low) for w in words) and transcript.stems[at] in transcript.foot_things


def is_aside(transcript: Transcript, item: Expression, around: Around) -> bool:
    """Whether a number follows a bracket, a comma or "that's"."""
    gap = transcript.words[item.first].gap
    return gap in (Gap.COMMA, Gap.STOP) or around.before.endswith(("that's", " or", "which is"))


def is_counting(transcript: Transcript, item: Expression) -> bool:
    """Whether a bare whole number stands right before a plural noun."""
    words, at = transcript.words, item.last
    if item.unit or item.pair or item.value.denominator > 1 or at >= len(words):
        return False
    for word in words[at : at + 2]:
        if word.gap > Gap.BREAK or word.low in STOPS:
            return False
        if is_plural(word.low):
            return True
    return False


def name_after(transcript: Transcript, found: Sequence[Expression], at: int) -> tuple[Fraction, ...]:
    """The timber size right after a number ("five 1x6s", "five eight-foot 1x6s")."""
    item = found[at]
    for other in found[at + 1 : at + 3]:
        between = {w.low for w in transcript.words[item.last : other.first]}
        if other.first - item.last > 1 + (other.unit in LENGTHS) and not between <= {"of", "the", "those", "these"}:
            break
        if other.form == "nominal":
            return other.values[:2]
        item = other
    return ()


def name_before(found: Sequence[Expression], at: int) -> tuple[Fraction, ...]:
    """The timber size right before a number ("1x6s, eight foot", "1x6s at eight feet")."""
    item, before = found[at], found[at - 1] if at else None
    near = before is not None and before.form == "nominal" and item.first - before.last <= 4
    return before.values[:2] if before is not None and near else ()


def name_last(found: Sequence[Expression], at: int) -> tuple[Fraction, ...]:
    """The last timber size named, up to fifty words before a number ("... 1x4s, so I bought seven boards")."""
    for place in range(at - 1, -1, -1):
        other = found[place]
        if found[at].first - other.last > 50:
            break
        if other.form == "nominal":
            return other.values[:2]
    return ()


def named_beside(transcript: Transcript, found: Sequence[Expression], at: int) -> tuple[tuple[Fraction, ...], ...]:
    """Timber sizes named within a few words, the one after first."""
    item, out = found[at], []
    for other in (*found[at + 1 : at + 4], *reversed(found[max(0, at - 3) : at])):
        far = other.first - item.last if other.first >= item.last else item.first - other.last
        near = transcript.sentence[other.first] == transcript.sentence[item.first] and far <= 8
        if other.form == "nominal" and near:
            out.append(other.values[:2])
    return tuple(out)


def lengths_beside(found: Sequence[Expression], at: int) -> tuple[Fraction, ...]:
    """Lengths with a unit right beside a number ("2 8-footers", "4x4, 8 foot")."""
    item = found[at]
    return tuple(
        o.value * LENGTHS[o.unit]
        for o in (*found[at + 1 : at + 3], *found[max(0, at - 1) : at])
        if o.unit in LENGTHS and min(abs(o.first - item.last), abs(item.first - o.last)) <= 7
    )


def counts_next(found: Sequence[Expression], at: int) -> bool:
    """Whether another count follows right away, which what is counted belongs to ("fourteen, eight legs")."""
    if at + 1 == len(found) or found[at + 1].first != found[at].last:
        return False
    after = found[at + 1]
    return after.form == "number" and not (after.unit or after.pair) and after.value in range(2, 21)


PRONOUNS = frozenset("them em those these it".split())
STOPS = frozenset(
    "in at on to for and is are that's so they it you i we with from under by per which because if then "
    "out or over between into go goes come comes get gets apiece each all like centres centers against".split()
)


def noun_after(transcript: Transcript, item: Expression) -> tuple[str, ...]:
    """Stems of the noun phrase a number counts or describes ("three of these big structural screws")."""
    out: list[str] = []
    words = transcript.words
    start = item.last + (item.last + 1 < len(words) and words[item.last].low == "of")
    for at in range(start, min(len(words), item.last + 12)):
        if len(out) == 5 or words[at].gap > Gap.BREAK:
            break
        if at in transcript.covered and at > item.last:
            continue
        if ends_noun(transcript, at):
            break
        if words[at].low not in PRONOUNS:
            out.append(transcript.stems[at])
            if is_plural(words[at].low):
                break
    return tuple(out)


def ends_noun(transcript: Transcript, at: int) -> bool:
    """Whether a word ends the noun phrase before it."""
    low = transcript.words[at].low
    return low in STOPS or (low in PRONOUNS and not names_next(transcript, at + 1))


def noun_of(transcript: Transcript, item: Expression, around: Around) -> tuple[str, ...]:
    """Stems of what a number counts, as it is said after it, asked before it, or put over it as a heading."""
    return noun_after(transcript, item) or asked(transcript, item, around) or headed(transcript, item, around)


HEADING = 3  # words of a sentence that only names what comes


def headed(transcript: Transcript, item: Expression, around: Around) -> tuple[str, ...]:
    """What the short sentence before names ("Slats. Sixteen of them.")."""
    follows = [w.low for w in transcript.words[item.last : item.last + 2]]
    named = around.previous.split()
    of_it = len(follows) == 2 and follows[0] == "of" and follows[1] in PRONOUNS and not around.before
    plural = [w for w in named if is_plural(w)] if len(named) <= HEADING else []
    return (stem(plural[-1]),) if of_it and plural else ()


ASKED = re.compile(r"\bhow many ((?:\S+ ){0,2}?\S+)(?: (?:are|do|did|does|in|on|for|altogether|total)\b.*)?$")


def asked(transcript: Transcript, item: Expression, around: Around) -> tuple[str, ...]:
    """What the question before asks to count ("How many ribs? Twelve.")."""
    found = ASKED.search(around.previous) if not around.before else None
    return tuple(stem(w) for w in found[1].split()) if found else ()


def names_next(transcript: Transcript, at: int) -> bool:
    """Whether a plural noun follows "these" or "those" within two words ("of those long screws")."""
    words = transcript.words[at : at + 2]
    return any(is_plural(w.low) and w.low not in STOPS and w.gap <= Gap.BREAK for w in words)


def is_plural(word: str) -> bool:
    """Whether a word looks like a plural noun."""
    return word.endswith("s") and len(word) > 3 and not word.endswith(("ss", "us", "is", "'s"))
