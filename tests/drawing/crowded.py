"""Words that lie on each other in a drawing, and lines that run through words: none, in a good one."""

from __future__ import annotations

from itertools import pairwise

from tutorial_lib.drawing.ink import Stroke, Words, crosses, overlap
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.scene import Scene


def overlapping_words(scene: Scene) -> list[tuple[str, str]]:
    """Pairs of words that lie on each other."""
    words = [ink for ink in lay(scene)[0] if isinstance(ink, Words)]
    return [(a.text, b.text) for i, a in enumerate(words) for b in words[i + 1 :] if overlap(a.frame, b.frame)]


def struck_through(scene: Scene) -> list[str]:
    """Words that a thin line runs through: a label's own, or another's on its way to the drawing."""
    inks = lay(scene)[0]
    lines = [pair for ink in inks if isinstance(ink, Stroke) and not ink.closed and ink.line == "thin"
             for pair in pairwise(ink.points)]  # fmt: skip
    return [ink.text for ink in inks if isinstance(ink, Words) and any(crosses(line, ink.frame) for line in lines)]
