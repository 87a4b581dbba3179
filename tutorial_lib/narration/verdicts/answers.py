"""What the person said of doubtful numbers: asked once, kept beside the captions, heeded from then on.

The file is JSON: {"answers": [{"t", "quote", "subject": KEY | null, "kind": "part" | "elsewhere" | "slip", ...}]}.
An answer is found again by its words, then by the sentence around them, then by its time, so that it outlives an
edited track.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from difflib import SequenceMatcher
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.facts import Fact
from tutorial_lib.measures import Units
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.linking.subjects import subject as subject_of
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.verdicts.choosing import choice_of
from tutorial_lib.narration.verdicts.items import Choice, Item
from tutorial_lib.narration.verdicts.timber_said import choice as timber_choice
from tutorial_lib.narration.verdicts.waits_said import HOURS
from tutorial_lib.records import dataclass

Kind = Literal["part", "elsewhere", "slip"]
KINDS = ("part", "elsewhere", "slip")
ALIKE = 0.5  # share of a sentence's letters that must still be there for an answer to be about the same number
NEAR = 120.0  # [s] an edit rarely moves a sentence further; used only where the sentence is gone


@dataclass(frozen=True, kw_only=True)
class Answer:
    """One answer: the number speaks of this fact, of nothing in the plan, or is a slip of the tongue."""

    t: float | None  # [s]; None in a script
    quote: str  # the number as captioned
    subject: str | None  # key of the fact it speaks of; None for "elsewhere"
    kind: Kind
    sentence: str = ""
    place: int = 0  # cue or line, from 1


def file_name(captions: str) -> str:
    """Name of the answers file that belongs to a captions file.

    >>> file_name("talk.vtt")
    'talk.vtt.answers.json'
    """
    return captions + ".answers.json"


def beside(captions: str | Path) -> tuple[Answer, ...]:
    """The answers kept beside a captions file; none when there is no such file.

    Every command that checks captions reads the answers through this.

    Raises:
        InputError: the file is there and can't be read.
    """
    from tutorial_lib import files

    path = Path(file_name(str(captions)))
    return read(files.read_text(path), path.name) if path.exists() else ()


def read(text: str, where: str = "answers") -> tuple[Answer, ...]:
    """The answers in a file's text.

    Raises:
        InputError: it isn't JSON of the form above; all faults.
    """
    try:
        data = json.loads(text)
    except ValueError as error:
        raise InputError(Fault(where, f"it isn't JSON ({error}). Remove the file to start over.")) from None
    found = data.get("answers") if isinstance(data, dict) else None
    if not isinstance(found, list):
        raise InputError(Fault(where, 'it needs a list "answers". Remove the file to start over.'))
    faults = [Fault(f"{where} answer {n}", wrong) for n, entry in enumerate(found, 1) if (wrong := fault(entry))]
    if faults:
        raise InputError(faults)
    return tuple(answer(entry) for entry in found)


def fault(entry: Any) -> str:
    """What is wrong with one entry of the file; "" when nothing is."""
    if not isinstance(entry, dict):
        return 'is no object; it needs "quote" and "kind".'
    if not isinstance(entry.get("quote"), str) or not entry["quote"]:
        return 'needs "quote", the number as captioned.'
    if entry.get("kind") not in KINDS:
        return f'has the kind {entry.get("kind")!r}; it is "part", "elsewhere" or "slip".'
    if entry["kind"] != "elsewhere" and not isinstance(entry.get("subject"), str):
        return 'needs "subject", the key of the fact it speaks of.'
    if not isinstance(entry.get("t"), (int, float, type(None))) or isinstance(entry.get("t"), bool):
        return f"has the time {entry['t']!r}; it is seconds, or null in a script."
    return ""


def answer(entry: Mapping[str, Any]) -> Answer:
    """One entry of the file."""
    place = entry.get("place")
    return Answer(
        t=entry.get("t"),
        quote=entry["quote"],
        subject=entry.get("subject") if entry["kind"] != "elsewhere" else None,
        kind=entry["kind"],
        sentence=str(entry.get("sentence") or ""),
        place=place if isinstance(place, int) else 0,
    )


def dumps(answered: Sequence[Answer]) -> str:
    """The file's text."""
    return json.dumps({"answers": [asdict(a) for a in answered]}, indent=1, ensure_ascii=False) + "\n"


