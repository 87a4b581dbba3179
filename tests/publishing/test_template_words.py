"""Words over the templates: which pieces one paper serves."""

from __future__ import annotations

from dataclasses import replace

from tests.drilling.builds import demo
from tutorial_lib.drawing import templates as draw
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Columns, Text
from tutorial_lib.publishing.templates import _which, template_pages

PLAN = Plan(demo())


def _words() -> str:
    blocks = [block for page in template_pages(PLAN) for block in page.blocks]
    flat = [inner for block in blocks for inner in (sum(block.columns, ()) if isinstance(block, Columns) else (block,))]
    return " ".join(block.text for block in flat if isinstance(block, Text))


def test_up_to_four_pieces_are_named_and_more_from_the_first_to_the_last():
    words = _words()
    for end in draw.ends(PLAN):
        pieces = end.group.pieces
        said = ", ".join(pieces) if len(pieces) < 5 else f"{pieces[0]} to {pieces[-1]}"
        assert f"For {said}. " in words
    assert any(len(end.group.pieces) >= 5 for end in draw.ends(PLAN))


def test_four_pieces_are_all_named_and_five_by_the_first_and_the_last():
    group = PLAN.drilling.schedule[0]
    for count, words in ((4, "a, b, c, d"), (5, "a to e")):
        assert _which(replace(group, pieces=tuple("abcde"[:count]))) == words
