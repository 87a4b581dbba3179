"""The person decides, and what is published from the slips."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from tests.narration.scorer import captions_of, loaded
from tutorial_lib.errors import InputError
from tutorial_lib.narration import check, read_captions
from tutorial_lib.narration.verdicts import decisions
from tutorial_lib.narration.verdicts.report import check_text, text
from tutorial_lib.publishing.corrections import (
    corrected_captions,
    corrections,
    corrections_block,
    overlay_track,
    overlays,
)
from tutorial_lib.publishing.cue_cards import cue_cards

DEMO = "saltmarsh-shed-spare-room-twin"
PLAN = loaded(DEMO, "plan")
TALK = read_captions(captions_of(DEMO))
REPORT = check(TALK, PLAN)


def test_dismissing_and_linking_hold_when_run_again() -> None:
    slip = REPORT.conflicts[0]
    kept = decisions.decide(None, slip, dismiss=True, note="a joke")
    right = next(i for i in REPORT.items if i.subject == "cleat.length")
    kept = decisions.decide(kept, right, subject="slat.length")
    again = check(TALK, PLAN, decisions=decisions.read(decisions.dumps(kept)))
    assert (again.items[REPORT.items.index(slip)].verdict, again.items[REPORT.items.index(slip)].why) == (
        "not_a_claim",
        "a joke",
    )
    moved = again.items[REPORT.items.index(right)]
    assert (moved.subject, moved.verdict, moved.decided) == ("slat.length", "conflicts", True)
    assert check(TALK, PLAN, decisions=decisions.undo(decisions.undo(kept, slip), right)).counts == REPORT.counts


def test_a_decision_outlives_shifted_times() -> None:
    slip = REPORT.conflicts[0]
    kept = decisions.decide(None, slip, dismiss=True)
    later = read_captions("WEBVTT\n\n00:00:00.000 --> 00:00:01.000\nHello.\n\n" + captions_of(DEMO).read_text()[8:])
    assert len(check(later, PLAN, decisions=kept).conflicts) == len(REPORT.conflicts) - 1


def test_decisions_that_fit_nothing_are_told() -> None:
    stale = {"decisions": [{"quote": "ninety-nine", "place": 1, "subject": None, "dismiss": True}]}
    notes = check(TALK, PLAN, decisions=stale).notes
    assert "fits nothing said any more" in notes[0]
    first = REPORT.conflicts[0]
    unknown = decisions.decide(None, first, subject="no.such.fact")
    assert "which the plan doesn't have" in check(TALK, PLAN, decisions=unknown).notes[0]


@pytest.mark.parametrize("broken", ["", "[]", '{"decisions": 1}', '{"decisions": [{"place": 1}]}'])
def test_a_broken_decisions_file_is_refused(broken: str) -> None:
    with pytest.raises(InputError, match="Remove the file"):
        decisions.read(broken)


def test_corrections_block_says_time_said_right_affected_and_safety() -> None:
    block = corrections_block(REPORT)
    assert len(corrections(REPORT)) == len(REPORT.conflicts) == 5
    assert "1:25" in block and "35 1/2 in" in block and "right is 38 1/2 in" in block
    assert "Affected: whoever has cut it: too short" in block
    assert "Not safe until all are in" in block  # a slat too few
    assert corrections_block(check(read_captions("Cut the slats at 38 1/4."), PLAN)).startswith("No corrections")


def test_corrected_captions_agree_with_the_plan() -> None:
    again = check(read_captions(corrected_captions(REPORT)), PLAN)
    assert again.conflicts == ()
    assert len(again.items) == len(REPORT.items)


def test_overlays_stand_where_the_slip_is_said() -> None:
    for note, slip in zip(overlays(REPORT), REPORT.conflicts, strict=True):
        assert note.start == slip.t
        assert note.end - note.start >= 4
    assert "38 1/2 in, not 35 1/2 in" in overlay_track(REPORT)


def test_a_script_is_corrected_by_line() -> None:
    name = "copper-kettle-daybed-script"
    report = check(read_captions(captions_of(name)), loaded(name, "plan"))
    assert overlays(report) == []
    assert all(c.time is None and c.place for c in corrections(report))


def test_cue_cards_say_the_number_in_words_with_metric_beside() -> None:
    card = next(c for c in cue_cards(PLAN) if c.key == "end_rail.length")
    assert card.say == "thirty-eight and a half inches"
    assert card.show == "38 1/2 in (978 mm)"
    assert card.dont.startswith("not ")
    gap = next(c for c in cue_cards(PLAN) if c.key == "slat.gap")
    assert gap.say.startswith("about two and")


def test_what_the_cards_say_is_read_back_as_the_plan() -> None:
    for card in cue_cards(PLAN, ["slat.length", "cleat.length", "end_rail.length"]):
        item = check(read_captions(f"The {card.what} is {card.say} long."), PLAN).items[-1]
        assert item.value[0] == Fraction(str(PLAN["quantities"][card.key]["value"]))


def test_report_text_and_json() -> None:
    report, words, status = check_text(PLAN, captions_of(DEMO).read_bytes(), "demo.vtt")
    assert status == 1 and "5 conflict" in words
    assert '"thirty-five and a half" = 35 1/2 in; plan 38 1/2 in (-3 in)' in words
    assert len(text(report, everything=True).splitlines()) > len(words.splitlines())
    assert json.loads(json.dumps(report.as_json()))["counts"]["conflicts"] == 5
