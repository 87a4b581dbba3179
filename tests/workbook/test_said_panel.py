"""Notebook 06's panel: the ledger, and that a decision made in it holds."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tutorial_lib.drawing.scene import Mark
from tutorial_lib.drawing.svg import svg
from tutorial_lib.drawing.talk import talk_timeline
from tutorial_lib.publishing.pages.said import FILTERS, ledger
from tutorial_lib.workbook.said_panel import SHIPPED, CueCardPanel, SaidPanel, name_of


@pytest.fixture
def panel(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> SaidPanel:
    """The panel on a copy of the demo captions."""
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path / "state"))
    captions = tmp_path / "talk.vtt"
    shutil.copy(SHIPPED / "spare-room-twin.vtt", captions)
    return SaidPanel(captions=str(captions))


def test_the_demo_has_five_slips_against_its_own_plan(panel: SaidPanel) -> None:
    assert panel.seen is not None
    assert len(panel.seen.conflicts) == 5
    assert [line for line in panel.lines() if line.startswith("conflicts")] == ["conflicts: 5"]
    assert "35 1/2 in" in panel.html() and "38 1/2 in" in panel.html()


def test_dismissing_is_kept_beside_the_captions_and_holds(panel: SaidPanel, tmp_path: Path) -> None:
    assert panel.seen is not None
    slip = panel.seen.conflicts[0]
    panel.set("number", name_of(slip))
    panel.set("decide", True)
    assert len(panel.seen.conflicts) == 4
    assert (tmp_path / "talk.vtt.decisions.json").exists()
    again = SaidPanel(captions=str(tmp_path / "talk.vtt"))
    assert again.seen is not None and len(again.seen.conflicts) == 4


def test_linking_to_another_fact_and_back(panel: SaidPanel) -> None:
    assert panel.seen is not None
    slip = panel.seen.conflicts[0]
    panel.set("show_", FILTERS[-1][0])
    panel.set("number", name_of(slip))
    panel.set("fact", "leg.count")
    panel.set("decide", True)
    moved = next(i for i in panel.seen.items if name_of(i) == name_of(slip))
    assert (moved.subject, moved.decided) == ("leg.count", True)
    panel.set("undo", True)
    assert next(i for i in panel.seen.items if name_of(i) == name_of(slip)).subject == slip.subject


def test_a_missing_file_says_so_and_keeps_the_last_picture(panel: SaidPanel) -> None:
    before = panel.html()
    panel.set("captions", "nowhere.vtt")
    assert panel.errors and panel.html() == before


def test_timeline_has_a_cross_for_every_slip(panel: SaidPanel) -> None:
    assert panel.seen is not None
    scene = talk_timeline(panel.seen)
    assert sum(isinstance(s, Mark) and s.sign == "no" for s in scene.shapes) == 5
    assert "5 conflict" in scene.alt and any("plan 38 1/2 in" in text for text in scene.texts())
    assert svg(scene).startswith("<svg")


def test_ledger_filters(panel: SaidPanel) -> None:
    assert panel.seen is not None
    for _, verdicts in FILTERS:
        table = ledger(panel.seen, verdicts)[1]
        assert len(table.rows) == sum(panel.seen.counts[v] for v in verdicts)  # type: ignore[union-attr]


def test_cue_cards_are_shown() -> None:
    assert "thirty-eight and a half inches" in CueCardPanel().html()
