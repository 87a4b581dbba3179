"""Words that lie on each other in a drawing: none, in a good one."""

from __future__ import annotations

from tutorial_lib.drawing.ink import Words, overlap
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.scene import Scene


def overlapping_words(scene: Scene) -> list[tuple[str, str]]:
    """Pairs of words that lie on each other."""
    words = [ink for ink in lay(scene)[0] if isinstance(ink, Words)]
    return [(a.text, b.text) for i, a in enumerate(words) for b in words[i + 1 :] if overlap(a.frame, b.frame)]
