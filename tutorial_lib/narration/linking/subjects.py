"""The plan's facts as something that can be spoken of: their words, what is counted or measured, how many it covers."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.numbers.stems import Phrase, stem, stems


@dataclass(frozen=True, eq=False)  # one object a fact: quick to look up by
class Subject:
    """One fact of the plan, made ready for linking; lengths in inches."""

    key: str
    value: Fraction
    values: tuple[Fraction, ...]
    unit: str
    kind: str
    what: str
    said: tuple[Phrase, ...]  # the creator's own words for it
    head: Phrase  # the words of ``what`` that name it
    rest: Phrase  # the other words of ``what``
    scope: str  # "each", "bed", "total" or ""
    axis: str  # width, length, thickness, depth, height or ""
    group: tuple[Any, ...]  # facts that belong to the same part

    @property
    def is_length(self) -> bool:
        """Whether it is measured in a unit of length."""
        return self.unit in LENGTHS

    @property
    def is_count(self) -> bool:
        """Whether it is counted."""
        return self.unit == "count"


def plan_units(facts: Any) -> str:
    """ "in" or "mm": the unit the plan states lengths in."""
    is_file = isinstance(facts, Mapping) and "quantities" in facts
    units = facts.get("units") if is_file else getattr(facts, "units", "in")
    return "mm" if units == "mm" else "in"


def entries(facts: Any) -> Iterable[tuple[str, dict[str, Any]]]:
    """Key and JSON entry of every fact, from a Facts mapping or a facts file's content."""
    data = facts if isinstance(facts, Mapping) and "quantities" in facts else facts.as_json()
    found: dict[str, dict[str, Any]] = data["quantities"]
    return found.items()


def subjects_of(facts: Any) -> list[Subject]:
    """All facts with a number, as subjects."""
    made = (subject(key, entry) for key, entry in entries(facts))
    return [s for s in made if s is not None]


def subject(key: str, entry: Mapping[str, Any]) -> Subject | None:
    """One fact as a subject; None when its value is a word."""
    raw = entry.get("value")
    numbers = raw if isinstance(raw, (list, tuple)) else [raw]
    if not numbers or not all(isinstance(n, (int, float, Fraction)) and not isinstance(n, bool) for n in numbers):
        return None
    unit, kind, what = str(entry.get("unit", "")), str(entry.get("kind", "")), str(entry.get("what", ""))
    scale = LENGTHS.get(unit, Fraction(1))
    values = tuple(Fraction(str(n)) * scale for n in numbers)
    said = tuple(
        p
        for p in (
            tuple(stem(w) for w in re.findall(r"[a-z']+|\d+x\d+", str(s).lower())) for s in entry.get("said_as", ())
        )
        if p
    )
    lead, _, tail = what.partition(",")
    noun, more = parted(re.sub(r"\([^)]*\)", "", lead))
    group = said or (key.split(".")[0],)
    return Subject(
        key,
        values[0],
        values,
        "in" if unit in LENGTHS else unit,
        kind,
        what,
        said,
        naming(stems(noun)),
        stems(more + " " + tail),
        scope_of(what),
        axis_of(kind, what, key),
        group,
    )


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


def nominal_names(facts: Any) -> frozenset[tuple[Fraction, ...]]:
    """Sizes the plan's own words name its timber by ("140x45")."""
    found = set()
    for _, entry in entries(facts):
        text = " ".join([str(entry.get("what", "")), *map(str, entry.get("said_as", ()))])
        found |= {(Fraction(a), Fraction(b)) for a, b in re.findall(r"\b(\d+)x(\d+)\b", text)}
    return frozenset(found)
