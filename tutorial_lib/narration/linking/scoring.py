"""How well a fact fits a number, as a sum of named features with the weights of ``weights``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from tutorial_lib.narration.captions.cues import Cell
from tutorial_lib.narration.linking.aspects import cues_wanted, thing
from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.mentions import Mentions, most_matched, names_of
from tutorial_lib.narration.linking.slips import close, nearest, way_off
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import DURATIONS
from tutorial_lib.narration.numbers.stems import stems
from tutorial_lib.narration.numbers.transcript import Around

Feature = tuple[str, float]


def features(mentions: Mentions, claim: Claim, subject: Subject, reading: Reading, front: float) -> list[Feature]:
    """Named features of one number and one fact; ``front`` is the salience of the part most present."""
    fit = how_close(claim, subject, reading[0], mentions.steps)
    of_words = word_features(mentions, claim, subject, front)
    of_value = equal_features(subject, reading[0]) if fit == "equal" else off_features(mentions, claim, subject, fit)
    out = [*of_words, (fit, 1.0), *of_value, *noun_features(mentions, claim, subject, reading)]
    out += place_features(mentions, claim, subject, fit == "equal")
    out += length_conflicts(claim, subject) if subject.is_length else count_conflicts(claim, subject)
    if claim.item.unit:
        out.append(("grit_said", float(claim.item.unit == subject.unit == "grit")))
        out.append(("unit_said", float(subject.is_length)))
    if claim.item.pair:
        out.append(("pair_section", float(subject.kind == "section")))
    if claim.cell is not None:
        out.append(("heading", under_heading(claim.cell, subject)))
        out.append(("row_stock", float(subject.kind.startswith("stock"))))
    return out


def word_features(mentions: Mentions, claim: Claim, subject: Subject, front: float) -> list[Feature]:
    """How present a fact's part is, the other words of it, and the words that go with its kind."""
    part, wanted = part_salience(mentions, claim, subject), cues_wanted(subject)
    hits = len(wanted & claim.cues)
    return [
        ("part", part),
        ("part_behind", 0.0 if subject.kind in PARTLESS else front - part),
        ("rest", rest_salience(mentions, claim, subject)),
        ("cue_hit", min(hits, 2)),
        ("cue_none", float(bool(wanted) and not hits)),
    ]


def equal_features(subject: Subject, said: Fraction) -> list[Feature]:
    """What more a value says that is the fact's."""
    return [
        ("equal_rare", float(said.denominator > 1 or said.numerator > 12 * said.denominator)),
        ("equal_stock", float(subject.kind == "stock_length")),  # few lengths are sold
    ]


def off_features(mentions: Mentions, claim: Claim, subject: Subject, fit: str) -> list[Feature]:
    """Named features of a number that isn't the fact's: what the words say counts more there."""
    part = part_salience(mentions, claim, subject)
    out = [("sure_part", float(part > 0.85))]
    if subject.is_count:
        out.append(("count_off", 1.0))
    if fit in WRONG:
        noun_fits = subject.is_count and bool(claim.noun) and claim.noun[-1] in counted_by(subject)
        out.append((f"cue_{fit}", float(part > 0.7 and not cues_wanted(subject).isdisjoint(claim.cues))))
        out.append((f"touch_{fit}", touches_part(mentions, claim, subject)))
        out.append((f"noun_{fit}", float(noun_fits)))
    return out


WRONG = ("typical", "slip", "far")
PARTLESS = ("coats", "time", "grit", "kerf", "diameter")  # kinds that belong to no part of the build


def how_close(claim: Claim, subject: Subject, said: Fraction, steps: frozenset[Fraction]) -> str:
    """What the value itself says, never enough alone: equal, hedged, typical (a usual slip), slip (near) or far."""
    way = way_off(said.numerator, said.denominator, subject, steps)
    if claim.hedge and way != "equal" and abs(said - nearest(said, subject)) <= subject.value * Fraction(6, 100):
        return "hedged"
    return way


def part_salience(mentions: Mentions, claim: Claim, subject: Subject) -> float:
    """How present the fact's part is: by the creator's own words for it, else by the words of its description."""
    if claim.cell is not None:
        return in_row(claim.cell, subject)
    return mentions.part_present(subject, claim.item.first, claim.item.last)


def rest_salience(mentions: Mentions, claim: Claim, subject: Subject) -> float:
    """How present the other words of the fact's description are."""
    return mentions.rest_present(subject, claim.item.first, claim.item.last)


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


PIECES = frozenset("piece board length plank".split())  # what is cut: a gap is none of them
GENERIC = frozenset("piece length board stick thing lot one more time".split())


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


