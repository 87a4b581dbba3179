"""How well a fact fits a number, as a sum of named features with the weights of ``weights``."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutorial_lib.narration.aspects import cues_around, cues_wanted, thing
from tutorial_lib.narration.context import Around, Mentions, Transcript
from tutorial_lib.narration.cues import Cell
from tutorial_lib.narration.expression import Expression
from tutorial_lib.narration.lexicon import DURATIONS, LENGTHS
from tutorial_lib.narration.phrases import NOWHERE, Place, place_of
from tutorial_lib.narration.subjects import Subject, stem, stems
from tutorial_lib.narration.units_meant import AS_SAID, Meant
from tutorial_lib.narration.words import Gap

Reading = tuple[Fraction, str]  # value (inches for a length), unit


@dataclass(frozen=True)
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
        pairs = ((value / 2, "count"),) if item.last - item.first > 1 and value > 2 and value % 2 == 0 else ()
        return ((value, "count"), *pairs)  # "four pair" of slides are four
    if item.form == "misheard" and not unit:
        return ((value, "count"),)
    if unit == "ft" and legs:  # "three feet" under a beam
        return ((value * 12, "in"), (value, "count"))
    if unit in LENGTHS:
        return ((value * LENGTHS[unit], "in"),)
    if unit in SPANS:
        return ((value, unit), *((value * SPANS[unit] / SPANS[other], other) for other in SPANS if other != unit))
    if unit:
        return ((value, unit),)
    base = local.unit or units
    ways: list[Reading] = [(v * LENGTHS[base], "in") for v in reversed(item.values)]
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
        item,
        around,
        cues_around(around.before, around.after),
        readings_of(item, units, local, legs_counted(transcript, item)),
        noun_after(transcript, item) or asked(transcript, item, around),
        hedge,
        transcript.words[item.first].cue.cell,
        named_beside(transcript, found, at),
        name_after(transcript, found, at),
        name_before(found, at),
        name_last(found, at),
        lengths_beside(found, at),
        is_aside(transcript, item, around),
        transcript.words[item.last - 1].low in ("footer", "footers"),
        is_counting(transcript, item),
        local,
        place_of(transcript, item, around),
        transcript.recap[item.first],
    )


def legs_counted(transcript: Transcript, item: Expression) -> bool:
    """Whether "four feet" or "four foot posts" may count parts of the bed."""
    after = transcript.stems[item.last] if item.last < len(transcript.stems) else ""
    return transcript.feet_are_legs or after in transcript.foot_things


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
    for other in reversed(found[:at]):
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


PRONOUNS = frozenset("them em those these it".split())
STOPS = frozenset(
    "in at on to for and is are that's so they it you i we with from under by per which because if then "
    "out or over between into go goes come comes get gets apiece each all like centres centers against".split()
)


def noun_after(transcript: Transcript, item: Expression) -> tuple[str, ...]:
    """Stems of the noun phrase a number counts or describes ("three of these big structural screws")."""
    out: list[str] = []
    at = item.last
    words = transcript.words
    if at + 1 < len(words) and words[at].low == "of":
        at += 1
    while at < len(words) and len(out) < 5 and at - item.last < 12 and words[at].gap <= Gap.BREAK:
        if at in transcript.covered and at > item.last:
            at += 1
            continue
        if words[at].low in STOPS or (words[at].low in PRONOUNS and not names_next(transcript, at + 1)):
            break
        if words[at].low in PRONOUNS:
            at += 1
            continue
        out.append(transcript.stems[at])
        if is_plural(words[at].low):
            break
        at += 1
    return tuple(out)


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


def reading_for(claim: Claim, subject: Subject) -> Reading | None:
    """The reading that has the fact's unit, the closest if there are two; None when none has."""
    fits = [r for r in claim.readings if r[1] == subject.unit]
    if not fits and subject.unit in DURATIONS and claim.item.unit in DURATIONS:
        return None
    if len(fits) < 2:
        return fits[0] if fits else None
    return min(fits, key=lambda r: abs(r[0] - subject.value))


