"""How spoken English marks what kind of number is being said: the words before and after it, by kind of fact."""

from __future__ import annotations

import re
from functools import lru_cache

from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Cue:
    """Words that mark a kind of number."""

    before: re.Pattern[str] | None  # words that end before the number
    after: re.Pattern[str] | None  # words that start after it
    opening: re.Pattern[str]  # the word that they begin with: most numbers have none around them


def near_pattern(words: str) -> Cue:
    """Cues that stand within a few words before or after the number."""
    before, after = rf"\b(?:{words})\b(?: ,?\S+){{0,4}}$", rf"(?:,?\S+ ){{0,4}},?(?:{words})\b"
    opening = "|".join(phrase.partition(" ")[0] for phrase in words.split("|"))
    return Cue(re.compile(before), re.compile(after), re.compile(rf"\b(?:{opening})\b"))


def edge_pattern(before: str, after: str) -> Cue:
    """Cues that must touch the number."""
    return Cue(
        re.compile(rf"(?:{before})$") if before else None, re.compile(after) if after else None, re.compile("[a-z]")
    )


NEAR: dict[str, Cue] = {
    "screw": near_pattern("screws?|screwed|bugle|structural|sixty-fives"),
    "bolt": near_pattern("bolts?|bolted"),
    "dowel": near_pattern("dowels?|pegs?"),
    "gap": near_pattern("gaps?|spaces?|spacer|spacing|room|air|slop|slack|play|clearance|between|short|trench|elbow"),
    "height": near_pattern("floor|high|height|deck|ground|concrete|stands?|top of the|tall|sit|sitting|seat"),
    "underside": near_pattern("under|underneath|daylight|clear|clearance|below|beneath"),
    "outside": near_pattern("outside|overall|out to out|over the|end up|ends up|footprint|across|the thing"),
    "opening": near_pattern("opening|inside|hole|box"),
    "mattress": near_pattern("mattress|mattresses|twin|queen|king|full|double|single|singles"),
    "section": near_pattern(
        "isn't|actually|really|actual|planed|dressed|thick|wide|deep|square|real|measures|each way|"
        "depth|on edge|thickness|takes up|tape on it|down to|fat"
    ),
    "drill": near_pattern("pilot|bit|(?:pre-?)?drill|predrilled|bits|hole|holes|bore"),
    "grit": near_pattern("sand|sanded|sanding|grit|paper|sandpaper|sander|finished up|went over|go over|rub|rubbed"),
    "coats": near_pattern("coats?|poly|oil|varnish|paint|clear|wax|finish"),
    "kerf": near_pattern("saw|blade|kerf|eats?|takes|turns|cut"),
    "stock": near_pattern(
        "bought|yard|pile|lengths?|sticks?|boards?|picked up|brought|got|foot|apiece|by|store|lumber"
    ),
    "board": near_pattern("out of|get|gives?|per board|a length|each board|a board|every|makes?|yields?"),
    "centre": near_pattern("middle|centre|center|halfway|half"),
    "limit": near_pattern("past|more than|most|maximum|exceed|over|limit|wider|beyond"),
    "within": Cue(
        re.compile(r"\binside(?! the| of| face)\b(?:(?! outside).)*$"),
        re.compile(r"(?:\S+ )?(?:square |wide )?(?:on the )?inside(?! the| of)\b"),
        re.compile("inside"),
    ),
    "out_to_out": Cue(
        re.compile(
            r"\b(?:outside to outside|overall|out to out|end to end|on the outside|footprint)\b(?:(?! inside).)*$"
        ),
        re.compile(r"(?:\S+ ){0,2}(?:on the outside|overall|outside to outside|out to out|end to end)\b"),
        re.compile("outside|overall|out|end|on|footprint"),
    ),
    "depth": near_pattern("deep|depth|down|into|going in|in"),
}
EDGE: dict[str, Cue] = {
    "spacing": edge_pattern(
        r"\bevery(?: ,?\S+)?|\bapart|spaced(?: at)?|\bgo every|puts|then",
        r"centres?|centers?|apart|on cent|o c\b|between",
    ),
    "offset": edge_pattern(
        r"\b(?:start|starting|starts|begin|come in|back|set|measure|goes|up|down|sit|sits|line|first)(?: ,?\S+){0,3}",
        r"(?:in |up |down |back |away |over |of it )?(?:from|below|above|off|in from|down|higher|lower|short)\b"
        r"|in ,|in from|further",
    ),
    "long": edge_pattern(
        r"\b(?:cut|trim|trimmed|sawn|at|are|is|it's|they're|come to|comes to|finish at|length|long|those|make|"
        r"make those)"
        r"(?: (?:those|these|them|to|at|it|on|out|all)){0,3}",
        r"long|inches long|apiece|each|on those|for those|in length",
    ),
    "of_stuff": edge_pattern("", r"(?:mm |mil |inch |inches )?of (?!the|them|these|those|it|an|a|us|you|one)[a-z]+\b"),
    "each": edge_pattern(
        "",
        r"(?:,?\S+ ){0,4}?(?:each|apiece|per|a piece|to the|to a|to each|in each|in one|a slat|a leg|a post|a corner|"
        r"a cleat|an end|a bed|a length|every|at every|at each|in it)\b",
    ),
    "total": edge_pattern(
        r"\b(?:that's|so|makes?|total|altogether|all up|all told)(?: ,?\S+){0,2}",
        r"(?:,?\S+ ){0,4}?,?(?:altogether|all told|all up|in all|in total|total|"
        r"(?:for|in|over|across|between|on) (?:the|both) (?:whole )?(?:pair|lot|job|bed|two|deck|set)|in both|"
        r"for both|the lot|of them altogether|by the time)\b",
    ),
    "wide": edge_pattern(
        r"\b(?:width|wide|across)(?: ,?\S+){0,3}", r"(?:,?\S+ ){0,2}?,?(?:wide|across|in width|crossways)\b"
    ),
    "longways": edge_pattern(
        r"\b(?:length|the other way|long)(?: ,?\S+){0,2}", r"(?:,?\S+ ){0,2}?(?:long|the long way|in length|longways)\b"
    ),
    "thick": edge_pattern(r"\b(?:thickness|thick)(?: ,?\S+){0,3}|down to", r"(?:,?\S+ ){0,1}?(?:thick)\b"),
    "deep": edge_pattern(r"\b(?:depth|deep)(?: ,?\S+){0,4}", r"(?:,?\S+ ){0,1}?(?:deep)\b"),
    "tall": edge_pattern(r"\b(?:height|tall|high)(?: ,?\S+){0,3}", r"(?:,?\S+ ){0,1}?(?:tall|high|off the)\b"),
}
CUES = NEAR | EDGE

