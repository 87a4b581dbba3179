"""Notebook 06's panel: the list to work through, one number in hand, answers kept as one goes."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tutorial_lib.drawing.scene import Mark
from tutorial_lib.drawing.svg import svg
from tutorial_lib.drawing.talk import talk_timeline
from tutorial_lib.narration import beside
from tutorial_lib.publishing.topics.said import LISTS, folded
from tutorial_lib.workbook import current
from tutorial_lib.workbook.said_panel import NOTHING, SHIPPED, CueCardPanel, SaidPanel, name_of


@pytest.fixture
def panel(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> SaidPanel:
    """The panel on a copy of the demo captions."""
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path / "state"))
    captions = tmp_path / "talk.vtt"
    shutil.copy(SHIPPED / "spare-room-twin.vtt", captions)
    made = SaidPanel(captions=str(captions))
    assert made.widget is not None
    return made


def test_it_opens_with_what_there_is_to_do(panel: SaidPanel) -> None:
    assert panel.seen is not None
    todo = len(panel.seen.conflicts) + len(panel.seen.doubtful)
    assert todo >= 5
    assert panel.lines()[0].endswith("right") and len(panel.lines()) == 1 + todo
    assert panel.chosen() is panel.open_items()[0]
    assert "[thirty-five and a half]" in panel.html()


def test_its_lists_offer_every_open_number_and_what_each_may_speak_of(panel: SaidPanel) -> None:
    number, fact = panel.control("number"), panel.control("fact")
    assert [value for _, value in number.options] == [name_of(item) for item in panel.open_items()]
    assert list(fact.options) == panel.facts_to_choose() and fact.value == panel.own["fact"] != NOTHING
    number.value = number.options[2][1]  # another one, as a person chooses it
    assert panel.chosen() is panel.open_items()[2]
    assert list(fact.options) == panel.facts_to_choose() and fact.value == panel.own["fact"] != NOTHING
    assert fact.label == panel.facts_to_choose()[0][0] != fact.value
    panel.control("elsewhere").click()
    assert len(number.options) == len(panel.open_items())


def test_an_answer_is_kept_beside_the_captions_and_the_next_number_comes(panel: SaidPanel, tmp_path: Path) -> None:
    first = panel.chosen()
    assert first is not None
    left = len(panel.open_items())
    panel.set("elsewhere", True)
    assert len(panel.open_items()) == left - 1
    assert panel.chosen() is not None and name_of(panel.chosen() or first) != name_of(first)
    kept = beside(tmp_path / "talk.vtt")
    assert [(a.quote, a.kind) for a in kept] == [(first.quote, "elsewhere")]
    again = SaidPanel(captions=str(tmp_path / "talk.vtt"))
    assert len(again.open_items()) == left - 1
    panel.set("undo", True)
    assert len(panel.open_items()) == left and beside(tmp_path / "talk.vtt") == ()


def test_a_fact_not_in_the_list_is_found_by_its_words(panel: SaidPanel) -> None:
    item = panel.chosen()
    assert item is not None
    panel.set("search", "legs")
    panel.set("fact", "leg.count")
    panel.set("part", True)
    assert panel.seen is not None
    moved = next(i for i in panel.seen.items if i.start == item.start)
    assert (moved.subject, moved.answered) == ("leg.count", True)


def test_when_all_is_settled_nothing_is_in_hand(panel: SaidPanel) -> None:
    while panel.chosen() is not None:
        panel.set("elsewhere", True)
    assert panel.own["number"] == NOTHING
    assert panel.lines()[0].startswith("0 to correct, 0 to look at")
    panel.set("elsewhere", True)  # a button without a number does nothing
    assert not panel.errors


def test_leaving_one_goes_round(panel: SaidPanel) -> None:
    seen = []
    for _ in range(len(panel.open_items()) + 1):
        seen.append(panel.own["number"])
        panel.set("leave", True)
    assert seen[-1] == seen[0] and len(set(seen)) == len(seen) - 1


def test_the_files_are_written_beside_the_captions(panel: SaidPanel, tmp_path: Path) -> None:
    panel.set("write", True)
    assert {p.name for p in tmp_path.glob("talk.*")} >= {"talk.pinned.txt", "talk.overlay.vtt", "talk.corrected.vtt"}
    assert "Written to" in panel.html()


def test_a_missing_file_says_so_and_keeps_the_last_picture(panel: SaidPanel) -> None:
    before = panel.html()
    panel.set("captions", "nowhere.vtt")
    assert panel.errors and panel.html() == before


def test_a_file_that_is_refused_is_told_beside_the_button_that_took_it(
    panel: SaidPanel, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path))
    before = panel.own["captions"]
    panel.set("upload", ("talk.vtt", b"WEBVTT\n"))
    assert list(panel.errors) == ["upload"] and "nothing is said in it" in panel.errors["upload"]
    assert panel.own["captions"] == before
    panel.set("captions", "nowhere.vtt")
    assert list(panel.errors) == ["captions"]


def test_a_corrected_file_of_the_same_name_is_read_again(panel: SaidPanel) -> None:
    talk = (SHIPPED / "spare-room-twin.vtt").read_bytes()
    panel.set("upload", ("mine.vtt", talk))
    assert panel.seen is not None
    slips = len(panel.seen.conflicts)
    first = panel.seen.conflicts[0].quote.encode()
    panel.set("upload", ("mine.vtt", talk.replace(first, b"...")))
    assert not panel.errors and len(panel.seen.conflicts) < slips


def test_what_was_written_is_told_beside_the_button(panel: SaidPanel) -> None:
    panel.set("write", True)
    assert panel._view is not None and "Written to" in panel._view.drawing.value


def test_timeline_has_a_cross_for_every_slip(panel: SaidPanel) -> None:
    assert panel.seen is not None
    scene = talk_timeline(panel.seen)
    crosses = sum(isinstance(s, Mark) and s.sign == "no" for s in scene.shapes)
    assert crosses == len(panel.seen.conflicts)
    assert svg(scene).startswith("<svg")


def test_the_rest_is_unfolded_by_what_is_asked_for(panel: SaidPanel) -> None:
    assert panel.seen is not None
    for _, verdicts in LISTS[1:]:
        table = folded(panel.seen, verdicts)[1]
        assert len(table.rows) == sum(panel.seen.counts[v] for v in verdicts)  # type: ignore[union-attr]


def test_cue_cards_are_shown() -> None:
    assert "thirty-eight and a half inches" in CueCardPanel().html()


def test_another_beds_captions_are_not_held_against_ones_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path))
    queen = current.SHIPPED / "gallery" / "queen-tubes.toml"
    current.open_build(str(queen))
    panel = SaidPanel()
    assert panel.own["captions"] == ""
    assert [c.key for c in panel.controls if panel.enabled(c)] == ["captions", "upload"]  # nothing to go through yet
