"""Number words that captions write as another word: "for" for four, "to" for two, "won" for one, "ate" for eight."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import UNITS
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.words import Gap

BEFORE_UNIT = frozenset("by that's of they're the those wait about is it's".split())
MISHEARD = {"for": 4, "fore": 4, "to": 2, "too": 2, "ate": 8, "won": 1}
TAKES_COUNT = frozenset(
    "there's gets get getting takes take got needs need want wants have has plus and bought grab it's that's "
    "they're are is just of the that those these my put putting drive driving run use using add cut makes fit "
    "every with".split()
)
ENDS_COUNT = frozenset("and of each so on per all in at".split())
EATERS = frozenset("i you he she we they who it that dog cat blade termites mice rats worms".split())
WINNERS = frozenset("i you he she we they who that it's have has had i've never team".split())
COUNTED = frozenset("screw bolt dowel gap coat hole piece length board bit pair".split())


def with_misheard(transcript: Transcript, found: Sequence[Expression], vocabulary: set[str]) -> list[Expression]:
    """Adds the misheard number words of a talk.

    Args:
        transcript: the words.
        found: the numbers found so far.
        vocabulary: stems of the plan's words.

    Returns:
        All numbers in order. Where only the plan can tell, the form is "misheard"; else "number".
    """
    taken = {w for e in found for w in range(e.first, e.last)}
    starts = {e.first: e for e in found}
    extra = []
    for at, word in enumerate(transcript.words):
        if word.low in MISHEARD and at not in taken:
            made = number_at(transcript, at, starts.get(at + 1), vocabulary)
            extra += [made] if made else []
    return sorted([*found, *extra], key=lambda e: e.first)


def number_at(transcript: Transcript, at: int, after: Expression | None, vocabulary: set[str]) -> Expression | None:
    """A misheard number at a word, or None."""
    words = transcript.words
    low, value = words[at].low, (Fraction(MISHEARD[words[at].low]),)
    if at + 1 >= len(words) or words[at + 1].gap >= Gap.SENTENCE:
        return None
    before = words[at - 1].low if at and words[at].gap < Gap.COMMA else ""
    if low in ("ate", "won"):
        return (
            Expression(first=at, last=at + 1, values=value) if sounds_counted(transcript, at, before, after) else None
        )
    if after is not None and after.form == "nominal":  # "for 2 by 8s"
        return Expression(first=at, last=at + 1, values=value, form="misheard")
    if low in ("for", "to", "too") and words[at + 1].low in ("of", "em") and before not in ("sort", "kind"):
        return Expression(first=at, last=at + 1, values=value, form="misheard")
    unit = UNITS.get(words[at + 1].low)
    if unit in ("mm", "in", "h") and words[at + 1].low != "in" and (not before or before in BEFORE_UNIT):
        return Expression(first=at, last=at + 2, values=value, unit=unit, form="misheard")
    counts = before in TAKES_COUNT and counts_something(transcript, at + 1, vocabulary)
    alone = before in TAKES_COUNT and words[at + 1].low in ENDS_COUNT
    coats = words[at + 1].low == "coats"
    return Expression(first=at, last=at + 1, values=value, form="misheard") if counts or alone or coats else None


def sounds_counted(transcript: Transcript, at: int, before: str, after: Expression | None) -> bool:
    """Whether "ate" or "won" can't be the verb: nobody before it eats or wins, and no object follows."""
    words = transcript.words
    follows = words[at + 1].low
    verb = before in (EATERS if words[at].low == "ate" else WINNERS)
    article = follows in ("the", "a", "an", "my", "his", "her", "it", "t", "by")
    return not article and (not verb or after is not None or follows == "of") and words[at + 1].text not in "'’"


def counts_something(transcript: Transcript, at: int, vocabulary: set[str]) -> bool:
    """Whether a plural of the plan's words or of counted things follows within two words."""
    for i in range(at, min(at + 2, len(transcript.words))):
        word = transcript.words[i]
        if word.gap >= Gap.COMMA:
            return False
        if word.low.endswith("s") and not word.low.endswith("ss") and transcript.stems[i] in vocabulary | COUNTED:
            return True
        if word.low in ("the", "a", "an", "this", "that", "these", "those", "your", "my", "its", "both"):
            return False
    return False