COARSE, FINE, NONE_OFF = Fraction(5, 254), Fraction(1, 128), Fraction(0)


def close(said: Fraction, subject: Subject) -> bool:
    """Whether a value agrees with the plan within what a tape shows."""
    if said == subject.value:
        return True
    if not subject.is_length:
        return False
    return abs(said - nearest(said, subject)) <= tolerance(subject)


def nearest(said: Fraction, subject: Subject) -> Fraction:
    """The fact's value, or the nearest of its values."""
    if len(subject.values) == 1:
        return subject.value
    return min(subject.values, key=lambda v: abs(v - said))


def tolerance(subject: Subject) -> Fraction:
    """How far a said value may lie off: 1/64 in or 0.5 mm (diameters and kerf 1/128 in or 0.1 mm), 0 for counts."""
    if not subject.is_length:
        return NONE_OFF
    return FINE if subject.kind in ("diameter", "kerf") else COARSE


def slip_like(said: Fraction, subject: Subject) -> bool:
    """Whether a wrong value is near enough to be a slip for the fact."""
    true = subject.value
    if true == 0 or said <= 0:
        return False
    if subject.is_count:
        return abs(said - true) <= max(Fraction(2), true / 8)
    if not subject.is_length:
        return Fraction(1, 2) <= said / true <= 2
    return Fraction(4, 5) < said / true < Fraction(5, 4) or abs(said - true) <= 2


FASTENER_LENGTHS = ("screw_length", "bolt_length")
SHARES = frozenset(Fraction(a, b) for a, b in ((1, 2), (2, 1), (2, 3), (3, 2), (3, 4), (4, 3)))
UNIT_MIXED = frozenset((Fraction(10), Fraction(12), Fraction(1, 10), Fraction(1, 12)))


def typical_slip(said: Fraction, subject: Subject, steps: frozenset[Fraction]) -> bool:
    """Whether a wrong value is one that slips usually give: one off, a part left out, digits swapped, another unit.

    ``steps`` are the lengths that get added or forgotten: thicknesses and clearances, once and twice [in].
    """
    true = subject.value
    if true == 0 or said <= 0:
        return False
    if subject.is_count:
        off = abs(said - true)
        return off == 1 or said / true in SHARES or (subject.scope in ("total", "bed") and off <= true / 4)
    if not subject.is_length:
        return subject.unit in DURATIONS or said / true in SHARES
    if subject.kind in FASTENER_LENGTHS and Fraction(1, 3) <= said / true <= 3:  # any of the shop's lengths
        return True
    if (
        swapped(said, true)
        or one_digit_off(said, true)
        or said / true in UNIT_MIXED
        or abs(said - true) in (Fraction(1, 2), Fraction(1))
    ):
        return True
    return Fraction(2, 3) < said / true < Fraction(3, 2) and (abs(said - true) in steps or whole_right(said, true))


def whole_right(said: Fraction, true: Fraction) -> bool:
    """Whether the whole inches are right and only the fraction is wrong."""
    return true > 2 and int(said) == int(true) and said.denominator <= 64


def swapped(said: Fraction, true: Fraction) -> bool:
    """Whether the whole inches, or the millimetres, hold the same digits in another order, with the same fraction."""
    if said % 1 == true % 1 and sorted(str(int(said))) == sorted(str(int(true))):
        return True
    digits = [str(round(v * Fraction(127, 5))) for v in (said, true)]
    return len(digits[0]) > 2 and sorted(digits[0]) == sorted(digits[1])


def one_digit_off(said: Fraction, true: Fraction) -> bool:
    """Whether one digit of the whole inches, or of the millimetres, is wrong ("68" for "88")."""
    if said % 1 == true % 1 and true >= 10 and differing(str(int(said)), str(int(true))) == 1:
        return True
    mm = [v * Fraction(127, 5) for v in (said, true)]
    whole = all(v.denominator == 1 for v in mm) and mm[1] >= 100
    return whole and differing(str(mm[0]), str(mm[1])) == 1


