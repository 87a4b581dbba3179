"""Where the talk speaks of each thing of the plan, and how present that thing is at a number."""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections.abc import Collection, Sequence
from fractions import Fraction
from functools import lru_cache

from tutorial_lib.narration.linking.fits import Fits
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.stems import Phrase
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.records import dataclass

REACH = 90  # [words] how far back a thing spoken of is remembered
AHEAD = 14  # [words] how far ahead it counts
LONGEST = 12  # [words] a name, at most

OPENED = 0.55  # presence of a block's opening words all through it


def fading(distance: int) -> float:
    """How much a thing said so many words before a number is still present."""
    return math.exp(-distance / 30)


FADED = tuple(map(fading, range(REACH + LONGEST)))
SENTENCES_AGO, BLOCKS_AGO = tuple(0.72**n for n in range(7)), tuple(0.55**n for n in range(5))
PLACES = frozenset(
    "between from under below above into on to against through at inside over past along of off by".split()
)


@dataclass(frozen=True)
class Name:
    """What a part is called, as far as the talk says it at all; phrases by their place in ``Mentions.spoken``."""

    said: tuple[int, ...]  # the creator's own words for it
    short: tuple[int, ...]  # the last words of longer ones
    words: tuple[int, ...]  # of its description
    of: int  # how many words the description has
    own: bool  # the creator has words for it

    def presence(self, here: Sequence[float]) -> float:
        """How present it is at a number, by how present each phrase is there."""
        best = most = total = 0.0
        for p in self.said:
            best = max(best, here[p])
        for p in self.short:
            best = max(best, 0.85 * here[p])
        for p in self.words:
            most, total = max(most, here[p]), total + here[p]
        return max(best, 0.9 * total / self.of, (0.35 if self.own else 0.75) * most) if most else best


