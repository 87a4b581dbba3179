"""Number words that captions write as another word: "for" for four, "to" for two, "won" for one, "ate" for eight."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import word_before
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import UNITS
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.words import Gap, Word

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
    before = word_before(words, at)
    if low in ("ate", "won"):
        counted = sounds_counted(transcript, at, before, after)
        return Expression(first=at, last=at + 1, values=value) if counted else None
    named = after is not None and after.form == "nominal"  # "for 2 by 8s"
    if named or before_pronoun(words, at, before):
        return Expression(first=at, last=at + 1, values=value, form="misheard")
    unit = unit_after(words, at, before)
    counts = unit or takes_count(transcript, at, before, vocabulary)
    last = at + 1 + bool(unit)
    return Expression(first=at, last=last, values=value, unit=unit, form="misheard") if counts else None


def before_pronoun(words: Sequence[Word], at: int, before: str) -> bool:
    """Whether "of" or "em" follows ("for of them"), and no "sort" or "kind" stands before."""
    said = words[at].low in ("for", "to", "too") and words[at + 1].low in ("of", "em")
    return said and before not in ("sort", "kind")


def unit_after(words: Sequence[Word], at: int, before: str) -> str:
    """The unit right after a misheard number; "" for none."""
    low = words[at + 1].low
    unit = UNITS.get(low, "")
    return unit if unit in ("mm", "in", "h") and low != "in" and (not before or before in BEFORE_UNIT) else ""


def takes_count(transcript: Transcript, at: int, before: str, vocabulary: set[str]) -> bool:
    """Whether a count is said: after a word that takes one, before what is counted; or before "coats"."""
    after = transcript.words[at + 1].low
    counted = after in ENDS_COUNT or counts_something(transcript, at + 1, vocabulary)
    return after == "coats" or (before in TAKES_COUNT and counted)


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
