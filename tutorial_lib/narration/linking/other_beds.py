"""Where a talk speaks of another bed than its own: another mattress size, a box spring, a bed built before."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import Counter

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.transcript import Transcript

SIZES = frozenset("twin full queen king double single cot crib bunk toddler divan".split())
BEFORE, AFTER = 14, 5  # [words] how far from a number another bed is still spoken of
BUILT_BEFORE = re.compile(
    r"\b(?:my|his|her|their|our|the|your)(?: \S+)? (?:own|last|first|old|other|previous) "
    r"(?:bed|one|frame|build|version)\b|"
    r"\b(?:my|his|her|your) (?:bed|frame)(?= (?:had|has|was|is))|\bbox spring\b|"
    r"\bif (?:yours|it|you) (?:is|was|were|have|had)\b|\b(?:hers|his|theirs|yours|mine) (?:is|was|are|were|had|has)\b"
)


class OtherBeds:
    """The places where another bed is spoken of."""

    def __init__(self, transcript: Transcript) -> None:
        words = [w.low for w in transcript.words]
        named = [i for i, w in enumerate(words) if w.removesuffix("s") in SIZES]
        own = own_sizes(words, named)
        found = {i for i in named if words[i].removesuffix("s") not in own}
        box_spring = words.count("spring") > 2  # then it is this bed that has one
        starts, text = [], ""
        for word in words:
            starts.append(len(text))
            text += word + " "
        for match in BUILT_BEFORE.finditer(text):
            if not (box_spring and match.group() == "box spring"):
                found.add(bisect_left(starts, match.end()) - 1)
        self.places = sorted(found)

    def near(self, item: Expression) -> bool:
        """Whether another bed is spoken of shortly before a number, or right after it."""
        at = bisect_left(self.places, item.first - BEFORE)
        return at < len(self.places) and self.places[at] <= item.last + AFTER


def own_sizes(words: list[str], named: list[int]) -> frozenset[str]:
    """The size the talk names most, with a name right beside it ("king single")."""
    counts = Counter(words[i].removesuffix("s") for i in named)
    if not counts:
        return frozenset()
    own = counts.most_common(1)[0][0]
    beside = {
        words[j].removesuffix("s")
        for i in named
        if words[i].removesuffix("s") == own
        for j in (i - 1, i + 1)
        if 0 <= j < len(words) and words[j].removesuffix("s") in SIZES
    }
    return frozenset(beside | {own})
