"""Chapters of a talk: where they begin, what they are called, what video sites and players read."""

from __future__ import annotations

import io
from itertools import pairwise
from pathlib import Path

import pytest
import webvtt as reader

from tests.narration.talks import ROUGH, captions_of
from tests.publishing import demo
from tutorial_lib.cli.shared import read_options
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import check, read_captions
from tutorial_lib.plan import plan
from tutorial_lib.publishing.chapters import LEAST, Chapter, chapters, plain_list, seconds_of_step, webvtt

FOUND = chapters(demo.report(), demo.facts())


def test_the_demo_follows_its_own_course() -> None:
    assert [(c.time, c.title) for c in FOUND] == [
        ("0:00", "Mattress and frame size"), ("0:36", "What to buy"), ("1:08", "Rails"), ("2:12", "Cutting the legs"),
        ("2:44", "Cleats"), ("3:27", "Corners"), ("3:37", "Fixing the legs"), ("4:40", "Slats"),
        ("5:19", "Sanding and finish"),
    ]  # fmt: skip


def test_chapters_are_in_order_and_long_enough() -> None:
    name = "lantern-section-double"
    facts = facts_of(plan(read_options(str(ROUGH / f"{name}.toml"))))
    path = captions_of(ROUGH / name)
    found = chapters(check(read_captions(path.read_bytes(), path.name), facts), facts)
    assert len(found) >= 6 and found[0].start == 0
    assert all(a.end == b.start for a, b in pairwise(found))
    assert all(c.end - c.start >= LEAST for c in found)
    assert len({c.title for c in found}) == len(found)
    assert {"Rails", "Slats", "Centre line"} <= {c.title for c in found}
    assert {"Piers", "Bearers"} <= {c.title for c in found}  # the creator's own words


def test_a_script_has_no_times_and_no_chapters() -> None:
    talk = read_captions(b"# Rails\n\nThe side rails are 78 3/4 inches.\n", "draft.md")
    assert chapters(check(talk, demo.facts()), demo.facts()) == ()
    silent = read_captions(b"WEBVTT\n\n00:01.000 --> 00:02.000\n[music]\n", "silent.vtt")
    assert chapters(check(silent, demo.facts()), demo.facts())[0].start == 0


def test_the_track_is_read_by_another_reader() -> None:
    track = reader.from_buffer(io.StringIO(webvtt(FOUND)))
    assert [cue.text for cue in track] == [c.title for c in FOUND]
    assert track[1].start == "00:00:36.870" and track[-1].end == "00:05:49.705"


def test_the_list_starts_at_nought_and_names_no_sign_that_ends_a_cue() -> None:
    assert plain_list(FOUND).splitlines()[:2] == ["0:00 Mattress and frame size", "0:36 What to buy"]
    odd = [Chapter(start=0, end=5, topic="slats", title="a <b> & c --> d")]
    assert "a &lt;b> &amp; c → d" in webvtt(odd)


SENTENCES = (
    "The side rails and the end rails are cut, and every rail is sanded at its ends.",
    "Set the side rail against the end rail; the rail is flush.",
    "Now the plinth: the plinth boards go round, and the plinth stands back from the sides.",
    "Screw the plinth on, and lift the plinth off the floor: a plinth that touches is no good.",
    "Lay every slat to its mark, and put a screw in each slat.",
    "The last slat comes flush, slat by slat, and no slat rocks.",
)
PLINTH = "WEBVTT\n\n" + "\n".join(
    f"00:{10 * n:02}.000 --> 00:{10 * n + 9:02}.000\n{told}\n" for n, told in enumerate(SENTENCES)
)


def test_a_plinth_has_a_chapter_where_the_bed_has_one() -> None:
    gallery = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
    talk = read_captions(PLINTH.encode(), "plinth.vtt")
    options = read_options(str(gallery / "queen-runners-set-in.toml"))
    with_one = facts_of(plan(options))
    assert "plinth.height" in with_one and "plinth.height" not in demo.facts()
    found = chapters(check(talk, with_one), with_one)
    assert [c.title for c in found] == ["Rails", "Plinth", "Slats"]
    assert seconds_of_step(found, "plinth") == 20 and seconds_of_step(found, "dry fit") == 0
    without = chapters(check(talk, demo.facts()), demo.facts())
    assert "Plinth" not in [c.title for c in without] and seconds_of_step(without, "plinth") is None


def test_steps_are_found_where_their_part_is_fixed() -> None:
    assert seconds_of_step(FOUND, "leg") == pytest.approx(217.993)  # 3:37, not 2:12 where they are cut
    assert seconds_of_step(FOUND, "slat") == pytest.approx(280.955)
    assert seconds_of_step(FOUND, "level") is None and seconds_of_step((), "leg") is None
