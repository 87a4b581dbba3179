"""The words that mark a kind of number, found around it."""

from __future__ import annotations

import pytest

from tests.narration.talks import ROUGH, captions_of, talks
from tutorial_lib.narration import read_captions
from tutorial_lib.narration.linking.aspects import CUES, cues_around


def looked_for(before: str, after: str) -> frozenset[str]:
    """Every cue looked for, whatever words there are."""
    found = {name for name, cue in CUES.items() if cue.before and cue.before.search(before)}
    return frozenset(found | {name for name, cue in CUES.items() if cue.after and cue.after.match(after)})


@pytest.mark.parametrize(
    ("before", "after", "name"),
    [
        ("then two screws at", "", "screw"),
        ("", ", out of the pile", "board"),
        ("the opening is", "square inside", "within"),
        ("it comes out to out at", "", "out_to_out"),
        ("start", "in from the end", "offset"),
        ("", "each", "each"),
    ],
)
def test_a_cue_is_found_on_its_side(before: str, after: str, name: str) -> None:
    assert name in cues_around(before, after)


def test_cues_are_looked_for_only_where_a_word_may_begin_one() -> None:
    hits = 0
    for base in talks(ROUGH)[::4]:
        words = read_captions(captions_of(base)).text.lower().replace(", ", " ,").split()
        for at in range(0, len(words), 3):
            around = " ".join(words[max(0, at - 10) : at]), " ".join(words[at : at + 10])
            found = cues_around(*around)
            hits += bool(found)
            assert found == looked_for(*around), around
    assert hits > 300
