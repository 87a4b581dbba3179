"""The shopping list to send and the block for under the video."""

from __future__ import annotations

from tests.publishing import demo
from tutorial_lib.lists.buying import shopping
from tutorial_lib.publishing.chapters import chapters
from tutorial_lib.publishing.identity import version
from tutorial_lib.publishing.plain_texts import description, shopping_text
from tutorial_lib.publishing.tools import tools


def test_the_shopping_list_has_a_line_to_tick_for_all_that_is_bought() -> None:
    text = shopping_text(demo.demo())
    assert text.count("[ ] ") == len(shopping(demo.demo()).lines) == 14
    assert "[ ] 2x6, 8 ft: 3 boards, $24.30" in text and "Total $89.50, without 10 items not priced" in text
    assert version(demo.demo().options) in text
    assert " mm: " in shopping_text(demo.metric())


def test_the_block_has_all_that_is_promised_for_under_the_video() -> None:
    text = description(demo.demo(), demo.report(), chapters(demo.report(), demo.facts()))
    titles = ["CHAPTERS", "CORRECTIONS", "PARTS, ACTUAL SIZES", "CUTS, BOARD BY BOARD", "TO BUY", "TOOLS"]
    places = [text.index(f"\n{title}\n") for title in [*titles, "BEFORE YOU BUILD"]]
    assert places == sorted(places)
    assert "14 x slat, 1x4 (3/4 x 3 1/2 in): 38 1/4 in" in text
    assert "1x4, 10 ft, 4 boards: slat at 38 1/4, 76 5/8, 115 in" in text
    assert "1:25  2x6 end rail: I said thirty-five and a half (35 1/2 in); right is 38 1/2 in." in text
    assert "Caution: Nobody may kneel or stand on a slat" in text and f"Plan {version(demo.demo().options)}" in text
    assert len(text) < 5000  # what video sites take (common practice, no source)


def test_without_captions_nothing_is_said_of_the_talk() -> None:
    text = description(demo.metric())
    assert "CHAPTERS" not in text and "CORRECTIONS" not in text and " mm" in text


def test_tools_follow_from_holes_screws_and_finish() -> None:
    found = tools(demo.demo())
    assert "bits: 3/32 in, 1/8 in, long 5/32 in, 3/16 in, 13/64 in, 1/4 in, 13/32 in" in found
    assert "hammer and a wrench for the bolts" in found and "sander, P120 and P180" in found