def differing(a: str, b: str) -> int:
    """In how many places two strings differ; many when their lengths do."""
    return sum(x != y for x, y in zip(a, b, strict=True)) if len(a) == len(b) else 99


def part_salience(mentions: Mentions, claim: Claim, subject: Subject) -> float:
    """How present the fact's part is: by the creator's own words for it, else by the words of its description."""
    item = claim.item
    if claim.cell is not None:
        return in_row(claim.cell, subject)
    said = max((mentions.salience(p, item.first, item.last) for p in subject.said), default=0.0)
    words = [mentions.salience((w,), item.first, item.last) for w in subject.head]
    head = sum(words) / len(words) if words else 0.0
    top = max(words, default=0.0)
    return max(said, 0.9 * head, 0.75 * top if not subject.said else 0.35 * top)


@lru_cache(maxsize=20000)
def in_row(cell: Cell, subject: Subject) -> float:
    """How well a table row's first cell names a fact's part."""
    label = set(stems(cell.label))
    best = 0.0
    for phrase in (*subject.said, subject.head):
        if phrase and label:
            best = max(best, len(label & set(phrase)) / len(label | set(phrase)))
    row = label | set(stems(cell.others))
    named = set(subject.head) | set(subject.rest)
    return 1.2 * max(best, 0.7 * len(row & named) / len(named) if named else 0.0)


@lru_cache(maxsize=20000)
def under_heading(cell: Cell, subject: Subject) -> float:
    """Whether a column's heading asks for this kind of fact: 1 yes, -1 no, 0 it doesn't say."""
    head = set(re.findall(r"[a-z]+", cell.header.lower()))
    if subject.is_count and head & {"each", "per", "total", "all"}:
        total = bool(head & {"total", "all"})
        return 1.0 if subject.scope == ("total" if total else "each") else -1.0
    if head & {
        "no",
        "qty",
        "quantity",
        "count",
        "number",
        "pcs",
        "pieces",
        "many",
        "lengths",
        "boards",
        "n",
        "how",
        "need",
    }:
        return 1.0 if subject.is_count else -1.0
    if head & {"length", "long", "size", "each", "cut", "at", "width", "thickness", "section", "dimension", "in", "mm"}:
        return 1.0 if subject.is_length else -1.0
    return 0.0


def features(
    mentions: Mentions, claim: Claim, subject: Subject, reading: Reading, front: float
) -> Iterator[tuple[str, float]]:
    """Named features of one number and one fact; ``front`` is the salience of the part most present."""
    part = part_salience(mentions, claim, subject)
    yield "part", part
    yield "part_behind", 0.0 if subject.kind in PARTLESS else front - part
    rest = [mentions.salience((w,), claim.item.first, claim.item.last) for w in subject.rest]
    yield "rest", sum(rest) / len(rest) if rest else 0.0
    wanted = cues_wanted(subject)
    hits = len(wanted & claim.cues)
    yield "cue_hit", min(hits, 2)
    yield "cue_none", float(bool(wanted) and not hits)
    fit = how_close(claim, subject, reading[0], mentions.steps)
    yield fit, 1.0
    if fit == "equal":
        yield "equal_rare", float(reading[0].denominator > 1 or reading[0] > 12)
        yield "equal_stock", float(subject.kind == "stock_length")  # few lengths are sold
    told = part > 0.85 and "long" in claim.cues and subject.kind == "length"  # "cut the slats at ..."
    yield "told", float(told and fit == "far")
    yield "sure_part", float(part > 0.85 and fit != "equal")
    yield f"cue_{fit}", float(part > 0.7 and hits > 0) if fit in ("typical", "slip") else 0.0
    yield f"touch_{fit}", float(touches_part(mentions, claim, subject)) if fit in ("typical", "slip", "far") else 0.0
    noun_fits = subject.is_count and bool(claim.noun) and claim.noun[-1] in counted_by(subject)
    yield f"noun_{fit}", float(noun_fits) if fit in ("typical", "slip", "far") else 0.0
    yield from noun_features(mentions, claim, subject, reading)
    yield from place_features(mentions, claim, subject, fit == "equal")
    yield from conflicts(claim, subject)
    if subject.is_count and fit != "equal":
        yield "count_off", 1.0
    if claim.cell is not None:
        yield "heading", under_heading(claim.cell, subject)
        yield "row_stock", float(subject.kind.startswith("stock"))


