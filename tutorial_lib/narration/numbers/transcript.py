"""What a number is said among: its clause, its sentence, the one before, and whether all is gone over again."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.stems import stem
from tutorial_lib.narration.numbers.words import Gap, Word
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Around:
    """The words around one number, as plain strings."""

    before: str  # same sentence, up to ten words
    after: str
    clause: str  # up to the next comma either side
    sentence: str
    previous: str  # the sentence before


class Transcript:
    """Words with what is needed to look around in them quickly."""

    def __init__(self, words: Sequence[Word]) -> None:
        self.words = words
        self.stems = [stem(w.low) for w in words]
        self.plain = [w.low for w in words]
        self.marked = ["," + w.low if w.gap in (Gap.COMMA, Gap.STOP) else w.low for w in words]
        self.feet_are_legs = False  # the creator calls a part "feet"
        self.foot_things: set[str] = set()  # stems of parts called "foot ..." ("foot post")
        self.covered: set[int] = set()  # words that are part of a number
        self.sentence = numbered(words, Gap.SENTENCE)
        self.block = numbered(words, Gap.BLOCK)
        self.comma = numbered(words, Gap.COMMA)
        self.recap = recapped(words)

    def around(self, item: Expression) -> Around:
        """The strings around an expression."""
        first, last = item.first, item.last
        s0, s1 = self.span(self.sentence, first, 40)
        c0, c1 = self.span(self.comma, first, 16)
        p0 = self.span(self.sentence, s0 - 1, 30)[0] if s0 else 0
        s1 = max(s1, min(last, len(self.words)))
        return Around(
            self.text(max(s0, first - 10), first),
            self.text(last, min(s1, last + 10)),
            self.text(c0, max(c1, last)),
            self.text(s0, s1),
            self.text(p0, s0),
        )

    def span(self, numbers: Sequence[int], at: int, most: int) -> tuple[int, int]:
        """First and one-past-last word of the stretch a word is in, no more than ``most`` either way."""
        at = max(0, min(at, len(numbers) - 1))
        a = b = at
        while a > 0 and numbers[a - 1] == numbers[at] and at - a < most:
            a -= 1
        while b < len(numbers) and numbers[b] == numbers[at] and b - at < most:
            b += 1
        return a, b

    def text(self, first: int, last: int) -> str:
        """Words in a range, lower case, a comma kept as such."""
        return " ".join([*self.plain[first : min(first + 1, last)], *self.marked[first + 1 : last]])


RECAP = re.compile(
    r"\b(?:recap|once more|one more time|remind you|let me remind|sum(?:ming)? (?:it )?up|in short|run-?through|"
    r"run through|run (?:it|that) back|go over it|the numbers again|here's the numbers|in order again|short version|"
    r"writing (?:it|this|that) down|to remember|before i go)\b"
)
RECAP_LASTS = 90  # [words]


def recapped(words: Sequence[Word]) -> list[bool]:
    """For every word, whether the speaker is going over what was said before."""
    text, starts = "", []
    for word in words:
        starts.append(len(text))
        text += word.low + " "
    out = [False] * len(words)
    for found in RECAP.finditer(text):
        at = bisect_left(starts, found.start())
        out[at : at + RECAP_LASTS] = [True] * len(out[at : at + RECAP_LASTS])
    return out


def numbered(words: Sequence[Word], least: Gap) -> list[int]:
    """For every word, the number of the stretch it is in; a gap of at least ``least`` starts a new one."""
    out, current = [], 0
    for word in words:
        current += word.gap >= least
        out.append(current)
    return out
