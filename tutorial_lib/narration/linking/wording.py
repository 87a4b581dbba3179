"""The words around a number as evidence for the kind of fact it speaks of, by weights learned from talks with keys."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.weights import WORDS
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.transcript import Transcript

REACH = 5  # [words] either side
NONE = "none"  # the class of numbers that speak of nothing in the plan
NOTHING_SAID: dict[str, float] = {}
UNSCOPED = ("screw_length", "bolt_length", "stock_length")


def wording(transcript: Transcript, item: Expression, parts: frozenset[str]) -> tuple[str, ...]:
    """The words around a number in its sentence, each with its side; names of parts are one word, numbers another.

    Each once, and always in the same order, so that what they come to is the same to the last digit.

    Args:
        transcript: the words.
        item: the number.
        parts: stems of the creator's names for the parts.
    """
    before = side(transcript, range(item.first - 1, -1, -1), item.first, parts)
    after = side(transcript, range(item.last, len(transcript.words)), item.last - 1, parts)
    out = [f"before={w}" for w in before[:REACH]] + [f"after={w}" for w in after[:REACH]]
    if before:
        out.append(f"last={before[0]}")
    if len(before) > 1:
        out.append(f"last={before[1]} {before[0]}")
    if after:
        out.append(f"next={after[0]}")
    if len(after) > 1:
        out.append(f"next={after[0]} {after[1]}")
    plain = "whole" if item.value.denominator == 1 else "part"
    return tuple(dict.fromkeys((*out, f"unit={item.unit or plain}", f"form={item.form}")))


def side(transcript: Transcript, places: Iterable[int], home: int, parts: frozenset[str]) -> list[str]:
    """The words on one side of a number, nearest first, up to the end of its sentence, which counts as a word."""
    out: list[str] = []
    for at in places:
        if len(out) > REACH:
            return out
        if transcript.sentence[at] != transcript.sentence[home]:
            break
        stem = transcript.stems[at]
        out.append("NUMBER" if at in transcript.covered else "PART" if stem in parts else stem)
    return [*out, "END"]


@lru_cache(maxsize=4096)
def classes_of(subject: Subject) -> tuple[str, ...]:
    """The classes a fact is in: its kind, and how much it covers (counts) or along what it is measured (lengths)."""
    if subject.is_count:
        return (subject.kind, f"scope {subject.scope or 'open'}")
    if subject.is_length and subject.kind not in UNSCOPED:
        return (subject.kind, f"axis {subject.axis or 'open'}")
    return (subject.kind,)


@lru_cache(maxsize=4096)
def topics_of(subject: Subject) -> tuple[str, ...]:
    """What a fact is, by the words it is described with: each of them, and all in a row, sizes left out."""
    words = [w for w in (*subject.head, *subject.rest) if not any(c.isdigit() for c in w)]
    return (*(f"of {w}" for w in dict.fromkeys(words)), "is " + " ".join(words))


@lru_cache(maxsize=4096)
def all_classes_of(subject: Subject) -> tuple[str, ...]:
    """Everything that words may speak for in a fact."""
    return (*classes_of(subject), *topics_of(subject))


def evidence(words: Iterable[str]) -> Mapping[str, float]:
    """How much the words around a number speak for each class [log-odds]."""
    out: dict[str, float] = {}
    for word in words:
        for name, weight in WORDS.get(word, NOTHING_SAID).items():
            out[name] = out.get(name, 0.0) + weight
    return out