PARTLESS = ("coats", "time", "grit", "kerf", "diameter")  # kinds that belong to no part of the build


def how_close(claim: Claim, subject: Subject, said: Fraction, steps: frozenset[Fraction]) -> str:
    """What the value itself says, never enough alone: equal, hedged, typical (a usual slip), slip (near) or far."""
    if close(said, subject):
        return "equal"
    if claim.hedge and abs(said - nearest(said, subject)) <= subject.value * Fraction(6, 100):
        return "hedged"
    if typical_slip(said, subject, steps):
        return "typical"
    return "slip" if slip_like(said, subject) else "far"


COUNTED = {"screw", "bolt", "dowel", "gap", "joint", "coat", "board"}


GENERIC = frozenset("piece length board stick thing lot one more time".split())


def matched(noun: tuple[str, ...], name: tuple[str, ...]) -> int:
    """How many words of a name the end of a noun phrase repeats, 0 unless it is the whole name."""
    return len(name) if name and noun[-len(name) :] == name else 0


FASTENERS = frozenset("screw bolt dowel".split())
FASTENER_SIZES = ("screw_length", "bolt_length", "diameter", "length")


@lru_cache(maxsize=4096)
def counted_by(subject: Subject) -> frozenset[str]:
    """Stems of the nouns a count may be followed by: its part, its fastener, boards for stock."""
    what = thing(subject)
    if what == "board":
        return frozenset({p[-1] for p in subject.said} | set(subject.head[:1]))
    own = {p[-1] for p in subject.said} | set(subject.head) if what in ("", "stock") else {what}
    if what in ("gap", "joint", "screw", "bolt", "dowel"):
        own |= set(subject.head[:1])
    if what == "joint":
        own |= {p[-1] for p in subject.said}
    if what == "stock":
        own |= {"length", "board", "footer"}
    return frozenset(own)


def noun_features(mentions: Mentions, claim: Claim, subject: Subject, reading: Reading) -> Iterator[tuple[str, float]]:
    """What the number counts or describes: the noun after it, or the fastener being spoken of."""
    item, what = claim.item, thing(subject)
    noun = claim.noun
    if subject.is_count and noun:
        own = counted_by(subject)
        yield "noun_hit", float(bool(own & set(noun)))
        yield "noun_none", float(not own & set(noun) and not COUNTED & set(noun))
        yield "noun_other", float(not own & set(noun) and bool(COUNTED & set(noun)))
        described = own | set(subject.head) | set(subject.rest) | GENERIC
        yield "noun_foreign", float(noun[-1] not in described)
        counted = noun[-1] in mentions.counted
        yield "noun_own", float(counted and noun[-1] in own)
        if subject.kind == "part_count":
            best = max((matched(noun, p) for p in mentions.part_phrases), default=0)
            mine = max((matched(noun, p) for p in (*subject.said, subject.head)), default=0)
            yield "noun_fewer", float(mine < best)
        yield "noun_elsewhere", float(counted and noun[-1] not in own)
        yield "elsewhere_equal", float(counted and noun[-1] not in own and close(reading[0], subject))
    if subject.is_length and noun and noun[-1] in FASTENERS:
        own_fastener = noun[-1] == what
        yield "fastener_own", float(own_fastener and subject.kind in FASTENER_SIZES)
        yield "fastener_other", float(not own_fastener or subject.kind not in FASTENER_SIZES)
    if what and what not in ("stock", "board"):
        yield "thing", mentions.transcript_salience(what, item.first, item.last)
    elif subject.is_length or subject.kind == "part_count":
        yield "thing_instead", max(mentions.transcript_salience(w, item.first, item.last) for w in ("screw", "bolt"))
    if subject.is_count and not noun:
        yield "noun_missing", 1.0
    if subject.kind == "part_count":
        yield "anaphor", float(bool(re.search(r"\b(?:the|those|these|all|both)$", claim.around.before)))
    if what == "stock" or subject.kind == "stock_length":
        yield from stock_features(claim, subject)
    yield "footer", float(claim.footer and subject.kind == "stock_length")
    if what in ("stock", "board"):
        yield "stock_noun", float(bool({"length", "footer", "meter"} & set(noun)) or any("x" in w for w in noun))