def of(item: Item, kind: Kind, subject: str | None = None) -> Answer:
    """The answer on a number."""
    return Answer(t=item.t, quote=item.quote, subject=subject, kind=kind, sentence=item.sentence, place=item.place)


def with_answer(answered: Sequence[Answer], item: Item, new: Answer) -> tuple[Answer, ...]:
    """The answers with one more; an earlier one on the same number is replaced."""
    return (*without(answered, item), new)


def without(answered: Sequence[Answer], item: Item) -> tuple[Answer, ...]:
    """The answers without the one on a number."""
    return tuple(a for a in answered if (a.quote, a.sentence, a.place) != (item.quote, item.sentence, item.place))


def apply(
    items: Sequence[Item], answered: Sequence[Answer], subjects: Mapping[str, Subject], units: Units
) -> tuple[tuple[Item, ...], list[str]]:
    """The items with the answers heeded, and a line for each answer that no longer fits."""
    out, notes, taken = list(items), [], set[int]()
    for given in answered:
        at = locate(out, given, taken)
        if at is None:
            notes.append(f'your answer on "{given.quote}" fits nothing said any more; it was left out.')
        elif given.subject is not None and given.subject not in subjects:
            lacks = f"names {given.subject}, which the plan lacks"
            notes.append(f'your answer on "{given.quote}" {lacks}; it was left out.')
        else:
            taken.add(at)
            out[at] = heeded(out[at], given, subjects, units)
    return tuple(out), notes


def locate(items: Sequence[Item], given: Answer, taken: set[int] = frozenset()) -> int | None:  # type: ignore[assignment]
    """The item an answer is about: the same words, the likest sentence, the nearest time; None when it is gone."""
    fits = [i for i, item in enumerate(items) if i not in taken and item.quote.lower() == given.quote.lower()]
    scored = sorted((-likeness(items[i], given), distance(items[i], given), i) for i in fits)
    if not scored:
        return None
    like, far, at = scored[0]
    return at if -like >= ALIKE or (not given.sentence and far <= NEAR) else None


def likeness(item: Item, given: Answer) -> float:
    """How much of an answer's sentence is still said around a number, 0 to 1."""
    if item.sentence == given.sentence:
        return 1.0
    return SequenceMatcher(None, item.sentence.lower(), given.sentence.lower(), autojunk=False).ratio()


def distance(item: Item, given: Answer) -> float:
    """How far a number has moved [s, or lines in a script]."""
    if item.t is not None and given.t is not None:
        return abs(item.t - given.t)
    return float(abs(item.place - given.place))


def heeded(item: Item, given: Answer, subjects: Mapping[str, Subject], units: Units) -> Item:
    """An item as the person says it is."""
    if given.kind == "elsewhere" or given.subject is None:
        return replace(
            item, verdict="not_a_claim", subject=None, plan_value=(), choices=(), certainty=1.0,
            why="you said it isn't about this bed", answered=True,
        )  # fmt: skip
    return relinked(item, subjects[given.subject], given.kind, units)


def relinked(item: Item, subject: Subject, kind: Kind, units: Units) -> Item:
    """An item the person links to a fact; a "slip" is a conflict whatever the words around it soften."""
    if not item.value:
        return item
    offered = (c for c in item.choices if c.subject == subject.key)  # as it was asked: a load of all together, say
    meant = next(offered, None) or if_meant(item, subject, units)
    slip = kind == "slip" and meant.verdict == "rounded"
    return replace(
        item,
        subject=meant.subject,
        plan_value=meant.plan_value,
        verdict="conflicts" if slip else meant.verdict,
        kind=meant.kind,
        what=meant.what,
        unit=meant.unit,
        certainty=1.0,
        choices=(),
        why=f"you said it speaks of {meant.what}: {meant.why}",
        answered=True,
    )


def if_meant(item: Item, subject: Subject, units: Units) -> Choice:
    """What a number means if it speaks of a fact."""
    if subject.kind == "lumber":
        return timber_choice(item.value, subject)
    scale = LENGTHS[units] if subject.is_length else Fraction(1)
    if item.unit in HOURS and subject.unit in HOURS:  # days said of a wait in hours
        scale = HOURS[item.unit] / HOURS[subject.unit]
    return choice_of(subject, item.value[0] * scale, item.hedge, units)


def choice_if(item: Item, fact: Fact, units: Units) -> Choice | None:
    """What a number means if it speaks of a fact of the plan; None where the fact or the item holds no number."""
    made = subject_of(fact)
    return if_meant(item, made, units) if made is not None and item.value else None
