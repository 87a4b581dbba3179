"""Asked once, remembered: the answers file, what an answer does, and that it outlives an edited track."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.errors import InputError
from tutorial_lib.narration import Item, Report, beside, check, read_captions
from tutorial_lib.narration.verdicts import answers

PLAN = facts(
    {
        "slat.length": fact(38.25, "in", "length", "1x4 slat", "slat"),
        "slat.count": fact(14, "count", "part_count", "slats", "slat"),
        "leg.height": fact(13.75, "in", "length", "4x4 leg", "leg"),
        "end_rail.length": fact(38.5, "in", "length", "2x6 end rail", "end rail"),
    }
)
CAPTIONS = (
    "WEBVTT\n\n00:05.000 --> 00:09.000\nSlats next. Cut every slat at 38 1/4 inches.\n\n"
    "00:20.000 --> 00:24.000\nSomebody said 39 1/4 to me about these slats.\n\n"
    "01:00.000 --> 01:04.000\nThe legs are thirteen and three quarters.\n"
)


def report(answered: tuple[answers.Answer, ...] = (), captions: str = CAPTIONS) -> Report:
    """The check of the talk with some answers."""
    return check(read_captions(captions, "talk.vtt"), PLAN, None, answered)


def the(quote: str, found: Report) -> Item:
    """One number of it."""
    return next(i for i in found.items if i.quote == quote)


ODD = the("39 1/4", report())


def test_an_answer_is_obeyed_with_certainty() -> None:
    meant = the("39 1/4", report((answers.of(ODD, "part", "slat.length"),)))
    assert (meant.subject, meant.verdict, meant.certainty, meant.answered) == ("slat.length", "conflicts", 1.0, True)
    assert meant.difference == 1
    other = the("39 1/4", report((answers.of(ODD, "elsewhere"),)))
    assert (other.subject, other.verdict, other.choices) == (None, "not_a_claim", ())


def test_a_slip_counts_even_where_the_words_soften_it() -> None:
    soft = CAPTIONS.replace("said 39 1/4", "said about 39 1/4")
    item = the("39 1/4", report(captions=soft))
    part = the("39 1/4", report((answers.of(item, "part", "slat.length"),), soft))
    slip = the("39 1/4", report((answers.of(item, "slip", "slat.length"),), soft))
    assert (part.verdict, slip.verdict) == ("rounded", "conflicts")


def test_answers_outlive_an_edited_track() -> None:
    kept = (answers.of(ODD, "elsewhere"),)
    shifted = CAPTIONS.replace("00:20.000 --> 00:24.000", "00:50.000 --> 00:54.000")
    cut = shifted.replace("Slats next. Cut every slat at 38 1/4 inches.", "Hello.")
    reworded = cut.replace("Somebody said", "Well somebody once said")
    for captions in (shifted, cut, reworded):
        found = report(kept, captions)
        assert the("39 1/4", found).answered
        assert not found.notes
    gone = report(kept, CAPTIONS.replace("39 1/4", "38 1/4"))
    assert "fits nothing said any more" in gone.notes[0]


def test_two_answers_on_the_same_words_go_to_two_numbers() -> None:
    twice = CAPTIONS + "\n02:00.000 --> 02:04.000\nSomebody said 39 1/4 to me about these slats.\n"
    first, second = (i for i in report(captions=twice).items if i.quote == "39 1/4")
    kept = (answers.of(second, "part", "slat.length"), answers.of(first, "elsewhere"))
    got = [i.verdict for i in report(kept, twice).items if i.quote == "39 1/4"]
    assert got == ["not_a_claim", "conflicts"]


def test_an_answer_for_a_fact_the_plan_lacks_is_told() -> None:
    kept = (replace(answers.of(ODD, "part", "slat.length"), subject="no.such"),)
    found = report(kept)
    assert "names no.such, which the plan lacks" in found.notes[0]
    assert not the("39 1/4", found).answered


def test_one_answer_a_number() -> None:
    once = answers.with_answer((), ODD, answers.of(ODD, "elsewhere"))
    again = answers.with_answer(once, ODD, answers.of(ODD, "part", "slat.length"))
    assert [a.kind for a in again] == ["part"]
    assert answers.without(again, ODD) == ()


def test_the_file_is_read_back_as_written_and_found_beside_the_captions(tmp_path: Path) -> None:
    kept = (answers.of(ODD, "slip", "slat.length"),)
    captions = tmp_path / "talk.vtt"
    assert beside(captions) == ()
    Path(answers.file_name(str(captions))).write_text(answers.dumps(kept), encoding="utf-8")
    assert beside(captions) == kept
    assert answers.read('{"answers": [{"t": 5, "quote": "39", "subject": null, "kind": "elsewhere"}]}')[0].t == 5


@pytest.mark.parametrize(
    ("broken", "says"),
    [
        ("", "Remove the file"),
        ("[]", 'needs a list "answers"'),
        ('{"answers": [1]}', "is no object"),
        ('{"answers": [{"kind": "part", "subject": "a"}]}', 'needs "quote"'),
        ('{"answers": [{"quote": "1", "kind": "maybe"}]}', 'it is "part", "elsewhere" or "slip"'),
        ('{"answers": [{"quote": "1", "kind": "slip"}]}', 'needs "subject"'),
        ('{"answers": [{"quote": "1", "kind": "elsewhere", "t": "2:05"}]}', "it is seconds"),
    ],
)
def test_a_broken_file_is_refused_with_the_way_out(broken: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        answers.read(broken)
