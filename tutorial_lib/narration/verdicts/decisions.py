"""What the person decided about single numbers: kept in a file beside the captions, and it holds when run again.

The file is JSON: {"decisions": [{"quote", "sentence", "place", "subject": KEY | null, "dismiss": bool, "note"}]}.
A decision is found again by its quote and sentence, so that it outlives shifted times.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.verdicts.judging import verdict

if TYPE_CHECKING:
    from tutorial_lib.narration.verdicts.checking import Item

Decisions = dict[str, list[dict[str, Any]]]


def file_name(captions: str) -> str:
    """Name of the decisions file that belongs to a captions file.

    >>> file_name("talk.vtt")
    'talk.vtt.decisions.json'
    """
    return captions + ".decisions.json"


def read(text: str, where: str = "decisions") -> Decisions:
    """The decisions in a file's text.

    Raises:
        InputError: when it isn't JSON of the form above.
    """
    try:
        data = json.loads(text)
    except ValueError as error:
        raise InputError(Fault(where, f"it isn't JSON ({error}). Remove the file to start over.")) from None
    found = data.get("decisions") if isinstance(data, dict) else None
    if not isinstance(found, list) or not all(isinstance(d, dict) and isinstance(d.get("quote"), str) for d in found):
        raise InputError(
            Fault(where, 'it needs a list "decisions" of objects with a "quote". Remove the file to start over.')
        )
    return {"decisions": list(found)}


def dumps(decisions: Mapping[str, Any]) -> str:
    """The file's text."""
    return json.dumps(decisions, indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def decide(
    decisions: Mapping[str, Any] | None, item: Item, subject: str | None = None, dismiss: bool = False, note: str = ""
) -> Decisions:
    """Decisions with one more: the number speaks of another fact, or is dismissed; an earlier one on it is replaced."""
    kept = [d for d in (decisions or {}).get("decisions", ()) if not same(d, item)]
    entry = {
        "quote": item.quote,
        "sentence": item.sentence,
        "place": item.place,
        "subject": subject,
        "dismiss": dismiss,
        "note": note,
    }
    return {"decisions": [*kept, entry]}


def undo(decisions: Mapping[str, Any], item: Item) -> Decisions:
    """Decisions without the one on a number."""
    return {"decisions": [d for d in decisions.get("decisions", ()) if not same(d, item)]}


def same(decision: Mapping[str, Any], item: Item) -> bool:
    """Whether a decision is about a number."""
    return bool(
        decision.get("quote") == item.quote
        and decision.get("sentence") == item.sentence
        and decision.get("place") == item.place
    )


def apply(
    items: Sequence[Item], decisions: Mapping[str, Any], subjects: Mapping[str, Subject], units: str
) -> tuple[tuple[Item, ...], list[str]]:
    """The items with the decisions carried out, and a line for each decision that no longer fits."""
    out, notes = list(items), []
    for decision in decisions.get("decisions", ()):
        at = locate(out, decision)
        key = decision.get("subject")
        if at is None:
            notes.append(f'a decision on "{decision.get("quote")}" fits nothing said any more; it was left out.')
        elif decision.get("dismiss"):
            out[at] = dismissed(out[at], str(decision.get("note") or ""))
        elif key not in subjects:
            notes.append(
                f"a decision links {decision.get('quote')!r} to {key!r}, which the plan doesn't have; left out."
            )
        else:
            out[at] = relinked(out[at], subjects[key], units)
    return tuple(out), notes


def locate(items: Sequence[Item], decision: Mapping[str, Any]) -> int | None:
    """The item a decision is about: same quote and sentence, the nearest place where there are several."""
    fits = [
        i
        for i, item in enumerate(items)
        if item.quote == decision.get("quote") and decision.get("sentence", item.sentence) == item.sentence
    ]
    place = decision.get("place")
    wanted = place if isinstance(place, int) else 0
    return min(fits, key=lambda i: abs(items[i].place - wanted), default=None)


def dismissed(item: Item, note: str) -> Item:
    """An item the person says is no claim."""
    return replace(
        item, verdict="not_a_claim", subject=None, plan_value=(), why=note or "you dismissed it", decided=True
    )


def relinked(item: Item, subject: Subject, units: str) -> Item:
    """An item the person links to another fact."""
    scale = LENGTHS[units] if subject.is_length else Fraction(1)
    hedged = 2 if item.verdict == "rounded" else 0
    if not item.value:
        return item
    result, reason = verdict(item.value[0] * scale, subject, hedged, units)
    return replace(
        item,
        subject=subject.key,
        plan_value=tuple(v / scale for v in subject.values),
        verdict=result,
        kind=subject.kind,
        what=subject.what,
        unit=units if subject.is_length else subject.unit,
        why=f"you linked it to {subject.what or subject.key}: {reason}",
        decided=True,
    )
