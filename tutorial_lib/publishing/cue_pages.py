"""Cue cards in big type, to be read beside the camera: what to say, what to show, what is easily said instead."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path

from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.publishing.cue_cards import CueCard
from tutorial_lib.publishing.typeset import PAPERS, Paper, quoted

TEMPLATE = Path(__file__).with_name("cue_pages.typ")


def cue_pages_source(cards: Sequence[CueCard], title: str, mark: str, paper: Paper = "letter") -> str:
    """The cards as typst source, a page a chapter and more where it is long.

    Args:
        cards: the cards, chapter by chapter.
        title: of the build.
        mark: the plan's version.
        paper: "letter" or "a4".
    """
    told = f"title: {quoted(f'Cue cards: {title}')}, foot: {quoted(f'{title}, plan {mark}')}"
    head = f"#show: sheet.with({told}, paper: {quoted(PAPERS[paper])})\n"
    bodies = []
    for chapter, members in groupby(cards, key=lambda card: card.chapter):
        listed = "\n".join(_card(card) for card in members)
        bodies.append(f"= #{quoted(chapter)}\n#v(6pt)\n{listed}\n")
    return TEMPLATE.read_text(encoding="utf-8") + head + "#pagebreak()\n".join(bodies)


def _card(card: CueCard) -> str:
    words = (f"{card.what[:1].upper()}{card.what[1:]}", f"“{card.say}”", card.show, card.dont)
    return f"#card({', '.join(quoted(typographic(word)) for word in words)})"
