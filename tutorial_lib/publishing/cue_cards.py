"""Cue cards for filming: what to say, what to show and what not to say, each number as it is spoken."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.facts import Facts
from tutorial_lib.measures import Units, round_to, say_length, say_number, to_mm, writer
from tutorial_lib.narration.linking.subjects import Subject, subjects_of
from tutorial_lib.records import dataclass

CHAPTERS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Shopping", ("stock_count", "pieces_per_board")),  # a board's length stands in its name
    ("The mattress and the frame", ("mattress_size", "height", "clearance", "centre_mark")),
    ("Cutting", ("length", "part_count", "section", "kerf")),
    (
        "Drilling and driving",
        (
            "screw_length",
            "screw_count",
            "bolt_length",
            "bolt_count",
            "dowel_count",
            "diameter",
            "depth",
            "spacing",
            "distance",
            "joint_count",
        ),
    ),
    ("Slats", ("gap", "gap_limit", "gap_count")),
    ("Finishing", ("grit", "coats", "time")),
)


MEASURED = {"bolt_length": "length", "screw_length": "length", "diameter": "thickness"}
FINE = ("diameter", "kerf")  # told finer than a tape shows
FINEST = 64  # inch bits are sold by 1/64 in


@dataclass(frozen=True, kw_only=True)
class CueCard:
    """One number to say on camera."""

    chapter: str
    key: str
    what: str
    say: str  # in words
    show: str  # as on the tape, with the other system beside it
    dont: str  # what is easily said instead


def cue_cards(facts: Facts, keys: Iterable[str] | None = None) -> list[CueCard]:
    """Cue cards of a plan, chapter by chapter.

    Args:
        facts: the plan's facts.
        keys: the facts wanted; all that are said on camera when left out.
    """
    units, subjects = facts.units, subjects_of(facts)
    wanted = None if keys is None else set(keys)
    cards = []
    for chapter, kinds in CHAPTERS:
        for subject in subjects:
            if subject.kind in kinds and len(subject.values) == 1 and (wanted is None or subject.key in wanted):
                cards.append(_card(chapter, subject, subjects, units))
    return list(_told_apart(cards, {subject.key: subject.kind for subject in subjects}))


def _told_apart(cards: Sequence[CueCard], kinds: Mapping[str, str]) -> Iterator[CueCard]:
    """The same number of the same thing once; of things that are called alike each with what tells it apart."""
    once = {(card.what, card.say): card for card in reversed(cards)}
    left = [card for card in cards if once[card.what, card.say] is card]
    called = Counter(card.what for card in left)
    for card in left:
        more = MEASURED.get(kinds[card.key])
        yield replace(card, what=f"{card.what}, {more}") if called[card.what] > 1 and more else card


def _card(chapter: str, subject: Subject, subjects: Sequence[Subject], units: Units) -> CueCard:
    said, shown = words(subject, units)
    dont = warning(subject, subjects, units)
    return CueCard(chapter=chapter, key=subject.key, what=subject.what, say=said, show=shown, dont=dont)


def unit_said(value: Fraction, units: Units) -> str:
    """The unit of a length as it is said after it."""
    if units == "mm":
        return "millimetres"
    return "of an inch" if value < 1 else "inch" if value == 1 else "inches"


def words(subject: Subject, units: Units) -> tuple[str, str]:
    """A value as it is said, and as it is shown with the other system beside it."""
    value = subject.value
    if subject.kind in FINE and units == "mm":
        return f"{_said_tenths(to_mm(value))} millimetres", f"{_written(subject, units)} ({_as_inches(value)})"
    if subject.is_length:
        finest = 64 if value < 1 else 16
        exact = "" if exactly(value, units, finest) else "about "
        other = _written(subject, "mm" if units == "in" else "in")
        said = f"{exact}{say_length(value, units, finest)} {unit_said(value, units)}"
        return said, f"{exact}{_written(subject, units, finest)} ({other})"
    if value.denominator == 1:
        unit = {"grit": " grit", "h": " hours", "min": " minutes"}.get(subject.unit, "")
        return say_number(int(value)) + unit, f"{value}{unit}"
    return f"{float(value):g}", f"{float(value):g} {subject.unit}".strip()


def _written(subject: Subject, units: Units, finest: int = 16) -> str:
    """A length at the tape's mark, a bit by its sold size, a blade as it was stated."""
    w = writer(units)
    if subject.kind in FINE:
        return w.bit(subject.value) if subject.kind == "diameter" else w.stated(subject.value)
    return w.length(subject.value, finest)


def _as_inches(value: Fraction) -> str:
    """A metric bit or blade beside the nearest of an inch set, as such are sold: "about 1/8 in"."""
    about = "" if exactly(value, "in", FINEST) else "about "
    return f"{about}{writer('in').length(value, FINEST)}"


def _said_tenths(x: Fraction) -> str:
    """A number to its tenth in words: "two point five"."""
    whole, tenths = divmod(int(round_to(x, 10) * 10), 10)
    return f"{say_number(whole)} point {say_number(tenths)}" if tenths else say_number(whole)


def exactly(value: Fraction, units: str, finest: int) -> bool:
    """Whether a tape shows the value without rounding."""
    return (value * finest).denominator == 1 if units == "in" else to_mm(value).denominator == 1


def warning(subject: Subject, subjects: Sequence[Subject], units: Units) -> str:
    """The number next door that is easily said instead: another length of the same kind within a tenth."""
    if not subject.is_length:
        return ""
    near = [
        s
        for s in subjects
        if s.kind == subject.kind
        and s.key != subject.key
        and _written(s, units) != _written(subject, units)
        and abs(s.value - subject.value) * 10 <= subject.value
    ]
    if not near:
        return ""
    closest = min(near, key=lambda s: abs(s.value - subject.value))
    return f"not {_written(closest, units)}: that is {closest.what}"


def cards_text(cards: Iterable[CueCard]) -> str:
    """Cue cards to read from while filming: what to say, what to show, what not to say."""
    lines: list[str] = []
    chapter = ""
    for card in cards:
        if card.chapter != chapter:
            chapter = card.chapter
            lines += ["", chapter.upper(), ""]
        lines.append(f"{card.what}: say “{card.say}”, show {card.show}")
        lines += [f"    {card.dont}"] if card.dont else []
    return "\n".join(lines).lstrip("\n") + "\n"