def noun_features(mentions: Mentions, claim: Claim, subject: Subject, reading: Reading) -> list[Feature]:
    """What the number counts or describes: the noun after it, or the fastener being spoken of."""
    out = thing_features(mentions, claim, subject)
    if subject.is_count:
        out += counted_features(mentions, claim.noun, subject, reading) if claim.noun else [("noun_missing", 1.0)]
    elif subject.is_length and claim.noun and claim.noun[-1] in FASTENERS:
        own_fastener = claim.noun[-1] == thing(subject) and subject.kind in FASTENER_SIZES
        out.append(("fastener_own" if own_fastener else "fastener_other", 1.0))
    if subject.kind == "part_count":
        out.append(("anaphor", float(bool(ANAPHOR.search(claim.around.before)))))
    return out


def thing_features(mentions: Mentions, claim: Claim, subject: Subject) -> list[Feature]:
    """How present the thing is that a fact counts or measures, where it isn't the part itself."""
    item, what = claim.item, thing(subject)
    out = list(stock_features(claim, subject)) if what == "stock" or subject.kind == "stock_length" else []
    if what in ("stock", "board"):
        out.append(("stock_noun", float(is_stock_noun(claim.noun))))
    elif what:
        out.append(("thing", mentions.transcript_salience(what, item.first, item.last)))
    if what in ("", "stock", "board") and (subject.is_length or subject.kind == "part_count"):
        out.append(("thing_instead", mentions.fasteners_present(item.first, item.last)))
    if claim.footer:
        out.append(("footer", float(subject.kind == "stock_length")))
    return out


def is_stock_noun(noun: tuple[str, ...]) -> bool:
    """Whether a noun phrase names boards as they are sold: lengths, metres, 2x4s."""
    return bool({"length", "footer", "meter"} & set(noun)) or any("x" in w for w in noun)


ANAPHOR = re.compile(r"\b(?:the|those|these|all|both)$")


def counted_features(mentions: Mentions, noun: tuple[str, ...], subject: Subject, reading: Reading) -> list[Feature]:
    """How well the noun after a count names what a fact counts."""
    own = counted_by(subject)
    hit, counted, mine = not own.isdisjoint(noun), noun[-1] in mentions.counted, noun[-1] in own
    out = [
        ("noun_hit" if hit else "noun_none" if COUNTED.isdisjoint(noun) else "noun_other", 1.0),
        ("noun_foreign", float(noun[-1] not in describing(subject))),
    ]
    if counted and mine:
        out.append(("noun_own", 1.0))
    if thing(subject) == "gap":
        out.append(("noun_solid", float(not PIECES.isdisjoint(noun))))
    if counted and not mine:
        out += [("noun_elsewhere", 1.0), ("elsewhere_equal", float(close(reading[0], subject)))]
    if subject.kind == "part_count":
        out.append(("noun_fewer", float(most_matched(noun, names_of(subject)) < mentions.most_matched(noun))))
    return out


@lru_cache(maxsize=4096)
def describing(subject: Subject) -> frozenset[str]:
    """Stems of all nouns that may follow a number said of a fact."""
    return counted_by(subject) | set(subject.head) | set(subject.rest) | GENERIC


def touches_part(mentions: Mentions, claim: Claim, subject: Subject) -> float:
    """How clearly the fact's part is named right before a number; "slats" doesn't name their screws."""
    place = claim.place.touching
    if place < 0 or (subject.is_count and thing(subject) not in ("", "stock", "board")):
        return 0.0
    return mentions.touches(subject, place)


def place_features(mentions: Mentions, claim: Claim, subject: Subject, equal: bool) -> list[Feature]:
    """What the number's place in its sentence says of a fact."""
    place = claim.place
    out = per_features(place.per, subject) if subject.is_count and place.per else []
    if place.split:
        out.append(("split_off", float(not equal)))
    if place.operand:
        out += [("operand", 1.0), ("operand_off", float(not equal))]
    out += touching_features(mentions, claim, subject)
    if subject.kind in ("distance", "depth", "spacing"):
        out += way_features(claim, subject)
    if subject.unit in DURATIONS:
        out.append(("span", float(claim.item.unit in DURATIONS and "coats" in claim.cues)))
    if subject.kind == "coats":
        out.append(("own_noun", float("coat" in claim.noun)))
    return out


