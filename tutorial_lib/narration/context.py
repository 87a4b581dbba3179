"""What a number is said among: the clause, the sentence, and the things spoken of before it."""

from __future__ import annotations

import math
import re
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.words import Gap, Word
from tutorial_lib.narration.subjects import Phrase, Subject, stem

REACH = 90  # [words] how far back a thing spoken of is remembered


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
        return " ".join(
            ("," if i > first and w.gap in (Gap.COMMA, Gap.STOP) else "") + w.low
            for i, w in enumerate(self.words[first:last], first)
        )


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


PLACES = frozenset(
    "between from under below above into on to against through at inside over past along of off by".split()
)


class Mentions:
    """Where the talk speaks of each phrase of the plan."""

    def __init__(self, transcript: Transcript, subjects: Sequence[Subject]) -> None:
        self.transcript = transcript
        phrases: set[Phrase] = {(w,) for w in ("screw", "bolt", "dowel", "gap", "joint", "coat", "nail")}
        phrases |= {p for s in subjects for p in (*s.said, *((w,) for w in (*s.head, *s.rest)))}
        phrases |= {p[-1:] for s in subjects for p in s.said}
        self.named_by = owners(subjects)
        self.places: dict[Phrase, list[int]] = {p: [] for p in phrases}
        self.find(phrases)
        self.vocabulary = {w for p in phrases for w in p}
        self.memory: dict[tuple[Phrase, int, int], float] = {}
        self.counted = counted_nouns(subjects)
        self.parts = part_names(subjects)
        self.part_phrases = frozenset(p for s in subjects if s.kind == "part_count" for p in (*s.said, s.head))
        self.steps = small_steps(subjects)

    def find(self, phrases: set[Phrase]) -> None:
        """Fills in the places; a phrase inside a longer one counts for the longer one alone."""
        by_first: dict[str, list[Phrase]] = {}
        for phrase in phrases:
            by_first.setdefault(phrase[0], []).append(phrase)
        line = self.transcript.stems
        for at, word in enumerate(line):
            for phrase in by_first.get(word, ()):
                if tuple(line[at : at + len(phrase)]) == phrase:
                    self.places[phrase].append(at)

    def name_timber(self, found: Sequence[Expression]) -> None:
        """Adds where timber is named by its size in words ("two by six" for the plan's 2x6)."""
        for item in found:
            phrase = ("x".join(str(v) for v in item.values[:2]),)
            if item.form == "nominal" and phrase in self.places:
                insort(self.places[phrase], item.first)

    def is_short_name(self, phrase: Phrase) -> bool:
        """Whether the last word of a longer name names that part alone ("dividers" for the "shelf dividers")."""
        return len(phrase) > 1 and self.named_by.get(phrase[-1]) == 1

    def ends_at(self, phrase: Phrase, at: int) -> bool:
        """Whether a phrase of the plan ends at a word."""
        places = self.places.get(phrase, [])
        first = at - len(phrase) + 1
        return at >= 0 and first in places[bisect_left(places, first) :][:1]

    def salience(self, phrase: Phrase, first: int, last: int) -> float:
        """How present a phrase is at a number, from 0 to about 1.2."""
        key = (phrase, first, last)
        if key not in self.memory:
            self.memory[key] = self.measure(phrase, first, last)
        return self.memory[key]

    def transcript_salience(self, word: str, first: int, last: int) -> float:
        """How present a single thing is (screw, bolt, gap ...)."""
        return self.salience((word,), first, last)

    def measure(self, phrase: Phrase, first: int, last: int) -> float:
        """The strongest of its mentions, before and after."""
        places = self.places.get(phrase)
        if not places:
            return 0.0
        at = bisect_left(places, first)
        best = 0.0
        for place in reversed(places[max(0, at - 3) : at]):
            best = max(best, self.standing(place) * self.before(place + len(phrase) - 1, first))
        for place in places[at : at + 2]:
            best = max(best, self.after(place, last))
        return best

    def standing(self, place: int) -> float:
        """How much a mention counts: less as the thing compared with ("same as the", "to match the") or a place."""
        words = self.transcript.words
        back = place - 1
        while (
            back >= 0
            and place - back < 4
            and words[back].low in ("the", "a", "an", "your", "my", "that", "this", "its")
        ):
            back -= 1
        low = words[back].low if back >= 0 else ""
        if low in ("as", "match", "like", "than", "matches") or (low in ("is", "are") and back < place - 1):
            return 0.45
        return 0.8 if low in PLACES else 1.0

    def before(self, place: int, first: int) -> float:
        """Presence of something said earlier: fades with words and pauses; a chapter's opening word stays."""
        t = self.transcript
        distance = first - place
        if distance > REACH and t.block[place] != t.block[first]:
            return 0.0
        sentences = t.sentence[first] - t.sentence[place]
        blocks = t.block[first] - t.block[place]
        value = math.exp(-distance / 30) * 0.72 ** min(sentences, 6) * 0.55 ** min(blocks, 4)
        if blocks == 0 and self.opens(place):
            value = max(value, 0.55)
        return value

    def opens(self, place: int) -> bool:
        """Whether a word is in the short phrase that opens a block ("Right, cleats.", "Legs next.")."""
        t = self.transcript
        start = place
        while start > 0 and t.block[start - 1] == t.block[place] and place - start < 5:
            start -= 1
        return place - start < 4 and (start == 0 or t.block[start - 1] != t.block[place])

    def after(self, place: int, last: int) -> float:
        """Presence of something said later in the same sentence."""
        t = self.transcript
        distance = place - last
        if place < last or distance > 14:
            return 0.0
        held = max(0, last - 1)
        sentences = t.sentence[place] - t.sentence[held]
        commas = t.comma[place] - t.comma[held]
        return 1.15 * math.exp(-distance / 7) * 0.75**commas * (0.12 if sentences else 1.0)


NOT_PARTS = frozenset("screw bolt dowel gap hole mattress end".split())


def part_names(subjects: Sequence[Subject]) -> frozenset[str]:
    """Stems of the creator's names for the parts of the build."""
    return frozenset(p[-1] for s in subjects for p in s.said) - NOT_PARTS


def owners(subjects: Sequence[Subject]) -> dict[str, int]:
    """How many parts have a name that ends with a word."""
    parts: dict[str, set[str]] = {}
    for s in subjects:
        for phrase in s.said:
            parts.setdefault(phrase[-1], set()).add(s.key.split(".")[0])
    return {word: len(keys) for word, keys in parts.items()}


def counted_nouns(subjects: Sequence[Subject]) -> frozenset[str]:
    """Nouns the plan counts things by: its parts, and the fasteners."""
    parts = {p[-1] for s in subjects if s.kind == "part_count" for p in (*s.said, s.head) if p}
    return frozenset(parts | {s.kind.partition("_")[0] for s in subjects if s.is_count and s.kind.endswith("_count")})


def small_steps(subjects: Sequence[Subject]) -> frozenset[Fraction]:
    """Thicknesses, clearances and plays of the plan, once and twice: what is added or forgotten by mistake [in]."""
    kinds = ("section", "thickness", "clearance", "gap")
    once = {s.value for s in subjects if s.kind in kinds and 0 < s.value <= 8}
    return frozenset(once | {2 * v for v in once})
