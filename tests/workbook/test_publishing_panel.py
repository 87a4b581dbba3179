"""Notebook 08's panel: what is looked at, what is written, what is told where it can't be."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from tutorial_lib.workbook import current
from tutorial_lib.workbook.publishing_panel import CUES, LABELS, LOOKS, TALL, WIDE, PublishPanel, _Widgets, links


@pytest.fixture(scope="module")
def panel(tmp_path_factory: pytest.TempPathFactory) -> PublishPanel:
    """The panel on the demo, with a state of its own."""
    patch = pytest.MonkeyPatch()
    patch.setenv("TUTORIAL_STATE", str(tmp_path_factory.mktemp("state")))
    made = PublishPanel()
    assert made.wanted.report is not None  # the captions that the build names
    patch.undo()
    return made


def test_it_says_what_can_be_made(panel: PublishPanel) -> None:
    assert panel.lines()[0] == "Saltmarsh Shed: Spare-room twin bed"
    assert "23 screen plates, 9 chapters" in panel.lines() and "correction-05-slat-count" in panel.lines()


def test_every_view_is_pictures_with_words(panel: PublishPanel) -> None:
    assert [name for name, _, _ in LOOKS][:2] == [WIDE, TALL]
    for look, size in ((TALL, (360, 640)), (LABELS, (510, 660)), (CUES, (660, 510))):
        panel.look = look
        shots = panel.pictures()
        assert all(Image.open(io.BytesIO(data)).size == size and words for data, words, _ in shots), look
    assert panel.html().count("<img") == panel.html().count('alt="Cue cards, page') == len(shots)
    panel.look = WIDE


def test_a_kit_is_made_with_what_was_chosen_and_linked(panel: PublishPanel, tmp_path: Path) -> None:
    ui = _Widgets(panel)
    ui.folder.value = str(tmp_path / "kits" / "mine")
    for name, check in ui.checks.items():
        check.value = name == "Lists"
    seen: list[float] = []
    ui.bar.observe(lambda event: seen.append(event["new"]), "value")
    ui.button.click()
    kit = tmp_path / "kits" / "mine"
    assert (kit / "index.html").is_file() and not (kit / "plates").exists() and seen[-1] == 1.0
    assert "Written to" in ui.told.value and "lists: " in ui.links.value and "First page" in ui.links.value
    assert not ui.button.disabled and ui.bar.layout.display == "none"
    ui.button.click()  # a kit that is there stays as it is
    assert "Not taken" in ui.told.value and "holds files" in ui.told.value and not ui.links.value
    ui.replace.value = True
    ui.button.click()
    assert "Written to" in ui.told.value
    ui.sizes.value = "kign"
    ui.button.click()
    assert "Not taken" in ui.told.value and "kign" in ui.told.value


def test_links_go_by_the_server_for_what_lies_beside_the_notebooks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a kit").mkdir()
    (tmp_path / "a kit" / "index.html").touch()
    assert "<a " not in links(tmp_path / "a kit")  # no browser opens a file from a server's page
    monkeypatch.setattr(current, "CLONE", tmp_path)
    assert 'href="/files/a%20kit/index.html"' in links(tmp_path / "a kit")
    monkeypatch.setenv("SERVER_SOFTWARE", "voila/0.5")
    assert "<a " not in links(tmp_path / "a kit")  # a page serves no files: the folder is named beside the button
