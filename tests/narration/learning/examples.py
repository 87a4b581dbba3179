"""Talks with keys as examples: every number that may be a claim, what it may be about, and the right answer."""

from __future__ import annotations

import hashlib
import pickle
import re
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import tutorial_lib.narration as room
from tests.narration import scorer
from tests.narration.talks import captions_of, facts_of, loaded
from tutorial_lib.measures import Units
from tutorial_lib.narration import read_captions
from tutorial_lib.narration.linking import local
from tutorial_lib.narration.linking.claims import Claim, Reading
from tutorial_lib.narration.linking.hearing import Heard, hear
from tutorial_lib.narration.linking.slips import close
from tutorial_lib.narration.linking.subjects import Subject, nominal_names, subjects_of
from tutorial_lib.narration.linking.sums import before
from tutorial_lib.narration.linking.wording import NONE, classes_of, topics_of, wording


@dataclass(frozen=True)
class Option:
    """One thing a number may be about; the first of a number is nothing."""

    features: dict[str, float]
    classes: tuple[str, ...]
    subject: Subject | None = None
    reading: Reading | None = None
    equal: bool = False


@dataclass(frozen=True)
class Number:
    """One number that may be a claim."""

    claim: Claim
    doubts: frozenset[str]
    words: tuple[str, ...]
    options: list[Option]
    right: int | None  # place of the right option; None where it isn't among them
    key: dict[str, Any] | None  # the answer; None where the key has no expression

    @property
    def slip(self) -> str:
        """The fact a slip is about, "" for no slip."""
        return self.key["subject"] if self.key and self.key["verdict"] == "conflicts" else ""


@dataclass(frozen=True)
class Example:
    """One talk."""

    base: Path
    units: Units
    numbers: list[Number]


def example(base: Path) -> Example:
    """A talk read, its numbers described; kept in a file until a source of the narration changes."""
    place = Path(tempfile.gettempdir()) / "narration-examples" / f"{base.parent.name}-{base.name}-{state()}.pickle"
    if place.exists():
        made: Example = pickle.loads(place.read_bytes())
        return made
    place.parent.mkdir(exist_ok=True)
    made = described(base)
    place.write_bytes(pickle.dumps(made))
    return made


def state() -> str:
    """A digest of this file and of the sources that the description of a number rests on."""
    rooms = [Path(room.__file__).parent / name for name in ("captions", "numbers", "linking")]
    files = [*(file for folder in rooms for file in sorted(folder.glob("*.py"))), Path(__file__)]
    return hashlib.sha256(b"".join(f.read_bytes() for f in files)).hexdigest()[:12]


def described(base: Path) -> Example:
    """A talk read, its numbers described."""
    facts, talk = facts_of(base), read_captions(captions_of(base))
    subjects = subjects_of(facts)
    heard = hear(talk, subjects, facts.units, nominal_names(facts))
    keys = keys_of(base, heard, talk.text)
    claims = heard.claims
    numbers = [number(heard, claims, at, subjects, key) for at, key in enumerate(keys)]
    return Example(base, facts.units, numbers)


def number(
    heard: Heard, claims: Sequence[Claim], at: int, subjects: Sequence[Subject], key: dict[str, Any] | None
) -> Number:
    """One number with its options."""
    claim, made = claims[at], before(claims, at)
    doubts = heard.doubts(claim)
    none = {f"none {n}": v for n, v in local.none_features(claim, doubts) if v}
    options = [Option(none, (NONE,))]
    for subject, reading, named in local.described(heard.mentions, claim, subjects, made):
        classes = (*classes_of(subject), *topics_of(subject))
        options.append(Option(total(named), classes, subject, reading, close(reading[0], subject)))
    wanted = key["subject"] if key and key["checkable"] else None
    right = next((i for i, o in enumerate(options) if (o.subject.key if o.subject else None) == wanted), None)
    words = wording(heard.transcript, claim.item, heard.mentions.parts)
    return Number(claim, doubts, words, options, right, key)


def total(named: Sequence[tuple[str, float]]) -> dict[str, float]:
    """Features of the same name added up, those of nothing left out."""
    out: dict[str, float] = {}
    for name, value in named:
        if value:
            out[name] = out.get(name, 0.0) + value
    return out


def keys_of(base: Path, heard: Heard, text: str) -> list[dict[str, Any] | None]:
    """The answer of every number that may be a claim; None where the key has no expression."""
    keys, flat = loaded(base, "key")["items"], scorer.flatten(captions_of(base))
    words, found = heard.transcript.words, heard.sorted_out.found
    quotes = [{"quote": re.sub(r"\s+", " ", text[words[e.first].start : words[e.last - 1].end])} for e in found]
    places, wanted = scorer.spans(quotes, flat), scorer.spans(keys, flat)
    return [
        next((k for k, s in zip(keys, wanted, strict=True) if scorer.overlap(places[i], s)), None) for i in heard.kept
    ]
