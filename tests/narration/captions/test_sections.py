"""A very long talk is checked in sections, and no number is lost, moved or read otherwise."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.narration.talks import ROUGH, captions_of, facts_of
from tutorial_lib.narration import Talk, check, read_captions
from tutorial_lib.narration.captions import sections as cut

BASE = ROUGH / "paper-kite-twin"


def long_talk(times: int) -> Talk:
    """A talk said again and again."""
    talk = read_captions(captions_of(BASE))
    last = talk.duration + 10
    again = [
        replace(c, number=c.number + n * len(talk.cues), start=(c.start or 0) + n * last, end=(c.end or 0) + n * last)
        for n in range(times)
        for c in talk.cues
    ]
    return replace(talk, cues=tuple(again))


def test_a_talk_of_usual_length_is_one_section_as_it_is() -> None:
    talk = long_talk(1)
    (whole,) = cut.sections(talk)
    assert whole.talk is talk and whole.offset == 0


def test_sections_hold_every_cue_once_and_end_at_a_pause() -> None:
    talk = long_talk(4)
    once = len(long_talk(1).text)
    parts = list(cut.sections(talk, long=once - 5))
    assert [c for part in parts for c in part.talk.cues] == list(talk.cues)
    assert len(parts) == 4
    for part in parts:
        assert talk.text[part.offset :].startswith(part.talk.text)
        assert part.offset == 0 or talk.text[: part.offset].endswith("\n\n")


def test_without_a_pause_a_section_ends_all_the_same() -> None:
    talk = long_talk(1)
    running = replace(talk, cues=tuple(replace(c, start=None, end=None) for c in talk.cues))
    assert all(len(part.talk.text) < 2000 + 200 * 80 for part in cut.sections(running, long=2000))


def test_a_talk_in_sections_gets_the_report_of_each(monkeypatch: pytest.MonkeyPatch) -> None:
    talk, facts = long_talk(2), facts_of(BASE)
    alone = check(long_talk(1), facts)
    monkeypatch.setattr(cut, "LONG", len(long_talk(1).text) - 5)
    both = check(talk, facts)
    assert [i.verdict for i in both.items] == 2 * [i.verdict for i in alone.items]
    assert all(talk.text[i.start : i.end].split() == i.quote.split() for i in both.items)
