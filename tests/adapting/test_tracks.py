"""Caption tracks: valid WebVTT, your number beside each that differs, nothing else touched."""

from __future__ import annotations

import re

import pytest
import webvtt as reader

from tests.adapting.sized import CAPTIONS, adapted, compared
from tests.design.builds import demo
from tutorial_lib.adapting import adapt, comparison
from tutorial_lib.adapting.tracks import stamp, track, webvtt
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import check, read_captions
from tutorial_lib.plan import plan

YOURS = re.compile(r" \[yours: [^\]]*\]")


def test_a_reader_reads_it_back() -> None:
    text = webvtt(compared("full"))
    assert len(reader.from_string(text)) == len(track(compared("full")))


def test_only_numbers_are_added_to_what_is_said() -> None:
    said = [cue for cue in track(compared("full")) if not cue.added]
    theirs = [cue for cue in read_captions(CAPTIONS).cues if cue.text]
    assert [YOURS.sub("", cue.text).split() for cue in said] == [cue.text.split() for cue in theirs]
    assert [(cue.start, cue.end) for cue in said] == [(cue.start, cue.end) for cue in theirs]


def test_the_slat_has_its_own_length() -> None:
    assert "three quarters [yours: 53 1/4 in]" in webvtt(compared("full")).replace("\n", " ")


def test_what_the_video_never_shows_has_its_cue() -> None:
    added = " ".join(cue.text for cue in track(compared("full")) if cue.added)
    for words in ("centre beam", "centre legs", "2x4", "brackets", "fit the centre line"):
        assert words in added


def test_times_run_forward_and_cues_last() -> None:
    cues = track(compared("king"))
    assert [cue.start for cue in cues] == sorted(cue.start for cue in cues)
    assert all(cue.end > cue.start for cue in cues)


def test_the_creators_size_adds_nothing() -> None:
    found = comparison(adapt(demo()), check(read_captions(CAPTIONS), facts_of(plan(demo()))))
    assert "[yours" not in webvtt(found)


def test_marks_without_ends_get_one() -> None:
    talk = read_captions("[0:05] Cut the slats at 38 1/4.\n[0:09] That is all for the slats, and the rest follows.")
    found = comparison(adapted("full"), check(talk, facts_of(plan(demo()))))
    first = next(cue for cue in track(found) if not cue.added)
    assert (first.start, first.end) == (5.0, 9.0) and "[yours: 53 1/4 in]" in first.text


def test_text_that_looks_like_markup_is_escaped() -> None:
    talk = read_captions("WEBVTT\n\n00:01.000 --> 00:03.000\nSlats &lt; rails &amp; cut at 38 1/4\n", "a.vtt")
    found = comparison(adapted("full"), check(talk, facts_of(plan(demo()))))
    assert "Slats &lt; rails &amp; cut" in webvtt(found)


def test_no_captions_no_track() -> None:
    with pytest.raises(InputError, match="captions"):
        track(compared("full", captions=False))


def test_a_script_has_no_times() -> None:
    found = comparison(adapted("full"), check(read_captions("Cut the slats at 38 1/4 inches."), facts_of(plan(demo()))))
    with pytest.raises(InputError, match="no times"):
        track(found)


def test_stamp_past_the_hour() -> None:
    assert stamp(3599.9996) == "01:00:00.000"