WANTED: dict[str, tuple[str, ...]] = {  # kind of fact -> cues that speak for it
    "length": ("long", "longways"),
    "part_count": (),
    "stock_count": ("stock",),
    "stock_length": ("stock",),
    "screw_count": ("screw",),
    "bolt_count": ("bolt",),
    "dowel_count": ("dowel",),
    "joint_count": (),
    "screw_length": ("screw", "long"),
    "bolt_length": ("bolt", "long"),
    "spacing": ("spacing",),
    "distance": ("offset",),
    "gap": ("gap",),
    "gap_limit": ("limit",),
    "gap_count": ("gap",),
    "height": ("height", "tall"),
    "clearance": ("underside",),
    "centre_mark": ("centre",),
    "mark": ("offset", "spacing"),
    "section": ("section", "of_stuff"),
    "thickness": ("thick", "section"),
    "diameter": ("drill",),
    "depth": ("depth", "deep"),
    "mattress_size": ("mattress",),
    "pieces_per_board": ("board",),
    "kerf": ("kerf",),
    "grit": ("grit",),
    "coats": ("coats",),
    "time": ("coats",),
}
AXIS_CUES = {"width": "wide", "length": "longways", "thickness": "thick", "depth": "deep", "height": "tall"}
WHAT_CUES = ("outside", "opening", "mattress", "underside", "height", "centre")


def cues_around(before: str, after: str) -> frozenset[str]:
    """Names of all cues that stand around a number."""
    found = {name for name in opened(before) if (cue := CUES[name].before) and cue.search(before)}
    found |= {name for name in opened(after) if (cue := CUES[name].after) and cue.match(after)}
    return frozenset(found)


def opened(text: str) -> set[str]:
    """Names of the cues that any word of a text may begin."""
    return {name for word in text.split(" ") for name in opened_by(word)}


@lru_cache(maxsize=16384)
def opened_by(word: str) -> tuple[str, ...]:
    """Names of the cues that a word may begin."""
    return tuple(name for name, cue in CUES.items() if cue.opening.search(word))


@lru_cache(maxsize=4096)
def cues_wanted(subject: Subject) -> frozenset[str]:
    """Names of the cues that speak for a fact: by its kind, its axis and the words it is described with."""
    named = set(WANTED.get(subject.kind, ()))
    if subject.axis in AXIS_CUES:
        named.add(AXIS_CUES[subject.axis])
    if (subject.kind, subject.axis) == ("section", "depth"):
        named.add("tall")  # a board on edge is so high
    text = " ".join((*subject.head, *subject.rest))
    named |= {cue for cue in WHAT_CUES if cue in text}
    if subject.is_count and subject.scope in ("each", "bed", "total"):
        named.add("each" if subject.scope != "total" else "total")
    return frozenset(named)


FASTENER = re.compile(r"screw|bolt|dowel|nail")


@lru_cache(maxsize=4096)
def thing(subject: Subject) -> str:
    """What is counted or measured where it isn't the part itself: screw, bolt, gap, coat, board ...; else ""."""
    kind = subject.kind.partition("_")[0]
    if kind in ("screw", "bolt", "dowel", "gap", "joint", "coats", "stock", "pieces"):
        return {"coats": "coat", "pieces": "board"}.get(kind, kind)
    text = " ".join((*subject.head, *subject.rest))
    found = (
        FASTENER.search(text) if subject.kind in ("spacing", "distance", "diameter", "length", "gap", "depth") else None
    )
    return found.group() if found else ""
