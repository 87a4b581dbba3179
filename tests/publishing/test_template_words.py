"""Words over the templates: which pieces one paper serves."""

from __future__ import annotations

from tests.drilling.builds import demo
from tutorial_lib.drawing import templates as draw
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Columns, Text
from tutorial_lib.publishing.templates import template_pages

PLAN = Plan(demo())


def _words() -> str:
    blocks = [block for page in template_pages(PLAN) for block in page.blocks]
    flat = [inner for block in blocks for inner in (sum(block.columns, ()) if isinstance(block, Columns) else (block,))]
    return " ".join(block.text for block in flat if isinstance(block, Text))


def test_it_is_said_which_pieces_a_paper_serves():
    words = _words()
    served = [end.group.which for end in draw.ends(PLAN)]
    assert all(f"For {which}. " in words for which in served)
    assert "slat 2 to 13" in served
