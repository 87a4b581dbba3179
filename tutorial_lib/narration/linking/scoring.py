"""How well a fact fits a number, as a sum of named features with the weights of ``weights``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from tutorial_lib.narration.captions.cues import Cell
from tutorial_lib.narration.linking.aspects import cues_wanted, thing
from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.mentions import Mentions
from tutorial_lib.narration.linking.slips import apart, close, nearest, slip_like, typical_slip
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import DURATIONS, LENGTHS
from tutorial_lib.narration.numbers.stems import stems
from tutorial_lib.narration.numbers.transcript import Around


def reading_for(claim: Claim, subject: Subject) -> Reading | None:
    """The reading that has the fact's unit, the closest if there are two; None when none has."""
    fits = [r for r in claim.readings if r[1] == subject.unit]
    if not fits and subject.unit in DURATIONS and claim.item.unit in DURATIONS:
        return None
    if len(fits) < 2:
        return fits[0] if fits else None
    return min(fits, key=lambda r: apart(r[0], subject.value))


def features(
    mentions: Mentions, claim: Claim, subject: Subject, reading: Reading, front: float
) -> Iterator[tuple[str, float]]:
    """Named features of one number and one fact; ``front`` is the salience of the part most present."""
    part = part_salience(mentions, claim, subject)
    yield "part", part
    yield "part_behind", 0.0 if subject.kind in PARTLESS else front - part
    yield "rest", rest_salience(mentions, claim, subject)
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
    if fit in WRONG:  # what the words say counts more where the value says otherwise
        noun_fits = subject.is_count and bool(claim.noun) and claim.noun[-1] in counted_by(subject)
        yield f"cue_{fit}", float(part > 0.7 and hits > 0)
        yield f"touch_{fit}", touches_part(mentions, claim, subject)
        yield f"noun_{fit}", float(noun_fits)
    yield from noun_features(mentions, claim, subject, reading)
    yield from place_features(mentions, claim, subject, fit == "equal")
    yield from conflicts(claim, subject)
    if subject.is_count and fit != "equal":
        yield "count_off", 1.0
    if claim.cell is not None:
        yield "heading", under_heading(claim.cell, subject)
        yield "row_stock", float(subject.kind.startswith("stock"))


WRONG = ("typical", "slip", "far")
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


@lru_cache(maxsize=1024)  # asked for three times while one claim is weighed
def part_salience(mentions: Mentions, claim: Claim, subject: Subject) -> float:
    """How present the fact's part is: by the creator's own words for it, else by the words of its description."""
    item = claim.item
    if claim.cell is not None:
        return in_row(claim.cell, subject)
    said = max((mentions.salience(p, item.first, item.last) for p in subject.said), default=0.0)
    short = (mentions.salience((p[-1],), item.first, item.last) for p in subject.said if mentions.is_short_name(p))
    said = max(said, 0.85 * max(short, default=0.0))
    words = [mentions.salience((w,), item.first, item.last) for w in subject.head]
    head = sum(words) / len(words) if words else 0.0
    top = max(words, default=0.0)
    return max(said, 0.9 * head, 0.75 * top if not subject.said else 0.35 * top)


@lru_cache(maxsize=1024)
def rest_salience(mentions: Mentions, claim: Claim, subject: Subject) -> float:
    """How present the other words of the fact's description are."""
    rest = [mentions.salience((w,), claim.item.first, claim.item.last) for w in subject.rest]
    return sum(rest) / len(rest) if rest else 0.0


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


def touches_part(mentions: Mentions, claim: Claim, subject: Subject) -> float:
    """How clearly the fact's part is named right before a number: 1, or a half by a name it shares ("rail").

    "Slats" doesn't name their screws.
    """
    place = claim.place.touching
    if place < 0 or (subject.is_count and thing(subject) not in ("", "stock", "board")):
        return 0.0
    if any(mentions.ends_at(p, place) for p in (*subject.said, subject.head) if p):
        return 1.0
    last = mentions.transcript.stems[place]
    short = [p for p in subject.said if len(p) > 1 and p[-1] == last]
    return max((1.0 if mentions.is_short_name(p) else 0.5 for p in short), default=0.0)


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