def touches_part(mentions: Mentions, claim: Claim, subject: Subject) -> bool:
    """Whether the fact's part is named right before a number; "slats" doesn't name their screws."""
    named = not subject.is_count or thing(subject) in ("", "stock", "board")
    return named and any(mentions.ends_at(p, claim.place.touching) for p in (*subject.said, subject.head) if p)


def place_features(mentions: Mentions, claim: Claim, subject: Subject, equal: bool) -> Iterator[tuple[str, float]]:
    """What the number's place in its sentence says of a fact."""
    place = claim.place
    if subject.is_count and place.per:
        own = {w for p in (*subject.said, subject.head, subject.rest) for w in p} - FASTENED
        yield "per_own", float(bool(own & set(place.per)) and subject.scope == "each")
        yield "per_other", float(not own & set(place.per))
    yield "split_off", float(place.split and not equal)
    yield "operand", float(place.operand)
    yield "operand_off", float(place.operand and not equal)
    said = mentions.transcript.stems[place.touching] if place.touching >= 0 else ""
    touches = touches_part(mentions, claim, subject)
    yield "touches", float(touches)
    yield "touches_other", float(not touches and said in mentions.parts)
    what = thing(subject)
    if said in FASTENERS and what in FASTENERS:
        yield "thing_touches", float(said == what)
        yield "thing_touches_other", float(said != what)
    if subject.kind in ("distance", "depth", "spacing"):
        way = direction(claim.around)
        yield "way_own", float(bool(way) and way == direction_of(subject))
        yield "way_other", float(bool(way) and bool(direction_of(subject)) and way != direction_of(subject))
    yield "span", float(subject.unit in DURATIONS and claim.item.unit in DURATIONS and "coats" in claim.cues)
    yield "own_noun", float(subject.kind == "coats" and "coat" in claim.noun)
    yield "touches_size", float(touches and subject.kind in ("length", "height", "part_count") and not claim.noun)


DOWN = re.compile(r"\b(?:down|below|under|beneath|drop|lower|top of)\b")
ALONG = re.compile(
    r"\b(?:from (?:each|the|its|an|either|one)? ?(?:end|head|foot|tip)|in from|inset|setback|along|first|ends?)\b"
)
DOWN_SAID = re.compile(r"^(?:\S+ ){0,1}(?:down|below|under|beneath|lower)\b")
ALONG_SAID = re.compile(
    r"^(?:\S+ ){0,2}(?:in from|from (?:the|each|either|its|an|both) (?:ends?|head|foot|tips?)|from where)\b"
)


def direction(around: Around) -> str:
    """Whether a distance is said to go down or along."""
    if DOWN_SAID.search(around.after) or around.before.endswith((" down", " drop", " down by")):
        return "down"
    return "along" if ALONG_SAID.search(around.after) else ""


@lru_cache(maxsize=4096)
def direction_of(subject: Subject) -> str:
    """Whether a fact's distance goes down or along, by its words; "" when they don't say."""
    text = f"{subject.what} {subject.key.rpartition('.')[2]}".replace("_", " ")
    down, along = bool(DOWN.search(text)), bool(ALONG.search(text))
    return "" if down == along else "down" if down else "along"


