"""Which part of the bed a word for its make is said of: named right before it, right after, or in its sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tutorial_lib.narration.linking.mentions import PLACES
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.stems import stem
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.words import Gap

FAR, FURTHER = 7, 14  # [words] between a part and what is said of it, at most; numbers among them
OUT_OF = ("of", "from", "in")  # what leads from a part past its numbers to its board: "legs out of one 8-foot 4x4"
ARTICLES = frozenset("a an the some my your our his these those this that all both each every its".split())
BEFORE = ARTICLES | frozenset(  # what may stand between a part and the word for its make: "rails are just cut from"
    "is are was were be being made cut ripped built come comes came from of out in with using use used as it's they're "
    "that's which it they are will would're just only also plain regular good old i'm i we we're got taking take get "
    "need 's 're here there there's your two three four one pieces bits layers lengths".split()
)
AFTER = ARTICLES | frozenset(  # and between the word and a part: "stock for all the"
    "for as on becomes become make makes is are inch board boards stock lumber timber wood stick sticks piece pieces "
    "material stuff pine spruce fir cedar oak poplar lengths and up one two three four six".split()
)


def named_beside(transcript: Transcript, first: int, last: int, subjects: Sequence[Subject]) -> list[Subject]:
    """The facts whose part is named right after words[first:last], or right before as what they are said of."""
    return named_after(transcript, last, subjects) or named_before(transcript, first, subjects)


def named_after(transcript: Transcript, last: int, subjects: Sequence[Subject]) -> list[Subject]:
    """ "two by six [side rails]", "a one by six for the [plinth]"."""
    words = transcript.words
    for at in range(last, min(len(words), last + FAR)):
        if words[at].gap >= Gap.COMMA or at in transcript.covered:  # "ten foot" names no foot board
            return []
        if found := starting(transcript, at, subjects):
            return found
        if words[at].low not in AFTER:
            return []
    return []


def named_before(transcript: Transcript, first: int, subjects: Sequence[Subject]) -> list[Subject]:
    """ "the [plinth] is a one by six", "[rails], two by six", and not "under the rail is a two by two"."""
    words, linked = transcript.words, False
    for at in range(first - 1, max(-1, first - 1 - FURTHER), -1):
        if words[at + 1].gap >= Gap.SENTENCE:
            return []
        linked = linked or words[at].low in OUT_OF
        if at in transcript.covered and words[at].low not in BEFORE:
            if not linked and words[at].low not in FEET:
                return []
            continue
        if found := ending(transcript, at, subjects):
            return [] if is_place(transcript, at, found) or is_listed(transcript, at, first, linked) else found
        if words[at].low not in BEFORE:
            return []
    return []


FEET = frozenset("foot feet footer ft six eight ten twelve sixteen 6 8 10 12 16 ' -".split())  # "an 8-foot two by four"


def is_listed(transcript: Transcript, at: int, first: int, linked: bool) -> bool:
    """Whether numbers, or too many words, stand between a part and a timber's name that doesn't lead back to it."""
    between = [place for place in range(at + 1, first) if place not in transcript.covered]
    return len(between) > FAR or (len(between) < first - at - 1 and not linked)


def is_place(transcript: Transcript, at: int, found: Sequence[Subject]) -> bool:
    """Whether a part that ends at a word is where something is ("under the rail"), not what is spoken of."""
    back = at - max(len(p) for s in found for p in s.said if ends(transcript, p, at))
    while back >= 0 and transcript.words[back].low in ARTICLES:
        back -= 1
    return back >= 0 and transcript.words[back].low in PLACES and transcript.words[back].low != "of"


def named_within(
    transcript: Transcript, first: int, subjects: Sequence[Subject], stretch: Sequence[int], places: bool = True
) -> list[Subject]:
    """The facts whose part is named in the clause or sentence that a word stands in, by the numbers of stretches.

    Without ``places`` only what is spoken of, not "under the rail".
    """
    start, stop = transcript.span(stretch, first, 30)
    found = ((at, ending(transcript, at, subjects)) for at in range(start, stop) if at not in transcript.covered)
    spoken = (named for at, named in found if named and (places or not is_place(transcript, at, named)))
    return list(dict.fromkeys(s for named in spoken for s in named))


def starting(transcript: Transcript, at: int, subjects: Sequence[Subject]) -> list[Subject]:
    """The facts whose part's name begins at a word; the longest name wins."""
    return longest((len(p), s) for s in subjects for p in s.said if begins(transcript, p, at))


def ending(transcript: Transcript, at: int, subjects: Sequence[Subject]) -> list[Subject]:
    """The facts whose part's name ends at a word; the longest name wins."""
    return longest((len(p), s) for s in subjects for p in s.said if ends(transcript, p, at))


def begins(transcript: Transcript, phrase: Sequence[str], at: int) -> bool:
    """Whether a name begins at a word."""
    last = at + len(phrase) - 1
    if last >= len(transcript.stems) or stemmed(transcript, last) != phrase[-1]:
        return False
    return tuple(transcript.stems[at:last]) == tuple(phrase[:-1])


def stemmed(transcript: Transcript, at: int) -> str:
    """A word's stem, without the verb glued to it ("the beam's a two by four")."""
    low = transcript.words[at].low
    return stem(low[:-2]) if low.endswith("'s") else transcript.stems[at]


def ends(transcript: Transcript, phrase: Sequence[str], at: int) -> bool:
    """Whether a name ends at a word."""
    first = at + 1 - len(phrase)
    return first >= 0 and begins(transcript, phrase, first)


def longest(found: Iterator[tuple[int, Subject]]) -> list[Subject]:
    """The facts with the longest names."""
    named = list(found)
    most = max((size for size, _ in named), default=0)
    return list(dict.fromkeys(s for size, s in named if size == most))
