"""The doubtful numbers of a talk, one after another: what is asked, which answers there are, what they come to."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Literal

from tutorial_lib.facts import Fact, Facts
from tutorial_lib.narration.numbers.lexicon import DURATIONS, MASSES, MONEY
from tutorial_lib.narration.verdicts.answers import Answer, of, with_answer, without
from tutorial_lib.narration.verdicts.items import Item, Report
from tutorial_lib.records import dataclass

Act = Literal["answer", "leave", "back", "search", "stop", "unclear"]
SHOWN = 9  # facts a search offers at once


@dataclass(frozen=True)
class Typed:
    """What the person typed, understood."""

    act: Act
    answer: Answer | None = None
    words: str = ""  # what to search for


@dataclass(frozen=True)
class Offer:
    """A fact to choose: its key and what it is in words, with the plan's value and what it would mean."""

    key: str
    text: str


def questions(report: Report) -> list[Item]:
    """The numbers to ask about, in spoken order."""
    return list(report.doubtful)


def found(facts: Facts, words: str, unit: str = "") -> list[str]:
    """Keys of the facts whose description, names or key hold all the words, those described so first.

    Args:
        facts: the plan's facts.
        words: what to search for.
        unit: the number's; a load is no length, a price no count. "" for any.
    """
    wanted = words.lower().split()
    near = {key: fact for key, fact in facts.items() if not unit or measure(unit_of(fact)) == measure(unit)}
    texts = {key: " ".join((fact.what, *fact.said_as)).lower() for key, fact in near.items()}
    whole = {key: f"{text} {re.sub('[._]', ' ', key)}" for key, text in texts.items()}  # "slat length" is "1x4 slat"
    fits = [key for key, text in whole.items() if wanted and all(word in text for word in wanted)]
    return sorted(fits, key=lambda key: not texts[key].startswith(wanted[0]))[:SHOWN]


def unit_of(fact: Fact) -> str:
    """The unit a fact is said in; a board's name is none of length."""
    return "nominal" if fact.kind == "lumber" else fact.unit


def measure(unit: str) -> str:
    """What a unit measures; lengths and counts are one, as a bare number may be either."""
    kinds = {"mass": MASSES, "money": MONEY, "time": (*DURATIONS, "d"), "grit": ("grit",),
             "name": ("nominal",), "gauge": ("gauge",)}  # fmt: skip
    return next((kind for kind, units in kinds.items() if unit in units), "length or count")


def understood(line: str, item: Item, offered: Sequence[Offer]) -> Typed:
    """One line typed: a number of the list, s (slip), n (not this bed), /words (search), Enter, b (back), q (stop)."""
    text = line.strip()
    if text.startswith("/") and text[1:].strip():
        return Typed("search", words=text[1:].strip())
    low = text.lower()
    chosen = chosen_of(low.removeprefix("s").strip(), offered)
    meant = chosen or (slipped(item) if low == "s" else None)
    if meant:
        return Typed("answer", of(item, "slip" if low.startswith("s") else "part", meant))
    if low == "n":
        return Typed("answer", of(item, "elsewhere"))
    return Typed(ACTS.get(low, "unclear"))


ACTS: dict[str, Act] = {"": "leave", "b": "back", "q": "stop"}


def chosen_of(number: str, offered: Sequence[Offer]) -> str | None:
    """The key of the fact with a number in the list."""
    listed = number.isascii() and number.isdigit() and 1 <= int(number) <= len(offered)
    return offered[int(number) - 1].key if listed else None


def slipped(item: Item) -> str | None:
    """The fact a doubtful number is a slip about: the likeliest that it contradicts."""
    return next((c.subject for c in item.choices if c.verdict == "conflicts"), None)


class Session:
    """The questions of a talk and the answers so far; every answer is kept at once."""

    def __init__(self, report: Report, answered: Sequence[Answer], keep: Callable[[Sequence[Answer]], object]) -> None:
        self.items = questions(report)
        self.answered = tuple(answered)
        self.keep = keep
        self.at = 0

    @property
    def item(self) -> Item | None:
        """The number asked about, None when all are through."""
        return self.items[self.at] if self.at < len(self.items) else None

    def take(self, typed: Typed) -> None:
        """Goes on by what was typed."""
        item = self.item
        if typed.act == "answer" and typed.answer is not None and item is not None:
            self.answered = with_answer(self.answered, item, typed.answer)
            self.keep(self.answered)
            self.at += 1
        elif typed.act == "leave":
            self.at += 1
        elif typed.act == "back" and self.at:
            self.at -= 1
            self.answered = without(self.answered, self.items[self.at])
            self.keep(self.answered)