FASTENED = frozenset("screw bolt dowel hole gap".split())


BOARDS = frozenset("board length stick piece more".split())


def stock_features(claim: Claim, subject: Subject) -> Iterator[tuple[str, float]]:
    """The timber's name and length said beside a count or length of stock."""
    noun = claim.noun
    name, length = stock_name(subject)
    if name and claim.names:
        yield "name_hit", float(claim.names[0] == name)
        yield "name_near", float(name in claim.names[1:])
        yield "name_other", float(name not in claim.names)
        beside = (claim.name_before or claim.name_after) if subject.is_length else claim.name_after
        yield "name_next", float(name == beside)
        yield "name_next_other", float(bool(beside) and name != beside)
        bought = bool(claim.name_last) and not beside and ("stock" in claim.cues or bool(BOARDS & set(noun)))
        yield "name_last", float(bought and name == claim.name_last)
        yield "name_last_other", float(bought and name != claim.name_last)
    if length and claim.lengths and subject.is_count:
        yield "stock_length_hit", float(any(abs(length - v) < 2 for v in claim.lengths))
    yield "apiece", float(subject.is_length and claim.item.unit in ("ft", "m"))


@lru_cache(maxsize=4096)
def stock_name(subject: Subject) -> tuple[tuple[Fraction, ...], Fraction | None]:
    """Nominal size and length [in] in the words of a stock fact ("8-ft 2x6", "lengths of 140x45 at 2.4 m")."""
    size = re.search(r"\b(\d+)x(\d+)\b", subject.what)
    long = re.search(r"(\d+(?:\.\d+)?)[- ]?(ft|foot|m|mm)\b", subject.what)
    unit = {"ft": "ft", "foot": "ft", "m": "m", "mm": "mm"}
    return (
        (Fraction(size[1]), Fraction(size[2])) if size else (),
        Fraction(long[1]) * LENGTHS[unit[long[2]]] if long else None,
    )


WHERE = frozenset(("outside", "opening", "mattress", "underside", "height"))
SIZES = ("length", "section", "mattress_size", "height", "clearance")


def conflicts(claim: Claim, subject: Subject) -> Iterator[tuple[str, float]]:
    """Words that speak against a fact."""
    cues = claim.cues
    wanted = cues_wanted(subject)
    if subject.is_length:
        yield "counting", float(claim.counting)
        inside, outside = "within" in cues, "out_to_out" in cues
        words = (*subject.head, *subject.rest)
        yield "side_own", float((inside and "opening" in words) or (outside and "outside" in words))
        yield "side_other", float((inside and "outside" in words) or (outside and "opening" in words))
        yield "where_other", float(len((cues & WHERE) - wanted) if subject.kind in SIZES else 0)
        for axis, cue in (("width", "wide"), ("thickness", "thick"), ("height", "tall")):
            yield "axis_other", float(cue in cues and cue not in wanted and subject.axis not in ("", axis, "square"))
        yield "spacing_other", float("spacing" in cues and subject.kind not in ("spacing", "gap", "centre_mark"))
        yield "offset_other", float("offset" in cues and subject.kind in ("length", "section", "mattress_size"))
        yield "bare_length", float(subject.kind == "length" and not cues & {"spacing", "offset", "gap", "section"})
    else:
        yield "each_other", float("each" in cues and subject.scope == "total")
        yield "total_other", float("total" in cues and "each" not in cues and subject.scope == "each")
    yield "grit_said", float(claim.item.unit == subject.unit == "grit")
    yield "unit_said", float(bool(claim.item.unit) and subject.is_length)
    yield "pair_section", float(claim.item.pair > 0 and subject.kind == "section")


def stem_of(word: str) -> str:
    """The stem, for callers that hold a plain word."""
    return stem(word)