def per_features(per: tuple[str, ...], subject: Subject) -> list[Feature]:
    """Whether the thing each of which has so many is the fact's."""
    named = {w for p in (*subject.said, subject.head, subject.rest) for w in p}
    own = not (named - FASTENED).isdisjoint(per)
    return [("per_own", float(own and subject.scope == "each")), ("per_other", float(not own))]


def way_features(claim: Claim, subject: Subject) -> Iterator[tuple[str, float]]:
    """Whether a distance is said down or along, and the fact's is."""
    said, meant = direction(claim.around), direction_of(subject)
    if said and meant:
        yield "way_own" if said == meant else "way_other", 1.0


def touching_features(mentions: Mentions, claim: Claim, subject: Subject) -> list[Feature]:
    """What the name right before a number says of a fact."""
    place = claim.place.touching
    if place < 0:
        return []
    said, touches = mentions.transcript.stems[place], touches_part(mentions, claim, subject)
    out = [
        ("touches", touches),
        ("touches_other", float(not touches and said in mentions.parts)),
        ("touches_size", float(touches and subject.kind in WHOLE and not claim.noun)),
    ]
    if said in FASTENERS and thing(subject) in FASTENERS:
        out.append(("thing_touches" if said == thing(subject) else "thing_touches_other", 1.0))
    return out


WHOLE = ("length", "height", "part_count")  # what the name of a part alone may mean
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
    name, length = subject.timber, subject.board_length
    if name and claim.names:
        yield from timber_features(claim, subject, name)
    if length and claim.lengths and subject.is_count:
        yield "stock_length_hit", float(any(abs(length - v) < 2 for v in claim.lengths))
    yield "apiece", float(subject.is_length and claim.item.unit in ("ft", "m"))


def timber_features(claim: Claim, subject: Subject, name: tuple[Fraction, ...]) -> Iterator[tuple[str, float]]:
    """Where the timber of a stock fact is named: beside the number, next to it, or last before it."""
    yield "name_hit", float(claim.names[0] == name)
    yield "name_near", float(name in claim.names[1:])
    yield "name_other", float(name not in claim.names)
    beside = (claim.name_before or claim.name_after) if subject.is_length else claim.name_after
    if beside:
        yield "name_next" if name == beside else "name_next_other", 1.0
    elif claim.name_last and ("stock" in claim.cues or BOARDS & set(claim.noun)):
        yield "name_last" if name == claim.name_last else "name_last_other", 1.0


WHERE = frozenset(("outside", "opening", "mattress", "underside", "height"))
SIZES = ("length", "section", "mattress_size", "height", "clearance")


def length_conflicts(claim: Claim, subject: Subject) -> Iterator[tuple[str, float]]:
    """Words that speak against a length."""
    cues, kind = claim.cues, subject.kind
    if claim.counting:
        yield "counting", 1.0
    if cues:
        yield from side_conflicts(cues, subject)
        if kind in SIZES:
            yield "where_other", float(len((cues & WHERE) - cues_wanted(subject)))
        yield from axis_conflicts(cues, subject)
        if "spacing" in cues:
            yield "spacing_other", float(kind not in ("spacing", "gap", "centre_mark"))
        if "offset" in cues:
            yield "offset_other", float(kind in ("length", "section", "mattress_size"))
    if kind == "length":
        yield "bare_length", float(cues.isdisjoint(NO_LENGTH))


NO_LENGTH = frozenset(("spacing", "offset", "gap", "section"))  # cues of other lengths than a piece's own
AXIS_SAID = (("width", "wide"), ("thickness", "thick"), ("height", "tall"))


def side_conflicts(cues: frozenset[str], subject: Subject) -> Iterator[tuple[str, float]]:
    """Whether the inside or the outside is said, and the fact is of the other."""
    for said, own, other in (("within", "opening", "outside"), ("out_to_out", "outside", "opening")):
        if said in cues:
            yield "side_own", float(own in subject.head or own in subject.rest)
            yield "side_other", float(other in subject.head or other in subject.rest)


def axis_conflicts(cues: frozenset[str], subject: Subject) -> Iterator[tuple[str, float]]:
    """How many axes are said that aren't the fact's."""
    other = [axis for axis, cue in AXIS_SAID if cue in cues and cue not in cues_wanted(subject)]
    if other:
        yield "axis_other", float(sum(subject.axis not in ("", axis, "square") for axis in other))


def count_conflicts(claim: Claim, subject: Subject) -> Iterator[tuple[str, float]]:
    """Words that speak against a count, or anything else that is no length."""
    if "each" in claim.cues:
        yield "each_other", float(subject.scope == "total")
    elif "total" in claim.cues:
        yield "total_other", float(subject.scope == "each")