class Mentions:
    """Where the talk speaks of each phrase of the plan."""

    def __init__(self, transcript: Transcript, subjects: Sequence[Subject]) -> None:
        self.transcript = transcript
        phrases = phrases_of(subjects)
        self.named_by = owners(subjects)
        self.places: dict[Phrase, list[int]] = {p: [] for p in phrases}
        self.by_first: dict[str, list[Phrase]] = {}  # phrases by their first word
        self.find(phrases)
        self.vocabulary = {w for p in phrases for w in p}
        self.at = (-1, -1)  # the number in hand
        self.fits = Fits(subjects)
        self.spoken: list[Phrase] = []  # the phrases of names that the talk says
        self.names, self.name_of = self.named(subjects)
        self.names_with = names_with(self.names, len(self.spoken))
        self.memory: dict[Phrase, float] = {}  # how present each phrase is at it
        self.line: tuple[list[int], list[int]] | tuple[()] = ()  # where phrases of names are said, and which
        self.parts_at: list[float] | None = None
        self.rests_at: dict[Phrase, float] = {}
        self.stands: dict[int, float] = {}
        self.touched, self.touching = -1, dict[int, float]()  # how clearly each name of a part ends at a word
        self.counted = counted_nouns(subjects)
        self.parts = part_names(subjects)
        self.part_phrases = frozenset(p for s in subjects if s.kind == "part_count" for p in (*s.said, s.head))
        self.steps = small_steps(subjects)

    def named(self, subjects: Sequence[Subject]) -> tuple[list[Name], dict[Subject, int]]:
        """The names of parts, each once, and which one every fact has."""
        places: dict[tuple[tuple[Phrase, ...], Phrase], int] = {}
        names: list[Name] = []
        of: dict[Subject, int] = {}
        at: dict[Phrase, int] = {}
        for s in subjects:
            known = of[s] = places.setdefault((s.said, s.head), len(names))
            if known == len(names):
                short = [p[-1:] for p in s.said if self.is_short_name(p)]
                said, shorter, words = (self.heard(at, found) for found in (s.said, short, [(w,) for w in s.head]))
                names.append(Name(said, shorter, words, len(s.head), bool(s.said)))
        return names, of

    def heard(self, at: dict[Phrase, int], phrases: Sequence[Phrase]) -> tuple[int, ...]:
        """The phrases that the talk says, by their place in ``spoken``; ``at`` holds the places."""
        out = []
        for phrase in phrases:
            if self.places[phrase]:
                place = at.setdefault(phrase, len(self.spoken))
                if place == len(self.spoken):
                    self.spoken.append(phrase)
                out.append(place)
        return tuple(out)

    def find(self, phrases: set[Phrase]) -> None:
        """Fills in the places; a phrase inside a longer one counts for the longer one alone."""
        for phrase in phrases:
            self.by_first.setdefault(phrase[0], []).append(phrase)
        line = self.transcript.stems
        for at, word in enumerate(line):
            for phrase in self.by_first.get(word, ()):
                if tuple(line[at : at + len(phrase)]) == phrase:
                    self.places[phrase].append(at)

    def name_timber(self, found: Sequence[Expression]) -> None:
        """Adds where timber is named by its size in words ("two by six" for the plan's 2x6)."""
        for item in found:
            phrase = ("x".join(str(v) for v in item.values[:2]),)
            if item.form == "nominal" and phrase in self.places:
                insort(self.places[phrase], item.first)

    def take_back(self, at: int) -> None:
        """Leaves out the names that begin at a word that is a unit ("8 foot board" speaks of no foot board)."""
        for phrase in self.by_first.get(self.transcript.stems[at], ()):
            places = self.places[phrase]
            found = bisect_left(places, at)
            if found < len(places) and places[found] == at:
                del places[found]

    def is_short_name(self, phrase: Phrase) -> bool:
        """Whether the last word of a longer name names that part alone ("dividers" for the "shelf dividers")."""
        return len(phrase) > 1 and self.named_by.get(phrase[-1]) == 1

    def touches(self, subject: Subject, place: int) -> float:
        """How clearly a name of a fact's part ends at a word: 1, or a half by a name it shares ("rail")."""
        if self.touched != place:
            self.touched, self.touching = place, {}
        name = self.name_of[subject]
        known = self.touching.get(name)
        if known is None:
            known = self.touching[name] = self.named_at(subject, place)
        return known

    def named_at(self, subject: Subject, place: int) -> float:
        """Looks for a name of a fact's part that ends at a word."""
        last, best = self.transcript.stems[place], 0.0
        for p in names_of(subject):
            if p[-1] == last or p[-1][0].isdecimal():  # a timber's size is also said in words
                if self.ends_at(p, place):
                    return 1.0
                if len(p) > 1 and p[-1] == last and p in subject.said:
                    best = max(best, 1.0 if self.is_short_name(p) else 0.5)
        return best

    def ends_at(self, phrase: Phrase, at: int) -> bool:
        """Whether a phrase of the plan ends at a word."""
        places = self.places.get(phrase)
        if not places or at < 0:
            return False
        first = at - len(phrase) + 1
        found = bisect_left(places, first)
        return found < len(places) and places[found] == first

    def salience(self, phrase: Phrase, first: int, last: int) -> float:
        """How present a phrase is at a number, from 0 to about 1.2."""
        if self.at != (first, last):  # one number is looked at after another
            self.at, self.memory = (first, last), {(): 0.0}
            self.parts_at, self.rests_at = None, {}
        known = self.memory.get(phrase)
        if known is None:
            known = self.memory[phrase] = self.measure(phrase, first, last)
        return known

    def part_present(self, subject: Subject, first: int, last: int) -> float:
        """How present a fact's part is: by the creator's own words for it, else by those of its description."""
        return self.present(first, last)[self.name_of[subject]]

    def front(self, first: int, last: int) -> float:
        """The presence of the part spoken of most at a number."""
        return max(self.present(first, last), default=0.0)

    def present(self, first: int, last: int) -> list[float]:
        """How present each name of a part is at a number."""
        self.salience((), first, last)
        if self.parts_at is None:
            here = [0.0] * len(self.spoken)
            for phrase in self.within_reach(first, last):
                here[phrase] = self.salience(self.spoken[phrase], first, last)
            self.parts_at = [0.0] * len(self.names)
            for n in {n for p, names in zip(here, self.names_with, strict=True) if p for n in names}:
                self.parts_at[n] = self.names[n].presence(here)
        return self.parts_at

    def within_reach(self, first: int, last: int) -> set[int]:
        """The phrases of names said near enough to a number to be present there, by their place in ``spoken``."""
        if not self.line:
            found = sorted((at, n) for n, phrase in enumerate(self.spoken) for at in self.places[phrase])
            self.line = [at for at, _ in found], [n for _, n in found]
        places, phrases = self.line
        block = bisect_left(self.transcript.block, self.transcript.block[first])
        start, stop = min(block, first - REACH - LONGEST), last + AHEAD
        return set(phrases[bisect_left(places, start) : bisect_left(places, stop + 1)])

    def rest_present(self, subject: Subject, first: int, last: int) -> float:
        """How present the other words of a fact's description are."""
        self.salience((), first, last)
        known = self.rests_at.get(subject.rest)
        if known is None:
            rest = [self.salience((w,), first, last) for w in subject.rest]
            known = self.rests_at[subject.rest] = sum(rest) / len(rest) if rest else 0.0
        return known

    def transcript_salience(self, word: str, first: int, last: int) -> float:
        """How present a single thing is (screw, bolt, gap ...)."""
        return self.salience((word,), first, last)

    def fasteners_present(self, first: int, last: int) -> float:
        """How present a screw or a bolt is."""
        return max(self.salience(("screw",), first, last), self.salience(("bolt",), first, last))

    def most_matched(self, noun: Phrase) -> int:
        """How many words of a part's name the end of a noun phrase repeats, at most."""
        return most_matched(noun, self.part_phrases)

    def measure(self, phrase: Phrase, first: int, last: int) -> float:
        """The strongest of its mentions, before and after."""
        places = self.places.get(phrase)
        if not places:
            return 0.0
        at = bisect_left(places, first)
        best = 0.0
        for place in reversed(places[max(0, at - 3) : at]):
            here = self.before(place + len(phrase) - 1, first)
            if here > best:
                best = max(best, self.standing(place) * here)
        for place in places[at : at + 2]:
            best = max(best, self.after(place, last))
        return best

    def standing(self, place: int) -> float:
        """How much a mention counts: less as the thing compared with ("same as the", "to match the") or a place."""
        known = self.stands.get(place)
        if known is None:
            known = self.stands[place] = self.stood(place)
        return known

    def stood(self, place: int) -> float:
        """How much a mention counts, by the words before it."""
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
        blocks = t.block[first] - t.block[place]
        if distance > REACH and blocks:
            return 0.0
        sentences = t.sentence[first] - t.sentence[place]
        faded = FADED[distance] if 0 <= distance < len(FADED) else fading(distance)
        value = faded * SENTENCES_AGO[min(sentences, 6)] * BLOCKS_AGO[min(blocks, 4)]
        return OPENED if blocks == 0 and value < OPENED and self.opens(place) else value

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
        if place < last or distance > AHEAD:
            return 0.0
        held = max(0, last - 1)
        sentences = t.sentence[place] - t.sentence[held]
        commas = t.comma[place] - t.comma[held]
        return 1.15 * math.exp(-distance / 7) * 0.75**commas * (0.12 if sentences else 1.0)


@lru_cache(maxsize=4096)
def names_of(subject: Subject) -> tuple[Phrase, ...]:
    """The creator's names for a fact's part, and what its description names."""
    return tuple(p for p in (*subject.said, subject.head) if p)


def names_with(names: Sequence[Name], phrases: int) -> list[list[int]]:
    """For every phrase, the names it belongs to."""
    out: list[list[int]] = [[] for _ in range(phrases)]
    for n, name in enumerate(names):
        for phrase in {*name.said, *name.short, *name.words}:
            out[phrase].append(n)
    return out


def most_matched(noun: Phrase, names: Collection[Phrase]) -> int:
    """How many words of a name the end of a noun phrase repeats, of whole names the longest."""
    return max((len(name) for name in names if name and noun[-len(name) :] == name), default=0)


THINGS = ("screw", "bolt", "dowel", "gap", "joint", "coat", "nail")


def phrases_of(subjects: Sequence[Subject]) -> set[Phrase]:
    """What a talk may call the things of the plan: the creator's names, their last words, the words of the facts."""
    names = {p for s in subjects for p in s.said}
    words = {(w,) for s in subjects for w in (*s.head, *s.rest)}
    return {(w,) for w in THINGS} | names | words | {p[-1:] for p in names}


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
