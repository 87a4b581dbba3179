"""A short talk about the queen on corner posts, by the names people say: all is right but one gap, said too wide."""

from __future__ import annotations

from pathlib import Path

from tests.design.posts import queen
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import check, read_captions
from tutorial_lib.plan import plan

TALK = Path(__file__).parents[1] / "data" / "talks_posts" / "queen-corner-posts.vtt"


def test_posts_blocks_and_rails_are_known_by_what_people_call_them() -> None:
    report = check(read_captions(TALK.read_bytes(), TALK.name), facts_of(plan(queen())))
    said = {item.subject for item in report.items if item.verdict == "agrees"}
    wanted = {"post.height", "side_rail.length", "end_rail.length", "corner_block.length", "post.reveal",
              "post.above"}  # fmt: skip
    assert wanted <= said
    wrong = [(item.subject, str(item.plan_value)) for item in report.items if item.verdict == "conflicts"]
    assert [subject for subject, _ in wrong] == ["slat.gap"]
