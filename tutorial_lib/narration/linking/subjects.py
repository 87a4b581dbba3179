"""The plan's facts as something that can be spoken of: their words, what is counted or measured, how many it covers."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from tutorial_lib.facts import Fact, Facts
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.numbers.stems import Phrase, stem, stems
from tutorial_lib.records import dataclass


@dataclass(frozen=True, eq=False, kw_only=True)  # one object a fact: quick to look up by
class Subject:
    """One fact of the plan, made ready for linking; lengths in inches."""

    key: str
    value: Fraction
    values: tuple[Fraction, ...]
    floats: tuple[float, ...]  # the values roughly, quick to compare
    unit: str
    kind: str
    what: str
    said: tuple[Phrase, ...]  # the creator's own words for it
    head: Phrase  # the words of ``what`` that name it
    rest: Phrase  # the other words of ``what``
    scope: str  # "each", "bed", "total" or ""
    axis: str  # width, length, thickness, depth, height or ""
    group: tuple[Any, ...]  # facts that belong to the same part
    timber: tuple[Fraction, ...]  # nominal size of the board it speaks of, () for none
    board_length: Fraction | None  # [in] of that board
    is_length: bool  # measured in a unit of length
    is_count: bool


BY_RULE = ("lumber", "gauge", "price", "wait")  # kinds of facts that plain words tell, whatever the value


def subjects_of(facts: Facts) -> list[Subject]:
    """The facts with a number that any number said may be about."""
    made = (subject(fact) for fact in facts.values() if fact.kind not in BY_RULE)
    return [s for s in made if s is not None]


def ruled_of(facts: Facts) -> list[Subject]:
    """The facts that only a number of their own sort may be about: timber's names, gauges, prices, waits."""
    made = (subject(fact) for fact in facts.values() if fact.kind in BY_RULE)
    return [s for s in made if s is not None]


def subject(fact: Fact) -> Subject | None:
    """One fact as a subject; None when its value is a word."""
    values = values_of(fact)
    if not values:
        return None
    said = tuple(p for p in (phrase(s) for s in fact.said_as) if p)
    lead, _, tail = fact.what.partition(",")
    noun, more = parted(re.sub(r"\([^)]*\)", "", lead))
    return Subject(
        key=fact.key,
        value=values[0],
        values=values,
        floats=tuple(float(v) for v in values),
        unit=fact.unit,
        kind=fact.kind,
        what=fact.what,
        said=said,
        head=naming(stems(noun)),
        rest=stems(more + " " + tail),
        scope=scope_of(fact.what),
        axis=axis_of(fact.kind, fact.what, fact.key),
        group=said or (fact.key.split(".")[0],),
        timber=sides(fact.board.section) if fact.board else (),
        board_length=fact.board.length if fact.board else None,
        is_length=fact.unit in LENGTHS,
        is_count=fact.unit == "count",
    )


def values_of(fact: Fact) -> tuple[Fraction, ...]:
    """The values of a fact, () where one is a word; the two numbers of a timber's name."""
    if fact.kind == "lumber" and fact.board is not None:
        return sides(fact.board.section)
    raw = fact.value if isinstance(fact.value, tuple) else (fact.value,)
    if any(isinstance(v, str) for v in raw):
        return ()
    return tuple(v if isinstance(v, Fraction) else Fraction(str(v)) for v in raw)


def sides(section: str) -> tuple[Fraction, ...]:
    """The two numbers a section is named by.

    >>> sides("2x6")
    (Fraction(2, 1), Fraction(6, 1))
    """
    named = re.fullmatch(r"(\d+)x(\d+)", section)
    return (Fraction(named[1]), Fraction(named[2])) if named else ()


def phrase(said: str) -> Phrase:
    """A name for a part as stems."""
    return tuple(stem(w) for w in re.findall(r"[a-z']+|\d+x\d+", said.lower()))


MEASURES = frozenset("length width height depth thickness size".split())


def naming(words: Phrase) -> Phrase:
    """The words that name a thing, without those that say how it is measured ("outside" of "outside length")."""
    return tuple(w for w in words if w not in MEASURES) or words


def parted(lead: str) -> tuple[str, str]:
    """What a description names, and where it is ("opening", "side rails" of "opening between side rails")."""
    found = re.search(r"(?<=\w) (?:from|between|under|up to) ", lead)
    return (lead[: found.start()], lead[found.end() :]) if found else (lead, "")


def scope_of(what: str) -> str:
    """Whether a count is of one piece, of one bed or of everything."""
    if re.search(r"\bin all\b|\btotal\b|\bboth beds\b|\baltogether\b|\bboth\b|\bevery\b.*\bbed", what):
        return "total"
    if re.search(r"\b(?:in|of|under|per) (?:one|each) bed\b|\bone bed\b", what):
        return "bed"
    return "each" if re.search(r"\b(?:one|each|per|a single)\b", what) else ""


def axis_of(kind: str, what: str, key: str) -> str:
    """Along which axis a length is taken, by the words of the fact."""
    text = f"{what} {key.rpartition('.')[2].replace('_', ' ')}".lower()
    for axis, pattern in AXES:
        if re.search(pattern, text):
            return axis
    if kind == "section":
        return "square" if "square" in text or re.search(r"\d+x\d+", what) else ""
    return "length" if kind == "length" else ""


AXES = (
    ("thickness", r"\bthick"),
    ("height", r"\bheight|\btall|\bfloor to\b"),
    ("depth", r"\bdepth|\bdeep|\bon edge\b"),
    ("width", r"\bwidth|\bwide|\bacross\b|between side\b|between the side (?:rail|board)s?$"),
    ("length", r"\blength\b|\blong\b|between end\b"),
)


def nominal_names(facts: Facts) -> frozenset[tuple[Fraction, ...]]:
    """Sizes the plan's own words name its timber by ("140x45")."""
    texts = (" ".join((fact.what, *fact.said_as)) for fact in facts.values())
    return frozenset((Fraction(a), Fraction(b)) for text in texts for a, b in re.findall(r"\b(\d+)x(\d+)\b", text))
