"""A very long talk cut into sections: what was said hours ago says nothing of a number, and costs time and memory."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tutorial_lib.narration.captions.cues import Talk
from tutorial_lib.records import dataclass

LONG = 200_000  # [characters] of a section, some four hours of talk
PATIENCE = 200  # [cues] how long a pause is waited for, to cut at


@dataclass(frozen=True)
class Section:
    """A stretch of a talk, as a talk of its own."""

    talk: Talk
    offset: int  # where it begins in the whole talk's text


def sections(talk: Talk, long: int = 0) -> Iterator[Section]:
    """The stretches of a talk, cut at pauses; a talk of usual length is one, as it is.

    Args:
        talk: the whole talk.
        long: characters after which a section ends at the next pause; 0 for LONG.
    """
    long = long or LONG
    if len(talk.text) <= long:
        yield Section(talk, 0)
        return
    first = 0
    while first < len(talk.cues):
        stop = section_end(talk, first, long)
        yield Section(replace(talk, cues=talk.cues[first:stop]), talk.offsets[first])
        first = stop


def section_end(talk: Talk, first: int, long: int) -> int:
    """The cue after a section that begins at one: at the first pause once it is long enough."""
    over = next((i for i in range(first + 1, len(talk.cues)) if talk.offsets[i] - talk.offsets[first] > long), None)
    if over is None:
        return len(talk.cues)
    waited = range(over, min(over + PATIENCE, len(talk.cues)))
    return next((i for i in waited if talk.text.startswith("\n\n", talk.offsets[i] - 2)), over)
